package share_test

import (
	"cmp"
	"slices"

	"scullion/planner/share"
)

// brute finds the best value by trying every set of candidates, with the amounts worked out by another way than the
// package's. It is not ok where there is no choice.
func brute(p share.Problem) (best int64, ok bool) {
	var try func(from int, chosen []int)
	try = func(from int, chosen []int) {
		if len(chosen) < p.Choose {
			for c := from; c < len(p.Candidates); c++ {
				try(c+1, append(slices.Clone(chosen), c))
			}
			return
		}
		if v, feasible := cutValue(p, chosen); feasible && setsAllow(p, chosen) && (!ok || v > best) {
			best, ok = v, true
		}
	}
	try(0, nil)
	return best, ok
}

func setsAllow(p share.Problem, chosen []int) bool {
	for i, c := range chosen {
		for _, d := range chosen[:i] {
			if f := p.Candidates[c].Family; f >= 0 && f == p.Candidates[d].Family {
				return false
			}
		}
	}
	for _, g := range p.Groups {
		n := 0
		for _, m := range g.Members {
			if slices.Contains(chosen, m) {
				n++
			}
		}
		if n < g.Least || n > g.Most {
			return false
		}
	}
	for i, limit := range p.Limits {
		for _, c := range chosen {
			if loads := p.Candidates[c].Loads; loads != nil {
				limit -= loads[i]
			}
		}
		if limit < 0 {
			return false
		}
	}
	return p.Fits == nil || p.Fits(slices.Clone(chosen))
}

// cutValue gives the worth of the best amounts for a choice without finding them, from minimum cuts alone: whether
// there are any by the condition for circulations (Hoffman 1960), and what can be used of the heaviest lines together
// from the smallest cut that parts them from the dishes (Ford and Fulkerson 1956). A cut is a set of dishes; the best
// side of each line follows.
func cutValue(p share.Problem, chosen []int) (value int64, ok bool) {
	t := newTable(p, chosen)
	order := make([]int, len(p.Stock))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Compare(p.Weight[b], p.Weight[a]) })
	for cut := range 1 << len(chosen) {
		if !t.circulates(cut) {
			return 0, false
		}
	}
	for k, line := range order {
		next := int64(0)
		if k+1 < len(order) {
			next = p.Weight[order[k+1]]
		}
		value += (p.Weight[line] - next) * t.mostOf(order[:k+1])
	}
	for _, c := range chosen {
		value += p.Candidates[c].Value
	}
	return value, true
}

// table holds the bounds of a choice: of each dish and line.
type table struct {
	p         share.Problem
	chosen    []int
	low, high [][]int64
}

func newTable(p share.Problem, chosen []int) table {
	t := table{p: p, chosen: chosen}
	for _, c := range chosen {
		low, high := make([]int64, len(p.Stock)), make([]int64, len(p.Stock))
		for _, u := range p.Candidates[c].Uses {
			low[u.Line], high[u.Line] = u.Min, u.Max
		}
		t.low, t.high = append(t.low, low), append(t.high, high)
	}
	return t
}

// sides adds up what the dishes within the cut take of a line at most and at least, and the others at most and least.
func (t table) sides(cut, line int) (inHigh, inLow, outHigh, outLow int64) {
	for k := range t.chosen {
		if cut>>k&1 == 1 {
			inHigh += t.high[k][line]
			inLow += t.low[k][line]
		} else {
			outHigh += t.high[k][line]
			outLow += t.low[k][line]
		}
	}
	return
}

func (t table) least(line int) int64 {
	if t.p.Least == nil {
		return 0
	}
	return t.p.Least[line]
}

// circulates says whether a cut lets the lower bounds be met.
func (t table) circulates(cut int) bool {
	var must, can, least, most int64
	for k, c := range t.chosen {
		if cut>>k&1 == 1 {
			least += t.p.Candidates[c].Min
			most += t.p.Candidates[c].Max
		}
	}
	for i, stock := range t.p.Stock {
		inHigh, inLow, outHigh, outLow := t.sides(cut, i)
		can += min(inHigh, stock-outLow)
		must += max(inLow, t.least(i)-outHigh)
	}
	return least <= can && must <= most
}

// mostOf is the greatest amount that can be used of some lines together.
func (t table) mostOf(lines []int) int64 {
	smallest := int64(1) << 62
	for cut := range 1 << len(t.chosen) {
		var size int64
		for k, c := range t.chosen {
			if cut>>k&1 == 0 {
				size += t.p.Candidates[c].Max
			}
		}
		for i, stock := range t.p.Stock {
			inHigh, _, _, outLow := t.sides(cut, i)
			if slices.Contains(lines, i) {
				size += min(stock-outLow, inHigh)
			} else {
				size += min(-outLow, inHigh-t.least(i))
			}
		}
		smallest = min(smallest, size)
	}
	return smallest
}

// exhaust gives the worth of the best amounts for a choice by trying all amounts.
func exhaust(p share.Problem, chosen []int) (best int64, ok bool) {
	used, totals := make([]int64, len(p.Stock)), make([]int64, len(chosen))
	var try func(k, j int)
	try = func(k, j int) {
		switch {
		case k == len(chosen):
			if v, feasible := worthOf(p, chosen, used); feasible && (!ok || v > best) {
				best, ok = v, true
			}
			return
		case j == len(p.Candidates[chosen[k]].Uses):
			if c := p.Candidates[chosen[k]]; totals[k] >= c.Min && totals[k] <= c.Max {
				try(k+1, 0)
			}
			return
		}
		u := p.Candidates[chosen[k]].Uses[j]
		for a := u.Min; a <= u.Max; a++ {
			used[u.Line] += a
			totals[k] += a
			try(k, j+1)
			used[u.Line] -= a
			totals[k] -= a
		}
	}
	try(0, 0)
	return best, ok
}

func worthOf(p share.Problem, chosen []int, used []int64) (worth int64, ok bool) {
	for i, u := range used {
		if u > p.Stock[i] || p.Least != nil && u < p.Least[i] {
			return 0, false
		}
		worth += u * p.Weight[i]
	}
	for _, c := range chosen {
		worth += p.Candidates[c].Value
	}
	return worth, true
}
