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

// stock makes a crate line of grams (or ml) of a catalogue food.
func stock(t testing.TB, name string, grams int) Stock {
	t.Helper()
	f, ok := food.Default().Food(name)
	if !ok {
		t.Fatalf("no food %q", name)
	}
	return Stock{Item: name, Food: f, Free: measure.Amount(grams) * 1000, Unit: f.Unit, Crate: true, Days: 2}
}

func TestNothingFree(t *testing.T) {
	leek := stock(t, "leek", 0)
	unknown := Stock{Item: "salsola", Free: 500_000, Unit: measure.Gram, Crate: true}
	for name, a := range map[string]Ask{
		"no stock":          {},
		"none left":         {Stock: []Stock{leek}},
		"no table knows it": {Stock: []Stock{unknown}},
		"another focus":     {Stock: []Stock{stock(t, "leek", 400)}, Focus: "carrot"},
	} {
		if got := Ideas(a); got != nil {
			t.Errorf("%s: %v", name, got)
		}
	}
}

func TestLeek(t *testing.T) {
	ideas := Ideas(Ask{Stock: []Stock{stock(t, "leek", 400)}})
	if len(ideas) == 0 {
		t.Fatal("no ideas")
	}
	first := ideas[0]
	if first.Title != "charred leek wedges, mustard dressing" || first.Technique != "char-wedges" {
		t.Errorf("the first idea is %q", first.Title)
	}
	if !reflect.DeepEqual(first.Uses, []Use{{"leek", 400_000, measure.Gram}}) || !slices.Equal(first.Kit, []string{"ring"}) {
		t.Errorf("uses %v on %v", first.Uses, first.Kit)
	}
	if first.Minutes > 15 || first.HandsOn > first.Minutes || first.Role != "star" {
		t.Errorf("%d minutes, %d hands-on, %s", first.Minutes, first.HandsOn, first.Role)
	}
}

func TestFocusIgnoresCase(t *testing.T) {
	a := Ask{Stock: []Stock{stock(t, "leek", 400), stock(t, "carrot", 900)}, Focus: "Leek"}
	for _, i := range Ideas(a) {
		if i.Uses[0].Item != "leek" {
			t.Errorf("%q is not about leek", i.Title)
		}
	}
}

func TestCrateStaplesAreUsed(t *testing.T) {
	yoghurt := stock(t, "natural yoghurt", 500)
	a := Ask{Stock: []Stock{stock(t, "courgette", 500), yoghurt}, Focus: "courgette"}
	i := find(t, a, "fry-slices")
	if len(i.Uses) != 2 || i.Uses[1].Item != "natural yoghurt" {
		t.Errorf("uses %v", i.Uses)
	}
	yoghurt.Crate = false
	a.Stock[1] = yoghurt
	i = find(t, a, "fry-slices")
	if len(i.Uses) != 1 || !slices.ContainsFunc(i.Cupboard, func(u Use) bool { return u.Item == "natural yoghurt" }) {
		t.Errorf("uses %v, cupboard %v", i.Uses, i.Cupboard)
	}
}

// find gives the idea with this technique.
func find(t *testing.T, a Ask, id string) Idea {
	t.Helper()
	for _, i := range Ideas(a) {
		if i.Technique == id {
			return i
		}
	}
	t.Fatalf("no idea by %s", id)
	return Idea{}
}

func TestMissingStaplesLowerTheScore(t *testing.T) {
	bare := Ask{Stock: []Stock{stock(t, "courgette", 500)}}
	mayo := stock(t, "natural yoghurt", 500)
	mayo.Crate = false
	held := Ask{Stock: append(slices.Clone(bare.Stock), mayo), Focus: "courgette"}
	rank := func(a Ask) int {
		return slices.IndexFunc(Ideas(a), func(i Idea) bool { return i.Technique == "fry-slices" })
	}
	if b, h := rank(bare), rank(held); b < 0 || h > b {
		t.Errorf("with yoghurt in the cupboard it is number %d, without it %d", h, b)
	}
}

func TestPortions(t *testing.T) {
	for name, c := range map[string]struct {
		food             string
		grams, asked     int
		technique        string
		portions, amount int
	}{
		"asked for two, plenty there":    {"salmon", 900, 2, "pan-fish", 2, 320},
		"asked for four, enough for two": {"salmon", 300, 4, "pan-fish", 2, 300},
		"a little more is finished":      {"salmon", 340, 2, "pan-fish", 2, 340},
		"none asked: four at most":       {"salmon", 3000, 0, "pan-fish", 4, 640},
		"too little for one, a garnish":  {"parsley", 3, 0, "herb-finish", 1, 3},
		"whole eggs only":                {"hen's egg", 1000, 1, "fry-egg", 1, 113},
	} {
		t.Run(name, func(t *testing.T) {
			i := find(t, Ask{Stock: []Stock{stock(t, c.food, c.grams)}, Portions: c.asked}, c.technique)
			if got := int(i.Uses[0].Amount / 1000); i.Portions != c.portions || got != c.amount {
				t.Errorf("%d portions of %d g in all, want %d of %d", i.Portions, got, c.portions, c.amount)
			}
		})
	}
	if got := Ideas(Ask{Stock: []Stock{stock(t, "salmon", 20)}}); got != nil {
		t.Errorf("20 g of salmon: %v", got)
	}
}

func TestDates(t *testing.T) {
	chicken, carrot := stock(t, "chicken breast", 500), stock(t, "carrot", 500)
	chicken.Days, carrot.Days = -1, -1
	if got := Ideas(Ask{Stock: []Stock{chicken}}); got != nil {
		t.Errorf("past its use-by: %v", got[0].Title)
	}
	ideas := Ideas(Ask{Stock: []Stock{carrot}})
	if len(ideas) == 0 || !strings.Contains(strings.Join(ideas[0].Cautions, ";"), "best-before") {
		t.Errorf("past its best-before, and nothing is said: %v", ideas)
	}
	frozen := stock(t, "chicken breast", 500)
	frozen.Item = "frozen chicken breast"
	if got := Ideas(Ask{Stock: []Stock{frozen}}); got != nil {
		t.Errorf("still frozen: %v", got[0].Title)
	}
}

func TestWhatDiesFirstComesFirst(t *testing.T) {
	soon, late := stock(t, "carrot", 500), stock(t, "parsnip", 500)
	soon.Days, late.Days = 0, 9
	if got := Ideas(Ask{Stock: []Stock{late, soon}})[0].Uses[0].Item; got != "carrot" {
		t.Errorf("first %s", got)
	}
	soon.Days, late.Days = Undated, 0
	if got := Ideas(Ask{Stock: []Stock{late, soon}})[0].Uses[0].Item; got != "parsnip" {
		t.Errorf("first %s", got)
	}
	late.Crate = false
	if got := Ideas(Ask{Stock: []Stock{late, soon}})[0].Uses[0].Item; got != "carrot" {
		t.Errorf("the cupboard before the crate: %s", got)
	}
}

func TestRecentIsRankedLower(t *testing.T) {
	a := Ask{Stock: []Stock{stock(t, "leek", 400)}}
	first := Ideas(a)[0].Technique
	a.Recent = []string{first}
	if got := Ideas(a)[0].Technique; got == first {
		t.Errorf("%s again", got)
	}
}

func TestBeansBoilTenMinutes(t *testing.T) {
	for _, i := range Ideas(Ask{Stock: []Stock{stock(t, "French bean", 400)}}) {
		if i.Minutes < 10 {
			t.Errorf("%s in %d minutes", i.Title, i.Minutes)
		}
	}
	i := find(t, Ask{Stock: []Stock{stock(t, "French bean", 400)}}, "boil-beans")
	if !strings.Contains(i.How, "10 min") {
		t.Errorf("how: %s", i.How)
	}
}

// crate is what comes in a crate, in amounts as they come.
var crate = map[string]int{
	"leek": 500, "carrot": 1000, "parsnip": 600, "beetroot": 500, "celeriac": 700, "potato": 1500,
	"sweet potato": 600, "brown onion": 600, "red onion": 400, "spring onion": 100, "fennel bulb": 600,
	"cauliflower": 800, "broccoli": 400, "Brussels sprout": 400, "white cabbage": 800, "Savoy cabbage": 700,
	"kale": 250, "spinach": 250, "chard": 300, "pak choi": 250, "rocket": 100, "cos lettuce": 300,
	"celery": 400, "asparagus": 250, "garden pea": 700, "mangetout": 150, "French bean": 300, "courgette": 600, "aubergine": 500,
	"cucumber": 300, "red pepper": 400, "tomato": 600, "butternut squash": 1200, "chestnut mushroom": 300,
	"apple": 600, "pear": 500, "plum": 500, "strawberry": 400, "banana": 500, "orange": 600, "lemon": 300, "rhubarb": 400,
	"parsley": 40, "basil": 40, "natural yoghurt": 500, "double cream": 300, "cheddar": 250, "feta": 200,
	"hen's egg": 342, "white bread": 500, "chicken breast": 500, "chicken thigh": 800, "beef mince": 500,
	"salmon": 400, "firm tofu": 300, "tinned chickpea": 400,
}

func TestCrateFoodsGetIdeasThatDiffer(t *testing.T) {
	if len(crate) < 40 {
		t.Fatal("too few foods")
	}
	for name, grams := range crate {
		ideas := Ideas(Ask{Stock: []Stock{stock(t, name, grams)}})
		seen := map[string]bool{}
		for _, i := range ideas {
			seen[family(i.Technique)] = true
		}
		if len(seen) < 3 {
			t.Errorf("%s: only %d families in %d ideas", name, len(seen), len(ideas))
			continue
		}
		first := map[string]bool{}
		for _, i := range ideas[:min(len(seen), varied)] {
			first[family(i.Technique)] = true
		}
		if len(first) < min(len(seen), varied) {
			t.Errorf("%s: the first ideas repeat a family", name)
		}
	}
}

func family(id string) string {
	list := technique.Default()
	return list[slices.IndexFunc(list, func(x technique.Technique) bool { return x.ID == id })].Family
}

func TestFirstIdeasDifferInFood(t *testing.T) {
	var all []Stock
	for _, name := range []string{"leek", "carrot", "tomato", "spinach", "salmon", "plum"} {
		all = append(all, stock(t, name, 500))
	}
	ideas := Ideas(Ask{Stock: all})
	foods, families := map[string]bool{}, map[string]bool{}
	for _, i := range ideas[:varied] {
		foods[i.Uses[0].Item], families[family(i.Technique)] = true, true
	}
	if len(foods) < varied || len(families) < varied {
		t.Errorf("foods %v, families %v", foods, families)
	}
}

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
		f := &foods[rapid.IntRange(0, len(foods)-1).Draw(t, "food")]
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
	}
	for _, u := range i.Cupboard {
		if u.Amount <= 0 || seen[u.Item] || u.Item == "water" {
			t.Fatalf("%q takes %v from the cupboard, beside %v", i.Title, u, i.Uses)
		}
		seen[u.Item] = true
	}
}

// freeOf gives the most that one line of that name and unit has free and fit to eat.
func freeOf(a Ask, u Use) measure.Amount {
	most := measure.Amount(0)
	for _, s := range a.Stock {
		if s.Item == u.Item && s.Unit == u.Unit && s.Food != nil && (s.Days >= 0 || s.Food.Date == "best-before") {
			most = max(most, s.Free)
		}
	}
	return most
}

// TestConcurrent lets the race detector look at what is kept between calls.
func TestConcurrent(t *testing.T) {
	a := Ask{}
	for name, grams := range crate {
		a.Stock = append(a.Stock, stock(t, name, grams))
	}
	want := Ideas(a)
	done := make(chan []Idea)
	for range 8 {
		go func() { done <- Ideas(a) }()
	}
	for range 8 {
		if got := <-done; !reflect.DeepEqual(got, want) {
			t.Error("answers differ")
		}
	}
}

func TestDefaultKit(t *testing.T) {
	kit := DefaultKit()
	for _, k := range technique.Scarce {
		if kit[k] == 0 {
			t.Errorf("no %s", k)
		}
	}
}

func BenchmarkIdeas60(b *testing.B) {
	a := Ask{}
	foods := food.Default().Foods()
	for i := 0; len(a.Stock) < 60; i += 7 {
		if f := &foods[i%len(foods)]; len(f.Kinds) > 0 {
			a.Stock = append(a.Stock, Stock{f.Name, f, 600_000, f.Unit, i%3 > 0, i % 9})
		}
	}
	if len(Ideas(a)) == 0 {
		b.Fatal("no ideas")
	}
	b.ReportAllocs()
	for b.Loop() {
		Ideas(a)
	}
}

func TestPlural(t *testing.T) {
	for one, many := range map[string]string{
		"leek": "leeks", "strawberry": "strawberries", "tomato": "tomatoes", "beetroot leaf": "beetroot leaves",
		"raisins": "raisins", "radish": "radishes", "okra": "okra", "turkey": "turkeys", "avocado": "avocados", "": "",
	} {
		if got := plural(one); got != many {
			t.Errorf("%q: %q, want %q", one, got, many)
		}
	}
}
