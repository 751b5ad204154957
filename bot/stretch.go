package bot

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
)

// stretched is a step of a plan that ends at another minute than it was to, as somebody said
// so of its timer.
type stretched struct {
	By      string // the message
	Step    string // its ID
	Minutes int    // that were added; negative: taken off
	Hands   int    `json:",omitempty"` // and of those hands-on, as turned has them
}

// stillIn is for how many minutes after it was to end a step may be given more: the timer has
// rung, and it is not done.
const stillIn = 10

// planTimer gives more time to what a timer of the plan that is on is for: the step ends then, and the rest of the plan comes as that makes it. Done is false where
// no step of the plan is meant.
func (t *turn) planTimer(w language.Timer, list []pantry.Timer) (said string, done bool, err error) {
	on, ok, err := t.running()
	if err != nil || !ok {
		return "", false, err
	}
	now := on.minute(t.m.At)
	s, d := on.timed(list, w.For, t.m.At)
	if s == nil {
		return "", false, nil
	}
	end := s.Start + s.Minutes
	more := int((time.Duration(w.Seconds)*time.Second + time.Minute - 1) / time.Minute)
	switch {
	case w.Wish == language.TimerMore:
		end = max(end, now) + more
	case w.Wish == language.TimerSet && w.For != "" && w.At == "" && now+more > end: // if sooner, it is for something else: to turn it, or look at it
		end = now + more
	default:
		return "", false, nil
	}
	said = on.longer(t, s, d, end)
	r, err := t.replan(on, now, said)
	return r.Text, true, err
}

// longer lets a step go on until a minute, and says so.
func (on *running) longer(t *turn, s *PlanStep, d *Planned, end int) string {
	on.stretch(t.said.ID, s, end)
	return fmt.Sprintf("%s (%s) until %s.", title(s.Do), Idea{Title: d.Name}.name(), on.at(end, t.m.At))
}

// longerNamed gives a step so many minutes more, by words of its own or of its dish's name; ""
// where none such is meant.
func (t *turn) longerNamed(on *running, name string, minutes, now int) string {
	s, d := on.rungNamed(name, now)
	if s == nil {
		s, d = on.timed(nil, name, t.m.At)
	}
	if s == nil {
		return ""
	}
	return on.longer(t, s, d, max(s.Start+s.Minutes, now)+minutes)
}

// stretch lets a step end at another minute.
func (on *running) stretch(by string, s *PlanStep, end int) {
	more := end - s.Start - s.Minutes
	on.Stretched = append(on.Stretched, stretched{By: by, Step: s.ID, Minutes: more})
	s.take(more)
}

// take gives a step so many minutes more, and as many of them hands-on where all of it is.
func (s *PlanStep) take(more int) {
	if s.HandsOn == s.Minutes {
		s.HandsOn = max(1, s.HandsOn+more)
	}
	s.Minutes = max(1, s.HandsOn, s.Minutes+more)
}

// timed finds the step that is meant by one of the timers, or by words of its own or of its
// dish's name, if that is on without hands or was a short while ago, else with hands; nil
// none, or several.
func (on *running) timed(list []pantry.Timer, said string, at time.Time) (step *PlanStep, dish *Planned) {
	if len(list) > 1 {
		return nil, nil
	}
	now := on.minute(at)
	for _, alone := range []bool{true, false} {
		several := false
		for d := range on.Plan.Dishes {
			x := &on.Plan.Dishes[d]
			for i := range x.Steps {
				s := &x.Steps[i]
				name := s.Do + " (" + Idea{Title: x.Name}.name() + ")"
				switch {
				case len(s.Kit) == 0 || alone != (s.Minutes-s.HandsOn >= callFor):
					continue
				case len(list) == 1:
					if list[0].Message != on.Message || list[0].About != name || !list[0].Begun.Equal(on.Begun.Add(time.Duration(s.Start)*time.Minute)) {
						continue
					}
				case !on.isIn(s, now) || said != "" && !fitsName(name, said):
					continue
				}
				several = several || step != nil
				step, dish = s, x
			}
		}
		if several {
			return nil, nil
		}
		if step != nil {
			break
		}
	}
	return step, dish
}

// isIn says whether a step goes on by itself, or did a short while ago and nothing that waits
// for it has begun.
func (on *running) isIn(s *PlanStep, now int) bool {
	if s.Start > now || s.HandsOn < s.Minutes && s.Start+s.HandsOn > now || s.Start+s.Minutes+stillIn < now {
		return false
	}
	for _, d := range on.Plan.Dishes {
		for _, o := range d.Steps {
			if slices.Contains(o.After, s.ID) && o.Start < now {
				return false
			}
		}
	}
	return true
}

// unstretch takes back that steps end at another minute, of what has been taken back now.
func (t *turn) unstretch(on *running, x *told) error {
	back := false
	on.Stretched = slices.DeleteFunc(slices.Clone(on.Stretched), func(o stretched) bool {
		if !t.isUnsaid(o.By) {
			return false
		}
		for d := range on.Plan.Dishes {
			for i := range on.Plan.Dishes[d].Steps {
				if s := &on.Plan.Dishes[d].Steps[i]; s.ID == o.Step {
					s.take(-o.Minutes)
					x.lines = append(x.lines, title(s.Do)+" until "+on.at(s.Start+s.Minutes, t.m.At)+" again.")
					back = true
				}
			}
		}
		return true
	})
	if !back {
		return nil
	}
	x.moved = true
	if err := on.rest(on.minute(t.m.At), t.b.o.Think/replanning); err != nil && !cannot(err) {
		return err
	}
	on.due()
	return nil
}

// quiet remembers that timers of the plan that is on were stopped: they are not set again when
// the plan moves. The plan itself stands.
func (t *turn) quiet(list []pantry.Timer) error {
	on, ok, err := t.running()
	if err != nil || !ok {
		return err
	}
	n := len(on.Quiet)
	for _, x := range list {
		if s, _ := on.timed([]pantry.Timer{x}, "", t.m.At); s != nil {
			on.Quiet = append(on.Quiet, s.ID)
		}
	}
	if len(on.Quiet) == n {
		return nil
	}
	return t.save(on)
}

// stretchedBack takes back that a step ends at another minute, if that is what the cook said
// last; logged are the messages by which the cook logged something.
func (t *turn) stretchedBack(logged []*pantry.Message) (r Reply, done bool, err error) {
	on, ok, err := t.running()
	if err != nil || !ok || len(on.Stretched) == 0 {
		return r, false, err
	}
	by, err := t.book.Message(on.Stretched[len(on.Stretched)-1].By)
	if err != nil || by.Cook != t.cook || len(logged) > 0 && logged[0].N >= by.N {
		return r, false, err
	}
	if last, err := t.lastMoved(&on); err != nil || last.ID != by.ID {
		return r, false, err
	}
	t.unsaid = append(t.unsaid, by.ID)
	x := told{was: on.times(), ready: on.Plan.Minutes}
	if err := t.unstretch(&on, &x); err != nil {
		return r, true, err
	}
	t.unsaid = nil
	if len(x.lines) == 0 { // the step is on no more
		return r, false, nil
	}
	if err := t.save(on); err != nil {
		return r, true, err
	}
	lines, err := t.tellMended(on, &x)
	return Reply{Kind: Answer, Text: strings.Join(lines, "\n"), Timed: t.m.Room != ""}, true, err
}
