package technique

import (
	"slices"
	"strings"
	"testing"

	"scullion/pantry/food"
)

const hazards = "../../../shared/reference/hazards.csv"

func TestHazardsAreSaid(t *testing.T) {
	for _, w := range warnings {
		x, ok := byID(w.technique)
		if !ok {
			t.Errorf("no technique %s", w.technique)
			continue
		}
		s := Subject{"", []string{w.food}}
		if f, ok := food.Default().Food(w.food); ok && f.Name == w.food {
			s = Of(f, false)
		}
		fit, ok := x.Fit(s)
		says := func(c string) bool { return strings.Contains(c, w.says) }
		if !ok || !slices.ContainsFunc(fit.Says, says) {
			t.Errorf("%s of %s (%v) says %q, not %q: %s", w.technique, w.food, ok, fit.Says, w.says, w.hazard)
		}
	}
}

func TestHazardsAreBarred(t *testing.T) {
	for _, b := range bars {
		f, ok := food.Default().Food(b.food)
		if !ok {
			t.Errorf("no food %s", b.food)
			continue
		}
		x := Technique{Suits: []Suit{{f.Name, true}}, Heat: b.heat, Main: -1, Steps: []Step{{What: "x", Kit: "ring", Temp: 100}}}
		if _, ok := x.Fit(Of(f, false)); ok {
			t.Errorf("%s may be offered %v: %s", b.food, b.heat, b.hazard)
		}
		x.Heat = Boil
		if _, ok := x.Fit(Of(f, false)); !ok {
			t.Errorf("%s may not be offered at all: the test tests nothing", b.food)
		}
	}
}

// Every hazard of the reference table is in one of the lists above, and nothing
// else is.
func TestHazardsAreAllThoughtOf(t *testing.T) {
	rows := referenceRows(t, hazards)
	listed := map[string]bool{}
	for _, w := range warnings {
		listed[w.hazard] = false
	}
	for _, b := range bars {
		listed[b.hazard] = false
	}
	for h := range untouched {
		listed[h] = false
	}
	for _, r := range rows[1:] {
		found := false
		for h := range listed {
			if strings.HasPrefix(r[0], h) {
				listed[h], found = true, true
			}
		}
		if !found {
			t.Errorf("nobody has thought of %q", r[0])
		}
	}
	for h, met := range listed {
		if !met {
			t.Errorf("the table has no hazard %q", h)
		}
	}
}
