package timetable

// Resources of the kitchens below.
const (
	hands = iota
	rings
	oven
	microwave
	kettle
	kinds
)

// kitchenProblem is a random evening: some dishes of some steps each, of which some can wait and some cannot, some can
// be done in another way, and all should be ready together. There are three or four dishes, or as many as it takes to
// have so many steps. Invented, to look like what a kitchen asks.
func kitchenProblem(d draw, steps int) Problem {
	p := Problem{
		Capacity: []int{hands: d(1, 3), rings: 4, oven: d(1, 2), microwave: 1, kettle: 1},
		Setting:  []bool{oven: true, kettle: false},
	}
	for range d(3, 4) {
		addDish(d, &p)
	}
	for len(p.Tasks) < steps {
		addDish(d, &p)
	}
	return p
}

func addDish(d draw, p *Problem) {
	first := len(p.Tasks)
	steps := d(6, 10)
	for k := range steps {
		t := kitchenStep(d)
		now := len(p.Tasks)
		switch {
		case k == steps-1: // all comes together
			for j := first; j < now; j++ {
				if !isFollowed(p, j) {
					t.After = append(t.After, j)
					t.Within = append(t.Within, d(-10, 10))
				}
			}
			t.Weight = 10
		case k > 0 && !d.oneIn(3):
			t.After = []int{now - 1}
			t.Within = []int{d(-10, 10)}
		case k > 1:
			t.After = []int{d(first, now-1)}
			t.Within = []int{-1}
		}
		p.Tasks = append(p.Tasks, t)
	}
}

func isFollowed(p *Problem, j int) bool {
	for _, t := range p.Tasks {
		for _, a := range t.After {
			if a == j {
				return true
			}
		}
	}
	return false
}

func kitchenStep(d draw) Task {
	needs := func(kind int, held int) ([]int, []int) {
		n, f := make([]int, kinds), make([]int, kinds)
		n[hands], f[hands] = 1, held
		if kind != hands {
			n[kind] = 1
		}
		return n, f
	}
	var t Task
	switch d(0, 9) {
	case 0, 1, 2, 3:
		t.Minutes = d(1, 8)
		t.Needs, t.For = needs(hands, 0)
	case 4, 5, 6:
		t.Minutes = d(4, 20)
		t.Needs, t.For = needs(rings, d(0, 3))
		t.Weight = d(0, 2)
	case 7:
		t.Minutes, t.Setting = d(10, 40), 160+20*d(0, 2)
		t.Needs, t.For = needs(oven, d(1, 3))
		t.Weight = d(0, 2)
	case 8:
		t.Minutes = d(2, 8)
		t.Needs, t.For = needs(microwave, 1)
		m := Mode{Minutes: t.Minutes + d(2, 8)}
		m.Needs, m.For = needs(rings, 2)
		t.Else = []Mode{m}
	default:
		t.Minutes = 4
		t.Needs, t.For = needs(kettle, 1)
		m := Mode{Minutes: 9}
		m.Needs, m.For = needs(rings, 1)
		t.Else = []Mode{m}
	}
	return t
}

// inService is the problem in the middle of a timetable: what has started stays as it is, but for one step that takes
// three minutes longer and may upset all that follows; what cannot wait may now, a little.
func inService(p Problem, r Result) Problem {
	now := r.Makespan / 2
	q := p
	q.Tasks = append([]Task(nil), p.Tasks...)
	late := false
	for i := range q.Tasks {
		t := &q.Tasks[i]
		t.Within = append([]int(nil), t.Within...)
		for k := range t.Within {
			if t.Within[k] >= 0 {
				t.Within[k] += 5
			}
		}
		if r.Start[i] > now {
			t.Earliest = max(t.Earliest, now)
			continue
		}
		if r.Mode != nil && r.Mode[i] > 0 {
			m := t.Else[r.Mode[i]-1]
			t.Minutes, t.Needs, t.For, t.Setting = m.Minutes, m.Needs, m.For, m.Setting
		}
		t.Else = nil
		if !late && r.Start[i]+t.Minutes > now {
			t.Minutes += 3
			late = true
		}
		t.Earliest, t.Latest = r.Start[i], r.Start[i]+t.Minutes
	}
	return q
}
