package bot

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/planner"
)

// What a plan is for where it was not said.
const (
	usualDishes   = 3
	usualPortions = 2
	usualMinutes  = 45
	mostDishes    = 8
	mostCooks     = 20
)

// planned is a plan that was shown, and what it was held to.
type planned struct {
	Wish  language.Plan
	Plan  Plan
	Start time.Time
	Keep  []string // Keys of dishes that are to stay
	Not   []string // Keys of dishes that are not wanted
	Off   []string // palettes that are not wanted
}

// planning answers a message that asks for a plan, or is about one that was shown.
func (t *turn) planning() (r Reply, done bool, err error) {
	reader := t.reader()
	if saysPlan(t.m.Text) {
		if wish, ok := reader.Plan(t.m.Text); ok {
			if on, ok, err := t.running(); err != nil {
				return r, true, err
			} else if ok && !on.isPlan() { // what the service was begun for
				wish = wish.Over(on.Wish)
			}
			r, err = t.offerPlan(planned{Wish: wish})
			return r, true, err
		}
	}
	on, begun, err := t.running()
	if err != nil {
		return r, false, err
	}
	p, shown := t.planShown()
	if begun && on.isPlan() {
		if q := reader.LiveTalk(t.m.Text); q != nil {
			if r, done, err = t.live(q, p.Start); done || err != nil {
				return r, done, err
			}
		}
	}
	if t.waiting() || !shown && !begun {
		return r, false, nil
	}
	if q := reader.PlanTalk(t.m.Text); q != nil {
		if r, done, err = t.live(q, p.Start); done || err != nil || !shown {
			return r, done, err
		}
		r, err = t.planTalk(p, q)
		return r, r.Kind != Silent || err != nil, err
	}
	if !shown {
		return r, false, nil
	}
	if kept := ideasIn(t.k.Questions[t.cook]); kept == nil || t.m.At.Sub(kept.At) > patience {
		return r, false, nil
	}
	if wish, ok := reader.PlanChange(t.m.Text); ok {
		p.Wish = wish.Over(p.Wish)
		r, err = t.offerPlan(p)
		return r, true, err
	}
	return r, false, nil
}

// planShown gives the plan that was shown last, if that was in this service: to this cook,
// where no ideas were shown since, else a short while ago to another.
func (t *turn) planShown() (p planned, ok bool) {
	if _, planned := t.b.plans.Load(t.m.Kitchen); !planned && !t.mayHavePlan() { // most messages end here
		return p, false
	}
	if own := ideasIn(t.k.Questions[t.cook]); own != nil {
		q, ok := t.shownLast(own)
		return q.Planned, ok && q.Kind == askPlan
	}
	var newest *pantry.Question
	for cook, kept := range t.k.Questions {
		if kept = ideasIn(kept); cook == t.cook || kept == nil || newest != nil && !kept.At.After(newest.At) {
			continue
		}
		if q, ok := t.shownLast(kept); ok && q.Kind == askPlan && t.m.At.Sub(kept.At) <= patience {
			p, newest = q.Planned, kept
		}
	}
	return p, newest != nil
}

// mayHavePlan is a quick look at whether any cook was shown a plan, by an earlier run of
// the program.
func (t *turn) mayHavePlan() bool {
	for _, kept := range t.k.Questions {
		if kept != nil && (bytes.Contains(kept.Body, []byte(`"Kind":"plan"`)) || bytes.Contains(kept.Body, []byte(`"Ideas":`))) {
			return true
		}
	}
	return false
}

// planTalk does what is said of a plan that was shown.
func (t *turn) planTalk(p planned, q *language.Question) (Reply, error) {
	isOfDish := slices.Contains([]language.About{language.AboutDish, language.AboutStay, language.AboutSwap, language.AboutDrop, language.AboutPalette}, q.About)
	for _, n := range append([]int{q.N}, q.Others...) {
		if isOfDish && n > len(p.Plan.Dishes) {
			return Reply{Kind: Answer, Text: fmt.Sprintf("The plan has no dish %d.", n)}, nil
		}
	}
	about := q.About
	if about == language.AboutDrop { // another comes in its place, for so many dishes are wanted
		if about = language.AboutSwap; q.N == 0 {
			return Reply{Kind: Silent}, nil
		}
	}
	switch about {
	case language.AboutDish:
		return Reply{Kind: Answer, Text: p.Plan.sayDish(q.N-1, p.Start)}, nil
	case language.AboutAccept:
		return t.accept(p)
	case language.AboutWhyNot:
		return t.whyNot(p, q.Food)
	case language.AboutAgain:
		p.Keep = nil
		for _, d := range p.Plan.Dishes {
			p.Not = append(p.Not, d.Key)
		}
	case language.AboutStay, language.AboutSwap:
		p.Keep = nil
		for n, d := range p.Plan.Dishes {
			named := n+1 == q.N || slices.Contains(q.Others, n+1)
			if named == (about == language.AboutStay) {
				p.Keep = append(p.Keep, d.Key)
			} else {
				p.Not = append(p.Not, d.Key)
			}
		}
	case language.AboutDone, language.AboutLonger, language.AboutLate, language.AboutDown, language.AboutBack, language.AboutLeaves:
		return Reply{Kind: Silent}, nil // of a plan that has begun, and none has
	case language.AboutPalette:
		p.Keep = nil
		for n, d := range p.Plan.Dishes {
			if q.N == 0 || q.N == n+1 {
				p.Off = append(p.Off, d.Palette)
			} else {
				p.Keep = append(p.Keep, d.Key)
			}
		}
	}
	return t.offerPlan(p)
}

// offerPlan makes a plan and shows it.
func (t *turn) offerPlan(p planned) (Reply, error) {
	a, wrong, err := t.toPlan(p)
	if err != nil {
		return Reply{}, err
	}
	if wrong != "" {
		return Reply{Kind: Error, Text: wrong}, nil
	}
	made, err := t.planFor(a)
	if r, failed, err := noPlan(err); failed {
		if out := leftOut(a.Needs); out != "" {
			r.Text += "\n" + out
		}
		return r, err
	}
	t.b.plans.Store(t.m.Kitchen, true)
	p.Plan, p.Start, p.Keep = planOf(made), t.m.At, nil
	r := Reply{Kind: Answer, Text: p.Plan.say(t.m.At), Plan: &p.Plan, Look: t.look(&Look{Plan: p.Plan.at(t.m.At, nil)})}
	for _, line := range t.keptTo(p.Wish.Limits, p.Plan.items(), 0, "dish ") {
		r.Text += "\n" + line
	}
	if due, ok := dueBy(t.m.At, p.Wish); ok && p.Wish.Until != "" && pantry.DateOf(due) != pantry.DateOf(t.m.At) {
		r.Text += "\nMade to be ready by " + sayDue(due, t.m.At) + "." + mayBeOther(p.Wish, due, t.m.At, "plan 3 dishes for 2 by 6:30pm")
	}
	r.Text += "\n\"dish 1\" tells one, \"swap 2\" or \"again\" looks for others, \"accept\" begins it."
	return r, t.keep(pending{Kind: askPlan, Planned: p}, t.said.ID)
}

// noPlan puts into words why there is no plan. Failed is false where there is one.
func noPlan(err error) (r Reply, failed bool, _ error) {
	switch {
	case err == nil:
		return r, false, nil
	case errors.Is(err, planner.ErrNothing), errors.Is(err, planner.ErrNoDishes), errors.Is(err, planner.ErrNoTime):
		return Reply{Kind: Error, Text: title(err.Error()) + ": " + PlanAdvice(err) + "."}, true, nil
	}
	return r, true, err
}

// toPlan puts a wish into what the planner is asked, with what goes on in the kitchen now.
// Wrong is what cannot be.
func (t *turn) toPlan(p planned) (a planner.PlanAsk, wrong string, err error) {
	w := p.Wish
	orUsual := func(n, usual, most int) int {
		if n == 0 {
			return usual
		}
		return min(n, most)
	}
	a = planner.PlanAsk{
		Stock:    stock(t.fit(), pantry.DateOf(t.m.At), t.ear.foodOf),
		Dishes:   orUsual(w.Dishes, usualDishes, mostDishes),
		Portions: orUsual(w.Portions, usualPortions, 200),
		Cooks:    orUsual(w.Cooks, 1, mostCooks),
		Minutes:  orUsual(w.Minutes, usualMinutes, 24*60),
		Needs:    t.mustNot(w.Limits), Serve: planner.Serve(w.Serve), Cold: w.Cold, Sweet: w.Sweet, Without: w.Unlike, Light: w.Lighter,
		Keep: p.Keep, Not: p.Not, Off: p.Off,
	}
	if w.Until != "" {
		due, ok := dueBy(t.m.At, w)
		if a.Minutes = int(due.Sub(t.m.At).Minutes()); !ok || a.Minutes < 1 {
			return a, "That time cannot be read. Say it like \"by 18:30\".", nil
		}
	}
	s := service{}
	a.Kit = s.kit(w.Limits)
	for _, name := range w.UseUp {
		h := t.ear.find(name)
		if len(h.lines) == 0 {
			return a, "There is no " + singular(strings.ToLower(name)) + " to use up. \"what's left?\" shows the stock.", nil
		}
		a.UseUp = append(a.UseUp, fullest(h.lines).Name)
	}
	a.Busy, err = t.busy()
	return a, "", err
}

// busy gives the kit and the hands that are held by what was begun.
func (t *turn) busy() (list []planner.Busy, err error) {
	choices, err := t.book.Chosen(t.m.At.Add(-serviceLong))
	if err != nil {
		return nil, err
	}
	minutes := func(until time.Time) int { return int((until.Sub(t.m.At) + time.Minute - 1) / time.Minute) }
	for _, c := range choices {
		if !c.Taken {
			continue
		}
		if n := minutes(c.Until); n > 0 {
			for _, k := range c.Kit {
				list = append(list, planner.Busy{What: k, To: n})
			}
		}
		if n := minutes(c.Hands); n > 0 {
			list = append(list, planner.Busy{What: "hands", To: n})
		}
	}
	return list, nil
}

// whyNot says what a plan that has a food in it would be, or why there is none.
func (t *turn) whyNot(p planned, name string) (Reply, error) {
	h := t.ear.find(name)
	if len(h.lines) == 0 {
		return Reply{Kind: Silent}, nil
	}
	l := fullest(h.lines)
	for n, d := range p.Plan.Dishes {
		if i := slices.IndexFunc(d.Uses, func(u Quantity) bool { return u.Item == l.Name }); i >= 0 {
			return Reply{Kind: Answer, Text: fmt.Sprintf("It is in: %s in dish %d, the %s.", d.Uses[i].say(), n+1, d.Name)}, nil
		}
	}
	if l.Free() == 0 {
		return Reply{Kind: Answer, Text: "No " + l.Name + " is free: " + t.stands(l)}, nil
	}
	if l.Shelf != food.Crate {
		return Reply{Kind: Answer, Text: title(l.Name) + " is cupboard food: it goes in where a dish needs it."}, nil
	}
	a, wrong, err := t.toPlan(p)
	if err != nil || wrong != "" {
		return Reply{Kind: Error, Text: wrong}, err
	}
	a.With = []string{l.Name}
	made, err := t.planFor(a)
	if errors.Is(err, planner.ErrNoDishes) {
		return Reply{Kind: Answer, Text: fmt.Sprintf("No dish with %s can be ready in %d minutes with that kit, for that table. More minutes may help.", l.Name, a.Minutes)}, nil
	}
	if r, failed, err := noPlan(err); failed {
		return r, err
	}
	other := planOf(made)
	if len(made.Dishes) < len(p.Plan.Dishes) {
		return Reply{Kind: Answer, Text: fmt.Sprintf("With %s in one dish no %d dishes can be made in the time.", l.Name, len(p.Plan.Dishes))}, nil
	}
	for _, d := range other.Dishes {
		if i := slices.IndexFunc(d.Uses, func(u Quantity) bool { return u.Item == l.Name }); i >= 0 {
			return Reply{Kind: Answer, Text: fmt.Sprintf("The best plan with %s uses %.1f%% of the crate, this one %.1f%%, or more of what spoils first. It would be in the %s: %s.\n\"use up the %s\" plans again with all of it.",
				l.Name, other.Used*100, p.Plan.Used*100, d.Name, d.Uses[i].say(), l.Name)}, nil
		}
	}
	return Reply{Kind: Silent}, nil
}
