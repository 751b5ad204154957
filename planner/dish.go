package planner

import (
	"math"
	"slices"

	"scullion/pantry/food"
)

// dishRescues says whether a dish uses any of what must be used up, where there is
// such food.
func (k *kitchen) dishRescues(d *dish) bool {
	return !k.crate || slices.ContainsFunc(d.parts, func(p part) bool { return k.lines[p.line].Crate })
}

// dishAllows says whether everything in a dish may be given, and is held or can be got.
func (k *kitchen) dishAllows(d *dish) bool {
	if len(k.out) > 0 && slices.ContainsFunc(slices.Concat(d.staples, d.bought), func(s seasoning) bool {
		return s.line < 0 && s.Names[0] != "water" && slices.Contains(k.out, k.foodOf(s).Name)
	}) {
		return false
	}
	if k.needs.none() {
		return true
	}
	for _, p := range d.parts {
		if !k.needs.allow(k.lines[p.line].Food) {
			return false
		}
	}
	for _, s := range slices.Concat(d.staples, d.bought) {
		if s.Names[0] != "water" && !k.needs.allow(k.foodOf(s)) {
			return false
		}
	}
	return true
}

// foodOf is the food that stands for a staple: the line's, else the one that would be
// got.
func (k *kitchen) foodOf(s seasoning) *food.Food {
	if s.line >= 0 {
		return k.lines[s.line].Food
	}
	return k.staple(s.Staple)
}

// dishMissing names what a dish wants that no line holds.
func (k *kitchen) dishMissing(d *dish) (names []string) {
	for _, s := range slices.Concat(d.staples, d.bought) {
		if s.line < 0 && s.Names[0] != "water" && !slices.ContainsFunc(s.Names, alwaysThere) {
			names = append(names, k.notHeld(s.Staple))
		}
	}
	return names
}

// dishIdea writes a dish down.
func (k *kitchen) dishIdea(c *candidate) Idea {
	d := c.dish
	idea := Idea{
		Title: onBoard(k.dishNamed(k.titled(d), d)), Technique: d.frame.ID, Role: c.page.role, How: upper(k.dishNamed(d.frame.How, d)), Kit: kitWords(c.page.kit),
		Minutes: max(1, int(math.Ceil(c.minutes))), HandsOn: max(1, int(math.Ceil(c.hands))),
		Portions: c.portions, Why: k.why(c), Score: c.score, Steps: k.named(d, k.steps(d)),
	}
	idea.How += k.partOf(d)
	if d.palette != nil {
		idea.Palette = d.palette.ID
		idea.Title += ", " + k.notAgain(k.paletteName(d), idea.Title, d)
	}
	if d.bread {
		idea.Title += ", bread on the side"
	}
	if d.side != nil {
		idea.Title += "; " + k.sideTitle(d)
	}
	for _, p := range k.told(d.parts) {
		l := &k.lines[p.line]
		list := &idea.Cupboard
		if l.Crate || l.focus && k.focused {
			list = &idea.Uses
		}
		u := l.use(p.amount)
		switch {
		case p.role == beside:
			u.Role, u.Cut = "side", d.side.Cut
		case p.role == d.frame.Lead:
			u.Role, u.Cut = d.frame.Roles[p.role].Name, d.frame.CutOf(l.subject)
		default:
			u.Role = d.frame.Roles[p.role].Name
		}
		add(list, u, l.Free)
	}
	for _, s := range slices.Concat(d.staples, d.bought) {
		k.addHeld(&idea, s.Staple, s.line, c.portions, inWhole)
	}
	if len(idea.Uses) == 0 { // a dish of the cupboard alone
		idea.Uses, idea.Cupboard = idea.Cupboard[:1:1], idea.Cupboard[1:]
	}
	idea.Allergens = k.dishAllergens(d)
	idea.Cautions = saidOnce(k.dishCautions(d, idea.Allergens))
	return idea
}

// told gives the parts as they are told: a food that was named first.
func (k *kitchen) told(parts []part) []part {
	parts = slices.Clone(parts)
	if k.focused {
		slices.SortStableFunc(parts, func(a, b part) int {
			return b2i(k.lines[b.line].focus) - b2i(k.lines[a.line].focus)
		})
	}
	return parts
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

func (k *kitchen) dishAllergens(d *dish) (list []string) {
	note := func(f *food.Food) {
		if f != nil {
			for _, a := range f.Allergen {
				if !slices.Contains(list, a) {
					list = append(list, a)
				}
			}
		}
	}
	for _, p := range d.parts {
		note(k.lines[p.line].Food)
	}
	for _, s := range slices.Concat(d.staples, d.bought) {
		note(k.foodOf(s))
	}
	slices.Sort(list)
	return list
}

func (k *kitchen) dishCautions(d *dish, allergens []string) (list []string) {
	note := func(s string) {
		if !said(s, allergens) && !slices.Contains(list, s) {
			list = append(list, s)
		}
	}
	for _, p := range d.parts {
		l := &k.lines[p.line]
		for _, s := range p.says {
			note(s)
		}
		if l.Food.Unasked {
			note("nobody has said what allergens " + l.Item + " holds: check the label")
		}
		if l.pastBest() {
			note("past its best-before: look, smell, and leave it if in doubt")
		}
	}
	for _, c := range d.frame.Caution {
		if slices.ContainsFunc(d.parts, func(p part) bool { return c.Concerns(k.lines[p.line].subject) }) {
			note(c.Says)
		}
	}
	return list
}
