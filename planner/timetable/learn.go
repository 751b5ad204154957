package timetable

// deepest is how many steps back a reason is looked for in what is known already.
const deepest = 5

// learner turns conflicts into clauses.
type learner struct {
	wanted  []int32 // by event: the bound wanted of it, where marked
	marked  []bool  // by event
	marks   []int32 // events marked
	list    []atom
	clause  []atom
	seen    []int32 // by level: the conflict it was last counted for
	step    float32 // activity a clause gains
	scratch [deepest][]atom
}

// learn finds the first unique implication point of the conflict (Marques-Silva and Sakallah 1999), goes back to
// where the clause learned has one atom left, and sets that. False where there is no timetable under no assumption.
func (e *engine) learn() bool {
	e.conflicts++
	top := e.highest(e.conflict)
	if top == 0 {
		return false
	}
	e.undo(top)
	for len(e.marked) < len(e.trail) {
		e.marked, e.wanted = append(e.marked, false), append(e.wanted, 0)
	}
	pivot := e.resolve(top)
	e.minimise(pivot)
	level, levels := e.settle()
	atoms := append([]atom{atom{e.trail[pivot].v, e.wanted[pivot]}.not()}, e.clause...)
	for _, k := range e.marks {
		e.marked[k] = false
	}
	e.marks = e.marks[:0]
	e.undo(level)
	e.record(atoms, levels)
	e.decay()
	return true
}

// highest gives the highest level on which one of some true atoms came to hold.
func (e *engine) highest(atoms []atom) int32 {
	top := int32(0)
	for _, a := range atoms {
		if k := e.cause(a); k >= 0 {
			top = max(top, e.trail[k].level)
		}
	}
	return top
}

// mark asks for an atom; 1 if that is news on the level given, else 0.
func (e *engine) mark(a atom, level int32) int {
	k := e.cause(a)
	if k < 0 || e.trail[k].level == 0 {
		return 0
	}
	if e.marked[k] {
		e.wanted[k] = min(e.wanted[k], a.b)
		return 0
	}
	e.marked[k], e.wanted[k] = true, a.b
	e.marks = append(e.marks, k)
	e.bump(a)
	if e.trail[k].level == level {
		return 1
	}
	return 0
}

// resolve replaces marked events of the top level by their reasons until one is left, and gives that one.
func (e *engine) resolve(top int32) int32 {
	open := 0
	for _, a := range e.conflict {
		open += e.mark(a, top)
	}
	for k := int32(len(e.trail) - 1); ; k-- {
		if !e.marked[k] {
			continue
		}
		if open == 1 {
			return k
		}
		ev := &e.trail[k]
		e.marked[k] = false
		open--
		if ev.clause != nil {
			e.use(ev.clause)
		}
		e.list = e.explain(atom{ev.v, e.wanted[k]}, ev.reason, e.list[:0])
		for _, b := range e.list {
			open += e.mark(b, top)
		}
	}
}

// minimise makes a clause of the denials of the marked events, leaving out the pivot, what a later event on the same
// side says more strongly, and what follows from the others (Een and Sorensson 2005).
func (e *engine) minimise(pivot int32) {
	for _, k := range e.marks {
		if e.marked[k] && e.stronger(k) {
			e.marked[k] = false
		}
	}
	e.clause = e.clause[:0]
	for _, k := range e.marks {
		if k == pivot || !e.marked[k] {
			continue
		}
		a := atom{e.trail[k].v, e.wanted[k]}
		if !e.implied(k, a, 0) {
			e.clause = append(e.clause, a.not())
		}
	}
}

// stronger says whether a later marked event is on the same side.
func (e *engine) stronger(k int32) bool {
	for j := e.last[e.trail[k].v]; j > k; j = e.trail[j].prev {
		if e.marked[j] {
			return true
		}
	}
	return false
}

// implied says whether an atom that an event made true follows from earlier marked ones, looking a few steps deep.
func (e *engine) implied(k int32, a atom, depth int) bool {
	ev := &e.trail[k]
	if ev.why == decided || depth == deepest {
		return false
	}
	list := e.explain(a, ev.reason, e.scratch[depth][:0])
	e.scratch[depth] = list
	for _, b := range list {
		j := e.cause(b)
		if j < 0 || e.trail[j].level == 0 || e.marked[j] && e.wanted[j] <= b.b {
			continue
		}
		if !e.implied(j, b, depth+1) {
			return false
		}
	}
	return true
}

// settle puts an atom of the clause that was refuted last in front, and gives its level and how many levels there are.
func (e *engine) settle() (level, levels int32) {
	for len(e.seen) <= int(e.level()) {
		e.seen = append(e.seen, 0)
	}
	for k, a := range e.clause {
		l := e.trail[e.cause(a.not())].level
		if e.seen[l] != int32(e.conflicts) {
			e.seen[l] = int32(e.conflicts)
			levels++
		}
		if l > level {
			level = l
			e.clause[0], e.clause[k] = e.clause[k], e.clause[0]
		}
	}
	return level, levels + 1
}

// record adds a learned clause, whose first atom is the only one not refuted, and sets that.
func (e *engine) record(atoms []atom, levels int32) {
	if len(atoms) == 1 {
		e.put(atoms[0], reason{})
		return
	}
	c := &clause{atoms: atoms, levels: levels, activity: e.learner.step}
	e.learned = append(e.learned, c)
	e.attach(c)
	e.put(atoms[0], reason{clause: c, why: byClause})
}

// use counts a clause as useful.
func (e *engine) use(c *clause) {
	c.activity += e.learner.step
	if c.activity > 1e20 {
		for _, d := range e.learned {
			d.activity *= 1e-20
		}
		e.learner.step *= 1e-20
	}
}
