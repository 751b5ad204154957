package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
)

// What is done, and what has begun at another minute than it was to.

// nearRing is how many minutes before it is to be over a step that goes on by itself may be what "done" means.
const nearRing = 2

// finished ends what a cook is at: with their hands, else what they set going and is over about now.
func (t *turn) finished(on *running, cook, now int) saidLive {
	if s := on.atNow(cook, now); s != nil {
		saved := s.Start + s.HandsOn - now
		if s.HandsOn == s.Minutes {
			s.Minutes -= saved
		}
		s.HandsOn -= saved
		s.Minutes, s.HandsOn = max(1, s.Minutes), max(0, s.HandsOn)
		return saidLive{text: "Done: " + s.Do + ".", next: cook}
	}
	if cook == 0 {
		return saidLive{text: nothingYours, none: true}
	}
	if s, d := on.ringing(cook, now); s != nil {
		on.stretch(t.said.ID, s, max(s.Start+1, now))
		return saidLive{text: "Done: " + s.Do + " (" + Idea{Title: d.Name}.name() + ").", next: cook}
	}
	text := nothingYours
	if s := on.justOver(cook, now); s != nil {
		text = "Done: " + s.Do + "."
	} else if own := on.setGoing(cook, now); own != nil {
		text = fmt.Sprintf("Nothing is in your hands. By itself: %s until %s; name it once it is done.", own.Do, on.at(own.Start+own.Minutes, t.m.At))
	}
	text, err := t.withNext(text, cook)
	if err != nil {
		return saidLive{text: nothingYours, none: true}
	}
	return saidLive{text: text, none: true}
}

// ringing gives the one step that goes on by itself and is over about now, the last of them: of those that a cook set going,
// else of all. Nil none, or several.
func (on *running) ringing(cook, now int) (step *PlanStep, dish *Planned) {
	for _, own := range []bool{true, false} {
		several := false
		for n := range on.Plan.Dishes {
			d := &on.Plan.Dishes[n]
			for i := range d.Steps {
				s := &d.Steps[i]
				end := s.Start + s.Minutes
				if s.Minutes == s.HandsOn || len(s.Kit) == 0 || s.isHeating() || !on.isIn(s, now) || end > now+nearRing || own != (s.Cook == cook) {
					continue
				}
				if step != nil && end < step.Start+step.Minutes {
					continue
				}
				several = step != nil && end == step.Start+step.Minutes
				step, dish = s, d
			}
		}
		if several {
			return nil, nil
		}
		if step != nil {
			return step, dish
		}
	}
	return nil, nil
}

// isHeating says whether a step only heats kit, or water.
func (s *PlanStep) isHeating() bool {
	x := s.step()
	return x.Readies() || strings.HasPrefix(s.Do, "bring ")
}

// setGoing gives a step that a cook set going and that goes on by itself; nil none.
func (on *running) setGoing(cook, now int) *PlanStep {
	for n := range on.Plan.Dishes {
		for i := range on.Plan.Dishes[n].Steps {
			if s := &on.Plan.Dishes[n].Steps[i]; s.Cook == cook && s.Start+s.HandsOn <= now && now < s.Start+s.Minutes && !s.isHeating() {
				return s
			}
		}
	}
	return nil
}

// handsNamed gives the one step of hands alone that is on, a cook's own first, else comes, by words of its own, and whose food
// is there by now; nil none, or several of which none is on.
func (on *running) handsNamed(said string, cook, now int) (step *PlanStep, dish *Planned) {
	over := map[string]bool{}
	for _, d := range on.Plan.Dishes {
		for _, s := range d.Steps {
			over[s.ID] = s.Start+s.Minutes <= now
		}
	}
	several := false
	atIt, of := (*PlanStep)(nil), (*Planned)(nil) // another cook
	for n := range on.Plan.Dishes {
		d := &on.Plan.Dishes[n]
		for i := range d.Steps {
			s := &d.Steps[i]
			if len(s.Kit) > 0 || s.HandsOn == 0 || s.Start+s.HandsOn <= now || !fitsName(s.Do, said) ||
				slices.ContainsFunc(s.After, func(a string) bool { done, known := over[a]; return known && !done }) {
				continue
			}
			if s.Start <= now && s.Cook == cook {
				return s, d
			}
			if s.Start <= now {
				if atIt == nil {
					atIt, of = s, d
				}
				continue
			}
			several = several || step != nil
			step, dish = s, d
		}
	}
	if atIt != nil {
		return atIt, of
	}
	if several {
		return nil, nil
	}
	return step, dish
}

// justNamed gives the step of hands that was over by the plan a short while ago, by words of its own; nil none.
func (on *running) justNamed(said string, now int) *PlanStep {
	for n := range on.Plan.Dishes {
		for i := range on.Plan.Dishes[n].Steps {
			if s := &on.Plan.Dishes[n].Steps[i]; s.HandsOn == s.Minutes && s.Start+s.Minutes <= now && now <= s.Start+s.Minutes+stillIn && fitsName(s.Do, said) {
				return s
			}
		}
	}
	return nil
}

// takenOut is said of what comes off the heat, whenever that is.
var takenOut = regexp.MustCompile(`(?i)\b(?:out|off)\b|\bcooked\b`)

// finishNamed ends a step by words of its own or of its dish's name: one of hands by its own, else one that goes on by itself.
// What is by far not over by the plan is not taken for done where it may be something else that is.
func (t *turn) finishNamed(on *running, name string, now int) (r saidLive) {
	s, d := on.handsNamed(name, t.cookIn(on, t.cook), now)
	if s != nil {
		if s.Start >= now { // ahead of the plan
			s.Start = now - 1
		}
		if s.Minutes, s.HandsOn = max(1, now-s.Start), max(1, now-s.Start); s.Start+1 >= now {
			s.HandsOn = 0
		}
		return saidLive{text: "Done: " + s.Do + " (" + Idea{Title: d.Name}.name() + ")."}
	}
	if s := on.justNamed(name, now); s != nil {
		return saidLive{text: "Done: " + s.Do + ", by the plan since " + on.at(s.Start+s.Minutes, t.m.At) + ".", none: true}
	}
	if s, d = on.rungNamed(name, now); s == nil {
		s, d = on.timed(nil, name, t.m.At)
	}
	if s == nil || s.Start+s.Minutes+stillIn <= now {
		if text := t.sayReadyAt(on, name); text != "" && !strings.HasSuffix(text, "is off.") {
			return saidLive{text: text + " Name the step that is done.", none: true}
		}
		return r
	}
	if 3*(now-s.Start) < s.Minutes && !takenOut.MatchString(t.m.Text) {
		return saidLive{text: fmt.Sprintf(`%s (%s) has %d of its %d min, so it was not taken for done. "the %s is out" says that it is.`, title(s.Do), Idea{Title: d.Name}.name(), now-s.Start, s.Minutes, name), none: true}
	}
	on.stretch(t.said.ID, s, max(s.Start+1, now))
	return saidLive{text: "Done: " + s.Do + " (" + Idea{Title: d.Name}.name() + ")."}
}

// startNamed lets a step on kit begin now, by words of its own or of its dish's name: somebody has said that it is in. What it
// was to wait for is over then.
func (t *turn) startNamed(on *running, name string, now int) (s saidLive) {
	x, d := on.toStart(name, now, false)
	if x == nil {
		return s
	}
	called := " (" + Idea{Title: d.Name}.name() + ")"
	if x.Start < now {
		end := now + x.Minutes - x.HandsOn
		if late := now - x.Start - x.HandsOn; late <= 1 {
			return saidLive{text: fmt.Sprintf("As planned: %s%s until %s.", x.Do, called, on.at(x.Start+x.Minutes, t.m.At)), none: true}
		}
		on.stretch(t.said.ID, x, end)
		return saidLive{text: fmt.Sprintf("%s%s, in since now, until %s.", title(x.Do), called, on.at(end, t.m.At))}
	}
	if on.isDown(x.Kit) {
		return saidLive{text: "The plan has no " + x.Kit[0] + ` since it broke. "the ` + x.Kit[0] + ` is back" lets it in.`, none: true}
	}
	skipped := on.overBefore(x, now)
	if len(skipped) > mostSkipped {
		return saidLive{text: fmt.Sprintf(`By the plan so much comes before %s%s that it was not taken for in: %s. Tell what of that is done.`, x.Do, called, both(skipped, "and")), none: true}
	}
	if len(skipped) > 0 {
		called += ", with " + both(skipped, "and") + " done"
	}
	x.Minutes, x.HandsOn, x.Start = max(1, x.Minutes-x.HandsOn), 0, now
	return saidLive{text: fmt.Sprintf("%s%s, in since now, until %s.", title(x.Do), called, on.at(now+x.Minutes, t.m.At)), from: now + 1}
}

// mostSkipped is how many steps may be taken for done because what comes after them has begun. The program's own choice.
const mostSkipped = 2

// toStart gives the step on kit that is meant: by words of its own, else of its dish's name, and of these what is in the oven
// before what is on a ring, and the nearest to now. What is over is not meant, nor, without hands, what takes hands all
// through. Nil none.
func (on *running) toStart(said string, now int, hands bool) (step *PlanStep, dish *Planned) {
	best := [3]int{}
	for n := range on.Plan.Dishes {
		d := &on.Plan.Dishes[n]
		for i := range d.Steps {
			s := &d.Steps[i]
			if len(s.Kit) == 0 || s.isHeating() || s.Minutes == s.HandsOn && !hands || s.Start+s.Minutes <= now || !fitsName(s.Do+" ("+Idea{Title: d.Name}.name()+")", said) {
				continue
			}
			rank := [3]int{1, 1, max(s.Start-now, now-s.Start)}
			if fitsName(s.Do, said) {
				rank[0] = 0
			}
			if slices.ContainsFunc(s.Kit, func(k string) bool { return k != "ring" }) {
				rank[1] = 0
			}
			if step == nil || slices.Compare(rank[:], best[:]) < 0 {
				step, dish, best = s, d, rank
			}
		}
	}
	return step, dish
}

// overBefore ends all that a step waits for: what has not begun was done ahead of the plan, by hands and kit that the plan
// does not know of. It gives what these are.
func (on *running) overBefore(s *PlanStep, now int) (skipped []string) {
	for n := range on.Plan.Dishes {
		for i := range on.Plan.Dishes[n].Steps {
			o := &on.Plan.Dishes[n].Steps[i]
			if !slices.Contains(s.After, o.ID) || o.Start+o.Minutes <= now {
				continue
			}
			skipped = append(skipped, on.overBefore(o, now)...)
			if !o.isHeating() {
				skipped = append(skipped, o.Do)
			}
			if o.Start >= now {
				o.Start, o.Minutes, o.HandsOn, o.Kit = max(0, now-1), min(1, now), 0, []string{}
				continue
			}
			o.Minutes = max(1, now-o.Start)
			o.HandsOn = min(o.HandsOn, o.Minutes)
		}
	}
	return skipped
}

// withNext adds what a cook does next.
func (t *turn) withNext(text string, cook int) (string, error) {
	on, ok, err := t.running()
	if err != nil || !ok {
		return text, err
	}
	now := on.minute(t.m.At)
	who := ""
	if cook != t.cookIn(&on, t.cook) {
		who = title(strings.Trim(t.called1(on, cook), " ()")) + ": "
	}
	s, d := on.stepOf(cook, now)
	if s == nil {
		return text + "\n" + who + "Nothing more for those hands.", nil
	}
	return text + "\n" + who + t.sayStep(on, s, d, now), nil
}

// nextFor tells a cook, or of a cook, what is on now and next.
func (t *turn) nextFor(on running, q *language.Question) (Reply, bool, error) {
	if q.Food == "" || t.cookIn(&on, t.cookNamed(q.Food)) == t.cookIn(&on, t.cook) {
		r, err := t.nextStep(on, false)
		return r, true, err
	}
	cook := t.cookIn(&on, t.cookNamed(q.Food))
	name := title(t.k.CookName(t.cookNamed(q.Food)))
	switch {
	case cook == 0:
		return Reply{Kind: Answer, Text: name + ` is at nothing of the plan. "` + strings.ToLower(name) + ` can help" brings them in.`}, true, nil
	case on.Gone[cook]:
		return Reply{Kind: Answer, Text: name + " has left."}, true, nil
	}
	return Reply{Kind: Answer, Text: name + ", cook " + fmt.Sprint(cook) + ".\n" + strings.Join(t.sayHands(&on, cook), "\n")}, true, nil
}

// sayHands tells what a cook is at and what comes then.
func (t *turn) sayHands(on *running, cook int) (lines []string) {
	now := on.minute(t.m.At)
	s, d := on.stepOf(cook, now)
	if s == nil {
		return []string{"Nothing more for those hands."}
	}
	lines = append(lines, t.sayStep(*on, s, d, now))
	if after, d := on.stepOf(cook, s.Start+s.HandsOn); after != nil {
		lines = append(lines, t.sayStep(*on, after, d, now))
	}
	return lines
}
