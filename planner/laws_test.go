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
		titles, last := map[string]bool{}, math.Inf(1)
		for _, i := range ideas {
			checkIdea(t, a, i)
			if titles[i.Title] {
				t.Fatalf("%q twice", i.Title)
			}
			titles[i.Title] = true
			if i.Score > last || i.Score < 0 || math.IsNaN(i.Score) {
				t.Fatalf("score %g after %g", i.Score, last)
			}
			last = i.Score
		}
	})
	if given == 0 {
		t.Error("not one idea in all: the test tests nothing")
	}
}

func checkIdea(t *rapid.T, a Ask, i Idea) {
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
	if used := byID(i.Technique); used.Heat < heat || (boil > 0 && u.Item != i.Uses[0].Item) {
		t.Fatalf("%q cooks %s %v, it needs %v and %g minutes at the boil", i.Title, u.Item, used.Heat, heat, boil)
	}
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
