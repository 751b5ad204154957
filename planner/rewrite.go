package planner

import (
	"slices"

	"scullion/planner/timetable"
)

// write gives the dishes of a plan that has begun the times, and the ways, of a timetable.
func (g *rest) write(r *Rest, t timetable.Result) []Planned {
	dishes := make([]Planned, len(r.Dishes))
	fell := map[string]bool{}
	waits := map[string]int{} // of steps that are done another way
	for d, dish := range r.Dishes {
		steps := dish.Steps
		dish.Steps, dish.Ready = nil, 0
		for s := range steps {
			x := steps[s]
			if r.falls(&x) {
				fell[x.ID] = true
				continue
			}
			at := g.task[d][s]
			x.Start = t.Start[at]
			if t.Mode != nil && t.Mode[at] > 0 {
				waits[x.ID] = x.turnTo(g.ways[d][s][t.Mode[at]])
			}
			dish.Steps = append(dish.Steps, x)
			dish.Ready = max(dish.Ready, x.Start+x.Minutes)
		}
		slices.SortStableFunc(dish.Steps, func(a, b PlanStep) int { return a.Start - b.Start })
		dishes[d] = dish
	}
	for d := range dishes {
		for s := range dishes[d].Steps {
			dishes[d].Steps[s].follow(fell, waits)
		}
		withoutKettle(dishes[d].Steps)
	}
	return dishes
}

// turnTo has a step done another way, and keeps the old one as its other; what it gives is
// the most minutes that what it makes may wait. To an oven that was given up a step does
// not come back: nobody may have heated it.
func (s *PlanStep) turnTo(n int) (wait int) {
	w := s.Else[n]
	was := PlanWay{Do: s.Do, Minutes: s.Minutes, HandsOn: s.HandsOn, Kit: s.Kit, Temp: s.Temp, Shelves: s.Shelves, Wait: -1}
	s.Else = slices.Clone(s.Else)
	s.Else[n] = was
	if slices.Contains(was.Kit, "oven") && !slices.Contains(w.Kit, "oven") {
		s.Else = slices.DeleteFunc(s.Else, func(o PlanWay) bool { return slices.Contains(o.Kit, "oven") })
	}
	s.Do, s.Minutes, s.HandsOn, s.Kit, s.Temp, s.Shelves = w.Do, w.Minutes, w.HandsOn, w.Kit, w.Temp, w.Shelves
	return w.Wait
}

// follow takes what fell away out of what a step waits for, and has it wait no longer than
// it now may.
func (s *PlanStep) follow(fell map[string]bool, waits map[string]int) {
	after, within := s.After, s.Within
	s.After, s.Within = nil, nil
	for i, a := range after {
		if fell[a] {
			continue
		}
		wait := -1
		if i < len(within) {
			wait = within[i]
		}
		if w, ok := waits[a]; ok {
			wait = sooner(wait, w)
		}
		s.After, s.Within = append(s.After, a), append(s.Within, wait)
	}
	s.Else = slices.Clone(s.Else)
}
