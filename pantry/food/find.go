package food

import (
	"slices"
	"strings"
)

// Match is one thing that a phrase may mean.
type Match struct {
	ID    int
	Name  string  // which of its names fitted, as it was added
	Score float64 // 1 for the name itself, singular or plural
	How   string  // "exact", "joined", "part", "near", "slip", "sound" or "short"
}

// A score of Sure or more needs no question, unless another match stands
// within Close of it, or How is "sound" and nothing round the phrase speaks
// for a food. From Ask up to Sure it is worth asking "did you mean ...?".
const (
	Sure  = 0.80
	Ask   = 0.55
	Close = 0.05
)

// What a name is worth by how it fits, before slips are taken off.
const (
	worthIdle   = 0.98 // all but words that tell nothing: "lovely fresh leeks"
	worthJoined = 0.97 // the same letters, other gaps: "springonion"
	worthOrder  = 0.96 // the same words in another order
	worthHead   = 0.92 // a part with the name's last word: "onion" for red onion
	worthPart   = 0.86 // another part: "goats" for goat's cheese
	worthAlias  = 0.78 // a part of an other name: "cabbage" for cavolo nero, the black cabbage
	worthExtra  = 0.70 // the name, and a word nobody knows
	worthOther  = 0.62 // a word too many that tells foods apart, or a part of a compound
	worthNear   = 0.58 // the last word fits, another does not: "green onion" for red onion

	likeRun = 0.87 // words run together, one slip in eight letters: "beat root" is, "pin nut" is no peanut
	rivalry = 0.16 // a slip this much nearer to one word than to others is sure
)

const maxPhraseWords = 12

// Find gives what phrase may mean: best first, one match an id, none under
// Ask. Equal scores stand in the order in which the ids were added. A slip is
// Sure only where no other food, of the index or of the catalogue, is nearly as
// like it.
func (x *Index) Find(phrase string) []Match {
	words := split(phrase)
	if len(words) == 0 || len(words) > maxPhraseWords || len(x.names) == 0 {
		return nil
	}
	best := x.search(words)
	if all := Default().index; best.guessed() {
		best.doubt(best)
		if x != all {
			best.doubt(all.search(words))
		}
	}
	return best.sorted()
}

// search collects what plain words may mean.
func (x *Index) search(words []string) *hits {
	best := &hits{x: x, at: map[int]int{}}
	x.findExact(best, words)
	if len(best.list) > 0 {
		return best
	}
	x.findWords(best, words, "")
	if heard, ok := hear(words); ok {
		x.findWords(best, heard, "sound")
	}
	x.findJoined(best, words)
	if best.top() < Sure {
		x.findShort(best, words)
	}
	return best
}

// findExact looks for the words as they stand, and without the idle ones.
func (x *Index) findExact(best *hits, words []string) {
	if ids := x.Exact(words); ids != nil {
		x.addAll(best, words, 1)
		return
	}
	if short := busy(words); len(short) < len(words) {
		x.addAll(best, short, worthIdle)
	}
}

func (x *Index) addAll(best *hits, words []string, score float64) {
	node, ok := int32(0), len(words) > 0
	for i := 0; i < len(words) && ok; i++ {
		node, ok = x.walk(node, words[i])
	}
	if !ok || len(x.ids[node]) == 0 {
		return
	}
	last := x.forms[words[len(words)-1]]
	for _, at := range x.uses[last] {
		if n := &x.names[at]; len(n.words) == len(words) && x.same(n.words, words) {
			best.add(at, hit{score: score, how: "exact"})
		}
	}
}

func (x *Index) same(nums []int32, words []string) bool {
	for i, w := range words {
		if n, ok := x.forms[w]; !ok || n != nums[i] {
			return false
		}
	}
	return true
}

// busy leaves out the words that tell no food from another.
func busy(words []string) []string {
	idle := tables().idle
	return slices.DeleteFunc(slices.Clone(words), func(w string) bool { return idle[w] })
}

// hear puts foods in the place of what voice typing made of them.
func hear(words []string) ([]string, bool) {
	t := tables()
	var out []string
	found := false
next:
	for i := 0; i < len(words); {
		for n := min(t.heard, len(words)-i); n > 0; n-- {
			if food, ok := t.sound[strings.Join(words[i:i+n], " ")]; ok {
				out, found = append(out, food...), true
				i += n
				continue next
			}
		}
		out = append(out, words[i])
		i++
	}
	return out, found
}

// findJoined looks for the letters of the phrase with other gaps between them,
// allowing one slip in a long name: "springonion", "beat root", "wall nuts".
func (x *Index) findJoined(best *hits, words []string) {
	all := join(words)
	for _, k := range []string{all, singular(all)} {
		for _, at := range x.joined[k] {
			best.add(at, hit{score: worthJoined, how: "joined"})
		}
	}
	if len(words) == 1 || best.top() >= Sure {
		return
	}
	for _, near := range x.near(all) {
		for _, at := range x.uses[near.word] {
			if len(x.names[at].words) == 1 {
				weak := near.weak || near.how != "slip" || near.like < likeRun || len(words[0]) < 3
				best.add(at, hit{score: worthJoined * near.like, how: "slip", slipped: x.words[near.word], weak: weak})
			}
		}
	}
}

func join(words []string) string { return strings.Join(words, "") }
