package share

import (
	"cmp"
	"slices"
)

// model is a problem made ready for the search: lines in order of decreasing weight, bounds tightened by one another,
// families turned into groups, candidates that can never be chosen left out.
type model struct {
	problem   *Problem
	choose    int
	order     []int // order[i]: the problem's number of line i
	stock     []int64
	weight    []int64
	least     []int64
	dishes    []dish
	groups    []group
	demanding []int // the groups of which some must be chosen
	limits    []int64
	lightest  [][]int64 // of each limit and number of dishes: the least that so many load it with
}

// dish is a candidate that can be chosen.
type dish struct {
	uses     []use // in order of lines
	min, max int64 // of its total
	value    int64
	spare    int64 // what it can take at most above the minima of its uses
	groups   []int32
	loads    []int64 // as many as limits, or none
	index    int     // in the problem
}

type use struct {
	line     int32
	min, max int64
}

type group struct{ least, most int }

func newModel(p *Problem) *model {
	m := &model{problem: p, choose: p.Choose}
	m.order = make([]int, len(p.Stock))
	for i := range m.order {
		m.order[i] = i
	}
	slices.SortStableFunc(m.order, func(a, b int) int { return cmp.Compare(p.Weight[b], p.Weight[a]) })
	m.stock = make([]int64, len(m.order))
	m.weight = make([]int64, len(m.order))
	m.least = make([]int64, len(m.order))
	rank := make([]int32, len(m.order))
	for i, line := range m.order {
		m.stock[i], m.weight[i] = p.Stock[line], p.Weight[line]
		if p.Least != nil {
			m.least[i] = p.Least[line]
		}
		rank[line] = int32(i)
	}
	m.limits = p.Limits
	of := m.gatherGroups()
	for i := range p.Candidates {
		if d, ok := m.dish(i, rank); ok {
			d.groups = of[i]
			m.dishes = append(m.dishes, d)
		}
	}
	m.lighten()
	return m
}

// lighten works out how little so many dishes can load each limit with.
func (m *model) lighten() {
	if m.choose > len(m.dishes) { // there is no choice
		return
	}
	m.lightest = make([][]int64, len(m.limits))
	for i := range m.limits {
		loads := make([]int64, len(m.dishes))
		for d := range m.dishes {
			loads[d] = m.dishes[d].load(i)
		}
		slices.Sort(loads)
		m.lightest[i] = make([]int64, m.choose+1)
		for n := range m.choose {
			m.lightest[i][n+1] = m.lightest[i][n] + loads[n]
		}
	}
}

// load gives what a dish loads a limit with.
func (d *dish) load(limit int) int64 {
	if d.loads == nil {
		return 0
	}
	return d.loads[limit]
}

// gatherGroups takes over the groups and makes one of every family, and gives the groups of each candidate.
func (m *model) gatherGroups() (of [][]int32) {
	of = make([][]int32, len(m.problem.Candidates))
	for i, g := range m.problem.Groups {
		m.groups = append(m.groups, group{g.Least, g.Most})
		if g.Least > 0 {
			m.demanding = append(m.demanding, i)
		}
		for _, c := range g.Members {
			of[c] = append(of[c], int32(i))
		}
	}
	families := map[int]int32{}
	for i := range m.problem.Candidates {
		f := m.problem.Candidates[i].Family
		if f < 0 {
			continue
		}
		g, known := families[f]
		if !known {
			g = int32(len(m.groups))
			families[f] = g
			m.groups = append(m.groups, group{0, 1})
		}
		of[i] = append(of[i], g)
	}
	return of
}

// dish makes a candidate ready. It is not ok where the stock, a limit or its own bounds forbid it by itself.
func (m *model) dish(index int, rank []int32) (d dish, ok bool) {
	c := &m.problem.Candidates[index]
	d = dish{uses: make([]use, len(c.Uses)), value: c.Value, loads: c.Loads, index: index}
	for i, l := range m.limits {
		if d.load(i) > l {
			return d, false
		}
	}
	var low, high int64
	for i, u := range c.Uses {
		line := rank[u.Line]
		if u.Min > m.stock[line] {
			return d, false
		}
		d.uses[i] = use{line, u.Min, min(u.Max, m.stock[line])}
		low += d.uses[i].min
		high += d.uses[i].max
	}
	d.min, d.max = max(c.Min, low), min(c.Max, high)
	if d.min > d.max {
		return d, false
	}
	for i := range d.uses {
		u := &d.uses[i]
		u.min, u.max = max(u.min, d.min-(high-u.max)), min(u.max, d.max-(low-u.min))
	}
	d.spare = d.max
	for _, u := range d.uses {
		d.spare -= u.min
	}
	slices.SortFunc(d.uses, func(a, b use) int { return cmp.Compare(a.line, b.line) })
	return d, true
}
