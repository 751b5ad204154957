package food

import (
	"cmp"
	"slices"
)

// hit is how well a name fits.
type hit struct {
	at      int32 // which name
	score   float64
	how     string
	slipped string // the word of the name that was least like what was said; "" where all fit to the letter
	weak    bool   // never sure
}

// hits collects the best hit for each id.
type hits struct {
	x    *Index
	list []hit
	at   map[int]int // id -> place in list
}

func (h *hits) add(at int32, new hit) {
	new.at = at
	if new.weak {
		new.score = hedge(new.score)
	}
	id := h.x.names[at].id
	switch i, ok := h.at[id]; {
	case !ok && new.score >= Ask:
		h.at[id] = len(h.list)
		h.list = append(h.list, new)
	case ok && new.score > h.list[i].score:
		h.list[i] = new
	}
}

// hedge brings a score under Sure, and keeps the order of what it is given.
func hedge(score float64) float64 { return min(score, Sure-(1.2-score)/10) }

func (h *hits) top() float64 {
	top := 0.0
	for i := range h.list {
		top = max(top, h.list[i].score)
	}
	return top
}

// guessed says whether the best would pass for sure though a word of it has a
// slip.
func (h *hits) guessed() bool {
	return slices.ContainsFunc(h.list, func(m hit) bool { return m.score >= Sure && m.slipped != "" })
}

// doubt takes away the certainty that a slip is of one word where it may as
// well be of another, in the same index or in the catalogue: with celeriac in
// the pantry and no celery, "celer" may be either.
func (h *hits) doubt(others *hits) {
	rivals := slices.Clone(others.list)
	for i := range h.list {
		m := &h.list[i]
		for _, o := range rivals {
			if m.slipped != "" && o.score+rivalry > m.score && h.rival(m, &o, others.x) {
				m.score = hedge(m.score)
				break
			}
		}
	}
}

// rival says whether o is what was said by another word than m, and by a name
// that h's index does not have if it comes from another.
func (h *hits) rival(m, o *hit, x *Index) bool {
	if o.slipped == m.slipped || o.how == "near" || o.weak && o.how == "short" {
		return false
	}
	return h.x == x || h.x.Exact(x.names[o.at].folded) == nil
}

func (h *hits) sorted() []Match {
	slices.SortStableFunc(h.list, func(a, b hit) int {
		if c := cmp.Compare(b.score, a.score); c != 0 {
			return c
		}
		return cmp.Compare(h.x.order[h.x.names[a.at].id], h.x.order[h.x.names[b.at].id])
	})
	var found []Match
	for _, m := range h.list {
		n := &h.x.names[m.at]
		found = append(found, Match{n.id, n.text, m.score, m.how})
	}
	return found
}
