package timetable

// engine finds values for integer variables by lazy clause generation (Ohrimenko, Stuckey and Codish 2009; for
// scheduling Schutt, Feydy, Stuckey and Wallace 2011): it decides, draws conclusions by clauses, difference constraints
// and propagators, and learns from every conflict a clause that keeps it from the same kind of failure.
type engine struct {
	bounds
	watchers
	learned []*clause
	room    int // learned clauses to hold before forgetting

	edges     []edge
	out       [][]int32 // of each side: edges from it
	guards    [][]int32 // of each side: edges under a condition on it
	reasons   []atom    // explanations, each closed by an atom on side -1
	given     []int32   // given[l]: length of reasons when level l+1 was opened
	rules     []propagator
	wakes     [][]int32 // of each side: rules to run when it is tightened
	queue     []int32   // rules to run
	slow      []int32   // rules to run when there is nothing else to do
	queued    []bool
	done      int    // events whose conclusions are drawn
	conflict  []atom // atoms that hold and cannot hold together
	conflicts int    // so far

	learner
	chooser
}

// propagator draws conclusions that clauses and edges do not; false on a conflict.
type propagator interface {
	propagate(e *engine) bool
	costly() bool // run last
}

func newEngine() *engine {
	e := &engine{room: firstRoom}
	e.chooser.step = 1
	e.learner.step = 1
	return e
}

// variable makes a variable with values lo to hi.
func (e *engine) variable(lo, hi int32) int32 {
	x := e.add(lo, hi)
	e.watchers.enter(lo, hi)
	e.watchers.enter(-hi, -lo)
	for range 2 {
		e.out = append(e.out, nil)
		e.guards = append(e.guards, nil)
		e.wakes = append(e.wakes, nil)
	}
	e.chooser.enter(x, lo, hi)
	return x
}

// boolean makes a variable and gives the atom that it is 1.
func (e *engine) boolean() atom { return atLeast(e.variable(0, 1), 1) }

// addRule makes a propagator run whenever one of the sides is tightened.
func (e *engine) addRule(p propagator, sides ...side) {
	k := int32(len(e.rules))
	e.rules = append(e.rules, p)
	e.queued = append(e.queued, false)
	e.enqueue(k)
	for _, v := range sides {
		e.wakes[v] = append(e.wakes[v], k)
	}
}

// set makes an atom hold for a reason; false, with the conflict explained, where it is refuted.
func (e *engine) set(a atom, r reason) bool {
	if e.holds(a) {
		return true
	}
	if e.refuted(a) {
		e.conflict = e.explain(a, r, e.conflict[:0])
		e.conflict = append(e.conflict, a.not())
		return false
	}
	e.put(a, r)
	return true
}

// explain adds to list the atoms that by the reason made a true.
func (e *engine) explain(a atom, r reason, list []atom) []atom {
	switch r.why {
	case byClause:
		for _, b := range r.clause.atoms[1:] {
			list = append(list, b.not())
		}
	case byEdge:
		list = e.edges[r.at].explain(a, list)
	case byReasons:
		for k := r.at; e.reasons[k].v >= 0; k++ {
			list = append(list, e.reasons[k])
		}
	}
	return list
}

// because stores an explanation.
func (e *engine) because(atoms ...atom) reason {
	at := int32(len(e.reasons))
	e.reasons = append(append(e.reasons, atoms...), atom{v: -1})
	return reason{at: at, why: byReasons}
}

// propagate draws all conclusions; false on a conflict.
func (e *engine) propagate() bool {
	for {
		for e.done < len(e.trail) {
			ev := &e.trail[e.done]
			e.done++
			v, now, old := ev.v, ev.now, ev.old
			e.wake(v)
			if !e.clauses(v, now, old) || e.top[v] == now && !e.follow(v) {
				return false
			}
		}
		k, ok := e.dequeue()
		if !ok {
			return true
		}
		if !e.rules[k].propagate(e) {
			return false
		}
	}
}

func (e *engine) enqueue(k int32) {
	if e.queued[k] {
		return
	}
	e.queued[k] = true
	if e.rules[k].costly() {
		e.slow = append(e.slow, k)
	} else {
		e.queue = append(e.queue, k)
	}
}

func (e *engine) dequeue() (int32, bool) {
	list := &e.queue
	if len(*list) == 0 {
		list = &e.slow
	}
	if len(*list) == 0 {
		return 0, false
	}
	k := (*list)[0]
	*list = append((*list)[:0], (*list)[1:]...)
	e.queued[k] = false
	return k, true
}

func (e *engine) wake(v side) {
	for _, k := range e.wakes[v] {
		e.enqueue(k)
	}
}

// decide opens a level with an atom that is neither true nor refuted.
func (e *engine) decide(a atom) {
	e.open()
	e.given = append(e.given, int32(len(e.reasons)))
	e.put(a, reason{})
}

// undo goes back to a level, where all conclusions had been drawn.
func (e *engine) undo(level int32) {
	if level >= e.level() {
		return
	}
	keep := int(e.starts[level])
	for k := keep; k < len(e.trail); k++ {
		e.chooser.free(e.trail[k].v, e.trail[k].now, e.trail[k].old)
	}
	e.back(level)
	e.done = keep
	clear(e.queued)
	e.queue, e.slow = e.queue[:0], e.slow[:0]
	e.reasons, e.given = e.reasons[:e.given[level]], e.given[:level]
}

// root draws all conclusions of what holds in any timetable; false where that leaves none.
func (e *engine) root() bool {
	e.undo(0)
	if !e.propagate() {
		return false
	}
	for _, ev := range e.trail {
		e.last[ev.v] = -1
	}
	e.trail, e.reasons, e.done = e.trail[:0], e.reasons[:0], 0
	return true
}
