package timetable

// plan is a model as variables and rules of an engine.
type plan struct {
	*engine
	m        *model
	start    []int32  // of each task: variable of its start
	end      []finish // of each task
	ways     [][]atom // of each task with several ways: the atom that a way is taken
	makespan int32    // variable
	waiting  int32    // variable, -1 before it is of interest
	stop     *stopper
	halted   bool // ctx ended before all was posted
}

// finish is the end of a task: a variable and minutes added to it.
type finish struct{ x, plus int32 }

func (f finish) after(t int32) atom       { return atLeast(f.x, t+1-f.plus) }
func (d *bounds) earliest(f finish) int32 { return d.lo(f.x) + f.plus }

// newPlan posts everything but the waiting; false where no timetable exists, or halted.
func newPlan(m *model, w *windows, stop *stopper) (*plan, bool) {
	p := &plan{engine: newEngine(), m: m, waiting: -1, stop: stop}
	p.ways = make([][]atom, len(m.tasks))
	if w.bound > m.horizon {
		return p, false
	}
	for i := range m.tasks {
		if w.head[i] > m.horizon-w.tail[i] {
			return p, false
		}
		p.start = append(p.start, p.variable(w.head[i], m.horizon-w.tail[i]))
	}
	p.makespan = p.variable(w.bound, m.horizon)
	for i := range m.tasks {
		if !p.addWays(int32(i)) {
			return p, false
		}
	}
	return p, p.addLinks() && p.addResources() && p.root()
}

// addLinks posts precedences, the limits on waiting between tasks, latest ends and the makespan.
func (p *plan) addLinks() bool {
	for i := range p.m.tasks {
		t := &p.m.tasks[i]
		end := p.end[i]
		for _, l := range t.after {
			before := p.end[l.task]
			if !p.lag(before.x, p.start[i], before.plus, always) {
				return false
			}
			if l.within >= 0 && !p.lag(p.start[i], before.x, -before.plus-l.within, always) {
				return false
			}
		}
		if !p.set(atMost(end.x, t.latest-end.plus), reason{}) {
			return false
		}
		if len(t.followers) == 0 && !p.lag(end.x, p.makespan, end.plus, always) {
			return false
		}
	}
	return true
}

// addResources posts what holds on each resource, and orders of tasks that cannot run at the same time.
func (p *plan) addResources() bool {
	apart := newPairs(p)
	for r, capacity := range p.m.capacity {
		var items []item
		total := int32(0)
		for i := range p.m.tasks {
			own, ok := p.itemsOf(int32(i), int32(r))
			if !ok {
				return false
			}
			for _, it := range own {
				total += it.units
			}
			items = append(items, own...)
		}
		if total > capacity {
			p.addCumulative(capacity, items)
			apart.collect(capacity, items)
		}
		if p.m.setting[r] && !p.addSettings(items) {
			return false
		}
	}
	return apart.post()
}
