package bot

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry/measure"
	"scullion/planner"
)

// isOff says whether a dish of a plan was dropped: its place stays, so that the others keep
// their numbers, and nothing is in it.
func (d *Planned) isOff() bool { return len(d.Steps) == 0 }

// dropAsked takes dishes off the plan that is on. What went into them stays there, what was
// kept for them is free again. Done is false where no dish of the plan is meant.
func (t *turn) dropAsked(on running, q *language.Question) (r Reply, done bool, err error) {
	on.complete(t)
	dishes := append([]int{q.N}, q.Others...)
	if q.Food != "" {
		name := t.dishOn(q.Food)
		if name == "" || t.isOutOf(q.Food) {
			return r, false, nil
		}
		dishes = []int{slices.Index(on.Names, name) + 1}
	}
	x := told{was: on.times(), ready: on.Plan.Minutes}
	for _, n := range dishes {
		switch n--; {
		case n < 0 || n >= len(on.Plan.Dishes):
			x.lines = append(x.lines, fmt.Sprintf("The plan has no dish %d.", n+1))
		case on.Plan.Dishes[n].isOff():
			x.lines = append(x.lines, on.dishCalled(n)+", is off already.")
		default:
			if err := t.drop(&on, n, &x); err != nil {
				return r, true, err
			}
		}
	}
	if err := t.mendPlan(&on, &x); err != nil { // what is free again may be another's
		return r, true, err
	}
	if on.isEmpty() {
		x.lines, x.moved = append(x.lines, nothingLeft), false
		if err := t.retime(on); err != nil {
			return r, true, err
		}
	}
	if err := t.save(on); err != nil {
		return r, true, err
	}
	lines, err := t.tellMended(on, &x)
	return Reply{Kind: Answer, Text: strings.Join(lines, "\n"), Timed: x.moved && t.m.Room != ""}, true, err
}

// nothingLeft is what is said of a plan all of whose dishes were dropped.
const nothingLeft = `Nothing is left of the plan. "plan" makes another.`

// isEmpty says whether every dish was dropped.
func (on *running) isEmpty() bool {
	return !slices.ContainsFunc(on.Plan.Dishes, func(d Planned) bool { return !d.isOff() })
}

// drop takes one dish off a plan, and puts the rest into a timetable without it. Where that
// is not found in the time to think, the rest stays as it was.
func (t *turn) drop(on *running, n int, x *told) error {
	old := on.Plan.Dishes[n]
	free := t.claimedOf(on, n)
	rest := on.toRest(on.minute(t.m.At))
	off := Planned{Name: old.Name, Frame: old.Frame, Palette: old.Palette, Key: old.Key, Serve: old.Serve, Portions: old.Portions}
	rest.Dishes = planner.Replace(rest.Dishes, n, toPlanner(&off))
	on.Plan.Dishes = slices.Clone(on.Plan.Dishes)
	on.Plan.Dishes[n] = off
	on.Swapped = append(on.Swapped, swapped{By: []string{t.said.ID}, N: n, Was: old, At: on.minute(t.m.At)})
	minutes := 0
	for i, d := range rest.Dishes { // what others wait for is theirs now
		if i != n {
			on.Plan.Dishes[i].Steps = planSteps(d.Steps)
			minutes = max(minutes, d.Ready)
		}
	}
	on.Plan.Minutes = minutes
	ctx, cancel := context.WithTimeout(context.Background(), t.b.o.Think/replanning)
	defer cancel()
	if !on.isEmpty() {
		dishes, minutes, proven, err := planner.Replan(ctx, rest)
		if err != nil && !cannot(err) {
			return err
		}
		if err == nil {
			on.Plan.Minutes, on.Plan.Proven = minutes, proven
			for i, d := range dishes {
				on.Plan.Dishes[i].Steps, on.Plan.Dishes[i].Ready = planSteps(d.Steps), d.Ready
			}
		}
		on.due()
	}
	on.forget(on.Names[n])
	line := on.dishCalled(n) + ", is off."
	if len(free) > 0 {
		line += " Free again: " + both(free, "and") + "."
	}
	if idle := on.idle(&old, on.minute(t.m.At)); len(idle) > 0 {
		line += " Nothing else needs the " + both(idle, "or the") + ": turn it off."
	}
	x.lines, x.moved = append(x.lines, line), true
	return nil
}

// idle lists the kit that a dish that was dropped had hot, and that no other step is on or
// comes to.
func (on *running) idle(old *Planned, now int) (kit []string) {
	needed := func(k string) bool {
		return slices.ContainsFunc(on.Plan.Dishes, func(d Planned) bool {
			return slices.ContainsFunc(d.Steps, func(s PlanStep) bool { return s.Start+s.Minutes > now && slices.Contains(s.Kit, k) })
		})
	}
	for _, s := range old.Steps {
		for _, k := range s.Kit {
			if s.Start < now && slices.Contains([]string{"oven", "grill", "ring"}, k) && !needed(k) && !slices.Contains(kit, k) {
				kit = append(kit, k)
			}
		}
	}
	return kit
}

// claimedOf lists what is kept for a dish of a plan: "300 g leek".
func (t *turn) claimedOf(on *running, n int) (list []string) {
	for _, l := range t.k.Lines {
		var sum measure.Amount
		for _, h := range l.Holds {
			if h.Dish == on.Names[n] && h.Cook == on.Cook {
				sum += h.Amount
			}
		}
		if sum > 0 {
			list = append(list, measure.Say(sum, l.Unit)+" "+l.Name)
		}
	}
	return list
}

// outOf begins what is said of food that has run out as well as of a dish that is dropped.
var outOf = regexp.MustCompile(`(?i)^\W*86\b`)

// isOutOf says whether "86 the penne" is said of food that there is, or was.
func (t *turn) isOutOf(said string) bool {
	h := t.ear.find(said)
	return outOf.MatchString(t.m.Text) && h.exact && len(h.lines) > 0
}
