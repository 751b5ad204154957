package share_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"scullion/planner/share"
)

// TestInvalid breaks a sound problem in one place each time.
func TestInvalid(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(*share.Problem)
		says  string
	}{
		"weights missing":     {func(p *share.Problem) { p.Weight = p.Weight[:1] }, "2 lines of stock but 1 weights"},
		"least missing":       {func(p *share.Problem) { p.Least = p.Least[:1] }, "2 lines of stock but 1 least"},
		"choose below 0":      {func(p *share.Problem) { p.Choose = -1 }, "-1 to choose"},
		"stock below 0":       {func(p *share.Problem) { p.Stock[1] = -5 }, "line 1: stock -5"},
		"weight below 0":      {func(p *share.Problem) { p.Weight[0] = -1 }, "line 0: weight -1"},
		"least above stock":   {func(p *share.Problem) { p.Least[0] = 11 }, "line 0: at least 11 of 10"},
		"least below 0":       {func(p *share.Problem) { p.Least[0] = -1 }, "line 0: at least -1"},
		"total out of order":  {func(p *share.Problem) { p.Candidates[1].Min = 9 }, "candidate 1: total between 9 and 8"},
		"total below 0":       {func(p *share.Problem) { p.Candidates[1].Min = -1 }, "candidate 1: total between -1"},
		"no such line":        {func(p *share.Problem) { p.Candidates[0].Uses[0].Line = 2 }, "candidate 0: no line 2"},
		"line below 0":        {func(p *share.Problem) { p.Candidates[0].Uses[0].Line = -1 }, "candidate 0: no line -1"},
		"line twice":          {func(p *share.Problem) { p.Candidates[0].Uses[1].Line = 0 }, "candidate 0: line 0 named twice"},
		"use out of order":    {func(p *share.Problem) { p.Candidates[0].Uses[1].Min = 7 }, "candidate 0: between 7 and 6 of line 1"},
		"use below 0":         {func(p *share.Problem) { p.Candidates[0].Uses[1].Min = -7 }, "candidate 0: between -7"},
		"group out of order":  {func(p *share.Problem) { p.Groups[0].Least = 2 }, "group 0: between 2 and 1"},
		"group below 0":       {func(p *share.Problem) { p.Groups[0].Least = -1 }, "group 0: between -1"},
		"no such member":      {func(p *share.Problem) { p.Groups[0].Members[0] = 2 }, "group 0: no candidate 2"},
		"member twice":        {func(p *share.Problem) { p.Groups[0].Members = []int{1, 1} }, "group 0: candidate 1 named twice"},
		"stock too great":     {func(p *share.Problem) { p.Stock[0] = math.MaxInt64 }, "too great"},
		"worth too great":     {func(p *share.Problem) { p.Stock[0], p.Weight[0] = 1<<30, 1<<30 }, "too great"},
		"weight too great":    {func(p *share.Problem) { p.Stock[0], p.Least[0], p.Weight[0] = 1, 0, math.MaxInt64 }, "too great"},
		"value too great":     {func(p *share.Problem) { p.Candidates[0].Value = math.MaxInt64 / 2 }, "candidate 0: value"},
		"value too small":     {func(p *share.Problem) { p.Candidates[0].Value = math.MinInt64 }, "candidate 0: value"},
		"values too great":    {func(p *share.Problem) { p.Candidates[0].Value = -1 << 57 }, "candidate 0: value"},
		"sums of them, twice": {func(p *share.Problem) { p.Stock[0], p.Stock[1], p.Weight[0] = 1<<56, 1<<56, 0 }, "too great"},
	} {
		t.Run(name, func(t *testing.T) {
			p := sound()
			if _, err := share.Choose(t.Context(), p); err != nil {
				t.Fatal(err)
			}
			c.spoil(&p)
			_, err := share.Choose(t.Context(), p)
			if !errors.Is(err, share.ErrInvalid) || !strings.Contains(err.Error(), c.says) {
				t.Errorf("got %v, want %q", err, c.says)
			}
		})
	}
}

func sound() share.Problem {
	return share.Problem{
		Stock: []int64{10, 10}, Weight: []int64{1, 2}, Choose: 2, Least: []int64{3, 0},
		Candidates: []share.Candidate{
			{Family: -1, Uses: []share.Use{{Line: 0, Min: 1, Max: 5}, {Line: 1, Min: 0, Max: 6}}, Max: 9},
			{Family: 0, Uses: []share.Use{{Line: 1, Min: 0, Max: 8}}, Max: 8},
		},
		Groups: []share.Group{{Members: []int{0}, Least: 1, Most: 1}},
	}
}

// TestNothing has the corners where there is little to choose.
func TestNothing(t *testing.T) {
	for name, c := range map[string]struct {
		p    share.Problem
		want error
	}{
		"nothing at all":      {share.Problem{}, nil},
		"nothing to choose":   {share.Problem{Stock: []int64{5}, Weight: []int64{1}}, nil},
		"but some to be used": {share.Problem{Stock: []int64{5}, Weight: []int64{1}, Least: []int64{1}}, share.ErrInfeasible},
		"more than there are": {share.Problem{Choose: math.MaxInt}, share.ErrInfeasible},
		"nothing fits":        {share.Problem{Fits: func([]int) bool { return false }}, share.ErrInfeasible},
		"a dish of nothing":   {share.Problem{Choose: 1, Candidates: []share.Candidate{{}}}, nil},
		"a family twice":      {share.Problem{Choose: 2, Candidates: []share.Candidate{{}, {}}}, share.ErrInfeasible},
		"no family twice":     {share.Problem{Choose: 2, Candidates: []share.Candidate{{Family: -1}, {Family: -1}}}, nil},
		"a load too much":     {share.Problem{Choose: 1, Limits: []int64{3}, Candidates: []share.Candidate{{Loads: []int64{4}}}}, share.ErrInfeasible},
		"two loads too much":  {share.Problem{Choose: 2, Limits: []int64{3}, Candidates: []share.Candidate{{Family: -1, Loads: []int64{2}}, {Family: -1, Loads: []int64{2}}}}, share.ErrInfeasible},
		"more than are light": {share.Problem{Choose: math.MaxInt, Limits: []int64{3}, Candidates: []share.Candidate{{Loads: []int64{4}}}}, share.ErrInfeasible},
		"a group without":     {share.Problem{Groups: []share.Group{{Least: 1, Most: 1}}}, share.ErrInfeasible},
	} {
		t.Run(name, func(t *testing.T) {
			r, err := share.Choose(t.Context(), c.p)
			if !errors.Is(err, c.want) {
				t.Fatalf("got %v, %v; want %v", r, err, c.want)
			}
			if c.want == nil {
				verify(t, c.p, r)
			}
		})
	}
}
