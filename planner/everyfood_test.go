package planner

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"scullion/pantry/food"
	"scullion/planner/technique"
)

// unsaidOf are what no step need tell of: what is always there, and what a pinch of is meant.
var unsaidOf = []string{"salt", "oil", "water"}

// namesFood says whether words name a food: all of it, in the singular or plural, or its last
// word, which is what it is.
func namesFood(do, item string, f *food.Food) bool {
	last := item[strings.LastIndexByte(item, ' ')+1:]
	for _, n := range []string{item, plural(item), last, plural(last), strings.ToLower(f.Name), strings.TrimSuffix(strings.ToLower(f.Name), " juice")} {
		if strings.Contains(do, n) {
			return true
		}
	}
	return isOf(f, "rice", "grain", "noodle", "oats") && strings.Contains(do, "grain") ||
		isOf(f, "noodle") && strings.Contains(do, "noodle") || isOf(f, "pasta") && strings.Contains(do, "pasta") ||
		isOf(f, "rice") && strings.Contains(do, "rice") || isOf(f, "bread", "flatbread") && strings.Contains(do, "bread") ||
		f.Group == "stock" && strings.Contains(do, "stock") || isOf(f, "oil", "butter") && (strings.Contains(do, "oil") || strings.Contains(do, "butter") || strings.Contains(do, "fat"))
}

// unnamed gives the foods of a dish, and what it is seasoned with, that no step names: of what is in one
// role, all but two may be "the rest" of a step that handles it.
func unnamed(k *kitchen, d *dish) (list []string) {
	steps := k.named(d, k.steps(d))
	n := len(steps) - d.beside()
	named := func(item string, f *food.Food, role int, steps []Step) bool {
		return slices.ContainsFunc(steps, func(s Step) bool {
			return namesFood(s.Do, item, f) || strings.Contains(s.Do, "the rest") && slices.Contains(s.roles, role)
		})
	}
	for _, p := range d.parts {
		if l := &k.lines[p.line]; p.role != beside && !named(l.Item, l.Food, p.role, steps[:n]) {
			list = append(list, l.Item)
		}
	}
	for _, s := range slices.Concat(d.staples, d.bought) {
		f := k.foodOf(s)
		if f == nil || slices.Contains(unsaidOf, kin(f.Name)) || s.Names[0] == "water" || slices.ContainsFunc(s.Names, alwaysThere) {
			continue
		}
		item := strings.ToLower(f.Name)
		if s.line >= 0 {
			item = k.lines[s.line].Item
		}
		own := func(list []technique.Staple) bool { // what the frame or what is beside it always has
			return slices.ContainsFunc(list, func(t technique.Staple) bool { return sameStaple(s.Names, t.Names) })
		}
		switch {
		case s.role > 0 && !named(item, f, s.role-1, steps[:n]):
			list = append(list, item+" (got)")
		case s.role == 0 && !own(d.frame.Staples) && (d.side == nil || !own(d.side.Staples)) && !named(item, f, -2, steps[:n]):
			list = append(list, item+" (seasoning)")
		}
	}
	return list
}

// leftAside gives the foods that a step fries by themselves, or sets aside, and that no later
// step of the dish takes up, in the dishes whose last steps do not plate what there is.
func leftAside(k *kitchen, d *dish) (list []string) {
	steps := k.named(d, k.steps(d))
	n := len(steps) - d.beside()
	for i, s := range steps[:n] {
		if !strings.Contains(s.Do, "aside") && d.frame.ID != "pilaf" || !s.isHot() || s.heats() {
			continue
		}
		for _, p := range d.parts {
			l := &k.lines[p.line]
			if p.role != beside && d.frame.Roles[p.role].Name == "star" && slices.Contains(s.roles, p.role) && namesFood(s.Do, l.Item, l.Food) &&
				!slices.ContainsFunc(steps[i+1:n], func(o Step) bool { return namesFood(o.Do, l.Item, l.Food) || strings.Contains(o.Do, "set aside") }) {
				list = append(list, l.Item+" again after "+s.Do)
			}
		}
	}
	return list
}

// Everything on the list of a dish is named in a step of it: nobody finds an onion on the list
// that no step cuts.
func TestEveryFoodIsInAStep(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	n, dishes := 250, 0
	if testing.Short() {
		n = 60
	}
	seen := map[string]int{}
	for range n {
		a := anyPlan(r)
		if a.Kit == nil {
			a.Kit = DefaultKit()
		}
		k := newKitchen(Ask{Stock: a.Stock, Minutes: a.Minutes, Kit: a.Kit, Portions: a.Portions, Needs: a.Needs})
		for _, x := range k.plates(&a) {
			if dishes++; dishes%7 != 0 { // of those that differ in a palette alone a few will do
				continue
			}
			x.nominal(k)
			for _, item := range append(unnamed(k, &x.dish), leftAside(k, &x.dish)...) {
				key := x.frame.ID + ": " + item
				if seen[key]++; seen[key] == 1 && len(seen) < 40 {
					var all []string
					for _, s := range k.named(&x.dish, k.steps(&x.dish)) {
						all = append(all, s.Do)
					}
					t.Errorf("%s: no step of %q names %s:\n%s", x.frame.ID, k.dishNamed(k.titled(&x.dish), &x.dish), item, strings.Join(all, "\n"))
				}
			}
		}
	}
	t.Logf("%d dishes, %d foods unnamed", dishes, len(seen))
}
