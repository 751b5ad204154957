package food

import (
	"math"
	"testing"
)

// yieldSlack is how many points of per cent two honest measurements of one
// yield may lie apart: the sources of testdata/yields.csv differ among
// themselves by up to 8 on foods that they cut alike (avocado 67 and 75, white
// cabbage 79 and 87), and by more where one cuts deeper (celery 73 and 83).
const yieldSlack = 7

// notFood gives the part of a food as bought, per cent, that nobody eats:
// shells, stones, cores. What is refuse but food to a thrifty cook (peel, outer
// leaves, stalks) is not in it.
func notFood(f *Food) float64 { return 100 * (1 - f.Edible().Float()) }

// TestYields holds refuse to published yields: they lie between what is left
// when all refuse is taken off and what is left when only the inedible is. A
// yield below that is an exception, and the table must say why.
func TestYields(t *testing.T) {
	rows, agree, off := 0, 0, 0.0
	for _, r := range rowsOf(t, "testdata/yields.csv") {
		f, yield := known(t, r["food"]), figure(t, r["yield_pct"])
		low, high := float64(100-f.Refuse-yieldSlack), 100-notFood(f)+yieldSlack
		if under := yield < low; under != (r["why"] != "") || yield > math.Min(high, 100) {
			t.Errorf("%s: yield %g%% (%s) is outside %g to %g%%, or the table wrongly says it is: %q", f.Name, yield, r["source"], low, high, r["why"])
		}
		apart := math.Abs(yield - float64(100-f.Refuse))
		if apart <= yieldSlack {
			agree++
		}
		rows, off = rows+1, off+apart
	}
	// The range is wide where much of the refuse is dinner, so refuse as a whole
	// is held to the yields too: too high a refuse for many foods would show here.
	t.Logf("%d yields, %d within %d points of 100 less refuse, %.1f points apart on average", rows, agree, yieldSlack, off/float64(rows))
	if agree*100 < 70*rows || off/float64(rows) > 6 {
		t.Errorf("refuse and the published yields have come apart")
	}
}

// TestYieldsAgainstReference compares refuse with the as-purchased yields of
// the reference, which are USDA's refuse turned round, and with its rows from
// the Food Buying Guide. 1 point is what both are rounded to.
func TestYieldsAgainstReference(t *testing.T) {
	compared := 0
	for _, r := range rowsOf(t, outside(t, "yields.csv")) {
		if r["stage"] != "as purchased -> edible raw" || r["status"] != "seen" {
			continue
		}
		f := known(t, r["food"])
		want := figure(t, r["yield_pct"])
		if why, is := shelled[f.Name]; is {
			if f.Refuse != 0 {
				t.Errorf("%s: refuse %d%%, but %s", f.Name, f.Refuse, why)
			}
			continue
		}
		if compared++; math.Abs(float64(100-f.Refuse)-want) > 1 {
			t.Errorf("%s: refuse %d%%, the reference yields %g%% (%s)", f.Name, f.Refuse, want, r["source"])
		}
	}
	if compared < 60 {
		t.Errorf("only %d compared", compared)
	}
}

// shelled are the reference's nuts in shell that the catalogue has shelled.
var shelled = map[string]string{
	"almond": "it is sold shelled", "walnut": "it is sold shelled", "pistachio": "it is sold shelled",
}
