package timetable

// side is a signed variable: 2x stands for variable x, 2x+1 for -x. So the least value of x is minus the greatest
// value of side 2x+1, and every rule is written once for both directions of time.
type side int32

func (v side) other() side { return v ^ 1 }

// atom says that a signed variable is at most a bound. Atoms take the place of Boolean literals: [x <= 4] is an atom,
// so is its denial [x >= 5], and none has to be created. A Boolean is a variable that is 0 or 1.
type atom struct {
	v side
	b int32
}

func (a atom) not() atom { return atom{a.v ^ 1, -a.b - 1} }

func atMost(x int32, b int32) atom  { return atom{side(2 * x), b} }
func atLeast(x int32, b int32) atom { return atom{side(2*x + 1), -b} }

// why is the kind of reason for a bound.
type why uint8

const (
	decided   why = iota // or true from the start
	byClause             // the clause
	byEdge               // difference constraint number at
	byReasons            // listed in the engine's reasons from at on
)

// reason says why a bound holds, so that it can be explained later.
type reason struct {
	clause *clause
	at     int32
	why    why
}

// event is one tightening of a bound.
type event struct {
	v     side
	now   int32 // bound it was set to
	old   int32 // bound before
	prev  int32 // event before it on the same side, -1 if none
	level int32
	reason
}

// bounds holds the domains of all variables and the trail of how they came about.
type bounds struct {
	top    []int32 // greatest value of each side
	last   []int32 // latest event on each side, -1 if none
	trail  []event
	starts []int32 // starts[l]: events when level l+1 was opened
}

// add makes a variable with values lo to hi.
func (d *bounds) add(lo, hi int32) int32 {
	d.top = append(d.top, hi, -lo)
	d.last = append(d.last, -1, -1)
	return int32(len(d.top)/2 - 1)
}

func (d *bounds) level() int32        { return int32(len(d.starts)) }
func (d *bounds) lo(x int32) int32    { return -d.top[2*x+1] }
func (d *bounds) hi(x int32) int32    { return d.top[2*x] }
func (d *bounds) fixed(x int32) bool  { return d.top[2*x] == -d.top[2*x+1] }
func (d *bounds) holds(a atom) bool   { return d.top[a.v] <= a.b }
func (d *bounds) refuted(a atom) bool { return d.top[a.v^1] < -a.b }

// put records a bound that is tighter than the present one and leaves the side a value.
func (d *bounds) put(a atom, r reason) {
	d.trail = append(d.trail, event{a.v, a.b, d.top[a.v], d.last[a.v], d.level(), r})
	d.last[a.v] = int32(len(d.trail) - 1)
	d.top[a.v] = a.b
}

// cause gives the event that first made a true atom true, -1 if it was from the start.
func (d *bounds) cause(a atom) int32 {
	e := d.last[a.v]
	for e >= 0 && d.trail[e].old <= a.b {
		e = d.trail[e].prev
	}
	return e
}

func (d *bounds) open() { d.starts = append(d.starts, int32(len(d.trail))) }

// back undoes all levels above the given one.
func (d *bounds) back(level int32) {
	if d.level() <= level {
		return
	}
	keep := d.starts[level]
	for k := len(d.trail) - 1; k >= int(keep); k-- {
		ev := &d.trail[k]
		d.top[ev.v], d.last[ev.v] = ev.old, ev.prev
	}
	d.trail, d.starts = d.trail[:keep], d.starts[:level]
}
