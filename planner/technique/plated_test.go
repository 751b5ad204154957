package technique

import (
	"testing"

	"scullion/pantry/food"
)

// Rice that is boiled apart swells on the plate; in a pilaf its stock is weighed, and it is
// not weighed twice.
func TestPlatedDrinks(t *testing.T) {
	rice, _ := food.Default().Food("basmati rice")
	for id, role := range drinks() {
		f := frameByID(t, id)
		if f.Role(role) < 0 {
			t.Errorf("%s has no %s", id, role)
		}
	}
	for id, want := range map[string]float64{"rice-plate": 2.8, "pilaf": 1} {
		f := frameByID(t, id)
		if got := f.Plated(f.Role("base"), Of(rice, false)); got != want {
			t.Errorf("%s: a gram of rice is %g g on the plate, want %g", id, got, want)
		}
	}
}

func frameByID(t *testing.T, id string) *Frame {
	for i := range Frames() {
		if Frames()[i].ID == id {
			return &Frames()[i]
		}
	}
	t.Fatalf("no frame %s", id)
	return nil
}
