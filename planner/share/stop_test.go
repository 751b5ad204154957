package share_test

import (
	"context"
	"errors"
	"testing"

	"pgregory.net/rapid"

	"scullion/planner/share"
)

// looks is a context that ends when it has been looked at so many times.
type looks struct {
	context.Context
	left *int
}

func ending(ctx context.Context, after int) context.Context { return looks{ctx, &after} }

func (l looks) Err() error {
	if *l.left--; *l.left < 0 {
		return context.Canceled
	}
	return nil
}

// TestStopped: whenever ctx ends, the answer is a true one and the optimum is between value and bound; the longer it
// lasts, the nearer they are.
func TestStopped(t *testing.T) {
	for seed := range uint64(3) { // two of few dishes, one of so many that neighbourhoods are searched
		p, calls := menu(seed, 16, 1500, 4), 0
		if seed >= 2 {
			p = menu(seed, 16, 700, 6)
		}
		timetable(&p, seed, &calls)
		best, err := share.Choose(t.Context(), p)
		if err != nil {
			t.Fatal(err)
		}
		early := 0
		last := share.Result{Bound: 1 << 62}
		for after := 0; ; after += 1 + after/2 {
			r, err := share.Choose(ending(t.Context(), after), p)
			switch {
			case errors.Is(err, share.ErrNoneFound):
				if !errors.Is(err, context.Canceled) || last.Chosen != nil {
					t.Fatalf("seed %d, %d looks: %v after %v", seed, after, err, last)
				}
			case err != nil:
				t.Fatal(err)
			default:
				verify(t, p, r)
			}
			if r.Value > best.Value || r.Bound < best.Value || r.Value < last.Value || r.Bound > last.Bound {
				t.Fatalf("seed %d, %d looks: %d to %d, before %d to %d; best %d", seed, after, r.Value, r.Bound, last.Value, last.Bound, best.Value)
			}
			if last = r; r.Proven {
				break
			}
			early++
		}
		if early < 5 {
			t.Errorf("seed %d: only %d early ends", seed, early)
		}
	}
}

// TestStoppedCrate is the same for a crate, with the optimum that others have proven.
func TestStoppedCrate(t *testing.T) {
	const name = "crate_I20_D2000_K4_4"
	best := readKnown(t)[name].value()
	p := readCrate(t, name)
	for after := 1; ; after *= 2 {
		r, err := share.Choose(ending(t.Context(), after), p)
		if err != nil && !errors.Is(err, share.ErrNoneFound) {
			t.Fatal(err)
		}
		if r.Value > best || r.Bound < best {
			t.Fatalf("%d looks: %d to %d, best %d", after, r.Value, r.Bound, best)
		}
		if r.Proven {
			break
		}
	}
}

// TestStoppedSmall stops small problems of every kind at once, and again after one look.
func TestStoppedSmall(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := draw(t, small)
		best, ok := brute(p)
		r, err := share.Choose(ending(t.Context(), rapid.IntRange(0, 1).Draw(t, "looks")), p)
		switch {
		case err == nil:
			verify(t, p, r)
			if !ok || r.Value > best || r.Bound < best {
				t.Fatalf("got %d to %d; best %d, %v", r.Value, r.Bound, best, ok)
			}
		case errors.Is(err, share.ErrNoneFound):
			if ok && r.Bound < best {
				t.Fatalf("bound %d; best %d", r.Bound, best)
			}
		case !errors.Is(err, share.ErrInfeasible) || ok:
			t.Fatalf("%v; best %d, %v", err, best, ok)
		}
	})
}
