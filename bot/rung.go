package bot

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
)

// A timer of a plan that rings: what comes then, and more time for what it rang for.

// afterRing tells what follows the step that a timer of a plan rings for, and how it is told that it is over or not; "" where
// the timer is of no plan that is on.
func afterRing(book pantry.Book, x pantry.Timer, now time.Time) (string, error) {
	list, err := book.Services(now.Add(-serviceLong))
	if err != nil {
		return "", err
	}
	at := slices.IndexFunc(list, func(s pantry.Service) bool { return s.Message == x.Message && s.Ended.IsZero() })
	if at < 0 {
		return "", nil
	}
	on := running{}
	if err := json.Unmarshal(list[at].Body, &on); err != nil {
		return "", err
	}
	on.Service = list[at]
	s, n := on.ofTimer(x)
	if s == nil || s.isHeating() {
		return "", nil
	}
	name := on.shortName(n)
	text := ` "the ` + name + ` is done", or "5 more min on the ` + name + `".`
	var then []string
	k := book.Kitchen()
	for _, d := range on.Plan.Dishes {
		for _, o := range d.Steps {
			if !slices.Contains(o.After, s.ID) {
				continue
			}
			line := on.at(o.Start, now) + " " + o.Do
			if o.Cook > 0 && o.Cook <= len(on.Cooks) {
				line += ", " + k.CookName(on.Cooks[o.Cook-1])
			}
			then = append(then, line)
		}
	}
	switch {
	case len(then) > 0:
		return " Then: " + strings.Join(then, "; ") + "." + text, nil
	case s.Ends:
		return " That is the last of " + on.dishCalled(n) + "." + text, nil
	}
	return text, nil
}

// ofTimer gives the step of the plan that a timer is for, and its dish; nil none.
func (on *running) ofTimer(x pantry.Timer) (*PlanStep, int) {
	for n := range on.Plan.Dishes {
		d := &on.Plan.Dishes[n]
		for i := range d.Steps {
			s := &d.Steps[i]
			if name := (Idea{Title: d.Name}).name(); x.About == s.Do+" ("+name+")" && x.Begun.Equal(on.Begun.Add(time.Duration(s.Start)*time.Minute)) {
				return s, n
			}
		}
	}
	return nil, 0
}

// shortName is the last word of what a dish is, where no other dish of the plan has it: "tart". Else "dish 2".
func (on *running) shortName(n int) string {
	word := lastWord(strings.TrimSuffix(coreOf(Idea{Title: on.Plan.Dishes[n].Name}.name()), " filled"))
	for i, d := range on.Plan.Dishes {
		if other := (Idea{Title: d.Name}).name(); i != n && fitsName(other, word) {
			return fmt.Sprint("dish ", n+1)
		}
	}
	return word
}

// rungNamed gives the step that goes on by itself and is over about now, by words of its own or of its dish's name: the last
// of them, and of those the one that was begun last. Nil none.
func (on *running) rungNamed(said string, now int) (step *PlanStep, dish *Planned) {
	for n := range on.Plan.Dishes {
		d := &on.Plan.Dishes[n]
		for i := range d.Steps {
			s := &d.Steps[i]
			if end := s.Start + s.Minutes; s.Minutes == s.HandsOn || len(s.Kit) == 0 || s.isHeating() || !on.isIn(s, now) || end > now+nearRing ||
				!fitsName(s.Do+" ("+Idea{Title: d.Name}.name()+")", said) {
				continue
			}
			if step == nil || cmp.Or(s.Start+s.Minutes-step.Start-step.Minutes, s.Start-step.Start) > 0 {
				step, dish = s, d
			}
		}
	}
	return step, dish
}

// longerRung gives more time to what rang, or is on by itself, where it was not named: "give it 5 more".
func (t *turn) longerRung(on *running, q *language.Question, now int) saidLive {
	s, d := on.ringing(on.cook(t.cook), now)
	if s == nil {
		s, d = on.timed(nil, "", t.m.At)
	}
	if s == nil {
		return t.whichLonger(on, q, now)
	}
	return saidLive{text: on.longer(t, s, d, max(s.Start+s.Minutes, now)+q.N)}
}

// whichLonger asks which of several steps that go on by themselves is to have more time.
func (t *turn) whichLonger(on *running, q *language.Question, now int) saidLive {
	var list []string
	first := ""
	for n, d := range on.Plan.Dishes {
		for i := range d.Steps {
			if s := &d.Steps[i]; len(s.Kit) > 0 && s.Minutes > s.HandsOn && !s.isHeating() && on.isIn(s, now) {
				list = append(list, s.Do+" ("+on.shortName(n)+")")
				first = cmp.Or(first, on.shortName(n))
			}
		}
	}
	if len(list) == 0 {
		return saidLive{}
	}
	return saidLive{text: fmt.Sprintf(`Which? %s. Say it like "%d more min on the %s".`, both(list, "or"), q.N, first), none: true}
}
