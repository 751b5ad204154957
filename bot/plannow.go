package bot

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"scullion/pantry"
)

// PlanNow is a plan by the clock: the one that is on, or one that would begin at Begun.
type PlanNow struct {
	Begun, Ready time.Time
	On           bool      // it has begun
	Late         int       // so many minutes later than it was to be all is ready; 0 not late
	Portions     int       // of each of its dishes
	Dishes       []string  // what they are called in full, by number; "" one that is off
	Cooks        []string  // what its cooks are called, by number
	Work         []StepNow // what is to be done
	Lanes        []Lane    `json:"-"` // the same by who does it and what it takes
}

// StepNow is a step of a plan that has a clock. From is in minutes after the plan began.
type StepNow struct {
	From, Minutes, HandsOn int
	Do, Dish               string
	DishN                  int      // its dish's number in the plan, from 1
	Cook                   int      // whose hands, from 1; 0 nobody's
	Kit                    []string // held for all its minutes
	Temp                   int      // C; 0 none
	More                   int      // minutes that it was given beyond the plan
	Said                   bool     // somebody has said that it is done
	Rings                  bool     // a timer tells when it is over
}

// Lane is what one cook, or one piece of kit, does when. Steps do not overlap unless kit has room for
// several.
type Lane struct {
	Name  string
	Cook  bool
	Steps []LaneStep
}

// LaneStep is a step in its lane, From minutes after the plan began.
type LaneStep struct {
	From, Minutes int
	Do            string
	Dish          string
	DishN         int // its number in the plan, from 1
	Alone         bool
	Rings, Said   bool // as of StepNow
}

// now is the plan that is on.
func (on *running) now(k *pantry.Kitchen) *PlanNow {
	cooks := make([]string, on.cooks())
	for n := range cooks {
		cooks[n] = on.cookCalled(n+1, k)
	}
	p := on.Plan.at(on.Begun, cooks)
	p.On, p.Late = true, max(0, on.Plan.Minutes-on.End)
	if on.End == 0 { // begun by an earlier version, which did not keep it
		p.Late = 0
	}
	steps := map[string]*StepNow{}
	n := 0
	for _, d := range on.Plan.Dishes {
		for _, s := range d.Steps {
			if !d.isOff() {
				steps[s.ID] = &p.Work[n]
				n++
			}
		}
	}
	for _, x := range on.Stretched {
		if s := steps[x.Step]; s != nil {
			s.More, s.Said = max(0, s.More+x.Minutes), x.Minutes < 0
		}
	}
	p.Lanes = p.lanes()
	return p
}

// At is a plan as it would be by the clock if it began at a time.
func (p *Plan) At(begun time.Time) *PlanNow { return p.at(begun, nil) }

func (p *Plan) at(begun time.Time, cooks []string) *PlanNow {
	x := &PlanNow{Begun: begun, Ready: begun.Add(time.Duration(p.Minutes) * time.Minute), Cooks: cooks}
	for n := range p.Dishes {
		d := &p.Dishes[n]
		if d.isOff() {
			x.Dishes = append(x.Dishes, "")
			continue
		}
		x.Portions = d.Portions
		x.Dishes = append(x.Dishes, d.Name)
		name := Idea{Title: d.Name}.name()
		for _, s := range d.Steps {
			step := StepNow{From: s.Start, Minutes: s.Minutes, HandsOn: s.HandsOn, Do: s.Do, Dish: name, DishN: n + 1, Cook: s.Cook, Kit: s.Kit,
				Rings: s.Minutes-s.HandsOn >= callFor && len(s.Kit) > 0}
			if slices.Contains(s.Kit, "oven") || slices.Contains(s.Kit, "grill") {
				step.Temp = s.Temp
			}
			x.Work = append(x.Work, step)
			for s.Cook > len(x.Cooks) {
				x.Cooks = append(x.Cooks, fmt.Sprint("cook ", len(x.Cooks)+1))
			}
		}
	}
	x.Lanes = x.lanes()
	return x
}

// lanes sorts the steps into lanes: the cooks, then the kit, in order of first use; last what stands
// by itself with neither.
func (p *PlanNow) lanes() []Lane {
	var cooks, kit []Lane
	itself := Lane{Name: "by itself"}
	add := func(list []Lane, name string, cook bool, s LaneStep) []Lane {
		at := slices.IndexFunc(list, func(l Lane) bool { return l.Name == name })
		if at < 0 {
			at, list = len(list), append(list, Lane{Name: name, Cook: cook})
		}
		list[at].Steps = append(list[at].Steps, s)
		return list
	}
	for _, s := range p.Work {
		step := LaneStep{From: s.From, Minutes: max(1, s.Minutes), Do: s.Do, Dish: s.Dish, DishN: s.DishN, Alone: s.HandsOn < s.Minutes, Rings: s.Rings, Said: s.Said}
		for _, k := range s.Kit {
			kit = add(kit, k, false, step)
		}
		if len(s.Kit) == 0 && step.Alone {
			itself.Steps = append(itself.Steps, step)
		}
		if s.HandsOn > 0 && s.Cook > 0 {
			step.Minutes, step.Alone, step.Rings = s.HandsOn, false, false
			cooks = add(cooks, p.Cooks[s.Cook-1], true, step)
		}
	}
	all := [][]Lane{cooks, kit}
	if len(itself.Steps) > 0 {
		all = append(all, []Lane{itself})
	}
	for _, list := range all {
		for i := range list {
			slices.SortStableFunc(list[i].Steps, func(a, b LaneStep) int { return cmp.Compare(a.From, b.From) })
		}
		slices.SortStableFunc(list, func(a, b Lane) int { return cmp.Compare(a.Steps[0].From, b.Steps[0].From) })
	}
	return slices.Concat(all...)
}
