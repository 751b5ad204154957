package planner

import (
	"slices"
	"testing"

	"scullion/planner/technique"
)

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
		seen := map[int]bool{}
		for _, i := range ideas {
			seen[family(i.Technique)] = true
		}
		if len(seen) < 3 {
			t.Errorf("%s: only %d families in %d ideas", name, len(seen), len(ideas))
			continue
		}
		first := map[int]bool{}
		for _, i := range ideas[:min(len(seen), varied)] {
			first[family(i.Technique)] = true
		}
		if len(first) < min(len(seen), varied) {
			t.Errorf("%s: the first ideas repeat a family", name)
		}
	}
}

func family(id string) int { return theBook().page(id).family }

func byID(id string) technique.Technique {
	list := technique.Default()
	return list[slices.IndexFunc(list, func(x technique.Technique) bool { return x.ID == id })]
}

// A raw bean must not come into a dish as a staple, nor raw egg into a cold one.
func TestStaplesAreCookedToo(t *testing.T) {
	bean, egg := stock(t, "French bean", 300), stock(t, "hen's egg", 300)
	k := newKitchen(Ask{Stock: []Stock{bean, egg}})
	for _, heat := range []technique.Heat{technique.None, technique.Through, technique.Boil} {
		f := &fit{Fit: technique.Fit{Technique: &technique.Technique{Heat: heat}}}
		if k.lines[0].cooks(f) {
			t.Errorf("French beans go into what is cooked %v", heat)
		}
		if got := k.lines[1].cooks(f); got != (heat > technique.None) {
			t.Errorf("egg in what is cooked %v: %v", heat, got)
		}
	}
}

func TestFirstIdeasDifferInFood(t *testing.T) {
	var all []Stock
	for _, name := range []string{"leek", "carrot", "tomato", "spinach", "salmon", "plum"} {
		all = append(all, stock(t, name, 500))
	}
	ideas := Ideas(Ask{Stock: all})
	foods, families := map[string]bool{}, map[int]bool{}
	for _, i := range ideas[:varied] {
		foods[i.Uses[0].Item], families[family(i.Technique)] = true, true
	}
	if len(foods) < varied || len(families) < varied {
		t.Errorf("foods %v, families %v", foods, families)
	}
}

// However much one food presses, the others get a word in.
func TestFirstIdeasDifferInFoodWhenOnePresses(t *testing.T) {
	all := []Stock{stock(t, "leek", 900)}
	all[0].Days = 0
	for _, name := range []string{"carrot", "tomato", "spinach"} {
		s := stock(t, name, 200)
		s.Days = 20
		all = append(all, s)
	}
	foods := map[string]bool{}
	for _, i := range Ideas(Ask{Stock: all})[:varied] {
		foods[i.Uses[0].Item] = true
	}
	if len(foods) < varied {
		t.Errorf("the first ideas are about %v", foods)
	}
}

// What is on the menu already ranks lower: the technique itself, one of its kind,
// and one that tastes the same; and so does what was turned down, to nothing.
func TestMenuBalance(t *testing.T) {
	a := Ask{Stock: []Stock{stock(t, "leek", 400), stock(t, "carrot", 400), stock(t, "cauliflower", 400)}, Most: 12}
	before := scores(Ideas(a))
	first := Ideas(a)[0]
	a.Menu = []Choice{{Technique: first.Technique, Item: first.Uses[0].Item}}
	after := scores(Ideas(a))
	if again, ok := after[first.Technique]; ok && again > before[first.Technique]*0.5 {
		t.Errorf("%s: %g, and %g with one on the menu", first.Technique, before[first.Technique], again)
	}
	if Ideas(a)[0].Technique == first.Technique {
		t.Errorf("%s comes first with one on the menu", first.Technique)
	}
	a.Menu, a.Turned = nil, []Choice{{Technique: first.Technique}}
	if _, ok := scores(Ideas(a))[first.Technique]; ok {
		t.Errorf("%s was turned down", first.Technique)
	}
	p, q := theBook().page("char-wedges"), theBook().page("grill-slices")
	if p == nil || !p.tastesLike(p) || q != nil && p.tastesLike(q) && len(q.taste) == 0 {
		t.Error("likeness of seasoning is not told")
	}
}

// scores gives each technique's best.
func scores(list []Idea) map[string]float64 {
	m := map[string]float64{}
	for _, i := range list {
		m[i.Technique] = max(m[i.Technique], i.Score)
	}
	return m
}

// Cold things are asked for on a hot day, and nothing hot comes with them.
func TestServe(t *testing.T) {
	a := Ask{Stock: []Stock{stock(t, "carrot", 400), stock(t, "cucumber", 300), stock(t, "salmon", 300)}, Serve: Cold}
	list := Ideas(a)
	if len(list) < 3 {
		t.Fatalf("%d cold ideas", len(list))
	}
	for _, i := range list {
		if !theBook().page(i.Technique).cold {
			t.Errorf("%q is hot", i.Title)
		}
	}
	a.Serve = Hot
	for _, i := range Ideas(a) {
		if theBook().page(i.Technique).cold {
			t.Errorf("%q is cold", i.Title)
		}
	}
}
