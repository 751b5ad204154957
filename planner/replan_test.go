package planner

import (
	"context"
	"errors"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"scullion/planner/technique"
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
			kit[technique.Scarce[r.IntN(len(technique.Scarce))]] = 0
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

// Where all is wanted later, what has not begun comes later: nothing is ready so soon that it must stand longer than it may.
func TestReplanLater(t *testing.T) {
	r := rand.New(rand.NewPCG(*seed, 98))
	made := 0
	for range 60 {
		a := anyPlan(r)
		a.Busy, a.Kit = nil, nil
		ctx, cancel := context.WithTimeout(context.Background(), time.Second)
		p, err := MakePlan(ctx, a, nil)
		cancel()
		if err != nil {
			continue
		}
		rest := Rest{Dishes: p.Dishes, Cooks: a.Cooks, Kit: DefaultKit(), From: p.Minutes + r.IntN(40)}
		ctx, cancel = context.WithTimeout(context.Background(), time.Second)
		dishes, minutes, _, err := Replan(ctx, rest)
		cancel()
		if err != nil {
			t.Fatal(err)
		}
		made++
		if minutes > rest.From {
			t.Errorf("wanted at %d, ready at %d at the earliest, and not before %d", rest.From, p.Minutes, minutes)
		}
		for _, d := range dishes {
			for _, s := range d.Steps {
				if end := s.Start + s.Minutes; s.Ends && s.Hold >= 0 && rest.From-end > s.Hold {
					t.Errorf("%s: %s is over at %d, may wait %d, and is wanted at %d", d.Title, s.Do, end, s.Hold, rest.From)
				}
			}
		}
		checkRest(t, &rest, dishes, minutes)
	}
	if made < 10 {
		t.Errorf("%d made", made)
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

// isOneOf says whether a step is done as it was to be, or another way that it had.
func isOneOf(s, was *PlanStep) bool {
	now := PlanWay{Do: s.Do, Minutes: s.Minutes, HandsOn: s.HandsOn, Kit: s.Kit, Temp: s.Temp, Shelves: s.Shelves}
	stood := PlanWay{Do: was.Do, Minutes: was.Minutes, HandsOn: was.HandsOn, Kit: was.Kit, Temp: was.Temp, Shelves: was.Shelves}
	return slices.ContainsFunc(append([]PlanWay{stood}, was.Else...), func(w PlanWay) bool {
		return strings.Replace(w.Do, " from the kettle", "", 1) == strings.Replace(now.Do, " from the kettle", "", 1) && w.Minutes == now.Minutes && w.HandsOn == now.HandsOn &&
			slices.Equal(w.Kit, now.Kit) && w.Temp == now.Temp && w.Shelves == now.Shelves
	})
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
			case !ok && strings.HasPrefix(was.Do, "heat ") && r.Kit[was.Kit[0]] == 0 && was.Start >= r.Now:
				continue // what is gone is not heated
			case !ok:
				t.Fatalf("%s is gone", was.ID)
			case was.Start < r.Now && !slices.Equal(s.Kit, was.Kit):
				t.Errorf("%s had begun with %v and is done with %v", was.ID, was.Kit, s.Kit)
			case !isOneOf(s.PlanStep, &was):
				t.Errorf("%s is %q with %v for %d min, and was none of %+v", was.ID, s.Do, s.Kit, s.Minutes, was)
			case was.Start < r.Now && s.Start != was.Start:
				t.Errorf("%s had begun at %d and is at %d", was.ID, was.Start, s.Start)
			case was.Start >= r.Now && s.Start < r.Now:
				t.Errorf("%s is put at %d, before %d", was.ID, s.Start, r.Now)
			}
			last = max(last, s.Start+s.Minutes)
			for _, a := range was.After {
				if now[a].PlanStep == nil {
					continue // it fell away
				}
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
				n := 1
				if k == "oven" {
					n = max(1, s.Shelves)
				}
				if held[k] += n; begun && r.Kit[k] == 0 {
					held[k] -= n // it was on when that broke
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

// What breaks before it is needed is done without, where there is another way: the room
// gets its dinner.
func TestReplanOtherWays(t *testing.T) {
	// steps with times as a plan of a filled potato and of a noodle salad has them
	potato := Planned{Title: "filled potatoes", Ready: 36, Steps: []PlanStep{
		{ID: "a0", Do: "heat the oven", Start: 0, Minutes: 12, Kit: []string{"oven"}, Temp: 210},
		{ID: "a1", Do: "prick, start in the microwave", Start: 0, Minutes: 14, HandsOn: 1, Kit: []string{"microwave"}, Cook: 1},
		{ID: "a2", Do: "finish in the oven", Start: 14, Minutes: 16, Kit: []string{"oven"}, Temp: 210, Shelves: 2, After: []string{"a0", "a1"}, Within: []int{-1, 15}, Else: []PlanWay{
			{Do: "finish in the oven, turn the trays round half way", Minutes: 20, Kit: []string{"oven"}, Temp: 210, Shelves: 1, Wait: 15},
			{Do: "finish in the microwave", Minutes: 9, Kit: []string{"microwave"}, Wait: 15},
		}},
		{ID: "a3", Do: "split, salt, fill", Start: 30, Minutes: 3, HandsOn: 3, Cook: 1, After: []string{"a2"}, Within: []int{15}, Ends: true, Hold: 15},
	}}
	noodles := Planned{Title: "noodles", Ready: 20, Steps: []PlanStep{
		{ID: "b0", Do: "fill the kettle", Start: 5, Minutes: 4, Kit: []string{"kettle"}, Else: []PlanWay{
			{Do: "bring a pan of water to the boil", Minutes: 9, Kit: []string{"ring"}, Temp: 100, Wait: 2},
		}},
		{ID: "b1", Do: "boil the noodles in water from the kettle", Start: 15, Minutes: 8, HandsOn: 2, Kit: []string{"ring"}, Temp: 100, Cook: 2, After: []string{"b0"}, Within: []int{10}, Ends: true, Hold: 15},
	}}
	find := func(dishes []Planned, id string) *PlanStep {
		for d := range dishes {
			for s := range dishes[d].Steps {
				if dishes[d].Steps[s].ID == id {
					return &dishes[d].Steps[s]
				}
			}
		}
		return nil
	}
	replan := func(now int, gone string) ([]Planned, error) {
		kit := DefaultKit()
		kit[gone] = 0
		dishes, _, proven, err := Replan(context.Background(), Rest{Dishes: []Planned{potato, noodles}, Now: now, Cooks: 2, Kit: kit})
		if err == nil && !proven {
			t.Errorf("no %s at %d: not proven", gone, now)
		}
		return dishes, err
	}

	dishes, err := replan(0, "oven")
	if err != nil {
		t.Fatal(err)
	}
	if s := find(dishes, "a2"); s.Do != "finish in the microwave" || s.Kit[0] != "microwave" || s.Minutes != 9 || s.Start < 14 || slices.Contains(s.After, "a0") {
		t.Errorf("%+v", s)
	}
	if s := find(dishes, "a2"); len(s.Else) != 0 {
		t.Errorf("to an oven that nobody heats: %+v", s.Else)
	}
	if find(dishes, "a0") != nil {
		t.Error("an oven that is broken is heated")
	}
	dishes, err = replan(3, "oven") // it was on
	if err != nil || find(dishes, "a0") == nil || find(dishes, "a2").Kit[0] != "microwave" {
		t.Errorf("%v: %+v", err, dishes)
	}

	dishes, err = replan(3, "kettle")
	if err != nil {
		t.Fatal(err)
	}
	water, boiled := find(dishes, "b0"), find(dishes, "b1")
	if water.Kit[0] != "ring" || water.Minutes != 9 || boiled.Do != "boil the noodles in water" || boiled.Start-water.Start-water.Minutes > 2 || boiled.Within[0] != 2 {
		t.Errorf("%+v, then %+v", water, boiled)
	}
	if len(water.Else) != 1 || water.Else[0].Kit[0] != "kettle" {
		t.Errorf("no way back to the kettle: %+v", water.Else)
	}
	if _, err := replan(0, "ring"); !errors.Is(err, ErrNoRest) {
		t.Errorf("noodles without a ring: %v", err)
	}
	if potato.Steps[2].Kit[0] != "oven" || len(potato.Steps[2].Else) != 2 || noodles.Steps[1].Within[0] != 10 {
		t.Error("the plan that was handed in is changed")
	}
}

// Two dishes' trays are in one oven together only at the longer time, and a dish that has
// the oven to itself gets its own.
func TestReplanTrays(t *testing.T) {
	dish := func(id string, start int) Planned {
		return Planned{Ready: 60, Steps: []PlanStep{{ID: id, Do: "bake", Start: start, Minutes: 20, Kit: []string{"oven"}, Temp: 200, Shelves: 2, Ends: true, Hold: -1, Else: []PlanWay{
			{Do: "bake, turn the trays round half way", Minutes: 25, Kit: []string{"oven"}, Temp: 200, Shelves: 1, Wait: -1},
		}}}}
	}
	dishes, minutes, proven, err := Replan(context.Background(), Rest{Dishes: []Planned{dish("a", 10), dish("b", 40)}, Now: 5, Cooks: 1, Kit: DefaultKit()})
	if err != nil || !proven || minutes != 5+25 || dishes[0].Steps[0].Minutes != 25 || dishes[1].Steps[0].Minutes != 25 {
		t.Errorf("%v, %v, %d: %+v", err, proven, minutes, dishes)
	}
	dishes, minutes, _, err = Replan(context.Background(), Rest{Dishes: []Planned{dish("a", 10), dish("b", 40)}, Now: 15, Cooks: 1, Kit: DefaultKit()})
	if err != nil || minutes != 30+20 || dishes[1].Steps[0].Start != 30 || dishes[1].Steps[0].Do != "bake" {
		t.Errorf("one is in: %v, %d: %+v", err, minutes, dishes)
	}
}
