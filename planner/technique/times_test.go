package technique

import (
	"slices"
	"strconv"
	"testing"

	"scullion/pantry/food"
)

const cookTimes = "../../../shared/reference/cooktimes.csv"

// onePan is what a pan takes: the grams by which hands-on frying is compared.
const onePan = 250

// otherCut lists times that cannot be compared, with the reason.
var otherCut = map[string]string{
	"roast-chunks beetroot":        "the reference roasts beetroot whole, here it is cut to 25 mm",
	"roast-root-whole cauliflower": "the reference roasts florets, here it is whole",
	"brown-mince pork sausage":     "the reference fries it whole, here it is crumbled",
}

type cookTime struct{ food, technique string }

// TestTimesAgainstReference holds the main minutes of every technique, for every
// food that it fits, against the published ones: they must lie in one of the
// ranges given for that food and way of cooking, whatever the cut. Beans at the
// boil are left out: the hazard's ten minutes stand over the table's four to
// seven.
func TestTimesAgainstReference(t *testing.T) {
	ranges := readCookTimes(t)
	n := 0
	for i := range Default() {
		x := &Default()[i]
		for _, f := range food.Default().Foods() {
			fit, ok := x.Fit(Of(f, false))
			key := cookTime{f.Name, x.Reference}
			if _, boil, _ := Need(Of(f, false)); !ok || boil > 0 || x.Reference == "" || ranges[key] == nil || otherCut[x.ID+" "+f.Name] != "" {
				continue
			}
			n++
			got := fit.Steps[fit.Main].Unattended
			if got == 0 {
				got = fit.Steps[fit.Main].Hands(onePan)
			}
			in := func(r [2]float64) bool { return r[0] <= got && got <= r[1] }
			if !slices.ContainsFunc(ranges[key], in) {
				t.Errorf("%s: %s takes %g minutes, the reference says %v", x.ID, f.Name, got, ranges[key])
			}
		}
	}
	if n < 100 {
		t.Errorf("only %d times compared", n)
	}
	t.Logf("%d times compared", n)
}

// readCookTimes gives the ranges by food, in the catalogue's name, and technique.
func readCookTimes(t *testing.T) map[cookTime][][2]float64 {
	rows := referenceRows(t, cookTimes)
	out := map[cookTime][][2]float64{}
	for _, r := range rows[1:] {
		least, err1 := strconv.ParseFloat(r[5], 64)
		most, err2 := strconv.ParseFloat(r[6], 64)
		if err1 != nil || err2 != nil {
			t.Fatalf("row %v has no minutes", r)
		}
		name := r[0]
		if known, ok := food.Default().Food(name); ok {
			name = known.Name
		}
		key := cookTime{name, r[1]}
		out[key] = append(out[key], [2]float64{least, most})
	}
	return out
}

func TestMinutes(t *testing.T) {
	oven := []Step{
		{What: "heat oven", Fixed: 0.5, Unattended: 12, Kit: "oven", Temp: 200},
		{What: "cut", Fixed: 1, Per100: 1, Kit: "hands"},
		{What: "roast", Fixed: 1, Unattended: 30, Kit: "oven", Temp: 200, After: []int{0, 1}},
	}
	freeze := []Step{{What: "cut", Fixed: 1, Kit: "hands"}, {What: "freeze", Fixed: 1, Unattended: 180, Kit: "freezer", After: []int{0}}}
	for name, c := range map[string]struct {
		steps        []Step
		grams        float64
		total, hands float64
	}{
		"the oven heats while hands cut":     {oven, 400, 12.5 + 1 + 30, 6.5},
		"cutting outlasts the oven":          {oven, 1600, 0.5 + 17 + 1 + 36, 18.5},
		"three loads":                        {oven, 2400, 0.5 + 25 + 1 + 40.5, 26.5},
		"the freezer is not waited for":      {freeze, 500, 2, 2},
		"a microwave takes twice the amount": {[]Step{{Unattended: 6, Kit: "microwave"}}, 900, 9, 0},
		"a microwave takes half of little":   {[]Step{{Unattended: 6, Kit: "microwave"}}, 125, 4, 0},
		"a microwave takes two lots":         {[]Step{{Unattended: 6, Kit: "microwave"}}, 1800, 18, 0},
		"a grill takes 700 g":                {[]Step{{Unattended: 6, Kit: "grill"}}, 701, 12, 0},
		"a full pot":                         {[]Step{{Unattended: 10, Kit: "ring", Temp: 100}}, 1201, 14, 0},
	} {
		t.Run(name, func(t *testing.T) {
			total, hands := Minutes(c.steps, c.grams)
			if diff(total, c.total) > 1e-9 || diff(hands, c.hands) > 1e-9 {
				t.Errorf("%g minutes, %g hands; want %g, %g", total, hands, c.total, c.hands)
			}
		})
	}
}

func diff(a, b float64) float64 { return max(a-b, b-a) }

// More food never takes less time.
func TestMinutesGrow(t *testing.T) {
	for _, x := range Default() {
		last, lastHands := 0.0, 0.0
		for grams := 25.0; grams <= 5000; grams += 25 {
			total, hands := Minutes(x.Steps, grams)
			if total < last-1e-9 || hands < lastHands-1e-9 {
				t.Fatalf("%s: %g g take %g minutes, less than before", x.ID, grams, total)
			}
			last, lastHands = total, hands
		}
	}
}
