package food

import (
	"slices"
	"strings"
	"sync"
)

// fit says how well the words of a phrase cover a name.
type fit struct {
	like     []float64 // for each word of the name, how like the best word of the phrase
	how      []string
	from     []int // which word of the phrase that was
	distinct int   // words of the phrase that fitted none and do tell foods apart
	unknown  int   // words of the phrase that fitted none and that nobody knows
	idle     int
	weak     bool // one of the likenesses is
}

// findWords scores every name that shares a word, or a likely slip of one,
// with the phrase. how, where given, is said of whatever comes out.
func (x *Index) findWords(best *hits, words []string, how string) {
	near, as := make([][]likeness, len(words)), make([]spelling, len(words))
	var names []int32
	for i, w := range words {
		near[i], as[i] = x.near(w), spell(w)
		for _, l := range near[i] {
			names = append(names, x.uses[l.word]...)
		}
	}
	slices.Sort(names) // and so, of an id's names that fit equally, the first is told
	for _, at := range slices.Compact(names) {
		n := &x.names[at]
		h := n.score(x.cover(n, as, near))
		if how != "" {
			h.score, h.how = h.score*likeSound, how
		}
		best.add(at, h)
	}
}

// cover matches each word of the name with the word of the phrase most like it,
// each used once, and sorts the words of the phrase that are left over.
func (x *Index) cover(n *name, words []spelling, near [][]likeness) fit {
	f := fit{like: make([]float64, len(n.words)), how: make([]string, len(n.words)), from: make([]int, len(n.words))}
	used := make([]bool, len(words))
	for range n.words {
		bi, bk, b := -1, -1, likeness{}
		for i := range words {
			if used[i] {
				continue
			}
			for _, l := range near[i] {
				if l.how == "short" && len(words) > 1 {
					l.like, l.weak = max(l.like, likeBegin), false // "cav" is clear beside "nero"
				}
				if k := n.open(l.word, f.like); k >= 0 && l.like > b.like {
					bi, bk, b = i, k, l
				}
			}
		}
		if bi < 0 {
			break
		}
		used[bi], f.like[bk], f.how[bk], f.from[bk] = true, b.like, b.how, bi
		f.weak = f.weak || b.weak
	}
	x.coverLoosely(&f, n, words, used)
	for i := range words {
		switch w := words[i].word; {
		case used[i]:
		case tables().idle[w]:
			f.idle++
		case x.knows(w):
			f.distinct++
		default:
			f.unknown++
		}
	}
	return f
}

// coverLoosely gives words of the phrase that fit nothing yet to words of the
// name that nothing fits yet, where a word that tells something does fit.
func (x *Index) coverLoosely(f *fit, n *name, words []spelling, used []bool) {
	if !slices.Contains(f.like, 0) || !slices.Contains(used, false) || n.only(*f, tables().idle) {
		return
	}
	for i := range words {
		if used[i] || tables().idle[words[i].word] {
			continue
		}
		bk, best := -1, 0.0
		for k, l := range f.like {
			if l == 0 {
				if like := words[i].loosely(&x.spelt[n.words[k]]); like > best {
					bk, best = k, like
				}
			}
		}
		if bk < 0 {
			continue
		}
		if x.knows(words[i].word) {
			best = likeBeside
		}
		used[i], f.like[bk], f.how[bk], f.from[bk], f.weak = true, best, "slip", i, true
	}
}

// open gives the place of a word in the name that nothing fits yet, or -1.
func (n *name) open(word int32, like []float64) int {
	for k, w := range n.words {
		if w == word && like[k] == 0 {
			return k
		}
	}
	return -1
}

// score turns a fit into one figure and says how the phrase was understood.
func (n *name) score(f fit) hit {
	missing, head := 0, f.like[len(n.words)-1] > 0
	for _, l := range f.like {
		if l == 0 {
			missing++
		}
	}
	extra := f.distinct + f.unknown
	worth, how := 0.0, "exact"
	switch {
	case missing == 0 && extra == 0:
		worth = n.worthWhole(f)
	case missing > 0 && extra == 0:
		worth, how = n.worthPart(f, head), "part"
	case missing == 0:
		worth, how = worthExtra, "near"
		if f.distinct > 0 || extra > 1 {
			worth = worthOther
		}
	case head && missing+extra <= 2:
		worth, how = worthNear, "near"
	}
	like, least := f.mean()
	if n.whole && (missing+extra > 0 || like < leastWhole || slices.Contains(f.how, "short")) {
		return hit{}
	}
	h := hit{score: worth * like, how: how, weak: f.weak}
	if least >= 0 && f.like[least] < 1 {
		h.slipped = n.folded[least]
		if how != "near" {
			h.how = f.how[least]
		}
	}
	return h
}

func (n *name) worthWhole(f fit) float64 {
	last := slices.Index(f.from, slices.Max(f.from)) // which word of the name the phrase ends with
	switch {
	case last < len(n.folded)-1 && tables().product[n.folded[last]]: // "rice pudding" is no pudding rice
		return worthNear
	case !slices.IsSorted(f.from):
		return worthOrder
	case f.idle > 0:
		return worthIdle
	}
	return 1
}

// worthPart is for a phrase all of whose words are in the name.
func (n *name) worthPart(f fit, head bool) float64 {
	for _, b := range n.bonds {
		if whole := f.like[b.from:b.to]; slices.Contains(whole, 0) && slices.Max(whole) > 0 {
			return worthOther
		}
	}
	t := tables()
	switch {
	case !head && t.product[n.folded[len(n.folded)-1]]:
		return worthOther // "chicken" for chicken liver
	case n.only(f, t.bare), n.only(f, t.idle):
		return worthOther // "leaf" for coriander leaf
	case !n.first:
		return worthAlias
	case head:
		return worthHead
	}
	return worthPart
}

// leastWhole is how like a name that stands for itself only must be to what was said.
const leastWhole = 0.6

// only says whether no word of the name fitted but those of a set.
func (n *name) only(f fit, set map[string]bool) bool {
	for k, l := range f.like {
		if l > 0 && !set[n.folded[k]] {
			return false
		}
	}
	return true
}

// mean is the likeness of the words that fitted, the least like counting most,
// and which of the name's words that is.
func (f fit) mean() (like float64, least int) {
	sum, n, least := 0.0, 0.0, -1
	for k, l := range f.like {
		if l == 0 {
			continue
		}
		sum, n = sum+l, n+1
		if least < 0 || l < f.like[least] {
			least = k
		}
	}
	if n == 0 {
		return 0, -1
	}
	return (sum/n + f.like[least]) / 2, least
}

// knows says whether a plain word tells a food from others: it is in a name of
// this index or of the catalogue, or English for another food.
func (x *Index) knows(word string) bool {
	if _, ok := x.forms[word]; ok {
		return true
	}
	_, ok := foodWords()[word]
	return ok || foodNouns()[word]
}

// foodWords holds every word of the catalogue's names, singular and plural. A
// word in it is never taken for a slip of another: "beet" is not "beef", even
// in a kitchen that has beef and no beet.
var foodWords = sync.OnceValue(func() map[string]int32 { return Default().index.forms })

// compounds gives the compounds of words.csv, folded.
var compounds = sync.OnceValue(func() [][]string {
	var all [][]string
	for _, c := range tables().compound {
		all = append(all, folded(strings.Join(c, " ")))
	}
	return all
})
