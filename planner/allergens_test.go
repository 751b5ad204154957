package planner

import (
	"slices"
	"testing"

	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// What an idea carries is what its foods carry: the main one's, and those of
// staples whether the kitchen holds them or not. Names: Regulation (EU)
// 1169/2011, Annex II, as the food table has them.
func TestAllergens(t *testing.T) {
	stockOf := func(names ...string) (list []Stock) {
		for _, n := range names {
			f, ok := food.Default().Food(n)
			if !ok {
				t.Fatalf("no food %q", n)
			}
			list = append(list, Stock{Item: n, Food: f, Free: 400_000, Unit: measure.Gram, Crate: true, Days: 5})
		}
		return list
	}
	for _, held := range [][]string{{"leek"}, {"leek", "unsalted butter"}} {
		butter := 0
		for _, i := range Ideas(Ask{Stock: stockOf(held...), Focus: "leek", Minutes: 60}) {
			if slices.ContainsFunc(append(i.Uses, i.Cupboard...), func(u Use) bool { return u.Item == "unsalted butter" || u.Item == "butter" }) {
				butter++
				if !slices.Contains(i.Allergens, "milk") {
					t.Errorf("%s with %v: carries %v", i.Title, held, i.Allergens)
				}
			}
		}
		if butter == 0 {
			t.Errorf("no idea with butter for %v", held)
		}
	}
	for _, n := range []string{"cod", "cheddar", "egg", "tofu", "prawn"} {
		f, ok := food.Default().Food(n)
		if !ok || len(f.Allergen) == 0 {
			continue
		}
		for _, i := range Ideas(Ask{Stock: stockOf(n), Minutes: 60}) {
			for _, a := range f.Allergen {
				if !slices.Contains(i.Allergens, a) {
					t.Errorf("%s: carries %v, not %s", i.Title, i.Allergens, a)
				}
			}
			for _, c := range i.Cautions {
				if said(c, i.Allergens) {
					t.Errorf("%s: says twice that it carries %s", i.Title, c)
				}
			}
		}
	}
}

func TestSaid(t *testing.T) {
	for c, want := range map[string]bool{
		"milk": true, "egg and wheat": true, "mustard is an allergen": true, "wheat, egg, milk": true,
		"wheat in the crumbs": true, "milk in the cheese": true, "soya": false, "sesame in the dressing": false, "raw flour and egg inside": false, "celery in many stocks": false, "set right through, 71 C": false, "milk, often wheat": true, "and": false,
	} {
		if got := said(c, []string{"milk", "eggs", "gluten cereals", "mustard"}); got != want {
			t.Errorf("said(%q) = %v", c, got)
		}
	}
}
