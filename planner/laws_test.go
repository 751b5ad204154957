package planner

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/planner/technique"
)

// anyAsk draws an Ask from the whole catalogue.
func anyAsk(t *rapid.T) Ask {
	foods := food.Default().Foods()
	a := Ask{
		Minutes:  rapid.SampledFrom([]int{0, 1, 5, 12, 20, 30, 45, 90, 300}).Draw(t, "minutes"),
		Portions: rapid.IntRange(0, 12).Draw(t, "portions"),
	}
	if rapid.Bool().Draw(t, "own kit") {
		a.Kit = map[string]int{}
		for _, k := range technique.Scarce {
			a.Kit[k] = rapid.IntRange(0, 2).Draw(t, k)
		}
	}
	for range rapid.IntRange(0, 25).Draw(t, "lines") {
		f := foods[rapid.IntRange(0, len(foods)-1).Draw(t, "food")]
		s := Stock{Item: f.Name, Food: f, Unit: f.Unit,
			Free:  measure.Amount(rapid.IntRange(0, 3_000_000).Draw(t, "free")),
			Crate: rapid.Bool().Draw(t, "crate"),
			Days:  rapid.SampledFrom([]int{-3, 0, 1, 4, 20, Undated}).Draw(t, "days"),
		}
		if rapid.IntRange(0, 9).Draw(t, "known") == 0 {
			s.Food = nil
		}
		a.Stock = append(a.Stock, s)
	}
	a.Serve = rapid.SampledFrom([]Serve{"", "", Hot, Cold}).Draw(t, "serve")
	a.Needs = rapid.SampledFrom([]Needs{{}, {}, {Vegan: true}, {Meatless: true}, {Avoid: []string{"milk", "gluten cereals"}}, {Avoid: []string{"tree nuts", "peanuts"}, Meatless: true}}).Draw(t, "needs")
	ids := rapid.SliceOfN(rapid.IntRange(0, len(technique.Default())-1), 0, 30)
	for _, i := range ids.Draw(t, "turned") {
		a.Turned = append(a.Turned, Choice{Technique: technique.Default()[i].ID})
	}
	for _, i := range ids.Draw(t, "menu") {
		a.Menu = append(a.Menu, Choice{Technique: technique.Default()[i].ID, Item: "leek"})
	}
	if len(a.Stock) > 0 && rapid.Bool().Draw(t, "focused") {
		a.Focus = a.Stock[0].Item
	}
	return a
}

func TestLaws(t *testing.T) {
	given := 0
	rapid.Check(t, func(t *rapid.T) {
		a := anyAsk(t)
		ideas := Ideas(a)
		given += len(ideas)
		if again := Ideas(a); !reflect.DeepEqual(ideas, again) {
			t.Fatal("asked twice, answered in two ways")
		}
		titles := map[string]bool{}
		for _, i := range ideas {
			checkIdea(t, a, i)
			if titles[i.Title] {
				t.Fatalf("%q twice", i.Title)
			}
			titles[i.Title] = true
			score := 1.0
			for _, w := range i.Why {
				score *= w.Times
			}
			if math.Abs(score-i.Score) > 1e-9 || i.Score <= 0 {
				t.Fatalf("%q: score %g, its reasons give %g", i.Title, i.Score, score)
			}
		}
	})
	if given == 0 {
		t.Error("not one idea in all: the test tests nothing")
	}
}

func checkIdea(t *rapid.T, a Ask, i Idea) {
	checkNeeds(t, a, i)
	for _, c := range a.Turned {
		if c.Technique == i.Technique {
			t.Fatalf("%q was turned down", i.Title)
		}
	}
	limit := a.Minutes
	if limit == 0 {
		limit = Usual
	}
	if i.Minutes < 1 || i.Minutes > limit || i.HandsOn < 1 || i.HandsOn > i.Minutes {
		t.Fatalf("%q: %d minutes of %d, %d hands-on", i.Title, i.Minutes, limit, i.HandsOn)
	}
	for _, k := range i.Kit {
		if a.Kit != nil && a.Kit[k] == 0 {
			t.Fatalf("%q wants a %s", i.Title, k)
		}
	}
	if i.Portions < 1 || (a.Portions > 0 && i.Portions > a.Portions) || strings.Contains(i.Title+i.How, "{") {
		t.Fatalf("%+v", i)
	}
	if len(i.Uses) == 0 || (a.Focus != "" && i.Uses[0].Item != a.Focus) {
		t.Fatalf("%q uses %v", i.Title, i.Uses)
	}
	seen := map[string]bool{}
	for _, u := range i.Uses {
		if u.Amount <= 0 || u.Amount > freeOf(a, u) || seen[u.Item] {
			t.Fatalf("%q uses %v of %v", i.Title, u, freeOf(a, u))
		}
		seen[u.Item] = true
		checkCooked(t, a, i, u)
	}
	for _, u := range i.Cupboard {
		if u.Amount <= 0 || seen[u.Item] || u.Item == "water" {
			t.Fatalf("%q takes %v from the cupboard, beside %v", i.Title, u, i.Uses)
		}
		seen[u.Item] = true
	}
}

// checkCooked holds every line drawn on, not only the main one, against the
// safety rules.
func checkCooked(t *rapid.T, a Ask, i Idea, u Use) {
	at := slices.IndexFunc(a.Stock, func(s Stock) bool { return s.Item == u.Item && s.Food != nil })
	heat, boil, _ := technique.Need(technique.Of(a.Stock[at].Food, false))
	given, boiled := technique.None, 0.0
	if f := frameOf(i); f == nil {
		given = byID(i.Technique).Heat
		if u.Item == i.Uses[0].Item { // the technique's own food gets the minutes it needs
			boiled = boil
		}
	} else if r := f.Role(u.Role); r >= 0 {
		given, boiled = f.Roles[r].Heat, f.Roles[r].Boil
	} else { // a staple
		for _, r := range f.Roles {
			given = max(given, r.Heat)
		}
	}
	if given < heat || boiled < boil {
		t.Fatalf("%q cooks %s %v and boils it %g min, it needs %v and %g", i.Title, u.Item, given, boiled, heat, boil)
	}
}

// frameOf gives the frame of a dish; nil for a technique.
func frameOf(i Idea) *technique.Frame {
	for n := range technique.Frames() {
		if f := &technique.Frames()[n]; f.ID == i.Technique {
			return f
		}
	}
	return nil
}

// freeOf gives the most that one line of that name and unit has free and fit to eat.
func freeOf(a Ask, u Use) measure.Amount {
	most := measure.Amount(0)
	for _, s := range a.Stock {
		if s.Item == u.Item && s.Unit == u.Unit && s.Food != nil && (s.Days >= 0 || s.Food.Keeps.Date == "best-before") {
			most = max(most, s.Free)
		}
	}
	return most
}

// checkNeeds looks every food of an idea up again, in the stock or the catalogue.
func checkNeeds(t *rapid.T, a Ask, i Idea) {
	for _, u := range append(slices.Clone(i.Uses), i.Cupboard...) {
		f, _ := food.Default().Food(u.Item)
		if at := slices.IndexFunc(a.Stock, func(s Stock) bool { return s.Item == u.Item && s.Food != nil }); at >= 0 {
			f = a.Stock[at].Food
		}
		if f == nil {
			if a.Needs.none() {
				continue
			}
			t.Fatalf("%q: nobody knows %s", i.Title, u.Item)
		}
		for _, x := range a.Needs.Avoid {
			if slices.Contains(f.Allergen, x) || slices.Contains(f.MayCarry, x) || slices.Contains(i.Allergens, x) {
				t.Fatalf("%q has %s, which may carry %s", i.Title, u.Item, x)
			}
		}
		if a.Needs.Vegan && f.Vegan != "yes" || a.Needs.Meatless && f.Meatless != "yes" {
			t.Fatalf("%q has %s: vegan %s, vegetarian %s", i.Title, u.Item, f.Vegan, f.Meatless)
		}
	}
}
