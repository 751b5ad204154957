package timetable

// mostCouples is how many orders get Booleans of their own: more would cost more than they bring.
const mostCouples = 4000

// pairs finds tasks that can never run at the same time, and posts for each two a Boolean that says which is first.
// Search on orders is what proves, and the clauses learned over them are short.
type pairs struct {
	p      *plan
	follow [][]uint64 // of each task: set of tasks that follow it
	order  []couple
	number map[[2]int32]int
}

// couple is two items that exclude each other, and where they are there surely the number of the Boolean for the order
// of their tasks, which is the same on every resource.
type couple struct {
	first, second item
	number        int
}

func newPairs(p *plan) *pairs {
	n := len(p.m.tasks)
	a := &pairs{p: p, follow: make([][]uint64, n), number: map[[2]int32]int{}}
	for k := n - 1; k >= 0; k-- {
		i := p.m.order[k]
		set := make([]uint64, (n+63)/64)
		for _, j := range p.m.tasks[i].followers {
			set[j/64] |= 1 << (j % 64)
			for w, bits := range a.follow[j] {
				set[w] |= bits
			}
		}
		a.follow[i] = set
	}
	return a
}

func (a *pairs) follows(i, j int32) bool { return a.follow[i][j/64]>>(j%64)&1 == 1 }

// collect adds the items of one resource that are together more than its capacity.
func (a *pairs) collect(capacity int32, items []item) {
	for k, x := range items {
		for _, y := range items[:k] {
			if len(a.order) == mostCouples {
				return
			}
			if x.task == y.task || x.units+y.units <= capacity || a.follows(x.task, y.task) || a.follows(y.task, x.task) {
				continue
			}
			a.add(y, x)
		}
	}
}

func (a *pairs) add(x, y item) {
	number, known := len(a.order), false
	if x.condition.v < 0 && y.condition.v < 0 {
		key := [2]int32{x.task, y.task}
		if number, known = a.number[key]; !known {
			number = len(a.order)
			a.number[key] = number
		}
	}
	if known {
		c := &a.order[number]
		if c.first.finish.x == x.finish.x && c.second.finish.x == y.finish.x {
			c.first.finish.plus = max(c.first.finish.plus, x.finish.plus)
			c.second.finish.plus = max(c.second.finish.plus, y.finish.plus)
			return
		}
	}
	a.order = append(a.order, couple{x, y, number})
}

func (a *pairs) post() bool {
	before := make([]atom, len(a.order))
	for k, c := range a.order {
		if c.number == k {
			before[k] = a.p.boolean()
		}
		if !a.p.apart(c.first, c.second, before[c.number]) {
			return false
		}
	}
	return true
}

// apart keeps two items from running at the same time: the first is done with before the second starts where before
// holds, else the second before the first.
func (p *plan) apart(x, y item, before atom) bool {
	if p.stop.over() {
		p.halted = true
		return false
	}
	yes, no := before, before.not()
	if x.condition.v >= 0 || y.condition.v >= 0 {
		yes, no = p.boolean(), p.boolean()
		if !p.requireIf(x, y, before.not(), yes) || !p.requireIf(x, y, before, no) {
			return false
		}
	}
	return p.lag(x.finish.x, y.start, x.finish.plus, yes) && p.lag(y.finish.x, x.start, y.finish.plus, no)
}

// requireIf requires one of two atoms where both items are there.
func (p *plan) requireIf(x, y item, a, b atom) bool {
	atoms := []atom{a, b}
	for _, c := range []atom{x.condition, y.condition} {
		if c.v >= 0 {
			atoms = append(atoms, c.not())
		}
	}
	return p.require(atoms...)
}
