package timetable

import (
	"context"
	"testing"
)

// TestVerify makes sure that the checker the other tests rely on finds each kind of fault.
func TestVerify(t *testing.T) {
	p := Problem{
		Capacity: []int{1, 2},
		Setting:  []bool{false, true},
		Due:      20,
		Tasks: []Task{
			{Minutes: 3, Needs: []int{1, 0}, Latest: 6, Weight: 1},
			{Minutes: 2, Needs: []int{1, 0}, After: []int{0}, Within: []int{2}},
			{Minutes: 4, Needs: []int{0, 1}, Setting: 180, Earliest: 1, Else: []Mode{{Minutes: 9}}},
			{Minutes: 4, Needs: []int{0, 1}, Setting: 220},
			{Minutes: 4, Needs: []int{0, 1}, Setting: 220},
		},
	}
	good, err := Solve(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	if err := verify(p, good); err != nil {
		t.Fatal(err)
	}
	base := Result{Start: []int{0, 3, 4, 0, 0}, Mode: make([]int, 5), Makespan: 8, Bound: 8, Proven: true, Waiting: 5, WaitingBound: 5, WaitingProven: true}
	if err := verify(p, base); err != nil {
		t.Fatal(err)
	}
	faults := map[string]func(r *Result){
		"before the start":    func(r *Result) { r.Start[3] = -1 },
		"precedence":          func(r *Result) { r.Start[1] = 2 },
		"too long after":      func(r *Result) { r.Start[1] = 6 },
		"too late an end":     func(r *Result) { r.Start[0], r.Start[1] = 4, 7; r.Makespan, r.Bound = 9, 9 },
		"too early a start":   func(r *Result) { r.Start[2], r.Start[3], r.Start[4] = 0, 4, 4 },
		"two settings":        func(r *Result) { r.Start[2] = 3 },
		"back to a setting":   func(r *Result) { r.Start[4] = 8; r.Makespan, r.Bound, r.Waiting, r.WaitingBound = 12, 12, 9, 9 },
		"due":                 func(r *Result) { r.Start[2] = 17; r.Makespan, r.Bound, r.Waiting, r.WaitingBound = 21, 21, 18, 18 },
		"no such mode":        func(r *Result) { r.Mode[2] = 2 },
		"mode of another":     func(r *Result) { r.Mode[0] = 1 },
		"no modes":            func(r *Result) { r.Mode = nil },
		"wrong makespan":      func(r *Result) { r.Makespan, r.Bound = 9, 9 },
		"wrong waiting":       func(r *Result) { r.Waiting, r.WaitingBound = 4, 4 },
		"bound above":         func(r *Result) { r.Bound = 9 },
		"proven without":      func(r *Result) { r.Bound = 7 },
		"waiting bound above": func(r *Result) { r.WaitingBound = 6 },
		"waiting unproven":    func(r *Result) { r.WaitingProven = false },
		"a start is missing":  func(r *Result) { r.Start = r.Start[:4] },
	}
	for name, spoil := range faults {
		r := base
		r.Start, r.Mode = append([]int(nil), base.Start...), append([]int(nil), base.Mode...)
		spoil(&r)
		if verify(p, r) == nil {
			t.Errorf("%s: not found in %+v", name, r)
		}
	}
	p.Setting, p.Capacity[1] = nil, 2
	base.Start[2] = 2
	if verify(p, base) == nil {
		t.Errorf("three units of two held")
	}
}
