package bot

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry/food"
)

// Cooks who come, go, are done and are late while a plan is on.

// cookIn is which of the plan's cooks somebody is, by how entries call them or by name: a cook may have been named before
// they said anything. 0 none.
func (t *turn) cookIn(on *running, cook string) int {
	if n := on.cook(cook); n > 0 {
		return n
	}
	name := strings.ToLower(t.k.CookName(cook))
	first, _, _ := strings.Cut(name, " ")
	for n, c := range on.Cooks {
		if c == name || c == first {
			return n + 1
		}
	}
	return 0
}

// joins lets a cook into the plan: into the place of one whom nobody has named yet, back into their own, or besides.
func (t *turn) joins(on *running, q *language.Question) (s saidLive, err error) {
	who := t.cookNamed(q.Food)
	if q.About == language.AboutJoinsBy && !t.ear.isCook(q.Food) {
		if !t.mayBeName(q.Food) {
			return s, nil
		}
		who = strings.ToLower(q.Food)
	}
	cook := t.cookIn(on, who)
	held := on.Held[cook] > on.minute(t.m.At)
	switch {
	case cook > 0 && (on.Gone[cook] || held):
		on.Gone, on.Held = maps.Clone(on.Gone), maps.Clone(on.Held)
		delete(on.Gone, cook)
		delete(on.Held, cook)
		return saidLive{text: title(t.k.CookName(who)) + " is back.", next: cook}, nil
	case cook > 0:
		text, err := t.withNext(fmt.Sprintf("%s is cook %d of the plan.", title(t.k.CookName(who)), cook), cook)
		return saidLive{text: text, none: true}, err
	case on.cooks() >= mostCooks:
		return saidLive{text: fmt.Sprintf("The plan has %d cooks, and no place for more.", on.cooks()), none: true}, nil
	}
	on.Cooks = append(slices.Clone(on.Cooks), who)
	on.Hands = max(on.cooks(), len(on.Cooks))
	cook = len(on.Cooks)
	return saidLive{text: fmt.Sprintf("%s is cook %d of the plan.", title(t.k.CookName(who)), cook), next: cook}, nil
}

// isCook says whether somebody of that name cooks here.
func (x *ear) isCook(name string) bool { _, ok := x.people[strings.ToLower(name)]; return ok }

// mayBeName says whether a word that was said of who comes may be a name: one word, and neither food nor plain English.
func (t *turn) mayBeName(word string) bool {
	if len(strings.Fields(word)) != 1 || food.IsPlain(strings.ToLower(word)) {
		return false
	}
	h := t.ear.find(word)
	return !h.exact && len(h.lines) == 0
}

// leaves takes a cook out of the plan. What they are in the middle of is a step of its own from now on, for other hands.
func (t *turn) leaves(on *running, cook, now int) string {
	if cook == 0 || on.Gone[cook] {
		return ""
	}
	on.Gone = maps.Clone(on.Gone)
	if on.Gone == nil {
		on.Gone = map[int]bool{}
	}
	on.Gone[cook] = true
	text := title(t.k.CookName(on.Cooks[cook-1])) + " leaves."
	if s, d := on.handOver(cook, now); s != nil {
		text += fmt.Sprintf(" In the middle of: %s (%s), %d min more.", s.Do, Idea{Title: d.Name}.name(), s.HandsOn)
	}
	return text
}

// handOver cuts the step that a cook is at in two, and gives the second: what is left of it. Nil where the cook is at none,
// or nobody is left.
func (on *running) handOver(cook, now int) (*PlanStep, *Planned) {
	if len(on.Gone) >= on.cooks() {
		return nil, nil
	}
	for n := range on.Plan.Dishes {
		d := &on.Plan.Dishes[n]
		for i := range d.Steps {
			s := &d.Steps[i]
			if s.Cook != cook || s.Start >= now || now >= s.Start+s.HandsOn {
				continue
			}
			rest := *s
			rest.ID, rest.Do = on.newID(n), strings.TrimSuffix(s.Do, onFrom)+onFrom
			rest.Start, rest.Minutes, rest.HandsOn = now, s.Start+s.Minutes-now, s.Start+s.HandsOn-now
			rest.After, rest.Within, rest.Cook, rest.Else = []string{s.ID}, []int{-1}, 0, nil
			if len(s.Kit) > 0 { // it is on the heat
				rest.Within[0] = soonOver
			}
			s.Minutes, s.HandsOn, s.Ends, s.Hold = now-s.Start, now-s.Start, false, 0
			for d := range on.Plan.Dishes {
				for i := range on.Plan.Dishes[d].Steps {
					o := &on.Plan.Dishes[d].Steps[i]
					o.After = slices.Clone(o.After)
					for j, a := range o.After {
						if a == s.ID {
							o.After[j] = rest.ID
						}
					}
				}
			}
			d.Steps = append(slices.Clone(d.Steps), rest)
			return &d.Steps[len(d.Steps)-1], d
		}
	}
	return nil, nil
}

// onFrom is behind what one cook has begun and another goes on with.
const onFrom = ", on from there"

// soonOver is for how many minutes what is on the heat may wait for other hands. The program's own choice.
const soonOver = 3

// newID is a name for a step of a dish that no other has.
func (on *running) newID(dish int) string {
	taken := on.times()
	for n := len(taken); ; n++ {
		if id := fmt.Sprintf("%c%d", 'a'+rune(dish), n); taken[id].ID == "" {
			return id
		}
	}
}

// delayed gives the step that a cook is at some minutes more; where the cook is at none, that which was to be over a short
// while ago, else the next comes so much later.
func (t *turn) delayed(on *running, cook, now, minutes int) string {
	s := on.atNow(cook, now)
	if s == nil && cook > 0 {
		if s = on.justOver(cook, now); s != nil {
			minutes += now - s.Start - s.Minutes
		}
	}
	switch {
	case s != nil:
		s.Minutes += minutes
		s.HandsOn += minutes
		return fmt.Sprintf("%d min more: %s, until %s.", minutes, s.Do, on.at(s.Start+s.HandsOn, t.m.At))
	case cook == 0:
		return ""
	}
	on.Held = maps.Clone(on.Held) // at something else
	if on.Held == nil {
		on.Held = map[int]int{}
	}
	on.Held[cook] = now + minutes
	return fmt.Sprintf("Cook %d%s in %d min.", cook, t.called1(*on, cook), minutes)
}

// justOver gives the step that a cook's hands were at till a short while ago, if nothing else of theirs and nothing that
// waits for it has begun since; nil none.
func (on *running) justOver(cook, now int) (last *PlanStep) {
	for d := range on.Plan.Dishes {
		for i := range on.Plan.Dishes[d].Steps {
			if s := &on.Plan.Dishes[d].Steps[i]; s.Cook == cook && s.HandsOn > 0 && s.Start < now && (last == nil || s.Start > last.Start) {
				last = s
			}
		}
	}
	if last == nil || last.HandsOn < last.Minutes || last.Start+last.Minutes > now || !on.isIn(last, now) {
		return nil
	}
	return last
}
