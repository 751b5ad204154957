package language

import (
	"testing"

	"scullion/pantry/food"
	"scullion/pantry/measure"
)

func TestScales(t *testing.T) {
	r := &Reader{Foods: food.Default().Index(), Place: "uk"}
	half, quarter := measure.Ratio{Num: 1, Den: 2}, measure.Ratio{Num: 1, Den: 4}
	for text, want := range map[string]Amount{
		"350g": {How: Measured, Base: 350_000}, "it's 350g": {How: Measured, Base: 350_000}, "350g left": {How: Measured, Base: 350_000}, "about 1.2 kg": {How: Measured, Base: 1_200_000, Approx: true},
		"only 200g left": {How: Measured, Base: 200_000}, "there's 200g": {How: Measured, Base: 200_000}, "150 ml": {How: Measured, Base: 150_000},
		"half": {How: Share, N: half}, "half of it": {How: Share, N: half}, "about half": {How: Share, N: half, Approx: true}, "half left": {How: Share, N: half}, "half of them": {How: Share, N: half},
		"about half of it left": {How: Share, N: half, Approx: true}, "a quarter": {How: Share, N: quarter}, "quarter left": {How: Share, N: quarter}, "three quarters": {How: Share, N: measure.Ratio{Num: 3, Den: 4}},
		"2 left": {How: Pieces, N: measure.Whole(2)}, "2": {How: Pieces, N: measure.Whole(2)}, "six": {How: Pieces, N: measure.Whole(6)}, "350": {How: Pieces, N: measure.Whole(350)},
	} {
		what, a := r.Scales(text)
		if what != ScalesAmount || a.How != want.How || a.Base != want.Base || a.Approx != want.Approx || want.How != Measured && a.N != want.N {
			t.Errorf("%q: %q %+v", text, what, a)
		}
	}
	for text, want := range map[string]About{
		"same": ScalesSame, "Skip.": ScalesSame, "all of it": ScalesSame, "all there": ScalesSame, "dunno": ScalesSame, "ok": ScalesNod, "right": ScalesNod,
		"enough": ScalesEnough, "skip the rest": ScalesEnough, "done": ScalesStop, "none left": ScalesNone, "it's all gone!": ScalesNone, "0": ScalesNone, "nothing": ScalesNone,
	} {
		if what, _ := r.Scales(text); what != want {
			t.Errorf("%q: %q, not %q", text, what, want)
		}
	}
	for _, text := range []string{
		"used 300g leek", "300g leek", "leek 300g", "can I have 200g?", "2 please", "half an hour", "2 minutes", "half past six", "5 covers", "a table of 4", "a lemon", "10 min on the tart", "350g in the soup",
		"half of them are in the soup", "none of your business", "what's left?", "2 left for the tart", "I'm out", "half the milk", "another 40g", "50g more",
	} {
		if what, a := r.Scales(text); what != "" {
			t.Errorf("%q: %q %+v", text, what, a)
		}
	}
}
