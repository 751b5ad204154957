package planner

import (
	"slices"

	"scullion/pantry/food"
	"scullion/planner/technique"
)

// isBland says whether a dish tastes of nothing but its foods: there is no palette,
// the frame brings only fat, salt and the like, and no food in it is strong enough to
// carry the rest. An omelette may, and a soup made on stock.
func (k *kitchen) isBland(d *dish, p *page) bool {
	if d.blend >= 0 || k.hasPaste(d) {
		return false
	}
	if len(d.parts) > 0 && isOf(k.lines[d.parts[0].line].Food, "firm soya") && !k.isSavoury(d) {
		return true // salt and lemon are not enough for bean curd
	}
	switch d.frame.Family {
	case "soup", "sweet":
		return false
	case "egg": // a pancake has to be filled with something
		return !k.carries(d) && !slices.ContainsFunc(d.parts, func(p part) bool { return isOf(k.lines[p.line].Food, "egg") || k.isMet(d, p) })
	case "salad", "grain":
		if !k.carries(d) && !slices.ContainsFunc(d.parts, func(p part) bool { return isOf(k.lines[p.line].Food, "allium", "soft herb") }) {
			return true
		}
	}
	return len(p.taste) == 0 && !k.carries(d)
}

// isDry says whether a dish is fried food on boiled starch and nothing to bind them: no
// sauce, though its frame has a place for one, no herb, onion, butter or soy sauce.
func (k *kitchen) isDry(d *dish) bool {
	base, sauce := d.frame.Role("base"), d.frame.Role("sauce")
	if d.frame.Family != "fry" || base < 0 || sauce < 0 || d.frame.Roles[base].Heat != technique.Boil || k.isSavoury(d) || k.carries(d) {
		return false
	}
	wets := func(f *food.Food) bool {
		return f != nil && isOf(f, "allium", "soft herb", "butter", "cream", "ripe tomato", "salty pickle")
	}
	return !slices.ContainsFunc(d.parts, func(p part) bool { return p.role == sauce || wets(k.lines[p.line].Food) }) &&
		!slices.ContainsFunc(d.staples, func(s seasoning) bool { return wets(k.foodOf(s)) }) &&
		!slices.ContainsFunc(d.bought, func(s seasoning) bool { return wets(k.foodOf(s)) })
}

// savouries give to bean curd what it lacks. Common practice, no source.
var savouries = []string{
	"soy sauce", "light soy sauce", "tamari", "miso", "white miso", "red miso", "curry powder", "garam masala", "oyster sauce", "hoisin sauce",
	"teriyaki sauce", "fish sauce", "kimchi", "peanut butter", "harissa", "red curry paste", "green curry paste",
}

// isSavoury says whether there is any of that in a dish.
func (k *kitchen) isSavoury(d *dish) bool {
	return slices.ContainsFunc(k.seasonedWith(d), func(n string) bool { return slices.Contains(savouries, n) })
}

// carries says whether something in the dish takes over, as smoked fish and blue cheese
// do, and seasons it so.
func (k *kitchen) carries(d *dish) bool {
	return slices.ContainsFunc(d.parts, func(p part) bool {
		return p.role != beside && k.lines[p.line].Food.Taste.Strength == 3
	})
}

// hasPaste says whether a paste or a bottled sauce is in the dish, which seasons it:
// nothing comes on top of pesto.
func (k *kitchen) hasPaste(d *dish) bool {
	return slices.ContainsFunc(d.parts, func(p part) bool {
		return isOf(k.lines[p.line].Food, "savoury paste", "bottled sauce")
	})
}
