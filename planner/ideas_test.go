package planner

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

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
	if !reflect.DeepEqual(first.Uses, []Use{{Item: "leek", Amount: 400_000, Unit: measure.Gram, Each: first.Uses[0].Each, Cut: "halves or wedges of 25 to 40 mm"}}) || !slices.Equal(first.Kit, []string{"ring"}) {
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
	bare := Ask{Stock: []Stock{stock(t, "leek", 400)}, Focus: "leek"}
	held := bare
	for _, name := range []string{"Dijon mustard", "cider vinegar"} {
		s := stock(t, name, 200)
		s.Crate = false
		held.Stock = append(slices.Clone(held.Stock), s)
	}
	b, h := find(t, bare, "char-wedges"), find(t, held, "char-wedges")
	if b.Score >= h.Score {
		t.Errorf("%g without mustard and vinegar, %g with", b.Score, h.Score)
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
		"whole eggs only":                {"hen's egg", 1000, 1, "fry-egg", 1, 116},
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

// wide is a pantry of so many lines from all over the catalogue.
func wide(lines int) (a Ask) {
	foods := food.Default().Foods()
	for i := 0; len(a.Stock) < lines; i += 7 {
		if f := foods[i%len(foods)]; len(f.Kinds) > 0 {
			a.Stock = append(a.Stock, Stock{Item: f.Name, Food: f, Free: 600_000, Unit: f.Unit, Crate: i%3 > 0, Days: i % 9})
		}
	}
	return a
}

// BenchmarkIdeas asks pantries of several sizes for ten ideas. ns/match is the time
// for each technique that suits a line: it stays, or falls, as the pantry grows.
func BenchmarkIdeas(b *testing.B) {
	for _, lines := range []int{15, 60, 240} {
		b.Run(fmt.Sprint(lines, " lines"), func(b *testing.B) {
			a := wide(lines)
			a.Most = 10
			if len(Ideas(a)) < 10 {
				b.Fatal("too few ideas")
			}
			matches := 0
			for _, l := range newKitchen(a).lines {
				matches += len(l.fits)
			}
			b.ReportAllocs()
			for b.Loop() {
				Ideas(a)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(matches), "ns/match")
		})
	}
}

func TestPlural(t *testing.T) {
	for one, many := range map[string]string{
		"leek": "leeks", "strawberry": "strawberries", "tomato": "tomatoes", "beetroot leaf": "beetroot leaves",
		"raisins": "raisins", "radish": "radishes", "okra": "okra", "mangetout": "mangetout", "turkey": "turkeys", "avocado": "avocados", "": "",
	} {
		if got := plural(one); got != many {
			t.Errorf("%q: %q, want %q", one, got, many)
		}
	}
}
