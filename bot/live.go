package bot

import (
	"context"
	"errors"
	"fmt"
	"maps"
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
	if r, done, err := t.liveAsked(on, q); done || err != nil {
		return r, done, err
	}
	if t.m.Edit { // what it said before is taken back first
		if err := t.unsayLive(&on); err != nil {
			return r, false, err
		}
	}
	now := on.minute(t.m.At)
	was, times, dishes := on.heldTo(), on.times(), on.asIs()
	s, err := t.liveSaid(&on, q, now)
	if err != nil || s.text == "" && !s.none {
		return r, false, err
	}
	if s.none {
		return Reply{Kind: Answer, Text: s.text}, true, nil
	}
	on.turn(t.said.ID, s.text, was, times)
	t.turnedNow = true
	r, err = t.replan(on, max(now, s.from), s.text)
	if err == nil && !on.sameKit(was) {
		err = t.noteWays(dishes)
	}
	if err == nil && s.next > 0 {
		r.Text, err = t.withNext(r.Text, s.next)
	}
	if err == nil && s.wanted {
		r.Text, err = t.withWanted(r.Text)
	}
	return r, true, err
}

// asIs gives the dishes of the plan, to be kept as they are.
func (on *running) asIs() []Planned {
	list := slices.Clone(on.Plan.Dishes)
	for i := range list {
		list[i].Steps = slices.Clone(list[i].Steps)
	}
	return list
}

// sameKit says whether the plan has the kit that it had.
func (on *running) sameKit(was heldTo) bool {
	return slices.Equal(on.Down, was.Down) && maps.Equal(on.Fewer, was.Fewer)
}

// noteWays keeps the dishes as they were, where steps of them are done another way since.
func (t *turn) noteWays(was []Planned) error {
	on, ok, err := t.running()
	if err != nil || !ok {
		return err
	}
	on.otherWay(t.said.ID, was)
	return t.save(on)
}

// saidLive is what came of something that was said of a plan that is on.
type saidLive struct {
	text string
	none bool // nothing changes: text tells why
	from int  // the minute from which the rest is put anew, if later than now
	next int  // the cook who is told what comes next; 0 nobody

	wanted bool // it was when all is wanted
}

// liveSaid does to the plan what was said of it; its text is "" where that is of something else.
func (t *turn) liveSaid(on *running, q *language.Question, now int) (s saidLive, err error) {
	switch q.About {
	case language.AboutDone:
		if q.Food != "" {
			return t.finishNamed(on, q.Food, now), nil
		}
		return t.finished(on, on.cook(t.cook), now), nil
	case language.AboutIsDone:
		return t.finishNamed(on, q.Food, now), nil
	case language.AboutWhoDone:
		if cook := on.cook(t.cookNamed(q.Food)); cook > 0 {
			return t.finished(on, cook, now), nil
		}
	case language.AboutStarted:
		return t.startNamed(on, q.Food, now), nil
	case language.AboutLonger:
		if s.text = t.longerNamed(on, q.Food, q.N, now); s.text == "" {
			if name := t.dishOn(q.Food); name != "" {
				return saidLive{none: true, text: "Nothing of the " + name + ` is cooking now. "what's next?" tells what comes.`}, nil
			}
		}
	case language.AboutLongerIt:
		return t.longerRung(on, q, now), nil
	case language.AboutLate:
		s.text = t.delayed(on, on.cook(t.cook), now, q.N)
		if s.text == "" {
			return saidLive{none: true, text: nothingYours}, nil
		}
	case language.AboutWhoLate:
		cook := on.cook(t.cookNamed(q.Food))
		if s.text = t.delayed(on, cook, now, q.N); s.text == "" && q.Food == "" {
			return saidLive{none: true, text: nothingYours}, nil
		}
	case language.AboutDown, language.AboutFewerKit, language.AboutOnlyKit, language.AboutBack:
		s = on.kitSaid(q)
	case language.AboutLeaves:
		s.text = t.leaves(on, on.cook(t.cookNamed(q.Food)), now)
	case language.AboutJoins, language.AboutJoinsBy:
		return t.joins(on, q)
	case language.AboutLater, language.AboutSooner, language.AboutReadyBy:
		return t.wantedAt(on, q, now), nil
	}
	return s, nil
}

// nothingYours is what a cook is told who is done, or late, and at nothing.
const nothingYours = `Nothing of yours is on. "what's next?" tells what comes.`

// kitSaid notes that kit is there no more, or again.
func (on *running) kitSaid(q *language.Question) (s saidLive) {
	all := planner.DefaultKit()[q.Food]
	only := max(0, all-on.Fewer[q.Food]-max(1, q.N))
	switch {
	case q.About == language.AboutBack:
		on.Down = slices.DeleteFunc(slices.Clone(on.Down), func(k string) bool { return k == q.Food })
		on.Fewer = maps.Clone(on.Fewer)
		delete(on.Fewer, q.Food)
		return saidLive{text: "The " + q.Food + " is back."}
	case q.About == language.AboutOnlyKit:
		only = min(q.N, all)
		if q.N >= all {
			return saidLive{none: true, text: fmt.Sprintf("Plans are made for %s.", counted1(all, q.Food, q.Food+"s"))}
		}
	case q.About == language.AboutDown || all == 1:
		only = 0
	}
	if only == 0 {
		if !slices.Contains(on.Down, q.Food) {
			on.Down = append(slices.Clone(on.Down), q.Food)
		}
		return saidLive{text: "No " + q.Food + " from now on."}
	}
	on.Fewer = maps.Clone(on.Fewer)
	if on.Fewer == nil {
		on.Fewer = map[string]int{}
	}
	on.Fewer[q.Food] = all - only
	return saidLive{text: fmt.Sprintf("%s from now on, of %d.", title(counted1(only, q.Food, q.Food+"s")), all)}
}

// unsayLive takes back what the message said of the plan before it was edited.
func (t *turn) unsayLive(on *running) error {
	x := told{}
	if err := t.unstretch(on, &x); err != nil {
		return err
	}
	return t.unturn(on, &x)
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
	stuck := []int(nil)
	err := on.rest(now, t.b.o.Think/replanning)
	if errors.Is(err, planner.ErrNoRest) {
		stuck = on.stuckDishes(now)
		err = on.restWithout(stuck, now, t.b.o.Think/replanning)
	}
	if errors.Is(err, planner.ErrNoRest) || errors.Is(err, planner.ErrNoTime) {
		if err := t.save(on); err != nil {
			return Reply{}, err
		}
		return Reply{Kind: Answer, Text: said + " " + on.stuck(now) + " \"plan\" again for what is left."}, nil
	}
	if err != nil {
		return Reply{}, err
	}
	if len(stuck) > 0 {
		n := stuck[0] + 1
		said += " " + on.stuck(now) + fmt.Sprintf(` "drop %d" takes it off, "swap %d" looks for another.`, n, n)
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
	text += ": " + s.inShort()
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

// inShort is what a step does without what goes into it, for who has read that: "cook the filling through".
func (s *PlanStep) inShort() string {
	text, _, _ := strings.Cut(s.Do, "; ")
	if head, in, ok := strings.Cut(text, " ("); ok && strings.Count(in, ",") >= mostInShort {
		text = head
	}
	return text
}

// mostInShort is how many commas the foods of a step may have to be told with it again. The program's own choice.
const mostInShort = 2

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

// toRest is what is left of a plan, as the planner has it.
func (on *running) toRest(now int) planner.Rest {
	r := planner.Rest{Now: now, Cooks: max(1, on.Hands), Kit: planner.DefaultKit(), Gone: on.Gone, Held: on.Held, From: on.From}
	for k, n := range on.Fewer {
		r.Kit[k] = max(1, r.Kit[k]-n)
	}
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
