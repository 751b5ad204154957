package food

import (
	"slices"
	"strings"

	"github.com/sahilm/fuzzy"
)

// maxTyped is the most of a prefix that Suggest and the short-form search look
// at, in bytes.
const maxTyped = 60

// findShort looks for short forms: letters of a name in their order, such as
// "cav nero". The first letter has to be right, and at least four be given.
func (x *Index) findShort(best *hits, words []string) {
	typed := strings.Join(words, " ")
	if len(join(words)) < 4 || len(typed) > maxTyped {
		return
	}
	for _, w := range words {
		if x.knows(w) {
			return // a food's own word is no short form of something else
		}
	}
	some := begun{x: x}
	for at := range x.names {
		n := &x.names[at]
		if n.folded[0][0] == typed[0] && 2*len(typed) >= len(n.text) {
			some.at = append(some.at, int32(at))
		}
	}
	for _, m := range fuzzy.FindFrom(typed, some) {
		best.add(some.at[m.Index], hit{score: Ask + 0.1*float64(len(typed))/float64(len(m.Str)), how: "short", slipped: typed})
	}
}

// begun is the names that a short form may stand for, for the fuzzy library.
type begun struct {
	x  *Index
	at []int32
}

func (b begun) String(i int) string { return b.x.names[b.at[i]].text }
func (b begun) Len() int            { return len(b.at) }

// String and Len make the index a source for the fuzzy library.
func (x *Index) String(i int) string { return x.names[i].text }

// Len gives the number of names.
func (x *Index) Len() int { return len(x.names) }

// Suggest completes what has been typed so far: at most n names, those that
// begin with it first, then those with a word that does, then those that have
// its letters in order. Shorter names stand first among equals.
func (x *Index) Suggest(prefix string, n int) []string {
	typed := strings.Join(split(prefix), " ")
	if typed == "" || n <= 0 || len(typed) > maxTyped {
		return nil
	}
	type ranked struct {
		name string
		rank int
	}
	var all []ranked
	for _, m := range fuzzy.FindFrom(typed, x) {
		text := plain(m.Str)
		rank := 2
		if strings.HasPrefix(text, typed) {
			rank = 0
		} else if strings.Contains(text, " "+typed) {
			rank = 1
		}
		all = append(all, ranked{m.Str, rank})
	}
	slices.SortStableFunc(all, func(a, b ranked) int {
		if a.rank != b.rank || a.rank == 2 {
			return a.rank - b.rank
		}
		return len(a.name) - len(b.name)
	})
	var names []string
	for _, r := range all {
		if len(names) < n && !slices.Contains(names, r.name) {
			names = append(names, r.name)
		}
	}
	return names
}
