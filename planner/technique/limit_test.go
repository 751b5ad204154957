package technique

import (
	"math"
	"slices"
	"strings"
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

// No one food leads a curry with more than 150 g a portion: the sauce drowns in more.
func TestLeadOfACurry(t *testing.T) {
	for i := range Frames() {
		f := &Frames()[i]
		if !strings.Contains(f.Title, "curry") {
			continue
		}
		for _, x := range food.Default().Foods() {
			s := Of(x, false)
			if _, _, ok := f.Fits(f.Lead, s); ok && f.Bears(f.Lead, s) > 150 {
				t.Errorf("%s: %.0f g of %s", f.ID, f.Bears(f.Lead, s), x.Name)
			}
		}
	}
}
