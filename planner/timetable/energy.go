package timetable

// Where there are more than a few units the rule is given up when it no longer pays: after trial runs, and pays more
// for each conflict it has found. Measured on kitchens and on PSPLIB j30.
const (
	few   = 4
	trial = 500
	pays  = 60
)

// energetic looks for stretches of time that hold more work than the capacity allows: the items that must run wholly
// within, and of others the minutes in which they surely run (timetable edge finding: Vilim 2011; explained by Schutt,
// Feydy and Stuckey 2013).
type energetic struct {
	capacity int64
	items    []item
	loads    []load
	runs     int
	found    int // conflicts
}

// load is an item that is surely there: its window and the minutes in which it surely runs.
type load struct {
	item       int32
	from, to   int32 // first and last minute it can be in
	sure, past int32 // minutes from here to before there it surely runs; none if past <= sure
	byTo       int64 // work surely done before to
}

func (*energetic) costly() bool { return true }

func (c *energetic) propagate(e *engine) bool {
	if c.runs++; c.capacity > few && c.runs > trial+pays*c.found {
		return true
	}
	c.loads = c.loads[:0]
	for k := range c.items {
		it := &c.items[k]
		if !it.surely(e) {
			continue
		}
		lo, hi := e.lo(it.start), e.hi(it.start)
		c.loads = append(c.loads, load{int32(k), lo, hi + it.minutes, hi, lo + it.minutes, 0})
		for p := len(c.loads) - 1; p > 0 && c.loads[p].to < c.loads[p-1].to; p-- {
			c.loads[p], c.loads[p-1] = c.loads[p-1], c.loads[p]
		}
	}
	for k := range c.loads {
		c.loads[k].byTo = c.certain(c.loads[k].to)
	}
	for k := range c.loads {
		if !c.sweep(e, c.loads[k].from) {
			return false
		}
	}
	return true
}

// sweep looks at the stretches from minute a to the end of each window.
func (c *energetic) sweep(e *engine, a int32) bool {
	inside, before := int64(0), c.certain(a)
	for k := range c.loads {
		l := &c.loads[k]
		if l.from < a {
			continue
		}
		it := &c.items[l.item]
		inside += int64(it.units) * int64(it.minutes-max(0, l.past-l.sure))
		if inside+l.byTo-before > c.capacity*int64(l.to-a) {
			c.found++
			c.explain(e, a, l.to)
			return false
		}
	}
	return true
}

// certain gives the work surely done before minute t.
func (c *energetic) certain(t int32) int64 {
	work := int64(0)
	for k := range c.loads {
		if l := &c.loads[k]; l.sure < min(l.past, t) {
			work += int64(c.items[l.item].units) * int64(min(l.past, t)-l.sure)
		}
	}
	return work
}

// explain makes a conflict of what has to be done from minute a to before b.
func (c *energetic) explain(e *engine, a, b int32) {
	over := -c.capacity*int64(b-a) - 1
	for k := range c.loads {
		over += int64(c.items[c.loads[k].item].units) * int64(c.minutes(&c.loads[k], a, b))
	}
	e.conflict = e.conflict[:0]
	for k := range c.loads {
		l := &c.loads[k]
		it := &c.items[l.item]
		m := c.minutes(l, a, b)
		spare := min(m, int32(min(over/int64(it.units), 1<<30)))
		over -= int64(spare) * int64(it.units)
		if m -= spare; m == 0 {
			continue
		}
		// Wherever it starts between these bounds, m minutes of it are within.
		e.conflict = append(e.conflict, atLeast(it.start, a+m-it.minutes), atMost(it.start, b-m))
		if it.condition.v >= 0 {
			e.conflict = append(e.conflict, it.condition)
		}
	}
}

// minutes gives how long a load is counted from minute a to before b.
func (c *energetic) minutes(l *load, a, b int32) int32 {
	if l.from >= a && l.to <= b {
		return c.items[l.item].minutes
	}
	return max(0, min(l.past, b)-max(l.sure, a))
}
