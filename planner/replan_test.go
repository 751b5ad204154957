package planner

import (
	"context"
	"errors"
	"math/rand/v2"
	"slices"
	"testing"
	"time"
)

// What has begun keeps its time, whatever happens; the rest keeps order, hands and kit, and
// is done no later than a delay makes it.
func TestReplan(t *testing.T) {
	r := rand.New(rand.NewPCG(*seed, 99))
	made, stuck := 0, 0
	n := 400
	if testing.Short() {
		n = 120
	}
	for range n {
		a := anyPlan(r)
		a.Busy = nil
		ctx, cancel := context.WithTimeout(context.Background(), time.Second)
		p, err := MakePlan(ctx, a, nil)
		cancel()
		if err != nil {
			continue
		}
		kit := map[string]int{}
		for k, n := range DefaultKit() {
			kit[k] = n
			if n2, ok := a.Kit[k]; a.Kit != nil {
				if kit[k] = n2; !ok {
					kit[k] = 0
				}
			}
		}
		rest := Rest{Dishes: p.Dishes, Now: r.IntN(p.Minutes + 1), Cooks: a.Cooks, Kit: kit}
		happened := r.IntN(4)
		switch happened {
		case 0: // somebody is late
			late(&rest, 1+r.IntN(10))
		case 1: // the kit breaks
			kit[[]string{"oven", "ring", "microwave", "grill", "blender"}[r.IntN(5)]] = 0
		case 2: // a cook leaves
			rest.Gone = map[int]bool{1 + r.IntN(a.Cooks): true}
		}
		ctx, cancel = context.WithTimeout(context.Background(), time.Second)
		dishes, minutes, _, err := Replan(ctx, rest)
		cancel()
		if errors.Is(err, ErrNoRest) {
			if stuck++; happened != 1 && a.Cooks > 1 {
				t.Fatalf("nothing was taken away for good, and nothing can be done: %+v", rest)
			}
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		if made++; happened == 3 && minutes > p.Minutes {
			t.Errorf("nothing happened, and all is ready at %d, not %d", minutes, p.Minutes)
		}
		checkRest(t, &rest, dishes, minutes)
	}
	if made < n/8 || stuck == 0 {
		t.Errorf("%d made anew, %d stuck", made, stuck)
	}
}

// late gives a step that is on more minutes.
func late(r *Rest, minutes int) {
	for d := range r.Dishes {
		for s := range r.Dishes[d].Steps {
			if x := &r.Dishes[d].Steps[s]; x.Start < r.Now && r.Now < x.Start+x.Minutes {
				x.Minutes += minutes
				return
			}
		}
	}
}

// checkRest looks at the new times from the outside.
func checkRest(t *testing.T, r *Rest, dishes []Planned, minutes int) {
	t.Helper()
	type stepAt struct{ *PlanStep }
	now := map[string]stepAt{}
	for d := range dishes {
		for s := range dishes[d].Steps {
			now[dishes[d].Steps[s].ID] = stepAt{&dishes[d].Steps[s]}
		}
	}
	last := 0
	for _, d := range r.Dishes {
		for _, was := range d.Steps {
			s, ok := now[was.ID]
			switch {
			case !ok:
				t.Fatalf("%s is gone", was.ID)
			case was.Start < r.Now && s.Start != was.Start:
				t.Errorf("%s had begun at %d and is at %d", was.ID, was.Start, s.Start)
			case was.Start >= r.Now && s.Start < r.Now:
				t.Errorf("%s is put at %d, before %d", was.ID, s.Start, r.Now)
			}
			last = max(last, s.Start+s.Minutes)
			for _, a := range was.After {
				if end := now[a].Start + now[a].Minutes; end > s.Start && was.Start >= r.Now {
					t.Errorf("%s starts at %d, after %s ends at %d", was.ID, s.Start, a, end)
				}
			}
			if was.Start >= r.Now && s.HandsOn > 0 && (s.Cook == 0 || r.Gone[s.Cook]) {
				t.Errorf("%s is nobody's: cook %d", s.ID, s.Cook)
			}
		}
	}
	if last != minutes {
		t.Errorf("all ready at %d, it says %d", last, minutes)
	}
	for minute := r.Now; minute < minutes; minute++ {
		held, cooks := map[string]int{}, map[int]bool{}
		var temps []int
		for _, s := range now {
			if minute < s.Start || minute >= s.Start+s.Minutes {
				continue
			}
			begun := s.Start < r.Now
			for _, k := range s.Kit {
				if held[k]++; begun && r.Kit[k] == 0 {
					held[k]-- // it was on when that broke
				}
				if k == "oven" {
					temps = append(temps, s.Temp)
				}
			}
			if minute < s.Start+s.HandsOn && s.Cook > 0 && !r.Gone[s.Cook] {
				if cooks[s.Cook] {
					t.Errorf("cook %d is at two steps at %d", s.Cook, minute)
				}
				cooks[s.Cook] = true
			}
		}
		for k, n := range held {
			most := r.Kit[k]
			if k == "oven" {
				most *= shelves
			}
			if n > most {
				t.Errorf("%d of %s at %d, there are %d", n, k, minute, most)
			}
		}
		if len(temps) > 0 && slices.Max(temps)-slices.Min(temps) > 10 {
			t.Errorf("an oven at %v at %d", temps, minute)
		}
	}
}
