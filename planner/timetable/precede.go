package timetable

// edge is a difference constraint under a condition: where it holds, side to is at most side from plus length.
type edge struct {
	from, to  side
	length    int32
	condition atom // on side -1: always
}

var always = atom{v: -1}

func (c *edge) explain(a atom, list []atom) []atom {
	if c.condition.v >= 0 {
		list = append(list, c.condition)
	}
	return append(list, atom{c.from, a.b - c.length})
}

// lag requires y >= x + length where the condition holds; false where that leaves no timetable.
func (e *engine) lag(x, y, length int32, condition atom) bool {
	lower := edge{side(2*x + 1), side(2*y + 1), -length, condition}
	upper := edge{side(2 * y), side(2 * x), -length, condition}
	return e.join(lower) && e.join(upper)
}

func (e *engine) join(c edge) bool {
	if c.condition.v >= 0 {
		switch {
		case e.refuted(c.condition):
			return true
		case e.level() == 0 && e.holds(c.condition):
			c.condition = always
		}
	}
	k := int32(len(e.edges))
	e.edges = append(e.edges, c)
	e.out[c.from] = append(e.out[c.from], k)
	if c.condition.v >= 0 {
		e.guards[c.condition.v] = append(e.guards[c.condition.v], k)
	}
	return e.cross(k)
}

// follow draws what follows by edges from a tightening of a side.
func (e *engine) follow(v side) bool {
	for _, k := range e.out[v] {
		if !e.cross(k) {
			return false
		}
	}
	for _, k := range e.guards[v] {
		if e.holds(e.edges[k].condition) && !e.cross(k) {
			return false
		}
	}
	return true
}

// cross draws what follows from one edge: a bound where the condition holds, and that it does not where the bound is
// impossible.
func (e *engine) cross(k int32) bool {
	c := &e.edges[k]
	b := e.top[c.from] + c.length
	if e.top[c.to] <= b {
		return true
	}
	if c.condition.v < 0 || e.holds(c.condition) {
		return e.set(atom{c.to, b}, reason{at: k, why: byEdge})
	}
	spare := -1 - b - e.top[c.to^1]
	if spare < 0 || e.refuted(c.condition) {
		return true
	}
	r := e.because(atom{c.from, e.top[c.from] + spare}, atom{c.to ^ 1, e.top[c.to^1]})
	return e.set(c.condition.not(), r)
}
