package planner

import (
	"cmp"
	"math"
	"slices"

	"scullion/planner/technique"
)

// beside is the role of a part that stands beside its dish.
const beside = -1

// A side is a food of the crate, treated by itself, beside a dish that leaves room for it.
// The weights are common practice, no source.
const (
	leastSide = 70  // grams a portion
	leastLeaf = 25  // grams a portion, of leaves eaten raw
	mostSide  = 150 // grams a portion
	waysOfOne = 5   // treatments of a food that are thought of
)

// side is a treatment of a line.
type side struct {
	line  int
	fit   *fit
	goes  *technique.Side
	likes float64
}

// sides gives the sides that the kitchen can have, a few for each food of the crate: cold
// and hot vegetables and roots that need no oven of their own before what does; no onions,
// which keep, and are in the dish itself.
func (k *kitchen) sides(a *PlanAsk) (list []side) {
	for i := range k.lines {
		l := &k.lines[i]
		if !l.Crate || isOf(l.Food, "allium") && l.Food.Keeper || l.Food.Group == "fruit" || !isVegetable(l.Food) && !isOf(l.Food, "starchy root") || l.edible() < leastBesides(l)*float64(a.Portions) || !k.needs.allow(l.Food) {
			continue
		}
		var of []side
		for j := range l.fits {
			f := &l.fits[j]
			if v := k.sideWorth(i, f, a); v > 0 {
				of = append(of, side{i, f, technique.SideOf(f.ID), v})
			}
		}
		slices.SortStableFunc(of, func(x, y side) int { return cmp.Compare(y.likes, x.likes) })
		list = append(list, of[:min(len(of), waysOfOne)]...)
	}
	presses := func(s side) float64 {
		l := &k.lines[s.line]
		return l.urgency * min(l.edible(), mostSide*float64(a.Portions)) * s.likes
	}
	slices.SortStableFunc(list, func(x, y side) int { return cmp.Compare(presses(y), presses(x)) })
	return list
}

// leastBesides is the least of a line that makes a side, in grams a portion.
func leastBesides(l *line) float64 {
	if isOf(l.Food, "salad leaf", "bitter leaf") {
		return leastLeaf
	}
	return leastSide
}

// sideWorth rates a treatment of a line as a side; 0 where it is none.
func (k *kitchen) sideWorth(i int, f *fit, a *PlanAsk) float64 {
	if technique.SideOf(f.ID) == nil || !technique.SideOf(f.ID).Of(k.lines[i].subject) || f.page.kit&^k.kit != 0 || f.Min > mostSide || f.Max < leastBesides(&k.lines[i]) {
		return 0
	}
	if k.isUnwanted(technique.SideOf(f.ID).Name) || slices.ContainsFunc(f.Steps, func(s technique.Step) bool { return k.isUnwanted(s.What) }) {
		return 0
	}
	n := float64(a.Portions)
	c := candidate{line: i, fit: f, page: f.page, portions: a.Portions, amount: k.lines[i].drawn(min(mostSide*n, k.lines[i].edible()))}
	minutes, hands := technique.Minutes(f.Steps, c.amount.Units()*k.lines[i].share)
	missing := 0
	for j, names := range f.page.staples {
		if k.holder(&c, j) < 0 && !f.page.always[j] && !k.lines[i].is(names) {
			missing++
		}
	}
	if minutes > float64(a.Minutes) || missing > 1 || !k.allows(&c) {
		return 0
	}
	return gradeWorth[f.Grade] * (1 - 0.3*math.Min(1, minutes/float64(a.Minutes))) * (1 - 0.3*math.Min(1, hands/float64(a.Minutes))) * (1 - 0.15*float64(missing))
}

// whiff is from how many mg a portion on a seasoning of a side is got where it is not held.
// The planner's own judgement, no source.
const whiff = 500

// withSide puts a side beside a plate, if it goes with what is there and the plate has
// room. A second starch is none, nor is more of what leads the dish.
func (k *kitchen) withSide(x *plate, s side, a *PlanAsk) (plate, bool) {
	l := &k.lines[s.line]
	d := x.dish
	if !s.goes.Beside(d.frame, k.seasonedWith(&d)) || !k.goesWith(&d, l, s.line) || d.palette != nil && l.likes[d.blend] < 0 || k.isMore(&d, l) {
		return plate{}, false
	}
	if isOf(l.Food, "starchy root") && (d.bread || slices.ContainsFunc(d.parts, func(p part) bool {
		return isOf(k.lines[p.line].Food, "bread", "flatbread", "pastry", "pasta", "noodle", "rice", "grain", "starchy root", "flour")
	}) || slices.ContainsFunc(d.bought, func(b seasoning) bool { return isOf(k.foodOf(b), larder...) })) {
		return plate{}, false
	}
	d.parts = append(slices.Clone(d.parts), part{line: s.line, role: beside, grade: s.fit.Grade, says: s.fit.Says})
	d.staples, d.side = slices.Clone(d.staples), s.fit
	for _, st := range s.fit.Staples {
		if !l.isNamed(st.Names) && (st.Amount >= whiff || k.lineOf(st.Names) >= 0) {
			k.addStapleTo(&d, st, s.fit.Heat)
		}
	}
	for i := range d.staples {
		if t := &d.staples[i]; t.line >= 0 && !k.lines[t.line].covers(&t.Staple, a.Portions) {
			t.line = -1
		}
	}
	if !k.dishAllows(&d) {
		return plate{}, false
	}
	return k.plateOf(d, x.page, a.Portions, a.plates(d.frame))
}

// seasonedWith names what a dish is seasoned with, and what else is in it.
func (k *kitchen) seasonedWith(d *dish) (names []string) {
	for _, p := range d.parts {
		names = append(names, k.lines[p.line].Food.Name)
	}
	for _, s := range d.staples {
		if names = append(names, s.Names...); s.line >= 0 {
			names = append(names, k.lines[s.line].Food.Name)
		}
	}
	return names
}

// alikes are the groups of food of which a plate holds no two sorts apart: a gourd beside a
// squash is more of the same. Common practice, no source.
var alikes = []string{"squash", "mushroom", "allium", "leaf", "pod or fresh pulse", "brassica"}

// isMore says whether a line would be more of what leads a dish, or much of it.
func (k *kitchen) isMore(d *dish, l *line) bool {
	for i, p := range d.parts {
		f := k.lines[p.line].Food
		if i == 0 && isOf(l.Food, f.Kinds...) {
			return true
		}
		if f.Group == l.Food.Group && slices.Contains(alikes, f.Group) && !slices.Contains([]string{"season", "lift", "sauce"}, d.frame.Roles[p.role].Name) {
			return true
		}
	}
	return false
}

// drawSide adds what the line beside a dish may give.
func (k *kitchen) drawSide(x *plate) bool {
	if x.side == nil {
		return true
	}
	at := len(x.parts) - 1
	l := &k.lines[x.parts[at].line]
	n := float64(x.portions)
	d := draw{line: x.parts[at].line, part: at, least: leastBesides(l) * n, most: min(mostSide, x.side.Max, l.bears) * n, plated: min(1, x.side.Yield), kcal: l.Food.Kcal / 100}
	d.most = min(d.most, l.edible())
	x.draws = append(x.draws, d)
	return d.least <= d.most
}

// sideSteps gives the steps of what stands beside a dish, which come after so many.
func (k *kitchen) sideSteps(d *dish, before int) []Step {
	if d.side == nil {
		return nil
	}
	p := &d.parts[len(d.parts)-1]
	steps := stepsOf(d.side.Steps, func(int) float64 { return p.grams })
	for i := range steps {
		steps[i].Wait = waitOf(steps, i, d.side.Holds, !d.side.page.cold)
	}
	for i := range steps {
		after := make([]int, len(steps[i].After))
		for j, a := range steps[i].After {
			after[j] = a + before
		}
		steps[i].After = after
		steps[i].Do = k.rewordedSide(d, steps[i].Do, i) + " (" + k.lines[p.line].Item + ")"
	}
	steps[len(steps)-1].Ends = true
	return steps
}

// sideTitle names what stands beside a dish.
func (k *kitchen) sideTitle(d *dish) string {
	p := &d.parts[len(d.parts)-1]
	l := &k.lines[p.line]
	return l.named(technique.SideOf(d.side.ID).Name, &candidate{amount: l.ap(p.grams)})
}
