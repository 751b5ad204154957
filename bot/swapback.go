package bot

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"scullion/pantry"
	"scullion/planner"
)

// Dishes that come back into a plan that is on, as what took them off it is taken back.

// putBack puts dishes back in whose place others came because of what has been taken back
// now, if they can still be made and those have not begun.
func (t *turn) putBack(on *running, x *told) error {
	for i := len(on.Swapped) - 1; i >= 0; i-- {
		s := on.Swapped[i]
		later := slices.ContainsFunc(on.Swapped[i+1:], func(o swapped) bool { return o.N == s.N })
		if !slices.ContainsFunc(s.By, t.isUnsaid) || later || on.hasBegun(s.N, t.m.At) {
			continue
		}
		back, ok, err := t.withBack(*on, s)
		if err != nil {
			return err
		}
		if !ok { // nor will it be later
			on.Swapped[i].By = nil
			continue
		}
		now, gone := "", on.Plan.Dishes[s.N]
		if !gone.isOff() {
			now = ", not the " + Idea{Title: gone.Name}.name()
		}
		back.Swapped = slices.Delete(slices.Clone(on.Swapped), i, i+1)
		*on = back
		line := fmt.Sprintf("%s, is on again%s.", on.dishCalled(s.N), now)
		if gone.Key == s.Was.Key && !gone.isOff() {
			line = fmt.Sprintf("%s, is for %d again.", on.dishCalled(s.N), s.Was.Portions)
		}
		x.lines = append(x.lines, line)
		x.moved = true
	}
	return nil
}

// withBack gives the plan with a dish back in its place; ok is false where it lacks something,
// or is not ready in time.
func (t *turn) withBack(on running, s swapped) (back running, ok bool, err error) {
	now := on.minute(t.m.At)
	rest := on.toRest(now)
	d := toPlanner(&s.Was)
	shift, off := 0, on.Plan.Dishes[s.N].isOff()
	for _, x := range d.Steps {
		if !off { // what was dropped goes on as it was
			shift = max(shift, now-x.Start)
		}
	}
	for i := range d.Steps {
		d.Steps[i].Start += shift
	}
	rest.Dishes = planner.Replace(rest.Dishes, s.N, d)
	ctx, cancel := context.WithTimeout(context.Background(), t.b.o.Think/replanning)
	defer cancel()
	dishes, minutes, proven, err := planner.Replan(ctx, rest)
	if errors.Is(err, planner.ErrNoRest) && off { // what was put anew since is in its way
		on.unbegin(&rest, s)
		dishes, minutes, proven, err = planner.Replan(ctx, rest)
	}
	if err != nil {
		if cannot(err) {
			err = nil
		}
		return on, false, err
	}
	if minutes > max(on.End, on.Plan.Minutes) && !off {
		return on, false, nil
	}
	back = on
	back.Names = slices.Clone(on.Names)
	back.Plan.Dishes = slices.Clone(on.Plan.Dishes)
	back.Plan.Dishes[s.N] = s.Was
	t.seat(&back, s.N, dishes, minutes, proven)
	has, err := t.hasEnough(&back, s.N)
	return back, has, err
}

// unbegin lets steps of the other dishes that have begun only since a dish was dropped, by the timetable without it, begin
// later: in its place nobody was at them.
func (on *running) unbegin(rest *planner.Rest, s swapped) {
	for d := range rest.Dishes {
		for i := range rest.Dishes[d].Steps {
			if x := &rest.Dishes[d].Steps[i]; d != s.N && x.Start >= s.At && x.Start < rest.Now && x.Start+x.Minutes > rest.Now {
				x.Start = rest.Now
			}
		}
	}
}

// swappedBack takes back that a dish was swapped, if that is what the cook did last; logged
// are the messages by which the cook logged something.
func (t *turn) swappedBack(logged []*pantry.Message) (r Reply, done bool, err error) {
	on, ok, err := t.running()
	if err != nil || !ok || len(on.Swapped) == 0 {
		return r, false, err
	}
	last := on.Swapped[len(on.Swapped)-1]
	if len(last.By) != 1 { // it was what was corrected that did it
		return r, false, nil
	}
	by, err := t.book.Message(last.By[0])
	if err != nil || by.Cook != t.cook || len(logged) > 0 && logged[0].N >= by.N {
		return r, false, err
	}
	t.unsaid = append(t.unsaid, by.ID)
	x := told{was: on.times(), ready: on.Plan.Minutes}
	if err := t.putBack(&on, &x); err != nil {
		return r, true, err
	}
	t.unsaid = nil
	if len(x.lines) == 0 {
		stays := "stays: it has begun, or what was there before it cannot be made any more"
		if on.Plan.Dishes[last.N].isOff() {
			stays = "stays off: it cannot be made any more"
		}
		return Reply{Kind: Answer, Text: on.dishCalled(last.N) + ", " + stays + "."}, true, nil
	}
	if err := t.mendPlan(&on, &x); err != nil {
		return r, true, err
	}
	if err := t.save(on); err != nil {
		return r, true, err
	}
	lines, err := t.tellMended(on, &x)
	return Reply{Kind: Answer, Text: strings.Join(lines, "\n"), Timed: x.moved && t.m.Room != ""}, true, err
}
