package share_test

import (
	"errors"
	"math"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"scullion/planner/share"
)

// TestScale: amounts counted in a finer unit and weights in a finer coin change the worth and nothing else.
func TestScale(t *testing.T) {
	const finer, coin = 10_000_000, 1000
	rapid.Check(t, func(t *rapid.T) {
		p := draw(t, small)
		r, err := share.Choose(t.Context(), p)
		q := p
		q.Stock, q.Least, q.Weight = times(p.Stock, finer), times(p.Least, finer), times(p.Weight, coin)
		q.Candidates = slices.Clone(p.Candidates)
		for i := range q.Candidates {
			c := &q.Candidates[i]
			c.Min, c.Max, c.Value = c.Min*finer, c.Max*finer, c.Value*finer*coin
			c.Uses = slices.Clone(c.Uses)
			for j := range c.Uses {
				c.Uses[j].Min *= finer
				c.Uses[j].Max *= finer
			}
		}
		s, scaledErr := share.Choose(t.Context(), q)
		if err != scaledErr || r.Value*finer*coin != s.Value {
			t.Fatalf("%d, %v became %d, %v", r.Value, err, s.Value, scaledErr)
		}
	})
}

func times(list []int64, n int64) []int64 {
	if list == nil {
		return nil
	}
	out := make([]int64, len(list))
	for i, v := range list {
		out[i] = v * n
	}
	return out
}

// TestOrder: the order in which lines and candidates are given does not matter to the value.
func TestOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := draw(t, small)
		p.Fits, p.Groups = nil, nil
		r, err := share.Choose(t.Context(), p)
		slices.Reverse(p.Candidates)
		last := len(p.Stock) - 1
		slices.Reverse(p.Stock)
		slices.Reverse(p.Weight)
		slices.Reverse(p.Least)
		for _, c := range p.Candidates {
			for j := range c.Uses {
				c.Uses[j].Line = last - c.Uses[j].Line
			}
		}
		turned, turnedErr := share.Choose(t.Context(), p)
		if err != turnedErr || r.Value != turned.Value {
			t.Fatalf("%d, %v became %d, %v", r.Value, err, turned.Value, turnedErr)
		}
	})
}

// TestSameAgain: the same problem gives the same answer, amounts and all, and is left as it was.
func TestSameAgain(t *testing.T) {
	for seed := range uint64(3) {
		p, calls := menu(seed, 14, 1000, 3), 0
		timetable(&p, seed, &calls)
		first, err := share.Choose(t.Context(), p)
		if err != nil {
			t.Fatal(err)
		}
		again, err := share.Choose(t.Context(), p)
		if err != nil || !reflect.DeepEqual(first, again) {
			t.Errorf("%v, then %v, %v", first, again, err)
		}
		fresh := menu(seed, 14, 1000, 3)
		fresh.Fits, p.Fits = nil, nil
		if !reflect.DeepEqual(p, fresh) {
			t.Error("the problem was changed")
		}
	}
}

// TestMenu verifies what a kitchen asks for, its progress, and how Fits is asked: once for a set, in order, in a slice
// that may be kept, and not for all there is.
func TestMenu(t *testing.T) {
	for seed := range uint64(4) {
		p, calls := menu(seed, 16, 2000, 3+int(seed%2)), 0
		timetable(&p, seed, &calls)
		fits, asked := p.Fits, map[[6]int]bool{}
		p.Fits = func(chosen []int) bool {
			var key [6]int
			copy(key[:], chosen)
			if asked[key] || !slices.IsSorted(chosen) || len(chosen) == 0 || len(chosen) > p.Choose {
				t.Errorf("seed %d: asked about %v", seed, chosen)
			}
			asked[key] = true
			yes := fits(chosen)
			clear(chosen)
			return yes
		}
		last := share.Result{Value: math.MinInt64, Bound: math.MaxInt64}
		r, err := share.ChooseWith(t.Context(), p, func(r share.Result) {
			if r.Value < last.Value || r.Bound > last.Bound || r.Value == last.Value && r.Bound == last.Bound {
				t.Errorf("seed %d: from %d, %d to %d, %d", seed, last.Value, last.Bound, r.Value, r.Bound)
			}
			last = r
		})
		if err != nil || !r.Proven || !reflect.DeepEqual(r, last) {
			t.Fatalf("seed %d: %v, last told %v, %v", seed, r, last, err)
		}
		if len(asked) > 1000 {
			t.Errorf("seed %d: asked %d times", seed, len(asked))
		}
		p.Fits = fits
		verify(t, p, r)
	}
}

// TestNeverFits: pairs that do not go together are learnt, and not tried with everything else again.
func TestNeverFits(t *testing.T) {
	const dishes = 60
	p := share.Problem{Stock: []int64{1000}, Weight: []int64{1}, Choose: 3}
	for i := range int64(dishes) {
		p.Candidates = append(p.Candidates, share.Candidate{Family: -1, Uses: []share.Use{{Max: 10 + i}}, Max: 10 + i})
	}
	calls := 0
	p.Fits = func(chosen []int) bool {
		calls++
		return len(chosen) < 2 // no two at all
	}
	if r, err := share.Choose(t.Context(), p); !errors.Is(err, share.ErrInfeasible) {
		t.Errorf("got %v, %v", r, err)
	}
	if pairs := dishes * (dishes - 1) / 2; calls > 3*pairs {
		t.Errorf("asked %d times; there are %d pairs and %d sets of three", calls, pairs, pairs*(dishes-2)/3)
	}
}
