package food

import (
	"math/bits"
	"strings"

	"github.com/hbollon/go-edlib"
)

// likeness is a word of the index that a written word may be.
type likeness struct {
	word int32
	like float64 // 1: it is that word
	how  string  // "" for the word itself, "slip", "short" or "sound"
	weak bool    // never sure by itself
}

const (
	likeSound   = 0.88 // what voice typing made of a food: sure only in the right place
	likeBegin   = 0.86 // "spinac"
	likeBones   = 0.90 // "prsnp": the vowels are left out
	likeDouble  = 0.92 // "brocolli": only doubled letters differ
	likeLast    = 0.89 // "tomat": the last letter is lost
	likeClipped = 0.72 // so short that it may be many things: "lent", "trt"
	likeThree   = 0.73 // three letters where one is lost or wrong: "lek"
	likeHeard   = 0.71 // the same sounds in a short word: "plase"
	likeRhyme   = 0.66 // other vowels, or nearly the same sounds: "chanck" for chunk, "qwesant" for croissant
	likeLoose   = 0.75 // "bef broth": told by the other words of the name
	likeLooser  = 0.70 // "gr lentil", "rd kidneu bean"
	likeBeside  = 0.60 // "beer fillet": so is this, but the word is another food's

	wrongLetter = 0.04 // "floor" for flour: one letter for another is less like a slip than one lost or swapped
	wrongVowel  = 0.035
	wrongKey    = 0.02
	wrongFirst  = 0.01
)

// near gives the words of the index that a plain word may be: the word itself
// alone where the index has it, nothing where the word is another food, and
// else the likely slips and short forms of it.
func (x *Index) near(word string) []likeness {
	one := singular(word)
	for _, w := range [2]string{word, one} {
		if n, ok := x.forms[w]; ok {
			return []likeness{{word: n, like: 1}}
		}
	}
	if len(word) < 3 || len(word) > maxWordBytes || tables().idle[word] || x.knows(word) || x.knows(one) {
		return nil
	}
	return x.alike(word, one)
}

// alike compares a plain word, and its singular, with every word of the index.
func (x *Index) alike(word, one string) []likeness {
	var found []likeness
	as, single := spell(word), spell(one)
	for n := range x.spelt {
		w := &x.spelt[n]
		if as.far(w) {
			continue
		}
		best := as.like(w)
		if one != word {
			if l := single.like(w); l.like > best.like {
				best = l
			}
		}
		if best.like > 0 {
			best.word = int32(n)
			found = append(found, best)
		}
	}
	return found
}

// far says whether two words cannot be slips of each other: most cannot, so
// this is asked first.
func (s *spelling) far(w *spelling) bool {
	return s.first != w.first && bits.OnesCount64(s.letters^w.letters) > 4
}

// like compares a written word with a word of the index.
func (s *spelling) like(w *spelling) likeness {
	slip, short, sound := s.slipOf(w), s.shortFor(w), s.soundsLike(w)
	best := likeness{like: max(slip, short, sound), how: "sound"}
	switch {
	case slip > 0:
		best.how = "slip"
	case short >= sound:
		best.how = "short"
	}
	best.weak = min(len(s.word), len(w.word)) == 3 || best.like == likeClipped && short > 0
	return best
}

// shortFor gives how likely it is that the word is a short form of w: its
// beginning, or its letters without the vowels.
func (s *spelling) shortFor(w *spelling) float64 {
	switch {
	case len(s.word) < 3 || len(s.word) > len(w.word):
		return 0
	case len(w.word) >= len(s.word)+2 && strings.HasPrefix(w.word, s.word):
		if len(s.word) <= 4 {
			return likeClipped
		}
		return likeBegin
	case s.word == s.bones && s.bones == w.bones && s.word != w.word:
		return [...]float64{3: likeClipped, 4: likeBegin, 5: likeBones}[min(len(s.word), 5)]
	}
	return 0
}

// slipOf gives how like two words are by their letters: 1 less the share of
// them that would have to be changed, or 0 where that is too many.
func (s *spelling) slipOf(w *spelling) float64 {
	a, b := s.word, w.word
	n, least := max(len(a), len(b)), min(len(a), len(b))
	same := s.letters == w.letters
	switch {
	case least < 3 || least == 3 && (n > 4 || a[0] != b[0] && !strings.HasSuffix(b, a)):
		return 0
	case s.bare == w.bare && least > 3:
		return likeDouble
	}
	allow := 1
	if n >= 6 && (n >= 8 || a[0] == b[0]) || same && a[0] == b[0] {
		allow = 2
	}
	if n-least > allow || bits.OnesCount64(s.letters^w.letters) > 2*allow {
		return 0
	}
	d := edlib.OSADamerauLevenshteinDistance(a, b)
	is := 1 - float64(d)/float64(n)
	switch {
	case d > allow:
		return 0
	case least == 3 && a[0] != b[0]:
		return likeThree - wrongFirst
	case least == 3:
		return likeThree
	case d == 2 && same:
		return max(is+wrongLetter, likeRhyme) // "ciph", "pepperino": all letters, in another order
	case d == 1 && n > 5 && strings.HasPrefix(b, a):
		return likeLast
	case n == least && d == 1 && !same:
		is -= wrong(a, b)
	case d == 2 && n < 7:
		is -= wrongLetter
	}
	switch {
	case a[0] != b[0] && n < 6:
		is -= wrongLetter
	case a[0] != b[0]:
		is -= wrongFirst
	}
	return is
}

// wrong is for one letter in place of another: less for a vowel in place of a
// vowel, and for a key beside the right one in a long word.
func wrong(a, b string) float64 {
	i := 0
	for a[i] == b[i] {
		i++
	}
	switch {
	case vowel(a[i]) && vowel(b[i]):
		return wrongVowel
	case len(a) > 5 && beside(a[i], b[i]):
		return wrongKey
	}
	return wrongLetter
}

func vowel(c byte) bool { return strings.IndexByte("aeiou", c) >= 0 }

// beside says whether two letters are neighbours on a keyboard: in a row, or
// one above the other (QWERTY).
func beside(a, b byte) bool {
	for _, keys := range []string{"qwertyuiop", "asdfghjkl", "zxcvbnm", "qaz", "wsx", "edc", "rfv", "tgb", "yhn", "ujm", "ik", "ol"} {
		i, j := strings.IndexByte(keys, a), strings.IndexByte(keys, b)
		if i >= 0 && j >= 0 && abs(i-j) == 1 {
			return true
		}
	}
	return false
}

// soundsLike gives how like two words sound.
func (s *spelling) soundsLike(w *spelling) float64 {
	if len(s.word) < 4 || len(w.word) < 4 || s.first != w.first {
		return 0
	}
	switch {
	case s.sound == w.sound && min(len(s.word), len(w.word)) > 5:
		return likeSound
	case s.sound == w.sound:
		return likeHeard
	case len(s.bones) > 2 && s.bones == w.bones && min(len(s.word), len(w.word)) > 4,
		len(s.frame) > 3 && s.frame == w.frame,
		len(s.word) > 4 && oneOff(s.sound, w.sound),
		min(len(s.frame), len(w.frame)) > 6 && oneOff(s.frame, w.frame):
		return likeRhyme
	}
	return 0
}

// oneOff says whether one slip makes a of b.
func oneOff(a, b string) bool {
	return abs(len(a)-len(b)) <= 1 && bits.OnesCount64(letters(a)^letters(b)) <= 2 &&
		edlib.OSADamerauLevenshteinDistance(a, b) == 1
}

// loosely compares a word with one of a name whose other words fit: there even
// "gr" may be green, and "bef" beef.
func (s *spelling) loosely(w *spelling) float64 {
	a, b := s.word, w.word
	n, d := max(len(a), len(b)), 0
	allow := (n + 2) / 4 // one letter in three, two in six, three in ten
	near := n > 2 && bits.OnesCount64(s.letters^w.letters) <= 2*allow
	if near {
		d = edlib.OSADamerauLevenshteinDistance(a, b)
	}
	switch {
	case near && d == 1:
		return likeLoose
	case near && d <= allow,
		len(a) > 1 && (strings.HasPrefix(b, a) || a == w.bones),
		len(s.frame) > 2 && s.frame == w.frame:
		return likeLooser
	}
	return 0
}

func abs(n int) int { return max(n, -n) }
