package timetable

import (
	"context"
	"errors"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

// against compares what Solve gives with brute force.
func against(t rapid.TB, p Problem) {
	t.Helper()
	most := 0
	for i := range p.Tasks {
		most += p.Tasks[i].Minutes + p.Tasks[i].Earliest
		for _, w := range p.Tasks[i].Else {
			most += w.Minutes
		}
	}
	makespan, waiting, ok := brute(p, most)
	r, err := Solve(context.Background(), p)
	switch {
	case errors.Is(err, ErrInfeasible):
		if ok {
			t.Fatalf("said to be infeasible, but can be done in %d: %+v", makespan, p)
		}
	case err != nil:
		t.Fatalf("%v: %+v", err, p)
	case !ok:
		t.Fatalf("a timetable where brute force finds none: %+v\n%+v", r, p)
	default:
		if err := verify(p, r); err != nil {
			t.Fatalf("%v: %+v\n%+v", err, r, p)
		}
		if !r.Proven || !r.WaitingProven || r.Makespan != makespan || r.Waiting != waiting {
			t.Fatalf("brute force has makespan %d, waiting %d: %+v\n%+v", makespan, waiting, r, p)
		}
	}
}

func TestAgainstBruteForce(t *testing.T) {
	small := size{tasks: 4, minutes: 3, resources: 2, units: 3}
	rapid.Check(t, func(t *rapid.T) { against(t, fullProblem(fromRapid(t), small)) })
	for seed := range seeds(3000) {
		against(t, fullProblem(fromSeed(seed), small))
	}
}

// holdsAllAlong verifies every answer on the way, and that answers and bounds only get better.
func holdsAllAlong(t rapid.TB, ctx context.Context, p Problem) {
	t.Helper()
	last, told := Result{}, false
	r, err := SolveFrom(ctx, p, Result{}, func(r Result) {
		if err := verify(p, r); err != nil {
			t.Fatalf("on the way: %v: %+v\n%+v", err, r, p)
		}
		if told && (r.Makespan > last.Makespan || r.Bound < last.Bound || r.WaitingBound < last.WaitingBound) {
			t.Fatalf("after %+v came %+v", last, r)
		}
		last, told = r, true
	})
	switch {
	case errors.Is(err, ErrInfeasible):
		if told {
			t.Fatalf("said to be infeasible after %+v", last)
		}
	case errors.Is(err, ErrNoneFound):
		if ctx.Err() == nil {
			t.Fatal("gave up before the end of its context")
		}
	case err != nil:
		t.Fatalf("%v: %+v", err, p)
	default:
		if err := verify(p, r); err != nil {
			t.Fatalf("%v: %+v\n%+v", err, r, p)
		}
	}
}

func TestEveryTimetableHolds(t *testing.T) {
	middle := size{tasks: 12, minutes: 8, resources: 3, units: 4}
	rapid.Check(t, func(t *rapid.T) {
		holdsAllAlong(t, context.Background(), fullProblem(fromRapid(t), middle))
	})
	for seed := range seeds(2000) {
		holdsAllAlong(t, context.Background(), fullProblem(fromSeed(seed), middle))
	}
}

func FuzzSolve(f *testing.F) {
	f.Add([]byte{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
	f.Add([]byte("\x03\x02\x00\x05\x01\x01\x07\x02\x02\x02\x01\x00\x03\x01\x04\x01\x05\x09\x02\x06\x05\x03\x05\x08\x09\x07\x09"))
	f.Fuzz(func(t *testing.T, b []byte) {
		d := fromBytes(b)
		p := fullProblem(d, size{tasks: 8, minutes: 5, resources: 3, units: 4})
		if len(p.Tasks) > 0 && d.oneIn(3) { // something that makes no sense, or only just
			p.Tasks[0].After = append(p.Tasks[0].After, d(-1, len(p.Tasks)))
			p.Tasks[0].Minutes = d(-1, 1) * d(1, 1<<20)
			p.Tasks[0].Weight = d(-1, 1) * d(1, 1<<20)
		}
		if _, err := Solve(context.Background(), p); errors.Is(err, ErrInvalid) {
			return
		}
		holdsAllAlong(t, context.Background(), p)
	})
}

// TestKitchens proves kitchen evenings with all there is, the same answer each time.
func TestKitchens(t *testing.T) {
	solved := 0
	for seed := range 8 {
		p := kitchenProblem(fromSeed(seed), 0)
		r, err := Solve(context.Background(), p)
		if errors.Is(err, ErrInfeasible) {
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		solved++
		if err := verify(p, r); err != nil || !r.WaitingProven {
			t.Fatalf("seed %d: %v: %+v", seed, err, r)
		}
		if again, err := Solve(context.Background(), p); err != nil || !reflect.DeepEqual(r, again) {
			t.Errorf("seed %d: once %+v, then %+v", seed, r, again)
		}
		warm, err := SolveFrom(context.Background(), p, r, nil)
		if err != nil || warm.Makespan != r.Makespan || warm.Waiting != r.Waiting || !warm.WaitingProven {
			t.Errorf("seed %d: %+v, but from there %+v (%v)", seed, r, warm, err)
		}
		first, err := First(context.Background(), p)
		if err != nil {
			t.Fatal(err)
		}
		if err := verify(p, first); err != nil || first.Makespan < r.Makespan {
			t.Errorf("seed %d: first %+v, best %+v (%v)", seed, first, r, err)
		}
		p.Due = r.Makespan - 1
		if p.Due > 0 {
			if _, err := Solve(context.Background(), p); !errors.Is(err, ErrInfeasible) {
				t.Errorf("seed %d: done by %d, proven impossible, but: %v", seed, p.Due, err)
			}
		}
	}
	if solved < 3 {
		t.Errorf("only %d of the evenings can be done at all", solved)
	}
}
