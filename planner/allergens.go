package planner

import (
	"slices"
	"strings"

	"scullion/pantry/food"
	"scullion/planner/technique"
)

// allergens lists what the foods of an idea carry by nature, by the names of
// Regulation (EU) 1169/2011, Annex II, sorted: the main food's, and those of
// every staple, held or not. It is a floor, not a clearance: labels decide.
func (k *kitchen) allergens(c *candidate) []string {
	var list []string
	add := func(f *food.Food) {
		if f == nil {
			return
		}
		for _, a := range f.Allergen {
			if !slices.Contains(list, a) {
				list = append(list, a)
			}
		}
	}
	add(k.lines[c.line].Food)
	for i, s := range c.fit.Staples {
		if h := k.holder(c, i); h >= 0 {
			add(k.lines[h].Food)
		} else if !k.lines[c.line].is(c.fit.page.staples[i]) {
			add(k.staple(s))
		}
	}
	slices.Sort(list)
	return list
}

// staple is the food that stands for a staple nobody holds.
func (k *kitchen) staple(s technique.Staple) *food.Food {
	f, _ := food.Default().Food(k.notHeld(s))
	return f
}

// allergenWords are how the technique table says an allergen in a caution.
var allergenWords = map[string]string{
	"milk": "milk", "egg": "eggs", "eggs": "eggs", "wheat": "gluten cereals", "soya": "soybeans", "sesame": "sesame",
	"mustard": "mustard", "fish": "fish", "nuts": "tree nuts",
}

// besides are words of cautions that, beside allergens, tell nothing more: "milk in the
// cheese", "wheat in most breads".
var besides = []string{"and", "is", "are", "an", "allergen", "allergens", "in", "the", "most", "often", "soy", "sauce", "cheese", "bread", "breads", "crumbs", "dressing", "noodles", "butter"}

// said says whether a caution is nothing but allergens that are listed anyway.
func said(caution string, allergens []string) bool {
	any := false
	for _, w := range strings.FieldsFunc(caution, func(r rune) bool { return r == ' ' || r == ',' }) {
		switch a := allergenWords[w]; {
		case a != "" && slices.Contains(allergens, a):
			any = true
		case slices.Contains(besides, w):
		default:
			return false
		}
	}
	return any
}

// saidOnce drops cautions that another says as well: "cooked through" beside "cooked
// through, 74 C in the middle".
func saidOnce(cautions []string) (list []string) {
	for _, s := range cautions {
		if !slices.ContainsFunc(cautions, func(o string) bool { return len(o) > len(s) && strings.Contains(o, s) }) {
			list = append(list, s)
		}
	}
	return list
}
