package planner

import (
	"math"

	"scullion/planner/technique"
)

// The weights in this file are the planner's own judgement, no source. They
// only order ideas; nothing is allowed or forbidden by them.

// urgency says how much it matters to use a line: from 1 for what dies today,
// down with the days left. Cupboard food keeps.
func urgency(s *Stock) float64 {
	switch {
	case !s.Crate:
		return 0.12
	case s.Days >= 30:
		return 0.3
	}
	return 0.3 + 0.7/(1+0.3*float64(max(s.Days, 0)))
}

// worth says how much of a meal a technique makes. What is put by or strewn over
// saves food but feeds no one now.
func worth(t *technique.Technique) float64 {
	w := map[string]float64{
		"star": 1, "base": 0.97, "green": 0.95, "body": 0.9, "sweet": 0.88,
		"sauce": 0.82, "lift": 0.75, "crunch": 0.75, "season": 0.7,
	}[t.Role]
	switch t.Family {
	case "keep":
		w *= 0.4
	case "scrap":
		w *= 0.75
	case "microwave":
		w *= 0.9
	}
	return w
}

var gradeWorth = [...]float64{technique.ByKind: 0.85, technique.Named: 0.88, technique.Best: 1}

// usedUp says how much using so many grams of a line, as purchased, does for the
// crate.
func (l *line) usedUp(grams float64) float64 {
	free := l.Free.Units()
	return l.urgency * (0.6*math.Min(1, grams/free) + 0.4*math.Min(1, grams/400))
}

// rate puts into a candidate what speaks for it and against it.
func (k *kitchen) rate(c *candidate) {
	f := c.fit
	used, missing := k.rescued(c)
	c.speaks[rescues] = used
	c.speaks[role] = f.page.worth
	c.speaks[suited] = gradeWorth[f.Grade]
	k.rateRest(c, missing)
}

// rateRest puts in what is reckoned alike for techniques and dishes.
func (k *kitchen) rateRest(c *candidate, missing int) {
	c.speaks[quick] = 1 - 0.35*c.minutes/k.minutes - 0.2*c.hands/k.minutes
	c.speaks[stocked] = math.Max(0.5, 1-0.07*float64(missing))
	c.speaks[covers] = 1
	if k.asked > c.portions {
		c.speaks[covers] = 0.6 + 0.4*float64(c.portions)/float64(k.asked)
	}
	c.speaks[balance] = k.beside(c)
	c.speaks[differs] = 1
}

// rescued adds up what a candidate does for the crate, with the crate food that
// goes in besides, and counts the staples that no line holds.
func (k *kitchen) rescued(c *candidate) (used float64, missing int) {
	l, f := &k.lines[c.line], c.fit
	used = l.usedUp(c.amount.Units())
	for i, names := range f.page.staples {
		if h := k.holder(c, i); h < 0 {
			if !f.page.always[i] && !l.is(names) {
				missing++
			}
		} else if o := &k.lines[h]; o.Crate {
			used += k.along * o.usedUp(math.Min(o.Free.Units(), f.Staples[i].Amount.Units()*float64(c.portions)))
		}
	}
	return used, missing
}

// beside says how well a candidate stands beside the dishes of this service: no
// second mash, and no second dish with the same seasoning.
func (k *kitchen) beside(c *candidate) float64 {
	w := 1.0
	for _, m := range k.menu {
		switch {
		case m.page == c.page:
			w *= 0.3
		case m.page.family == c.page.family && m.page.role == c.page.role:
			w *= 0.7
		}
		if m.page != c.page && m.page.tastesLike(c.page) {
			w *= 0.6
		}
		if m.item == k.lines[c.line].Item {
			w *= 0.85
		}
	}
	return w
}

// rateDish is rate for a dish: the leading food, or the one that was named, counts in
// full, the others as what is used along with it.
func (k *kitchen) rateDish(c *candidate) {
	d := c.dish
	used, grade := 0.0, 0.0
	for i, p := range d.parts {
		l, w := &k.lines[p.line], dishAlong
		switch {
		case k.focused && l.focus, !k.focused && i == 0:
			w = 1
		case k.focused:
			w = k.along
		}
		used += w * l.usedUp(p.amount.Units())
		grade += gradeWorth[p.grade] / float64(len(d.parts))
	}
	for _, s := range d.staples {
		if s.line >= 0 && k.lines[s.line].Crate {
			o := &k.lines[s.line]
			used += k.along * o.usedUp(math.Min(o.Free.Units(), s.Amount.Units()*float64(c.portions)))
		}
	}
	c.speaks[rescues], c.speaks[role], c.speaks[suited] = used, dishWorth, grade
	k.rateRest(c, len(k.dishMissing(d)))
}

// dishAlong is what the foods beside the leading one count, and dishWorth what a dish
// counts beside a single thing: it wants more thought than a cook in the middle of a
// service has.
const (
	dishAlong = 0.4
	dishWorth = 0.8
)
