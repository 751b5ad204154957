package share_test

import (
	"slices"
	"testing"

	"scullion/planner/share"
)

// failer is what a test and a property have in common.
type failer interface {
	Helper()
	Fatalf(format string, args ...any)
}

var _ failer = (*testing.T)(nil)

// verify holds a result against the problem from the outside: every rule there is, and the sum it claims.
func verify(t failer, p share.Problem, r share.Result) {
	t.Helper()
	if len(r.Chosen) != p.Choose || len(r.Amounts) != p.Choose {
		t.Fatalf("%d chosen with %d amounts, not %d", len(r.Chosen), len(r.Amounts), p.Choose)
	}
	used := make([]int64, len(p.Stock))
	var value int64
	for k, c := range r.Chosen {
		if k > 0 && c <= r.Chosen[k-1] {
			t.Fatalf("not ascending: %v", r.Chosen)
		}
		value += p.Candidates[c].Value
		verifyAmounts(t, p.Candidates[c], r.Amounts[k], used)
	}
	for i, u := range used {
		if u > p.Stock[i] || p.Least != nil && u < p.Least[i] {
			t.Fatalf("line %d: %d used", i, u)
		}
		value += u * p.Weight[i]
	}
	if value != r.Value || r.Bound < r.Value || r.Proven != (r.Bound == r.Value) {
		t.Fatalf("worth %d, result says %d, bound %d, proven %v", value, r.Value, r.Bound, r.Proven)
	}
	verifySets(t, p, r.Chosen)
}

func verifyAmounts(t failer, c share.Candidate, amounts, used []int64) {
	t.Helper()
	if len(amounts) != len(c.Uses) {
		t.Fatalf("%d amounts for %v", len(amounts), c.Uses)
	}
	var total int64
	for j, a := range amounts {
		u := c.Uses[j]
		if a < u.Min || a > u.Max {
			t.Fatalf("amount %d for %v", a, u)
		}
		total += a
		used[u.Line] += a
	}
	if total < c.Min || total > c.Max {
		t.Fatalf("total %d of %v", total, c)
	}
}

func verifySets(t failer, p share.Problem, chosen []int) {
	t.Helper()
	families := map[int]bool{}
	for _, c := range chosen {
		f := p.Candidates[c].Family
		if f >= 0 && families[f] {
			t.Fatalf("family %d twice in %v", f, chosen)
		}
		families[f] = true
	}
	for i, g := range p.Groups {
		n := 0
		for _, m := range g.Members {
			if slices.Contains(chosen, m) {
				n++
			}
		}
		if n < g.Least || n > g.Most {
			t.Fatalf("group %d: %d of %v in %v", i, n, g, chosen)
		}
	}
	for i, limit := range p.Limits {
		for _, c := range chosen {
			if loads := p.Candidates[c].Loads; loads != nil {
				limit -= loads[i]
			}
		}
		if limit < 0 {
			t.Fatalf("limit %d is passed by %d: %v", i, -limit, chosen)
		}
	}
	if p.Fits != nil && !p.Fits(slices.Clone(chosen)) {
		t.Fatalf("%v do not fit", chosen)
	}
}
