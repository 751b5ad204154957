package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// What is asked of a plan that is on.

// liveAsked answers a question about a plan that is on, or about who is at what. Done is false where it asks of something
// else.
func (t *turn) liveAsked(on running, q *language.Question) (r Reply, done bool, err error) {
	on.complete(t)
	if q.About == language.AboutNoPlan {
		m, err := t.book.Message(on.Message)
		if err != nil {
			return r, true, err
		}
		r, err = t.takeBack([]*pantry.Message{m})
		return r, true, err
	}
	if on.isEmpty() {
		return r, false, nil
	}
	text := ""
	switch q.About {
	case language.AboutNextFor:
		return t.nextFor(on, q)
	case language.AboutHands:
		text = t.sayCooks(&on)
	case language.AboutKitFree:
		text = t.sayKit(&on, q)
	case language.AboutGoesIn:
		text = t.sayGoesIn(&on, q.Food)
	case language.AboutReadyAt:
		text = t.sayReadyAt(&on, q.Food)
	case language.AboutPlate:
		text = t.sayPlate(&on)
	case language.AboutOnTime:
		text = t.sayOnTime(&on)
	case language.AboutMoreOf, language.AboutFewer, language.AboutHeads, language.AboutDishFor, language.AboutNamedFor:
		return t.headsInPlan(on, q)
	}
	return Reply{Kind: Answer, Text: text}, text != "", nil
}

// sayCooks tells of each cook what they are at, or from when to when they are free.
func (t *turn) sayCooks(on *running) string {
	now := on.minute(t.m.At)
	var lines []string
	for cook := 1; cook <= on.cooks(); cook++ {
		name := title(cmp.Or(strings.Trim(t.called1(*on, cook), " ()"), fmt.Sprintf("cook %d", cook)))
		switch s, d := on.stepOf(cook, now); {
		case on.Gone[cook]:
			continue
		case on.Held[cook] > now:
			lines = append(lines, fmt.Sprintf("%s: back at %s.", name, on.at(on.Held[cook], t.m.At)))
		case s == nil:
			lines = append(lines, name+": free, nothing more in the plan.")
		case s.Start > now:
			lines = append(lines, fmt.Sprintf("%s: free until %s, then %s (%s).", name, on.at(s.Start, t.m.At), s.Do, Idea{Title: d.Name}.name()))
		default:
			lines = append(lines, fmt.Sprintf("%s: %s until %s (%s).", name, s.Do, on.at(s.Start+s.HandsOn, t.m.At), Idea{Title: d.Name}.name()))
		}
	}
	if len(lines) == 0 {
		return "Nobody is left in the plan."
	}
	return strings.Join(lines, "\n")
}

// onKitNow is a stretch in which some of a piece of kit is held.
type onKitNow struct {
	from, to int
	step     *PlanStep
	dish     *Planned
}

// sayKit tells whether kit is free now, or at a time, what is on it, and what comes.
func (t *turn) sayKit(on *running, q *language.Question) string {
	now := on.minute(t.m.At)
	at, when := now, "now"
	if q.At != "" {
		minute, ok := on.minuteOf(q, t.m.At, on.Plan.Minutes)
		if !ok || minute < now {
			return "The plan that is on says nothing of that time: all ready " + on.at(on.Plan.Minutes, t.m.At) + "."
		}
		at, when = minute, "at "+on.at(minute, t.m.At)
	}
	rest := on.toRest(now)
	room := rest.Kit[q.Food]
	if room == 0 {
		return "No " + q.Food + ` since it broke. "the ` + q.Food + ` is back" brings it back.`
	}
	var list []onKitNow
	for n := range on.Plan.Dishes {
		d := &on.Plan.Dishes[n]
		for i := range d.Steps {
			if s := &d.Steps[i]; slices.Contains(s.Kit, q.Food) && s.Start+s.Minutes > at {
				list = append(list, onKitNow{s.Start, s.Start + s.Minutes, s, d})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b onKitNow) int { return cmp.Compare(a.from, b.from) })
	var in []string
	next := (*onKitNow)(nil)
	end := at
	used := 0
	for i := range list {
		x := &list[i]
		switch {
		case x.from <= at:
			used++
			temp := ""
			if q.Food == "oven" && x.step.Temp > 0 {
				temp = fmt.Sprintf(", %d C", x.step.Temp)
			}
			in = append(in, fmt.Sprintf("%s (%s)%s until %s", x.step.Do, Idea{Title: x.dish.Name}.name(), temp, on.at(x.to, t.m.At)))
			end = max(end, x.to)
		case next == nil:
			next = x
		}
	}
	name := title(onKit([]string{q.Food}))
	text := fmt.Sprintf("%s %s: %s.", name, when, both(in, "and"))
	then := ""
	if next != nil {
		then = fmt.Sprintf(" Next: %s %s (%s).", on.at(next.from, t.m.At), next.step.Do, Idea{Title: next.dish.Name}.name())
	}
	switch {
	case used == 0 && next == nil:
		return fmt.Sprintf("The %s is free %s, and nothing more of the plan wants it.", q.Food, when)
	case used == 0:
		return fmt.Sprintf("The %s is free %s, until %s.%s", q.Food, when, on.at(next.from, t.m.At), then)
	case room > used && room > 1:
		return fmt.Sprintf("%s free %s, of %d. %s%s", title(counted1(room-used, q.Food, q.Food+"s")), when, room, text, then)
	}
	return text + then
}

// dishInPlan gives the dish of a plan that is meant by its number, by words of its name, or as the one that holds such food; -1
// none, or several.
func (t *turn) dishInPlan(on *running, said string) int {
	if name := t.dishOn(said); name != "" {
		return slices.Index(on.Names, name)
	}
	at := -1
	for n := range on.Plan.Dishes {
		d := &on.Plan.Dishes[n]
		if d.isOff() || !fitsName(d.Name, said) && !slices.ContainsFunc(d.Uses, func(u Quantity) bool { return fitsName(u.Item, said) }) {
			continue
		}
		if at >= 0 {
			return -1
		}
		at = n
	}
	return at
}

// sayGoesIn tells when what is named is begun: a step by its own words, else all of a dish.
func (t *turn) sayGoesIn(on *running, said string) string {
	now := on.minute(t.m.At)
	if s, d := on.toStart(said, now, true); s != nil {
		called := " (" + Idea{Title: d.Name}.name() + ")"
		if s.Start <= now {
			return fmt.Sprintf("In since %s: %s%s, until %s.", on.at(s.Start, t.m.At), s.Do, called, on.at(s.Start+s.Minutes, t.m.At))
		}
		return fmt.Sprintf("%s: %s%s, %d min, until %s.", on.at(s.Start, t.m.At), s.setGoing(), called, s.Minutes, on.at(s.Start+s.Minutes, t.m.At))
	}
	n := t.dishInPlan(on, said)
	if n < 0 {
		return ""
	}
	if on.Plan.Dishes[n].isOff() {
		return on.dishCalled(n) + ", is off."
	}
	first := slices.MinFunc(on.Plan.Dishes[n].Steps, func(a, b PlanStep) int { return cmp.Compare(a.Start, b.Start) })
	return fmt.Sprintf("%s, is begun at %s: %s. Ready %s.", on.dishCalled(n), on.at(first.Start, t.m.At), first.Do, on.at(on.Plan.Dishes[n].Ready, t.m.At))
}

// sayReadyAt tells when a dish is ready, and what of it is on.
func (t *turn) sayReadyAt(on *running, said string) string {
	n := t.dishInPlan(on, said)
	if n < 0 {
		return ""
	}
	d := &on.Plan.Dishes[n]
	if d.isOff() {
		return on.dishCalled(n) + ", is off."
	}
	now := on.minute(t.m.At)
	if d.Ready <= now {
		return fmt.Sprintf("%s, is ready by the plan since %s.", on.dishCalled(n), on.at(d.Ready, t.m.At))
	}
	text := fmt.Sprintf("%s, ready %s, in %d min.", on.dishCalled(n), on.at(d.Ready, t.m.At), d.Ready-now)
	for _, s := range d.Steps {
		if s.Start <= now && now < s.Start+s.Minutes && !s.isHeating() {
			text += fmt.Sprintf(" Now: %s until %s.", s.Do, on.at(s.Start+s.Minutes, t.m.At))
		}
	}
	return text
}

// sayPlate tells when all is ready, and each dish that is so at another time.
func (t *turn) sayPlate(on *running) string {
	now := on.minute(t.m.At)
	text := "All ready " + on.at(on.Plan.Minutes, t.m.At)
	if left := on.Plan.Minutes - now; left > 0 {
		text += fmt.Sprintf(", in %d min", left)
	}
	var list []string
	for n, d := range on.Plan.Dishes {
		if !d.isOff() && d.Ready < on.Plan.Minutes {
			list = append(list, fmt.Sprintf("%d at %s", n+1, on.at(d.Ready, t.m.At)))
		}
	}
	if len(list) > 0 {
		text += ". Dish " + both(list, "and")
	}
	return text + "."
}

// sayOnTime tells whether all is ready when it is wanted, and what should be over by now or is about to begin.
func (t *turn) sayOnTime(on *running) string {
	text := "All ready " + on.at(on.Plan.Minutes, t.m.At)
	end := cmp.Or(on.End, on.Plan.Minutes)
	switch late := on.Plan.Minutes - end; {
	case late > 0:
		text += fmt.Sprintf(", %d min after it is wanted (%s).", late, on.at(end, t.m.At))
	case late < 0:
		text += fmt.Sprintf(", %d min before it has to be (%s).", -late, on.at(end, t.m.At))
	default:
		text += ", on time."
	}
	return text + " That is if each step was done when it was to be: \"running 5 late\" tells otherwise.\n" + t.sayCooks(on)
}
