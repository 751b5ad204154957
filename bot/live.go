package bot

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/planner"
)

// Which parts of the time to think a plan that has begun gets: the kitchen waits.
const (
	replanning = 5 // for a timetable
	swapping   = 4 // for another dish
	mending    = 2 // for all that a message brings about
)

// live answers what is said of a plan that has begun: what is done, what runs late, kit
// that breaks and cooks who leave. What has begun stays; the rest gets a timetable anew,
// and the room is told only what changes. Since is when a plan was shown last.
func (t *turn) live(q *language.Question, since time.Time) (r Reply, done bool, err error) {
	on, ok, err := t.running()
	if err != nil || !ok || !on.isPlan() {
		return r, false, err
	}
	switch q.About {
	case language.AboutSwap, language.AboutDrop, language.AboutDish:
		if since.After(on.Begun) { // another plan was shown
			return r, false, nil
		}
		switch q.About {
		case language.AboutSwap:
			r, err = t.swapAsked(on, q)
		case language.AboutDrop:
			return t.dropAsked(on, q)
		default:
			r = t.sayRunning(on, q.N-1)
		}
		return r, true, err
	}
	now := on.minute(t.m.At)
	said := ""
	switch q.About {
	case language.AboutDone:
		if q.Food != "" {
			if said = t.finishNamed(&on, q.Food, now); said == "" {
				return r, false, nil
			}
			break
		}
		said = on.finish(on.cook(t.cook), now)
	case language.AboutLonger:
		if said = t.longerNamed(&on, q.Food, q.N, now); said == "" {
			if name := t.dishOn(q.Food); name != "" {
				return Reply{Kind: Answer, Text: "Nothing of the " + name + ` is cooking now. "what's next?" tells what comes.`}, true, nil
			}
			return r, false, nil
		}
	case language.AboutLate:
		said = on.delay(on.cook(t.cook), now, q.N)
	case language.AboutDown:
		on.Down = append(on.Down, q.Food)
		said = "No " + q.Food + " from now on."
	case language.AboutBack:
		on.Down = slices.DeleteFunc(on.Down, func(k string) bool { return k == q.Food })
		said = "The " + q.Food + " is back."
	case language.AboutLeaves:
		cook := on.cook(t.cookNamed(q.Food))
		if cook == 0 {
			return r, false, nil
		}
		if on.Gone == nil {
			on.Gone = map[int]bool{}
		}
		on.Gone[cook] = true
		said = title(t.k.CookName(on.Cooks[cook-1])) + " leaves."
	default:
		return r, false, nil
	}
	if said == "" {
		return Reply{Kind: Answer, Text: "Nothing of yours is on. \"what's next?\" tells what comes."}, true, nil
	}
	r, err = t.replan(on, now, said)
	return r, true, err
}

// cookNamed is the cook whose name was said; "" is who says it.
func (t *turn) cookNamed(name string) string {
	if name == "" {
		return t.cook
	}
	if cook, ok := t.ear.people[name]; ok {
		return cook
	}
	return name
}

// finish ends the step that a cook is at.
func (on *running) finish(cook, now int) string {
	s := on.atNow(cook, now)
	if s == nil {
		return ""
	}
	saved := s.Start + s.HandsOn - now
	if s.HandsOn == s.Minutes {
		s.Minutes -= saved
	}
	s.HandsOn -= saved
	s.Minutes, s.HandsOn = max(1, s.Minutes), max(0, s.HandsOn)
	return "Done: " + s.Do + "."
}

// delay gives the step that a cook is at some minutes more; where the cook is at none, the
// next comes so much later.
func (on *running) delay(cook, now, minutes int) string {
	s := on.atNow(cook, now)
	if s == nil && cook > 0 { // at something else
		if on.Held == nil {
			on.Held = map[int]int{}
		}
		on.Held[cook] = now + minutes
		return fmt.Sprintf("Cook %d in %d min.", cook, minutes)
	} else if s == nil {
		return ""
	}
	s.Minutes += minutes
	s.HandsOn += minutes
	return fmt.Sprintf("%d min more: %s.", minutes, s.Do)
}

// atNow gives the step that a cook's hands are at; nil none.
func (on *running) atNow(cook, now int) *PlanStep {
	for d := range on.Plan.Dishes {
		for s := range on.Plan.Dishes[d].Steps {
			x := &on.Plan.Dishes[d].Steps[s]
			if x.Cook == cook && cook > 0 && x.Start <= now && now < x.Start+x.HandsOn {
				return x
			}
		}
	}
	return nil
}

// replan makes the rest of a plan anew and tells what changes by it.
func (t *turn) replan(on running, now int, said string) (Reply, error) {
	was := on.times()
	old := on.Plan.Minutes
	err := on.rest(now, t.b.o.Think/replanning)
	if errors.Is(err, planner.ErrNoRest) || errors.Is(err, planner.ErrNoTime) {
		if err := t.save(on); err != nil {
			return Reply{}, err
		}
		return Reply{Kind: Answer, Text: said + " " + on.stuck(now) + " \"plan\" again for what is left."}, nil
	}
	if err != nil {
		return Reply{}, err
	}
	on.due()
	if err := t.save(on); err != nil {
		return Reply{}, err
	}
	if err := t.retime(on); err != nil {
		return Reply{}, err
	}
	lines := []string{said}
	for _, c := range on.changes(was, now) {
		lines = append(lines, t.sayChange(on, c, was[c.ID]))
	}
	switch late := on.Plan.Minutes - old; {
	case late > 0:
		lines = append(lines, fmt.Sprintf("All ready %s, %d min later.", on.at(on.Plan.Minutes, t.m.At), late))
	case late < 0:
		lines = append(lines, fmt.Sprintf("All ready %s, %d min earlier.", on.at(on.Plan.Minutes, t.m.At), -late))
	case len(lines) == 1:
		lines = append(lines, "The plan stands: all ready "+on.at(on.Plan.Minutes, t.m.At)+".")
	}
	return Reply{Kind: Answer, Text: strings.Join(lines, "\n"), Timed: t.m.Room != ""}, nil
}

// mostChanges is how many steps are told that come at another time; those that are done
// another way are all told.
const mostChanges = 4

// changes gives the steps that come at another time, by other hands or another way, the
// soonest first.
func (on *running) changes(was map[string]PlanStep, now int) (list []PlanStep) {
	for _, d := range on.Plan.Dishes {
		for _, s := range d.Steps {
			if o, had := was[s.ID]; had && s.Start >= now && (s.Start != o.Start || s.Cook != o.Cook && s.HandsOn > 0 || s.isOther(&o)) {
				list = append(list, s)
			}
		}
	}
	soonest := func(a, b PlanStep) int { return a.Start - b.Start }
	slices.SortStableFunc(list, soonest)
	var others, rest []PlanStep
	for _, s := range list {
		if o := was[s.ID]; s.isOther(&o) {
			others = append(others, s)
		} else {
			rest = append(rest, s)
		}
	}
	list = append(others, rest[:min(len(rest), max(0, mostChanges-len(others)))]...)
	slices.SortStableFunc(list, soonest)
	return list
}

// sayChange: "18:14 instead of 18:10: bake, by bo, on a ring now, 12 min."
func (t *turn) sayChange(on running, s, was PlanStep) string {
	text := on.at(s.Start, t.m.At)
	if s.Start != was.Start {
		text += " instead of " + on.at(was.Start, t.m.At)
	}
	text += ": " + s.Do
	if s.Cook != was.Cook && s.Cook > 0 {
		text += fmt.Sprintf(", now by cook %d%s", s.Cook, t.called1(on, s.Cook))
	}
	if s.isOther(&was) {
		if len(s.Kit) == 0 || !strings.Contains(s.Do, s.Kit[0]) {
			text += ", " + onKit(s.Kit)
		}
		text += fmt.Sprintf(" now, %d min", s.Minutes)
	}
	return text + "."
}

// isOther says whether a step is done with other kit than it was to be.
func (s *PlanStep) isOther(was *PlanStep) bool { return !slices.Equal(s.Kit, was.Kit) }

// onKit says with what a step is done: "on a ring".
func onKit(kit []string) string {
	if len(kit) == 0 {
		return "by hand"
	}
	if words, ok := map[string]string{"ring": "on a ring", "grill": "under the grill"}[kit[0]]; ok {
		return words
	}
	return "in the " + kit[0]
}

// stuck names the dishes that cannot go on.
func (on *running) stuck(now int) string {
	var list []string
	for _, d := range on.Plan.Dishes {
		if slices.ContainsFunc(d.Steps, func(s PlanStep) bool {
			return s.Start >= now && on.isDown(s.Kit) && !slices.ContainsFunc(s.Else, func(w PlanWay) bool { return !on.isDown(w.Kit) }) && !strings.HasPrefix(s.Do, "heat ")
		}) {
			list = append(list, "the "+Idea{Title: d.Name}.name())
		}
	}
	if len(list) == 0 {
		return "What is left of the plan cannot be done so."
	}
	return title(both(list, "and")) + " cannot go on without it."
}

// isDown says whether any of the kit is broken.
func (on *running) isDown(kit []string) bool {
	return slices.ContainsFunc(kit, func(k string) bool { return slices.Contains(on.Down, k) })
}

// toRest is what is left of a plan, as the planner has it.
func (on *running) toRest(now int) planner.Rest {
	r := planner.Rest{Now: now, Cooks: max(1, on.Hands), Kit: planner.DefaultKit(), Gone: on.Gone, Held: on.Held}
	for _, k := range on.Down {
		r.Kit[k] = 0
	}
	for _, d := range on.Plan.Dishes {
		r.Dishes = append(r.Dishes, toPlanner(&d))
	}
	return r
}

// rest puts what has not begun into a timetable anew.
func (on *running) rest(now int, think time.Duration) error {
	ctx, cancel := context.WithTimeout(context.Background(), think)
	defer cancel()
	dishes, minutes, proven, err := planner.Replan(ctx, on.toRest(now))
	if err != nil {
		return err
	}
	on.Plan.Minutes, on.Plan.Proven = minutes, proven
	for d, x := range dishes {
		on.Plan.Dishes[d].Steps, on.Plan.Dishes[d].Ready = planSteps(x.Steps), x.Ready
	}
	return nil
}

// retime sets the timers of a plan anew.
func (t *turn) retime(on running) error {
	if err := t.stopFor(on.Message); err != nil {
		return err
	}
	_, err := t.timeSteps(on)
	return err
}

// stopFor ends the timers that a message has set.
func (t *turn) stopFor(message string) error {
	timers, err := t.book.Timers()
	if err != nil {
		return err
	}
	for _, x := range timers {
		if x.Message == message {
			if err := t.book.StopTimer(x); err != nil {
				return err
			}
		}
	}
	return nil
}
