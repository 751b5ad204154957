package planner

import (
	"context"
	"errors"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// swapOf draws a plan that has begun, of which a dish that has not is to go, with the food
// that leads it gone; false where there is no such dish.
func swapOf(r *rand.Rand) (s Swap, gone string, ok bool) {
	a := anyPlan(r)
	a.Busy, a.Dishes = nil, 2+r.IntN(2)
	ctx, cancel := context.WithTimeout(context.Background(), time.Second)
	defer cancel()
	p, err := MakePlan(ctx, a, nil)
	if err != nil || len(p.Dishes) < 2 {
		return s, "", false
	}
	kit := map[string]int{}
	for k, n := range DefaultKit() {
		if kit[k] = n; a.Kit != nil {
			kit[k] = a.Kit[k]
		}
	}
	s = Swap{Rest: Rest{Dishes: p.Dishes, Now: r.IntN(max(1, p.Minutes/3)), Cooks: a.Cooks, Kit: kit}, Out: r.IntN(len(p.Dishes)), By: a.Minutes, Ask: a}
	for range p.Dishes {
		if p.Dishes[s.Out].HasBegun(s.Now) {
			s.Out = (s.Out + 1) % len(p.Dishes)
		}
	}
	if p.Dishes[s.Out].HasBegun(s.Now) {
		return s, "", false
	}
	gone = leadOf(p.Dishes[s.Out].Key)
	s.Ask.Stock = leftFor(&s, gone)
	return s, gone, true
}

// leftFor is what the dishes that stay leave of the stock, with one food gone.
func leftFor(s *Swap, gone string) []Stock {
	list := slices.Clone(s.Ask.Stock)
	for i := range list {
		x := &list[i]
		for d, o := range s.Dishes {
			for _, u := range o.Uses {
				if d != s.Out && u.Item == x.Item {
					x.Free -= u.Amount
				}
			}
		}
		if x.Item == gone {
			x.Free = 0
		}
	}
	return list
}

// A dish that is swapped gives way to another of what is free, unlike those that stay; what
// has begun stays, and the whole is a timetable that holds.
func TestSwap(t *testing.T) {
	r := rand.New(rand.NewPCG(*seed, 41))
	n := 400
	if testing.Short() {
		n = 120
	}
	made, none := 0, 0
	for range n {
		s, gone, ok := swapOf(r)
		if !ok {
			continue
		}
		ctx, cancel := context.WithTimeout(context.Background(), time.Second)
		dishes, minutes, _, err := MakeSwap(ctx, s)
		cancel()
		if err != nil {
			if none++; !errors.Is(err, ErrNoDishes) && !errors.Is(err, ErrNothing) && !errors.Is(err, ErrTooLate) && !errors.Is(err, ErrNoTime) && !errors.Is(err, ErrNoRest) {
				t.Fatal(err)
			}
			continue
		}
		made++
		checkSwap(t, &s, gone, dishes, minutes)
	}
	if made < n/20 || none == 0 {
		t.Errorf("%d swapped, %d not", made, none)
	}
}

func checkSwap(t *testing.T, s *Swap, gone string, dishes []Planned, minutes int) {
	t.Helper()
	if minutes > max(s.By, readyOf(s.Dishes)) {
		t.Errorf("ready at %d, by %d it should be", minutes, s.By)
	}
	x := dishes[s.Out]
	if x.Key == s.Dishes[s.Out].Key || x.Portions != s.Ask.Portions {
		t.Errorf("%s for %d in the place of %s", x.Key, x.Portions, s.Dishes[s.Out].Key)
	}
	for _, u := range x.Uses {
		at := slices.IndexFunc(s.Ask.Stock, func(o Stock) bool { return o.Item == u.Item })
		if u.Item == gone || at < 0 || u.Amount > s.Ask.Stock[at].Free {
			t.Errorf("%s takes %d of %s", x.Title, u.Amount, u.Item)
		}
	}
	for i, o := range dishes {
		if i != s.Out && (o.Frame == x.Frame || o.Palette != "" && o.Palette == x.Palette) {
			t.Errorf("%s beside %s", x.Key, o.Key)
		}
	}
	seen := map[string]bool{}
	for i := range dishes {
		for _, st := range dishes[i].Steps {
			if seen[st.ID] {
				t.Errorf("two steps are called %s", st.ID)
			}
			seen[st.ID] = true
		}
		for _, st := range dishes[i].Steps {
			if i == s.Out && st.Start < s.Now {
				t.Errorf("%s at %d, before %d", st.Do, st.Start, s.Now)
			}
		}
	}
	for _, d := range dishes {
		for _, st := range d.Steps {
			for _, a := range st.After {
				if !seen[a] {
					t.Errorf("%s waits for %s, which is gone", st.ID, a)
				}
			}
		}
	}
	rest := s.Rest
	rest.Dishes = slices.Clone(dishes)
	checkRest(t, &rest, dishes, minutes)
}

func readyOf(dishes []Planned) (last int) {
	for _, d := range dishes {
		last = max(last, d.Ready)
	}
	return last
}

// BenchmarkSwap swaps a dish of plans that have begun.
func BenchmarkSwap(b *testing.B) {
	var swaps []Swap
	r := rand.New(rand.NewPCG(7, 7))
	for len(swaps) < 40 {
		if s, _, ok := swapOf(r); ok {
			swaps = append(swaps, s)
		}
	}
	benchSwaps(b, swaps)
}

func benchSwaps(b *testing.B, swaps []Swap) {
	var took []time.Duration
	made := 0
	for b.Loop() {
		took, made = nil, 0
		for _, s := range swaps {
			begun := time.Now()
			ctx, cancel := context.WithTimeout(context.Background(), 400*time.Millisecond)
			_, _, _, err := MakeSwap(ctx, s)
			cancel()
			if took = append(took, time.Since(begun)); err == nil {
				made++
			}
		}
	}
	slices.Sort(took)
	b.ReportMetric(took[len(took)/2].Seconds()*1000, "p50-ms")
	b.ReportMetric(took[len(took)*95/100].Seconds()*1000, "p95-ms")
	b.ReportMetric(took[len(took)-1].Seconds()*1000, "max-ms")
	b.ReportMetric(float64(made), "made")
}

// BenchmarkSwapLarge swaps a dish of four out of crates of thirty foods.
func BenchmarkSwapLarge(b *testing.B) {
	var swaps []Swap
	r := rand.New(rand.NewPCG(7, 8))
	for len(swaps) < 30 {
		a := PlanAsk{Stock: delivery(r, 30, 16), Dishes: 4, Portions: 4, Minutes: 75, Cooks: 2}
		ctx, cancel := context.WithTimeout(context.Background(), time.Second)
		p, err := MakePlan(ctx, a, nil)
		cancel()
		if err != nil || len(p.Dishes) < 4 {
			continue
		}
		s := Swap{Rest: Rest{Dishes: p.Dishes, Cooks: 2, Kit: DefaultKit()}, Out: r.IntN(4), By: 75, Ask: a}
		s.Ask.Stock = leftFor(&s, "")
		swaps = append(swaps, s)
	}
	benchSwaps(b, swaps)
}

// What stands in for a food fills its role, is allowed, and brings nothing that a guest was
// not told of.
func TestStandIn(t *testing.T) {
	stockOf := func(list ...any) (s []Stock) {
		for i := 0; i < len(list); i += 2 {
			f, ok := food.Default().Food(list[i].(string))
			if !ok {
				t.Fatalf("no %s", list[i])
			}
			s = append(s, Stock{Item: f.Name, Free: measure.Amount(list[i+1].(int)) * 1000, Unit: f.Unit, Crate: true, Days: 5, Food: f})
		}
		return s
	}
	for _, c := range []struct {
		short string
		needs Needs
		free  []Stock
		want  string
	}{
		{"carrot", Needs{}, stockOf("parsnip", 500, "swede", 900, "hen's egg", 600, "double cream", 900), "parsnip"}, // suits best
		{"carrot", Needs{}, stockOf("parsnip", 180, "swede", 900), "swede"},                                          // is enough
		{"carrot", Needs{}, stockOf("parsnip", 100, "double cream", 900), ""},                                        // too little, and of another role
		{"carrot", Needs{}, stockOf("celeriac", 900), ""},                                                            // an allergen that the dish has not
		{"carrot", Needs{Avoid: []string{"celery"}}, stockOf("celery", 900, "leek", 500), "leek"},
		{"soured cream", Needs{}, stockOf("natural yoghurt", 400, "parsnip", 900), "natural yoghurt"},
	} {
		d := Planned{Frame: "blended-soup", Allergens: []string{"milk"}}
		s, ok := StandIn(c.free, c.needs, d, stockOf(c.short, 300)[0])
		if s.Item != c.want || ok != (c.want != "") {
			t.Errorf("for %s of %d: %q, not %q", c.short, len(c.free), s.Item, c.want)
		}
	}
}
