package timetable

import (
	"context"
	"testing"
)

// TestAnyAdviceWillDo starts from nonsense: the answer must be as good.
func TestAnyAdviceWillDo(t *testing.T) {
	for seed := range seeds(600) {
		d := fromSeed(seed)
		p := fullProblem(d, size{tasks: 8, minutes: 6, resources: 3, units: 3})
		want, wantErr := Solve(context.Background(), p)
		var from Result
		for range len(p.Tasks) - d(0, 4)/4 {
			from.Start = append(from.Start, d(-3, 30))
			from.Mode = append(from.Mode, d(-1, 3))
		}
		got, err := SolveFrom(context.Background(), p, from, nil)
		if (err == nil) != (wantErr == nil) || got.Makespan != want.Makespan || got.Waiting != want.Waiting || !got.WaitingProven && err == nil {
			t.Fatalf("seed %d: %+v (%v), from %+v: %+v (%v)", seed, want, wantErr, from, got, err)
		}
	}
}

// TestOnlyWhatHoldsIsTaken compares the check of timetables from outside with the one of the tests.
func TestOnlyWhatHoldsIsTaken(t *testing.T) {
	good, bad := 0, 0
	for seed := range 1500 {
		d := fromSeed(seed)
		p := fullProblem(d, size{tasks: 4, minutes: 4, resources: 2, units: 3})
		m, err := newModel(&p)
		if err != nil {
			t.Fatal(err)
		}
		r, err := Solve(context.Background(), p)
		if err != nil {
			continue
		}
		if len(p.Tasks) > 0 && d.oneIn(2) {
			r.Start[d(0, len(p.Tasks)-1)] += d(-2, 2)
		}
		holds := m.holds(r.Start, r.Mode)
		measured := m.measure(r.Start, r.Mode)
		if measured.Makespan > int(m.horizon) {
			continue // idle for no reason: not wanted even where it holds
		}
		measured.Proven, measured.Bound = true, measured.Makespan
		measured.WaitingProven, measured.WaitingBound = true, measured.Waiting
		if err := verify(p, measured); holds != (err == nil) {
			t.Fatalf("seed %d: holds: %v, but %v: %+v\n%+v", seed, holds, err, r, p)
		}
		if holds {
			good++
		} else {
			bad++
		}
	}
	if good < 100 || bad < 100 {
		t.Errorf("%d timetables that hold and %d that do not", good, bad)
	}
}
