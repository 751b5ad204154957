package planner

import (
	"slices"

	"scullion/pantry/food"
)

// Needs is what the table must not be given. All of it is a hard limit: food that
// nobody has spoken for, allergens and diet, is left out as well.
type Needs struct {
	Avoid    []string // allergens, of the EU/UK 14 as the food table names them: "milk", "tree nuts"
	Foods    []string // foods by name that are none of those: "kiwi"; what is made of them their names must tell
	Vegan    bool
	Meatless bool // vegetarian
}

func (n Needs) none() bool { return len(n.Avoid)+len(n.Foods) == 0 && !n.Vegan && !n.Meatless }

// allow says whether a food may go into what is made. What such food often
// carries, by its label, is refused as well as what it holds by nature: a label
// can be read by a cook, and not from here.
func (n Needs) allow(f *food.Food) bool {
	if n.none() {
		return true
	}
	if f == nil || f.Unasked {
		return false
	}
	for _, a := range n.Avoid {
		if slices.Contains(f.Allergen, a) || slices.Contains(f.MayCarry, a) {
			return false
		}
	}
	if slices.ContainsFunc(n.Foods, f.Tells) {
		return false
	}
	return !(n.Vegan && f.Vegan != "yes") && !(n.Meatless && f.Meatless != "yes")
}

// allows says whether everything that a candidate needs may be given: its own
// food, and every staple as it would be taken.
func (k *kitchen) allows(c *candidate) bool {
	if k.needs.none() {
		return true
	}
	l := &k.lines[c.line]
	if !k.needs.allow(l.Food) {
		return false
	}
	for i, s := range c.fit.Staples {
		switch h := k.holder(c, i); {
		case s.Names[0] == "water" || l.is(c.fit.page.staples[i]):
		case h >= 0:
			if !k.needs.allow(k.lines[h].Food) {
				return false
			}
		case !k.needs.allow(k.staple(s)):
			return false
		}
	}
	return true
}
