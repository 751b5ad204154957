package technique

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"scullion/pantry/food"
)

// stepOf is a step with the frame or technique that it is of.
type stepOf struct {
	id    string
	frame *Frame // nil: a technique
	at    int
	Step
}

// allSteps lists every step of every frame and technique.
func allSteps() (list []stepOf) {
	for i := range Frames() {
		f := &Frames()[i]
		for n, s := range f.Steps {
			list = append(list, stepOf{f.ID, f, n, s})
		}
	}
	for _, x := range Default() {
		for n, s := range x.Steps {
			list = append(list, stepOf{x.ID, nil, n, s})
		}
	}
	return list
}

// The count is pinned so that no row is lost unseen. Raise it with the table. A row that
// no step has the words of is of no use, nor is one that says nothing of its own.
func TestWaysRows(t *testing.T) {
	if n := len(Ways()); n != 113 {
		t.Errorf("%d ways", n)
	}
	steps := allSteps()
	kinds := map[string]bool{}
	for _, f := range food.Default().Foods() {
		for _, k := range append(cooked(f), f.Kinds...) {
			kinds[k] = true
		}
	}
	for i := range Ways() {
		w := &Ways()[i]
		if !slices.ContainsFunc(steps, func(s stepOf) bool { return w.Is(s.id, s.Step) }) {
			t.Errorf("%v: no step is so", w)
		}
		for _, id := range w.Of {
			if !slices.ContainsFunc(steps, func(s stepOf) bool { return s.id == id && w.Is(id, s.Step) }) {
				t.Errorf("%v: %s has no such step", w, id)
			}
		}
		for _, f := range w.Foods {
			if _, known := food.Default().Food(f); !known && !kinds[f] {
				t.Errorf("%v: nothing is called %q", w, f)
			}
		}
		if w.Says == w.Words || len(w.Says) > 90 || len(w.Source) < 20 {
			t.Errorf("%v: says %q, source %q", w, w.Says, w.Source)
		}
	}
}

// eachWay calls do with every way of every step of a frame, for a portion at the middle of
// its roles.
func eachWay(do func(w *Way, f *Frame, step int, s Step, grams float64)) {
	for i := range Frames() {
		f := &Frames()[i]
		for n, s := range f.Steps {
			for j := range Ways() {
				if w := &Ways()[j]; w.Is(f.ID, s) {
					do(w, f, n, w.Step(s), f.StepGrams(n, middle(f, 2)))
				}
			}
		}
	}
}

// A way is a step like any other: the words make sense, it takes a minute at least, more
// food never less time, and a hot step stays one, but for what swells in boiling water.
func TestWaysAreSteps(t *testing.T) {
	n := 0
	eachWay(func(w *Way, f *Frame, at int, s Step, grams float64) {
		n++
		if strings.Contains(s.What, ",,") || strings.Contains(s.What, "  ") || strings.HasSuffix(s.What, ",") || len(s.What) > 100 {
			t.Errorf("%s: %q", f.ID, s.What)
		}
		if s.Minutes(grams) < 1 || s.Hands(grams) < 0.1 {
			t.Errorf("%s: %q takes %.1f minutes, %.1f of hands", f.ID, s.What, s.Minutes(grams), s.Hands(grams))
		}
		for g := 25.0; g < 3000; g += 25 {
			if s.Minutes(g+25) < s.Minutes(g)-1e-9 {
				t.Errorf("%s: %q takes less for %g g more", f.ID, s.What, g)
			}
		}
		swells := []string{"rice noodle", "bulgur wheat", "couscous"}
		if len(f.Cooks[at]) > 0 && !s.hot() && slices.ContainsFunc(w.Foods, func(x string) bool { return !slices.Contains(swells, x) }) {
			t.Errorf("%s: %q cooks nothing", f.ID, s.What)
		}
	})
	if n < 50 {
		t.Errorf("only %d ways", n)
	}
}

// What must never be in a microwave oven, or only soaked, by what it is; and what cannot be
// done there.
func TestWaysAreSafe(t *testing.T) {
	never := []string{"poultry", "mince", "sausage", "offal", "game", "stewing cut", "tender cut", "shellfish", "dried pulse", "egg", "flour", "cured meat"}
	names := "chicken turkey duck pork bacon lardon pancetta kidney egg French bean runner bean broad bean edamame cassava mussel"
	canBe := []string{"egg noodle", "baked bean"}
	taken := 0
	eachFit(func(f *Frame, role int, x *food.Food, s Subject) {
		if s.Name == "" {
			return
		}
		for at, step := range f.Steps {
			if !slices.Contains(f.Cooks[at], role) {
				continue
			}
			for j := range Ways() {
				w := &Ways()[j]
				if !w.Is(f.ID, step) || !w.Takes(s) {
					continue
				}
				if taken++; w.To == "microwave" && w.Foods == nil && w.Words != "warm the breads, no fat" {
					t.Errorf("%v takes any food", w)
				}
				if w.To != "microwave" && w.To != "bench" {
					continue
				}
				for _, k := range never {
					if slices.Contains(x.Kinds, k) {
						t.Errorf("%v takes %s", w, x.Name)
					}
				}
				if hasAny(x.Name, names) && !strings.HasPrefix(x.Name, "tinned") && !slices.Contains(canBe, x.Name) {
					t.Errorf("%v takes %s", w, x.Name)
				}
			}
		}
	})
	if taken < 300 {
		t.Errorf("only %d foods in ways", taken)
	}
	for j := range Ways() {
		w := &Ways()[j]
		if w.To == "microwave" && hasAny(w.Says, "brown fry crisp char toast roast foil") && !strings.Contains(w.Says, "no foil") {
			t.Errorf("%v: a microwave oven does not %s", w, w.Says)
		}
	}
}

// What safety wants at the boil keeps its boil.
func TestWaysKeepTheBoil(t *testing.T) {
	n := 0
	for _, x := range food.Default().Foods() {
		s := Of(x, false)
		heat, boil, _ := Need(s)
		if boil == 0 && heat < Boil {
			continue
		}
		n++
		for j := range Ways() {
			if w := &Ways()[j]; w.To != "ring" && w.Takes(s) {
				t.Errorf("%v takes %s, which needs %g minutes at the boil", w, x.Name, boil)
			}
		}
	}
	if n < 20 {
		t.Errorf("only %d foods", n)
	}
}

// Vegetables in the microwave oven take no less than the least that is published for as
// much of them, and no more than twice the most.
func TestWaysAgainstReference(t *testing.T) {
	rows := referenceRows(t, cookTimes)
	n := 0
	for _, r := range rows[1:] {
		grams, _, weighed := strings.Cut(r[3], " g")
		g, err := strconv.ParseFloat(grams, 64)
		x, known := food.Default().Food(r[0])
		if r[1] != "microwave" || !weighed || err != nil || !known {
			continue
		}
		least, _ := strconv.ParseFloat(r[5], 64)
		most, _ := strconv.ParseFloat(r[6], 64)
		for _, f := range []struct{ id, words string }{{"rice-plate", "cook the green under a lid"}, {"pan-plate", "cut up what is large, boil the base"}} {
			step := Step{What: f.words, Kit: "ring", Unattended: 15}
			for j := range Ways() {
				w := &Ways()[j]
				if w.To != "microwave" || !w.Is(f.id, step) || !w.Takes(Of(x, false)) {
					continue
				}
				n++
				done := w.Step(step)
				if got := done.Minutes(g) - done.Hands(g); got < least || got > 2*most {
					t.Errorf("%s: %g g take %.1f minutes, published are %g to %g", x.Name, g, got, least, most)
				}
			}
		}
	}
	if n < 8 {
		t.Errorf("only %d times compared", n)
	}
}

func TestWaysAreRefused(t *testing.T) {
	head := strings.Join(waysHeader, ",") + "\n"
	good := "ring,boil,,any,,microwave,,*1,9,steam,common practice"
	if list, err := readWays(head + good); err != nil || len(list) != 1 {
		t.Fatalf("%v, %v", list, err)
	}
	for fault, row := range map[string]string{
		"unknown kit":                "stove,boil,,any,,microwave,,*1,9,steam,x",
		"usual way":                  "ring,boil,,any,,ring,,*1,9,steam,x",
		"foods: is empty":            "ring,boil,,,,microwave,,*1,9,steam,x",
		"source: is empty":           "ring,boil,,any,,microwave,,*1,9,steam,",
		"an oven has a temperature":  "ring,boil,,any,,oven,,*1,30,bake,x",
		"in which it is heated":      "ring,boil,,any,,oven,200,*1,9,bake,x",
		"heated too":                 "ring,boil,,any,,oven,200,*1,*2,bake,x",
		"do not grow with the grams": "ring,boil,,any,,microwave,,*1,9+1,steam,x",
		"is not a number":            "ring,boil,,any,,microwave,,often,9,steam,x",
		"only brings kit to heat":    "ring,boil,,any,,microwave,,*1,9,heat it,x",
		"most_g":                     "ring,boil,,any,lots,microwave,,*1,9,steam,x",
	} {
		want := fault
		if fault == "unknown kit" {
			want = "kit: "
		}
		if _, err := readWays(head + row); err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), "ways.csv:2") {
			t.Errorf("%s: %v", fault, err)
		}
	}
}

// Minutes of a way are a factor on the usual ones and some more, or its own.
func TestWayMinutes(t *testing.T) {
	usual := Step{What: "gently simmer it", Fixed: 2, Per100: 0.5, Unattended: 10, Kit: "ring"}
	for row, want := range map[string][3]float64{
		"*1,*1":      {2, 0.5, 10},
		"*2+0.5,*1":  {4.5, 1, 10},
		"1.5,9":      {1.5, 0, 9},
		"1+0.2,*1+5": {1, 0.2, 15},
		"*1,*0+7":    {2, 0.5, 7},
	} {
		list, err := readWays(strings.Join(waysHeader, ",") + "\nring,simmer it,,any,,microwave,," + row + ",steam it,x")
		if err != nil {
			t.Fatal(err)
		}
		s := list[0].Step(usual)
		if got := [3]float64{s.Fixed, s.Per100, s.Unattended}; got != want || s.What != "gently steam it" || s.Kit != "microwave" {
			t.Errorf("%s: %v, not %v: %+v", row, got, want, s)
		}
	}
}

// Common practice: a tenth to a quarter longer for two.
func TestCrowded(t *testing.T) {
	if one, two := Crowded(1), Crowded(2); one != 1 || two < 1.1 || two > 1.25 {
		t.Errorf("%g for one dish, %g for two", one, two)
	}
	if Crowded(0) != 1 || Crowded(99) < Crowded(2) || math.IsInf(Crowded(99), 0) {
		t.Errorf("%g for none, %g for many", Crowded(0), Crowded(99))
	}
}
