package timetable

import (
	"cmp"
	"slices"
)

// clause is a set of atoms of which one at least holds, no two on the same side. The first two are watched: as long as
// neither is refuted the clause has nothing to say. A clause that has set a bound has that atom first.
type clause struct {
	atoms    []atom
	activity float32
	levels   int32 // levels its atoms were refuted on when it was learned; few is good
	dropped  bool
}

// watch stands in the list of the side whose tightening refutes the watched atom.
type watch struct {
	below int32 // the atom is refuted when the side's bound falls to this
	other atom  // some other atom of the clause; while it holds there is no need to look
	c     *clause
}

// watchers keeps the watches of each side in lists by the bound at which they go off: one list a bound, or, where the
// values are many, one for a power of two of them.
type watchers struct {
	lists [][]watch
	sides []shelf
}

type shelf struct {
	first int32 // its first list
	count int32
	base  int32 // the least bound
	shift uint8
}

// mostLists is how many lists a side has at most.
const mostLists = 256

// enter makes room for a side with values lo to hi.
func (h *watchers) enter(lo, hi int32) {
	s := shelf{first: int32(len(h.lists)), base: lo}
	for (hi-lo)>>s.shift >= mostLists {
		s.shift++
	}
	s.count = (hi-lo)>>s.shift + 1
	h.sides = append(h.sides, s)
	h.lists = append(h.lists, make([][]watch, s.count)...)
}

// list gives the number of the list for a bound.
func (s *shelf) list(b int32) int32 {
	return s.first + min(max(0, b-s.base)>>s.shift, s.count-1)
}

func (h *watchers) watch(c *clause, a, other atom) {
	below := -a.b - 1
	k := h.sides[a.v^1].list(below)
	h.lists[k] = append(h.lists[k], watch{below, other, c})
}

// require adds a clause that holds whatever else does; false where that leaves no timetable.
func (e *engine) require(atoms ...atom) bool {
	open := make([]atom, 0, len(atoms))
	for _, a := range atoms {
		if e.holds(a) {
			return true
		}
		if !e.refuted(a) {
			open = append(open, a)
		}
	}
	switch len(open) {
	case 0:
		return false
	case 1:
		return e.set(open[0], reason{})
	}
	e.attach(&clause{atoms: open})
	return true
}

func (e *engine) attach(c *clause) {
	e.watch(c, c.atoms[0], c.atoms[1])
	e.watch(c, c.atoms[1], c.atoms[0])
}

// clauses draws what follows by clauses from a tightening of a side; false on a conflict.
func (e *engine) clauses(v side, now, old int32) bool {
	s := &e.sides[v]
	for k := s.list(old - 1); k >= s.list(now); k-- {
		if len(e.lists[k]) > 0 && !e.visit(k, v, now, old) {
			return false
		}
	}
	return true
}

// visit looks at the clauses of one list.
func (e *engine) visit(number int32, v side, now, old int32) bool {
	list := e.lists[number]
	kept := 0
	for k := range list {
		w := &list[k]
		if e.holds(w.other) || w.below < now || w.below >= old {
			list[kept] = *w
			kept++
			continue
		}
		c := w.c
		if c.dropped {
			continue
		}
		if c.atoms[0] == (atom{v ^ 1, -w.below - 1}) {
			c.atoms[0], c.atoms[1] = c.atoms[1], c.atoms[0]
		}
		first := c.atoms[0]
		if !e.holds(first) && e.watchAnother(c) {
			continue
		}
		list[kept] = watch{w.below, first, c}
		kept++
		if !e.set(first, reason{clause: c, why: byClause}) {
			kept += copy(list[kept:], list[k+1:])
			e.lists[number] = list[:kept]
			return false
		}
	}
	e.lists[number] = list[:kept]
	return true
}

// watchAnother watches an atom that is not refuted in place of the second.
func (e *engine) watchAnother(c *clause) bool {
	for k := 2; k < len(c.atoms); k++ {
		if a := c.atoms[k]; !e.refuted(a) {
			c.atoms[1], c.atoms[k] = a, c.atoms[1]
			e.watch(c, a, c.atoms[0])
			return true
		}
	}
	return false
}

// firstRoom is how many learned clauses there may be before the first are forgotten.
const firstRoom = 2000

// forget drops the less useful half of the learned clauses once there are many.
func (e *engine) forget() {
	if len(e.learned) < e.room {
		return
	}
	e.room += e.room / 10
	slices.SortStableFunc(e.learned, func(a, b *clause) int {
		if (a.levels <= 2) != (b.levels <= 2) {
			return cmp.Compare(a.levels, b.levels)
		}
		return cmp.Compare(b.activity, a.activity)
	})
	kept := e.learned[:0]
	for k, c := range e.learned {
		if k < len(e.learned)/2 || c.levels <= 2 || e.inUse(c) {
			kept = append(kept, c)
		} else {
			c.dropped = true
		}
	}
	clear(e.learned[len(kept):])
	e.learned = kept
	for k := range e.lists {
		e.lists[k] = slices.DeleteFunc(e.lists[k], func(w watch) bool { return w.c.dropped })
	}
}

// inUse says whether a clause is the reason for a bound.
func (e *engine) inUse(c *clause) bool {
	if !e.holds(c.atoms[0]) {
		return false
	}
	k := e.cause(c.atoms[0])
	return k >= 0 && e.trail[k].clause == c
}
