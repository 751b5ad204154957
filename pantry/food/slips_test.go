package food

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// dice is what a kind of slip may draw on.
type dice = *rand.Rand

// slipKinds are ways in which a name comes out wrong. Each takes one plain word
// of at least three letters, and gives it back as it is where it cannot be
// spoilt in this way.
// right and sure are floors for what comes back, in per cent of the names that
// could be spoilt: a little under what was measured.
var slipKinds = []struct {
	name        string
	slip        func(word string, r dice) string
	times       int
	right, sure float64
}{
	{"a letter more", insert, 1, 97, 85},
	{"a letter lost", drop, 1, 93, 64},
	{"a key beside it", neighbour, 1, 96, 58},
	{"two letters swapped", swap, 1, 96, 74},
	{"two of these", anyEdit, 2, 74, 25},
	{"vowels dropped", func(w string, _ dice) string { return bones(w) }, 1, 86, 57},
	{"a letter doubled", double, 1, 98, 87},
	{"a letter undoubled", undoubleOne, 1, 97, 78},
	{"spelt by ear", respell, 1, 96, 65},
	{"another vowel", otherVowel, 1, 96, 58},
}

// mostWrong is the most of another food, and no question, in per cent. Two edits
// make "pollo" to "lolo" and "our creqam" of sour cream.
const mostWrong = 0.25

const letterRow = "abcdefghijklmnopqrstuvwxyz"

// keys are the neighbours of each letter on a keyboard (QWERTY).
var keys = map[byte]string{
	'q': "wa", 'w': "qes", 'e': "wrd", 'r': "etf", 't': "ryg", 'y': "tuh", 'u': "yij", 'i': "uok", 'o': "ipl", 'p': "ol",
	'a': "qsz", 's': "awdx", 'd': "sefc", 'f': "drgv", 'g': "fthb", 'h': "gyjn", 'j': "hukm", 'k': "jil", 'l': "kop",
	'z': "asx", 'x': "zsdc", 'c': "xdfv", 'v': "cfgb", 'b': "vghn", 'n': "bhjm", 'm': "njk",
}

// sounds are pairs of spellings that sound alike, or nearly.
var sounds = [][2]string{
	{"ph", "f"}, {"c", "k"}, {"ck", "k"}, {"ie", "ei"}, {"ou", "u"}, {"oo", "u"}, {"y", "i"}, {"s", "c"}, {"z", "s"}, {"ee", "ea"},
	{"wh", "w"}, {"kn", "n"}, {"gh", "g"}, {"ch", "sh"}, {"qu", "kw"}, {"x", "ks"}, {"ai", "ay"}, {"e", ""}, {"h", ""},
}

func insert(w string, r dice) string {
	i := r.IntN(len(w) + 1)
	return w[:i] + string(letterRow[r.IntN(26)]) + w[i:]
}

func drop(w string, r dice) string {
	i := r.IntN(len(w))
	return w[:i] + w[i+1:]
}

func neighbour(w string, r dice) string {
	i := r.IntN(len(w))
	near := keys[w[i]]
	if near == "" {
		return w
	}
	return w[:i] + string(near[r.IntN(len(near))]) + w[i+1:]
}

func swap(w string, r dice) string {
	i := r.IntN(len(w) - 1)
	return w[:i] + string(w[i+1]) + string(w[i]) + w[i+2:]
}

func anyEdit(w string, r dice) string {
	return []func(string, dice) string{insert, drop, neighbour, swap}[r.IntN(4)](w, r)
}

func double(w string, r dice) string {
	i := r.IntN(len(w))
	return w[:i+1] + w[i:]
}

func undoubleOne(w string, r dice) string {
	for _, i := range r.Perm(len(w) - 1) {
		if w[i] == w[i+1] {
			return w[:i] + w[i+1:]
		}
	}
	return w
}

func respell(w string, r dice) string {
	for _, i := range r.Perm(2 * len(sounds)) {
		from, to := sounds[i/2][i%2], sounds[i/2][1-i%2]
		if from != "" && strings.Contains(w, from) {
			return strings.Replace(w, from, to, 1)
		}
	}
	return w
}

func otherVowel(w string, r dice) string {
	const vowels = "aeiou"
	for _, i := range r.Perm(len(w)) {
		if strings.IndexByte(vowels, w[i]) >= 0 {
			return w[:i] + string(vowels[r.IntN(5)]) + w[i+1:]
		}
	}
	return w
}

// spoil makes slips in the words of a plain name; "" where none can be made, or
// where what comes out is spelt rightly: that a "pear" was to be a "pea" no
// spelling can tell.
func spoil(x *Index, name string, slip func(string, dice) string, times int, r dice) string {
	words := split(name)
	var long []int
	for i, w := range words {
		if len(w) >= 3 {
			long = append(long, i)
		}
	}
	if len(long) == 0 {
		return ""
	}
	for range 5 {
		spoilt := slices.Clone(words)
		for range times {
			if at := &spoilt[long[r.IntN(len(long))]]; len(*at) > 1 {
				*at = slip(*at, r)
			}
		}
		if slices.ContainsFunc(spoilt, func(w string) bool { return !rightly(x, w) }) {
			return strings.Join(spoilt, " ")
		}
	}
	return ""
}

// rightly says whether a word is spelt as a food's is, as one that tells no
// food from another, or as one that is taken for a food by its sound.
func rightly(x *Index, word string) bool {
	t := tables()
	return x.knows(word) || x.knows(singular(word)) || t.idle[word] || t.sound[word] != nil
}

// tally counts what became of the slips of one kind.
type tally struct{ tried, right, sure, asked, none, wrongSure int }

func (n *tally) add(found []Match, right []int) {
	n.tried++
	top := len(found) > 0 && slices.Contains(right, found[0].ID)
	switch {
	case len(found) == 0:
		n.none++
	case top && found[0].Score >= Sure:
		n.right, n.sure = n.right+1, n.sure+1
	case top:
		n.right, n.asked = n.right+1, n.asked+1
	case found[0].Score >= Sure:
		n.wrongSure++
	}
}

// share gives n in per cent of the slips that were tried.
func (n *tally) share(of int) float64 { return 100 * float64(of) / float64(n.tried) }

// TestSlips spoils every name of the catalogue in every way and looks what
// Find puts first. Right is the food, sure that it scores Sure, asked that it
// scores less; wrong and sure is what must not be: another food, and no
// question.
func TestSlips(t *testing.T) {
	x := Default().Index()
	t.Logf("%-20s %6s %6s %6s %6s %6s %10s", "kind, per cent", "names", "right", "sure", "asked", "none", "wrong+sure")
	for k, kind := range slipKinds {
		r, n := rand.New(rand.NewPCG(7, uint64(k))), tally{}
		for i, f := range Default().Foods() {
			if testing.Short() && i%5 > 0 {
				continue
			}
			for _, name := range f.Called() {
				if said := spoil(x, name, kind.slip, kind.times, r); said != "" {
					n.add(x.Find(said), x.Exact(split(name)))
				}
			}
		}
		right, sure, wrong := n.share(n.right), n.share(n.sure), n.share(n.wrongSure)
		t.Logf("%-20s %6d %6.1f %6.1f %6.1f %6.1f %10d", kind.name, n.tried, right, sure, n.share(n.asked), n.share(n.none), n.wrongSure)
		mostWrong := mostWrong
		if testing.Short() { // of a fifth of the names, chance has more to say
			mostWrong *= 2
		}
		if right < kind.right || sure < kind.sure || wrong > mostWrong {
			t.Errorf("%s: %.1f right, %.1f sure, %.2f wrong and sure; want %.0f, %.0f, and no more than %.2f",
				kind.name, right, sure, wrong, kind.right, kind.sure, mostWrong)
		}
	}
}
