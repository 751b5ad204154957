package food

import (
	"slices"
	"testing"
)

// A food that is eaten by more than the spoon has an energy figure, its own or that of its kind:
// a dish of cream without one would pass for light. Without may be what seasons, and
// what was made elsewhere, of which nobody knows.
func TestEnergyIsKnown(t *testing.T) {
	seasons := []string{"spice", "herb", "stock", "condiment", "sprout or sea vegetable", "water", "prepared"}
	alone := []string{"chickpea liquid", "bicarbonate of soda"}
	for _, f := range Default().Foods() {
		if f.Kcal == 0 && !slices.Contains(seasons, f.Group) && !slices.Contains(alone, f.Name) {
			t.Errorf("%s (%s): no energy", f.Name, f.Group)
		}
	}
	for _, x := range [][2]string{{"malai", "double cream"}, {"labneh", "Greek yoghurt"}} {
		a, _ := Default().Food(x[0])
		b, _ := Default().Food(x[1])
		if a.Kcal != b.Kcal {
			t.Errorf("%s: %.0f kcal, %s %.0f", x[0], a.Kcal, x[1], b.Kcal)
		}
	}
}
