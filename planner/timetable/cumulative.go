package timetable

import (
	"cmp"
	"slices"
)

// item is what a task, or one way of it, holds of a resource where the condition holds.
type item struct {
	task      int32
	start     int32  // variable
	finish    finish // when it lets go
	minutes   int32  // it holds the resource at least
	units     int32
	condition atom
	setting   int
}

// cumulative keeps what is held of a resource at once within its capacity. It looks at the minutes in which an item
// must run wherever it starts, as a timetable does, and explains what follows by single points in time (Schutt, Feydy,
// Stuckey and Wallace 2011).
type cumulative struct {
	capacity int32
	items    []item
	turns    []turn
	steps    []step
	holders  []holder
}

// holder is an item that runs at some minute, and the event since when that is known.
type holder struct{ item, known int32 }

// turn is a change of what is held.
type turn struct{ at, units int32 }

// step says that so many units are surely held from one minute to before another.
type step struct{ from, to, units int32 }

func (e *engine) addCumulative(capacity int32, items []item) {
	c := &cumulative{capacity: capacity, items: items}
	var sides []side
	for _, it := range items {
		sides = append(sides, side(2*it.start), side(2*it.start+1), side(2*it.finish.x+1))
		if it.condition.v >= 0 {
			sides = append(sides, it.condition.v, it.condition.v.other())
		}
	}
	e.addRule(c, sides...)
	e.addRule(&energetic{capacity: int64(capacity), items: items}, sides...)
}

func (*cumulative) costly() bool { return false }

func (c *cumulative) propagate(e *engine) bool {
	c.profile(e)
	peak := int32(0)
	for _, s := range c.steps {
		if s.units > c.capacity {
			e.conflict = c.held(e, s.from, c.capacity+1, -1, e.conflict[:0])
			return false
		}
		peak = max(peak, s.units)
	}
	for k := range c.items {
		it := &c.items[k]
		if it.units+peak <= c.capacity {
			continue
		}
		if it.condition.v >= 0 && !e.holds(it.condition) {
			if !e.refuted(it.condition) && !c.exclude(e, int32(k)) {
				return false
			}
			continue
		}
		if e.fixed(it.start) {
			continue
		}
		if !c.later(e, int32(k)) || !c.earlier(e, int32(k)) {
			return false
		}
	}
	return true
}

// profile lists what is surely held when.
func (c *cumulative) profile(e *engine) {
	c.turns, c.steps = c.turns[:0], c.steps[:0]
	for k := range c.items {
		it := &c.items[k]
		from, to := e.hi(it.start), e.earliest(it.finish)
		if from < to && it.surely(e) {
			c.turns = append(c.turns, turn{from, it.units}, turn{to, -it.units})
		}
	}
	slices.SortFunc(c.turns, func(a, b turn) int { return cmp.Compare(a.at, b.at) })
	units := int32(0)
	for k, t := range c.turns {
		units += t.units
		if k+1 < len(c.turns) && c.turns[k+1].at > t.at && units > 0 {
			c.steps = append(c.steps, step{t.at, c.turns[k+1].at, units})
		}
	}
}

func (it *item) surely(e *engine) bool { return it.condition.v < 0 || e.holds(it.condition) }

// held lists atoms by which items other than one hold so many units at minute t: those known longest, so that what is
// learned holds widely.
func (c *cumulative) held(e *engine, t, units, except int32, list []atom) []atom {
	over := -units
	c.holders = c.holders[:0]
	for k := range c.items {
		it := &c.items[k]
		if int32(k) == except || !it.covers(e, t) {
			continue
		}
		over += it.units
		known := max(e.cause(atMost(it.start, t)), e.cause(it.finish.after(t)))
		if it.condition.v >= 0 {
			known = max(known, e.cause(it.condition))
		}
		c.holders = append(c.holders, holder{int32(k), known})
	}
	if over > 0 {
		slices.SortFunc(c.holders, func(a, b holder) int { return cmp.Compare(b.known, a.known) })
	}
	for _, h := range c.holders {
		it := &c.items[h.item]
		if it.units <= over {
			over -= it.units
			continue
		}
		list = append(list, atMost(it.start, t), it.finish.after(t))
		if it.condition.v >= 0 {
			list = append(list, it.condition)
		}
	}
	return list
}

// covers says whether an item surely runs at minute t.
func (it *item) covers(e *engine, t int32) bool {
	return e.hi(it.start) <= t && t < e.earliest(it.finish) && it.surely(e)
}

// full stores why an item that holds a bound cannot run at minute t.
func (c *cumulative) full(e *engine, t, k int32, bound ...atom) reason {
	at := int32(len(e.reasons))
	e.reasons = c.held(e, t, c.capacity-c.items[k].units+1, k, e.reasons)
	e.reasons = append(e.reasons, bound...)
	if it := &c.items[k]; it.condition.v >= 0 && e.holds(it.condition) {
		e.reasons = append(e.reasons, it.condition)
	}
	e.reasons = append(e.reasons, atom{v: -1})
	return reason{at: at, why: byReasons}
}

// exclude refutes the condition of an item that would run when there is no room for it.
func (c *cumulative) exclude(e *engine, k int32) bool {
	it := &c.items[k]
	for _, s := range c.steps {
		from, to := max(s.from, e.hi(it.start)), min(s.to, e.earliest(it.finish))
		if from < to && s.units+it.units > c.capacity {
			why := c.full(e, from, k, atMost(it.start, from), it.finish.after(from))
			return e.set(it.condition.not(), why)
		}
	}
	return true
}

// later moves the least start of an item past the steps that leave no room for it.
func (c *cumulative) later(e *engine, k int32) bool {
	it := &c.items[k]
	for _, s := range c.steps {
		lo := e.lo(it.start)
		if s.from >= lo+it.minutes {
			break
		}
		if s.units+it.units <= c.capacity {
			continue
		}
		for lo < s.to && s.from < lo+it.minutes && !it.covers(e, s.from) {
			t := min(s.to, lo+it.minutes) - 1
			why := c.full(e, t, k, atLeast(it.start, t+1-it.minutes))
			if !e.set(atLeast(it.start, t+1), why) {
				return false
			}
			lo = t + 1
		}
	}
	return true
}

// earlier is later with time running backwards.
func (c *cumulative) earlier(e *engine, k int32) bool {
	it := &c.items[k]
	for n := len(c.steps) - 1; n >= 0; n-- {
		s := c.steps[n]
		hi := e.hi(it.start)
		if s.to <= hi {
			break
		}
		if s.units+it.units <= c.capacity {
			continue
		}
		for s.from < hi+it.minutes && hi < s.to && !it.covers(e, s.from) {
			t := max(s.from, hi)
			why := c.full(e, t, k, atMost(it.start, t))
			if !e.set(atMost(it.start, t-it.minutes), why) {
				return false
			}
			hi = t - it.minutes
		}
	}
	return true
}
