package share_test

import (
	"context"
	"errors"
	"flag"
	"os"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"scullion/planner/share"
)

func TestMain(m *testing.M) {
	flag.Parse()
	if checks := flag.Lookup("rapid.checks"); checks.Value.String() == checks.DefValue {
		if err := checks.Value.Set("3000"); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}

// size bounds the problems that are drawn.
type size struct{ lines, candidates, uses, amount, choose int }

// draw gives a random problem with families, and now and then groups, least amounts, values and a timetable.
func draw(t *rapid.T, s size) share.Problem {
	amount := rapid.Int64Range(0, int64(s.amount))
	lines := rapid.IntRange(1, s.lines).Draw(t, "lines")
	p := share.Problem{Choose: rapid.IntRange(0, s.choose).Draw(t, "choose")}
	for range lines {
		p.Stock = append(p.Stock, 2*amount.Draw(t, "stock"))
		p.Weight = append(p.Weight, rapid.Int64Range(0, 4).Draw(t, "weight"))
	}
	valued := rapid.Bool().Draw(t, "valued")
	for range rapid.IntRange(p.Choose, s.candidates).Draw(t, "candidates") {
		c := share.Candidate{Family: rapid.IntRange(-1, 4).Draw(t, "family")}
		if valued {
			c.Value = rapid.Int64Range(-6, 6).Draw(t, "value")
		}
		most := int64(0)
		for _, line := range rapid.SliceOfNDistinct(rapid.IntRange(0, lines-1), 1, min(lines, s.uses), rapid.ID).Draw(t, "uses") {
			u := share.Use{Line: line, Min: amount.Draw(t, "min") / 3, Max: amount.Draw(t, "max")}
			u.Max = max(u.Min, u.Max)
			c.Uses = append(c.Uses, u)
			most += u.Max
		}
		c.Min = amount.Draw(t, "least total")
		c.Max = max(c.Min, rapid.Int64Range(0, most+1).Draw(t, "most total"))
		p.Candidates = append(p.Candidates, c)
	}
	drawGroups(t, &p)
	drawLeast(t, &p)
	drawLoads(t, &p)
	drawFits(t, &p)
	return p
}

func drawSet(t *rapid.T, p *share.Problem, least, most int) []int {
	n := len(p.Candidates)
	return rapid.SliceOfNDistinct(rapid.IntRange(0, n-1), least, min(n, most), rapid.ID).Draw(t, "set")
}

func drawGroups(t *rapid.T, p *share.Problem) {
	if len(p.Candidates) == 0 {
		return
	}
	for range rapid.IntRange(0, 2).Draw(t, "groups") {
		least := rapid.IntRange(0, 2).Draw(t, "least of group")
		most := least + rapid.IntRange(0, 2).Draw(t, "most of group")
		p.Groups = append(p.Groups, share.Group{Members: drawSet(t, p, 1, 6), Least: least, Most: most})
	}
}

func drawLeast(t *rapid.T, p *share.Problem) {
	if rapid.IntRange(0, 3).Draw(t, "with least") > 0 {
		return
	}
	p.Least = make([]int64, len(p.Stock))
	for i, s := range p.Stock {
		p.Least[i] = rapid.Int64Range(0, s).Draw(t, "least") / 2
	}
}

func drawLoads(t *rapid.T, p *share.Problem) {
	if rapid.Bool().Draw(t, "without limits") {
		return
	}
	for range rapid.IntRange(1, 2).Draw(t, "limits") {
		p.Limits = append(p.Limits, rapid.Int64Range(0, 12).Draw(t, "limit"))
	}
	for i := range p.Candidates {
		if rapid.IntRange(0, 4).Draw(t, "unloaded") == 0 {
			continue
		}
		for range p.Limits {
			p.Candidates[i].Loads = append(p.Candidates[i].Loads, rapid.Int64Range(0, 6).Draw(t, "load"))
		}
	}
}

func drawFits(t *rapid.T, p *share.Problem) {
	if len(p.Candidates) < 2 || rapid.Bool().Draw(t, "without fits") {
		return
	}
	var clashes [][]int
	for range rapid.IntRange(1, 6).Draw(t, "clashes") {
		clashes = append(clashes, drawSet(t, p, 1, 3))
	}
	p.Fits = func(chosen []int) bool {
		return !slices.ContainsFunc(clashes, func(clash []int) bool {
			return !slices.ContainsFunc(clash, func(c int) bool { return !slices.Contains(chosen, c) })
		})
	}
}

var small = size{lines: 5, candidates: 11, uses: 3, amount: 6, choose: 4}

// TestBrute compares with trying everything.
func TestBrute(t *testing.T) { compareWithBrute(t, share.Choose) }

// TestBruteAlone does so for the exact search without the help it has.
func TestBruteAlone(t *testing.T) { compareWithBrute(t, share.ProveAlone) }

func compareWithBrute(t *testing.T, choose func(context.Context, share.Problem) (share.Result, error)) {
	found, not := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		p := draw(t, small)
		want, ok := brute(p)
		r, err := choose(t.Context(), p)
		if !ok {
			if not++; !errors.Is(err, share.ErrInfeasible) {
				t.Fatalf("there is no choice, but got %v, %v", r, err)
			}
			return
		}
		found++
		if err != nil {
			t.Fatalf("there is a choice of %d, but: %v", want, err)
		}
		verify(t, p, r)
		if r.Value != want || !r.Proven {
			t.Fatalf("got %d, proven %v; the best is %d", r.Value, r.Proven, want)
		}
	})
	if found < 100 || not < 100 {
		t.Errorf("of the problems drawn, %d had a choice and %d had none", found, not)
	}
}

// TestCutValue sees that what brute relies on agrees with trying all amounts.
func TestCutValue(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := draw(t, size{lines: 3, candidates: 2, uses: 3, amount: 4, choose: 2})
		chosen := []int{0, 1}[:p.Choose]
		want, ok := exhaust(p, chosen)
		if got, feasible := cutValue(p, chosen); feasible != ok || ok && got != want {
			t.Fatalf("got %d, %v; want %d, %v", got, feasible, want, ok)
		}
	})
}
