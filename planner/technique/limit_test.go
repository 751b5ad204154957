package technique

import (
	"math"
	"slices"
	"testing"

	"scullion/pantry/food"
)

func TestLimitWords(t *testing.T) {
	known := known()
	for w := range limits() {
		if !known[w] {
			t.Errorf("limits: no food or kind is called %q", w)
		}
	}
}

func TestMost(t *testing.T) {
	for name, want := range map[string]float64{
		"garlic": 6, "root ginger": 6, "lemongrass": 12, "Scotch bonnet": 2, "red chilli": 8, "mature cheddar": 60, "Parmesan": 30, "leek": math.Inf(1),
	} {
		x, ok := food.Default().Food(name)
		if !ok {
			t.Fatalf("no food %q", name)
		}
		if got := Most(Of(x, false)); got != want {
			t.Errorf("%s: %g, want %g", name, got, want)
		}
	}
	if got := Most(Subject{}); !math.IsInf(got, 1) {
		t.Errorf("nothing: %g", got)
	}
}

// No role of one food is filled with more than a dish can bear.
func TestFitsKeepsTheLimits(t *testing.T) {
	f := &Frames()[slices.IndexFunc(Frames(), func(f Frame) bool { return f.ID == "toast-plate" })]
	for name, want := range map[string]bool{"basil": true, "tarragon": false} {
		x, _ := food.Default().Food(name)
		if _, _, ok := f.Fits(f.Role("green"), Of(x, false)); ok != want {
			t.Errorf("%s: %v", name, ok)
		}
	}
}

func TestPalettesKeepTheLimits(t *testing.T) {
	for _, p := range Palettes() {
		for _, c := range p.Components {
			x, ok := food.Default().Food(c.Food)
			if ok && c.Amount.Units() > Most(Of(x, false)) {
				t.Errorf("%s: %v of %s", p.ID, c.Amount.Units(), c.Food)
			}
		}
	}
}
