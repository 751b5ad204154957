package planner

import (
	"slices"

	"scullion/planner/technique"
)

// season chooses the palette that suits the parts of a dish best, of which most is
// held, and that is not on the menu already; and takes what it and the frame need
// from the cupboard. What both name is taken once, the larger amount.
func (k *kitchen) season(d *dish) {
	best := 0.0
	for _, n := range theBook().takes[d.number] {
		if v := k.seasons(d, n); v > best && k.mayUse(d, n) {
			best, d.palette = v, theBook().blends[n].Palette
		}
	}
	for _, s := range d.frame.Staples {
		k.addStapleTo(d, s, d.hottest())
	}
	if d.palette == nil {
		return
	}
	for _, c := range d.palette.Components {
		heat := d.hottest()
		if c.When == "end" {
			heat = technique.None
		}
		k.addStapleTo(d, technique.Staple{Names: []string{c.Food}, Amount: c.Amount, Unit: c.Unit}, heat)
	}
}

// hottest is how far the frame cooks what it cooks most.
func (d *dish) hottest() (h technique.Heat) {
	for _, r := range d.frame.Roles {
		h = max(h, r.Heat)
	}
	return h
}

// seasons rates a palette for a dish; 0 or less: it is not for it. The weights are
// the planner's own judgement, no source.
func (k *kitchen) seasons(d *dish, n int) float64 {
	v := 0.3
	for i, x := range d.parts {
		like := k.lines[x.line].likes[n]
		if like < 0 {
			return 0
		}
		w := 0.5
		if i == 0 { // the leading food
			w = 1
		}
		v += w * float64(like)
	}
	p := &theBook().blends[n]
	for _, c := range p.parts {
		if !c.always && k.have[c.number] == 0 {
			v -= 0.35
		}
	}
	if slices.Contains(k.palettes, p.ID) {
		v *= 0.3
	}
	for _, id := range p.Near {
		if slices.Contains(k.palettes, id) {
			v *= 0.6
		}
	}
	return v
}

// mayUse says whether everything in a palette may be given, and goes with the dish.
func (k *kitchen) mayUse(d *dish, n int) bool {
	return !slices.ContainsFunc(theBook().blends[n].parts, func(c spice) bool {
		return c.food == nil || !k.needs.allow(c.food) || k.clashes(d, c.sides)
	})
}

// clashes says whether a seasoning goes ill with one of a dish's parts.
func (k *kitchen) clashes(d *dish, sides technique.Sides) bool {
	return slices.ContainsFunc(d.parts, func(p part) bool { return k.lines[p.line].sides.With(sides) > technique.Fine })
}

// lineOf finds the line that has one of the foods named, -1 none.
func (k *kitchen) lineOf(names []string) int {
	for _, name := range names {
		if n, ok := theBook().numbers[name]; ok && k.have[n] > 0 {
			return int(k.have[n]) - 1
		}
	}
	return -1
}

// addStapleTo takes a staple, once.
func (k *kitchen) addStapleTo(d *dish, s technique.Staple, heat technique.Heat) {
	for _, p := range d.parts { // it is in the dish already
		if k.lines[p.line].isNamed(s.Names) {
			return
		}
	}
	for i := range d.staples {
		if o := &d.staples[i]; slices.ContainsFunc(s.Names, func(n string) bool { return slices.Contains(o.Names, n) }) {
			if s.Unit == o.Unit {
				o.Amount = max(o.Amount, s.Amount)
			}
			return
		}
	}
	t := seasoning{Staple: s, heat: heat, line: k.lineOf(s.Names)}
	if t.line >= 0 {
		if l := &k.lines[t.line]; l.need > heat || l.boil > 0 {
			t.line = -1
		}
	}
	d.staples = append(d.staples, t)
}

// isNamed says whether the line answers to one of the names.
func (l *line) isNamed(names []string) bool {
	for _, name := range names {
		if n, ok := theBook().numbers[name]; ok && slices.Contains(l.provides, n) {
			return true
		}
	}
	return false
}
