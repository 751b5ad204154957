package bot

import (
	"cmp"
	"slices"
	"strings"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/planner"
)

// isRawEgg says whether a food, which may be nil, is egg that was not cooked and not pasteurised, by a name.
func isRawEgg(f *food.Food, name string) bool {
	return f != nil && slices.Contains(f.Kinds, "egg") && !planner.IsCooked(f, name) && !tellsWork(name, "cooked") &&
		!strings.Contains(food.Fold(name), "pasteuri")
}

// staysRawEgg says whether raw egg went into what goes by a name, and is still raw in it.
func staysRawEgg(name string, of *drawnOn) bool {
	return of.egg && tellsWork(name, "egg") && !tellsWork(name, "cooked") && !tellsWork(name, "boiled")
}

// eggGuide is the guidance for what raw egg is in: a mousse says by its name neither whether eggs are in it nor how
// they were. A shorter figure stays, with the caution.
func eggGuide(k *pantry.Kitchen, all *food.Catalogue, g food.Guidance, ok bool, name string, of *drawnOn, country string) (food.Guidance, bool) {
	if !staysRawEgg(name, of) {
		return g, ok
	}
	own, has := ruled(k, all, "raw egg", nil, food.MadeUp, "fridge", country)
	if ok && (!has || g.Days < own.Days) {
		g.Caution = own.Caution
		return g, ok
	}
	return own, has
}

// eggHeld is eggGuide of what a line has with one date and state, as its entries tell what was put by.
func (t *turn) eggHeld(entries []pantry.Entry, d Dated, l *pantry.Line, g food.Guidance, ok bool) (food.Guidance, bool, error) {
	for _, e := range slices.Backward(entries) {
		dish := cmp.Or(e.Dish, l.Name)
		if e.Act != pantry.Make || e.Lot.Date != d.Date || e.Lot.State != d.State || !tellsWork(dish, "egg") {
			continue
		}
		since := e.At.Add(-pantry.LeftOver)
		in, err := t.book.IntoDish(dish, since)
		if err != nil {
			return g, ok, err
		}
		in = slices.DeleteFunc(in, func(u pantry.Entry) bool { return u.Act != pantry.Use || u.At.After(e.At) })
		drew, err := limitOf(t.book, t.ear, dish, in, since, t.m.At.Location())
		if err != nil {
			return g, ok, err
		}
		g, ok = eggGuide(t.k, t.ear.all, g, ok, dish, &drew, t.country())
		break
	}
	return g, ok, nil
}
