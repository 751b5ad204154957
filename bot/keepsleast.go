package bot

import (
	"cmp"
	"slices"

	"scullion/pantry"
	"scullion/pantry/food"
)

// How long what is left of a dish keeps, and what was made: by what is in it.

// cold are the groups and kinds of food that make a bread or a cake which holds them one for the fridge, as
// does what no table knows. Common practice, no source.
var cold = []string{"meat", "poultry", "game", "offal", "fish", "shellfish", "cured meat", "cheese", "cream", "cultured dairy"}

func staysCold(f *food.Food) bool {
	return f == nil || (slices.Contains(cold, f.Group) || slices.ContainsFunc(f.Kinds, func(k string) bool { return slices.Contains(cold, k) }))
}

// mealy are the groups of food of which something is in every bread and cake: a tortilla of eggs and potatoes is none.
// Common practice, no source.
var mealy = []string{"flour or starch", "grain", "bread", "pastry", "nut", "prepared", "baking"}

func isMealy(f *food.Food) bool {
	return f == nil || slices.Contains(mealy, f.Group) || slices.ContainsFunc(f.Kinds, func(k string) bool { return slices.Contains(mealy, k) })
}

// keepsLeast is the guidance for what is left of a dish: of all that is in it, what keeps least.
func keepsLeast(k *pantry.Kitchen, all *food.Catalogue, dish string, foods []*food.Food, country string) (food.Guidance, bool) {
	if g, has := ruled(k, all, dish, nil, food.MadeUp, "", country); has && g.Place == "cupboard" && !slices.ContainsFunc(foods, staysCold) && (len(foods) == 0 || slices.ContainsFunc(foods, isMealy)) { // bread and plain cake
		return g, true
	}
	best, ok := ruled(k, all, dish, nil, food.Cooked, "fridge", country)
	if g, has := ruled(k, all, dish, nil, food.MadeUp, "fridge", country); has && g.Days <= best.Days { // a salad is not reheated
		if usual, _ := ruled(k, all, "", nil, food.MadeUp, "fridge", country); g.What != usual.What {
			best = g
		}
	}
	for _, f := range foods {
		if f == nil {
			continue
		}
		if g, has := ruled(k, all, f.Name, f, food.Cooked, "fridge", country); has && (!ok || g.Days < best.Days) {
			best, ok = g, true
		}
	}
	return best, ok
}

// guideFor is the guidance for what was made, cooked or came in cooked; of what was made also the
// limit that what went into it sets, with this message or into the dish that it is what is left of,
// and the day on which that was cooked; "" it is the day on which it was made.
func (t *turn) guideFor(act pantry.Act, dish string, l *pantry.Line, f *food.Food, state food.State) (g food.Guidance, ok bool, m limit, from pantry.Date) {
	if act != pantry.Make || dish == "" {
		g, ok = t.ear.guide(l.Name, f, state, "", t.country())
		if act == pantry.Make {
			how := workOf(l.Name, &t.drew, state == food.Cooked)
			if state == food.Uncooked {
				how = workedRaw
			}
			if m = t.drew.keeps(how); how != workedCooked {
				g, ok = t.uncookedGuide(g, ok, how, m)
			}
			g, ok = eggGuide(t.k, t.ear.all, g, ok, l.Name, &t.drew, t.country())
		}
		return g, ok, m, ""
	}
	dish, in, err := t.cooked(dish)
	foods := t.foodsOf(in)
	var drew drawnOn
	if err == nil {
		drew, err = limitOf(t.book, t.ear, dish, in, t.said.At.Add(-pantry.LeftOver), t.m.At.Location())
	}
	if err != nil {
		return g, false, m, ""
	}
	if len(in) > 0 {
		from = pantry.DateOf(in[len(in)-1].At.In(t.m.At.Location()))
	}
	drew.join(t.drew)
	how := workOf(cmp.Or(dish, l.Name), &drew, true)
	if state == food.Uncooked {
		how = workedRaw
	}
	m = drew.keeps(how)
	g, ok = keepsLeast(t.k, t.ear.all, cmp.Or(dish, l.Name), foods, t.country())
	if state != food.Cooked {
		g, ok = t.uncookedGuide(g, ok, how, m)
	}
	g, ok = eggGuide(t.k, t.ear.all, g, ok, cmp.Or(dish, l.Name), &drew, t.country())
	return g, ok, m, from
}

// foodsOf are the foods of entries, nil where no table knows one.
func (t *turn) foodsOf(entries []pantry.Entry) []*food.Food {
	foods := []*food.Food{}
	for _, e := range entries {
		foods = append(foods, t.ear.foodOf(t.k.Line(e.Line)))
	}
	return foods
}
