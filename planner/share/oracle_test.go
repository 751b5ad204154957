package share_test

import (
	"errors"
	"maps"
	"math/bits"
	"slices"
	"strings"
	"testing"

	"github.com/crillab/gophersat/solver"

	"scullion/planner/share"
)

// TestOracle compares the first dishes of the small crates, in coarse steps, with a pseudo-Boolean solver that knows
// nothing of flows. It must not run beside other uses of that solver, which shares a buffer.
func TestOracle(t *testing.T) {
	const first, step = 60, 25 // dishes, grams
	feasible := 0
	for name := range readKnown(t) {
		if !strings.Contains(name, "I12") {
			continue
		}
		p := coarse(readCrate(t, name), first, step)
		want, ok := optimal(p)
		r, err := share.Choose(t.Context(), p)
		if !ok {
			if !errors.Is(err, share.ErrInfeasible) {
				t.Errorf("%s: there is no choice, but got %v, %v", name, r, err)
			}
			continue
		}
		feasible++
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		verify(t, p, r)
		if r.Value != want || !r.Proven {
			t.Errorf("%s: got %d, proven %v; the oracle has %d", name, r.Value, r.Proven, want)
		}
	}
	if feasible < 3 {
		t.Errorf("only %d instances have a choice", feasible)
	}
}

// coarse takes the first candidates and counts amounts in steps.
func coarse(p share.Problem, first int, step int64) share.Problem {
	up := func(a int64) int64 { return (a + step - 1) / step }
	out := share.Problem{Weight: p.Weight, Choose: p.Choose}
	for _, s := range p.Stock {
		out.Stock = append(out.Stock, s/step)
	}
	for _, c := range p.Candidates[:first] {
		c.Min, c.Max = up(c.Min), c.Max/step
		c.Uses = slices.Clone(c.Uses)
		for j := range c.Uses {
			u := &c.Uses[j]
			u.Min, u.Max = up(u.Min), max(up(u.Min), u.Max/step)
		}
		out.Candidates = append(out.Candidates, c)
	}
	return out
}

// optimal gives the best value of a plain problem: a variable says whether a dish is chosen, further ones are the
// binary digits of what it takes above its minima.
func optimal(p share.Problem) (value int64, ok bool) {
	e := encoding{next: len(p.Candidates) + 1}
	worth, all := row{}, row{}
	families := map[int]row{}
	stock := make([]row, len(p.Stock))
	for i := range stock {
		stock[i] = row{}
	}
	for c, dish := range p.Candidates {
		chosen, total := c+1, row{}
		all[chosen] = 1
		if families[dish.Family] == nil {
			families[dish.Family] = row{}
		}
		families[dish.Family][chosen] = 1
		for _, u := range dish.Uses {
			digits := e.digits(chosen, u.Max-u.Min)
			digits[chosen] = int(u.Min)
			for v, size := range digits {
				total[v] += size
				stock[u.Line][v] += size
				worth[v] += size * int(p.Weight[u.Line])
			}
		}
		low, high := maps.Clone(total), maps.Clone(total)
		low[chosen] -= int(dish.Min)
		high[chosen] -= int(dish.Max)
		e.atLeast(low, 0)
		e.atMost(high, 0)
	}
	e.atLeast(all, p.Choose)
	e.atMost(all, p.Choose)
	for _, f := range slices.Sorted(maps.Keys(families)) {
		e.atMost(families[f], 1)
	}
	for i, s := range p.Stock {
		e.atMost(stock[i], int(s))
	}
	return e.maximise(worth)
}

// row is a sum: the factor of each variable.
type row map[int]int

// encoding gathers constraints. No variable stands twice in one.
type encoding struct {
	rows []solver.PBConstr
	next int // variable
}

// digits makes a number of at most most, that is 0 unless chosen.
func (e *encoding) digits(chosen int, most int64) row {
	number := row{}
	for b := range bits.Len64(uint64(most)) {
		number[e.next] = 1 << b
		e.next++
	}
	limit := maps.Clone(number)
	limit[chosen] = -int(most)
	e.atMost(limit, 0)
	return number
}

func (e *encoding) atLeast(r row, n int) {
	var lits, factors []int
	for _, v := range slices.Sorted(maps.Keys(r)) {
		if r[v] != 0 {
			lits, factors = append(lits, v), append(factors, r[v])
		}
	}
	if len(lits) > 0 {
		e.rows = append(e.rows, solver.GtEq(lits, factors, n))
	}
}

func (e *encoding) atMost(r row, n int) {
	negated := row{}
	for v, factor := range r {
		negated[v] = -factor
	}
	e.atLeast(negated, -n)
}

func (e *encoding) maximise(r row) (value int64, ok bool) {
	pb := solver.ParsePBConstrs(slices.DeleteFunc(e.rows, func(c solver.PBConstr) bool { return c.AtLeast <= 0 }))
	var lits []solver.Lit
	var factors []int
	for _, v := range slices.Sorted(maps.Keys(r)) {
		lits = append(lits, solver.IntToLit(int32(-v)))
		factors = append(factors, r[v])
		value += int64(r[v])
	}
	pb.SetCostFunc(lits, factors)
	res := solver.New(pb).Optimal(nil, nil)
	return value - int64(res.Weight), res.Status == solver.Sat
}
