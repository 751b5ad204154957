package food

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"
)

const usCup, usTablespoon = 236.5882365, 14.78676478125 // millilitres

// otherName gives the catalogue's name for one of the density table that it
// does not know by that name, or "" where there is no such food.
var otherName = map[string]string{
	"sweetened condensed milk": "condensed milk", "half-and-half cream": "half-fat cream", "melted butter or ghee": "ghee",
	"rapeseed (canola) oil": "rapeseed oil", "red lentils, dry": "red lentil", "butter, solid": "unsalted butter",
	"water": "", "water at 4 C": "", "water at 100 C": "", "spirits, 80 proof": "", "whipping cream, whipped": "", "egg, whole, beaten": "",
}

// TestDensities compares densities with the reference's table, which is worked
// out from USDA's cups. The FAO/INFOODS Density Database, the other published
// collection, could not be seen: nothing here is checked against it.
func TestDensities(t *testing.T) {
	compared := 0
	for _, r := range rowsOf(t, outside(t, "densities.csv")) {
		if r["g_per_ml"] == "" {
			continue
		}
		name := strings.TrimSpace(regexp.MustCompile(`\((about|\d|fat|40|paste|US|molasses)[^)]*\)`).ReplaceAllString(r["name"], ""))
		if other, ok := otherName[name]; ok {
			name = other
		} else {
			name, _, _ = strings.Cut(name, ",")
		}
		if name == "" {
			continue
		}
		f := known(t, name)
		want := figure(t, r["g_per_ml"])
		is := float64(f.Density) / 1000
		if f.Density == 0 {
			is = f.CupMg.Units() / usCup
		}
		if math.Abs(is-want) > 0.0006 { // both are rounded to thousandths
			t.Errorf("%s: %.3f g/ml, the reference has %.3f (%s)", f.Name, is, want, r["source"])
		}
		compared++
	}
	if compared < 60 {
		t.Errorf("only %d densities compared", compared)
	}
}

// heaped are foods whose tablespoon SR28 weighed heaped, shaken or rounded so
// roughly that it is more than a tenth off the cup's density.
var heaped = []string{"soured cream", "tomato ketchup", "salsa"}

// TestDensityAgainstOwnCup holds a food's density to its own cup and
// tablespoon: a cup to 1 in 100 (SR28 prints whole grams), a tablespoon to 1 in
// 10 (whole grams of some 15).
func TestDensityAgainstOwnCup(t *testing.T) {
	for _, f := range Default().Foods() {
		if f.Density == 0 {
			continue
		}
		perMl := float64(f.Density) / 1000
		if f.CupMg > 0 && math.Abs(f.CupMg.Units()/usCup/perMl-1) > 0.01 {
			t.Errorf("%s: a cup of %.1f g is not %.3f g/ml", f.Name, f.CupMg.Units(), perMl)
		}
		off := math.Abs(f.TbspMg.Units()/usTablespoon/perMl - 1)
		if f.TbspMg > 0 && off > 0.1 != slices.Contains(heaped, f.Name) {
			t.Errorf("%s: a tablespoon of %.1f g is %.0f%% off %.3f g/ml", f.Name, f.TbspMg.Units(), 100*off, perMl)
		}
	}
}
