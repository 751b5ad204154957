package paper

import (
	"cmp"
	"slices"
	"strings"

	"scullion/pantry/account"
	"scullion/pantry/food"
)

// allergens puts into words which ingredient brings which allergen, by the law of the EU and UK,
// and of the US where that is asked for.
func (v *view) allergens(s *account.Sheet, o Options) {
	v.Lists = []list{{Law: "EU and UK (14)", Holds: brought(s.Holds), May: brought(s.May)}}
	if o.US {
		holds, may := american(s)
		l := list{Law: "US (9)", Holds: brought(holds), May: brought(may)}
		for _, a := range append(slices.Clone(s.Holds), s.May...) {
			if a.Name == "sulphites" {
				l.Note = "Sulphites are none of the nine, but US labels declare them too."
			}
		}
		v.Lists = append(v.Lists, l)
	}
	if len(s.Unknown) > 0 {
		v.Unknown = "Nobody knows the allergens of " + both(plainAll(s.Unknown)) + ": that is unknown, not none. Look at the label or ask."
	}
}

// checkLabel ends a US name that only the label can tell.
const checkLabel = " (check label)"

func brought(list []account.Allergen) (words []string) {
	for _, a := range list {
		w := plain(a.Name)
		if len(a.From) > 0 {
			w += " (" + both(plainAll(a.From)) + ")"
		}
		words = append(words, w)
	}
	return words
}

// american gives the US names of what a sheet's ingredients bring. What each holds is the
// sheet's word (a kitchen may have taught it); whether its cereal is wheat, and which nuts are on
// the US list alone, its name in the catalogue tells.
func american(s *account.Sheet) (holds, may []account.Allergen) {
	for i := range s.Parts {
		p := &s.Parts[i]
		f := food.Food{Name: cmp.Or(p.Food, p.Item)}
		if known, ok := food.Default().Food(f.Name); ok {
			f = *known
		}
		f.Allergen = bringsOf(s.Holds, p.Item)
		for _, us := range f.USAllergens() {
			holds = addFrom(holds, us, p.Item)
		}
		// The sheet leaves out what something else holds for certain, by the EU name alone.
		for _, us := range food.US(append(bringsOf(s.May, p.Item), f.MayCarry...)) {
			may = addFrom(may, strings.TrimSuffix(us, checkLabel), p.Item)
		}
	}
	for _, from := range otherOrigins(s) { // its name, and what a cook has said
		f := food.Food{Name: from, Allergen: bringsOf(s.Holds, from)}
		for _, us := range f.USAllergens() {
			holds = addFrom(holds, us, from)
		}
		for _, us := range food.US(bringsOf(s.May, from)) {
			may = addFrom(may, strings.TrimSuffix(us, checkLabel), from)
		}
	}
	may = slices.DeleteFunc(may, func(a account.Allergen) bool {
		return slices.ContainsFunc(holds, func(h account.Allergen) bool { return strings.TrimSuffix(h.Name, checkLabel) == a.Name })
	})
	return holds, may
}

// otherOrigins lists what brings an allergen and is no ingredient.
func otherOrigins(s *account.Sheet) (list []string) {
	for _, a := range slices.Concat(s.Holds, s.May) {
		for _, from := range a.From {
			if !slices.Contains(list, from) && !slices.ContainsFunc(s.Parts, func(p account.Ingredient) bool { return p.Item == from }) {
				list = append(list, from)
			}
		}
	}
	return list
}

// bringsOf lists what one item brings.
func bringsOf(list []account.Allergen, item string) (names []string) {
	for _, a := range list {
		if slices.Contains(a.From, item) {
			names = append(names, a.Name)
		}
	}
	return names
}

func addFrom(list []account.Allergen, name, item string) []account.Allergen {
	for i := range list {
		if list[i].Name == name {
			if !slices.Contains(list[i].From, item) {
				list[i].From = append(list[i].From, item)
			}
			return list
		}
	}
	return append(list, account.Allergen{Name: name, From: []string{item}})
}
