package planner

import (
	"testing"

	"scullion/pantry/food"
	"scullion/planner/technique"
)

// Facts of time that every cook knows, for two: common practice, no source. The tables may
// be two fifths off either way, for pans and ovens differ.
func TestKnownTimes(t *testing.T) {
	for _, x := range []struct {
		fact            string
		technique, food string
		least, most     float64 // minutes that it cooks or stands by itself
	}{
		{"couscous under boiling water", "soak-grain", "couscous", 5, 8},
		{"couscous in soup", "soup-starch", "couscous", 5, 5},
		{"a sheet of puff pastry at 200 C", "pastry-twist", "puff pastry", 12, 15},
		{"root dice in the microwave", "mw-veg", "carrot", 8, 8},
		{"soup roots, cut small", "root-soup", "potato", 10, 10},
		{"penne", "pasta", "penne", 10, 12},
	} {
		f, _ := food.Default().Food(x.food)
		found := false
		for _, q := range technique.Default() {
			if q.ID != x.technique {
				continue
			}
			fit, ok := q.Fit(technique.Of(f, false))
			if !ok {
				t.Errorf("%s: %s does not take %s", x.fact, x.technique, x.food)
				continue
			}
			found = true
			got := 0.0 // what cooks, and what then stands and cooks on
			for _, s := range fit.Steps[fit.Main:] {
				if got == 0 || s.Kit == "bench" {
					got += s.Minutes(200) - s.Hands(200)
				}
			}
			if got < x.least*0.6 || got > x.most*1.4 {
				t.Errorf("%s: %.1f min, not %g to %g", x.fact, got, x.least, x.most)
			}
		}
		if !found {
			t.Errorf("%s: no technique %s", x.fact, x.technique)
		}
	}
}
