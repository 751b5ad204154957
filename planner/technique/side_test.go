package technique

import (
	"slices"
	"strings"
	"testing"

	"scullion/pantry/food"
)

// TestSides holds that the table names techniques, families, frames and foods that there are.
func TestSides(t *testing.T) {
	for id, s := range sides() {
		at := slices.IndexFunc(Default(), func(x Technique) bool { return x.ID == id })
		if at < 0 {
			t.Errorf("no technique %s", id)
			continue
		}
		if !strings.Contains(s.Name, "{food}") && !strings.Contains(s.Name, "{foods}") {
			t.Errorf("%s: %q names no food", id, s.Name)
		}
		for _, b := range append(slices.Clone(s.beside), s.not...) {
			if !slices.Contains(FrameFamilies, b) && !slices.ContainsFunc(Frames(), func(f Frame) bool { return f.ID == b }) {
				t.Errorf("%s: no family or frame %s", id, b)
			}
		}
		for _, n := range append(slices.Clone(s.with), s.without...) {
			if f, ok := food.Default().Food(n); !ok || f.Name != n {
				t.Errorf("%s: no food %s", id, n)
			}
		}
	}
}

// Soy and ginger stand beside what has soy in it, butter and mustard do not; hot turnips are
// no side for a sandwich, and a salad has none.
func TestBeside(t *testing.T) {
	frame := func(id string) *Frame {
		return &Frames()[slices.IndexFunc(Frames(), func(f Frame) bool { return f.ID == id })]
	}
	for _, x := range []struct {
		side, frame, seasoned string
		want                  bool
	}{
		{"stir-fry-veg", "noodle-fry", "soy sauce", true},
		{"stir-fry-veg", "pan-plate", "lemon juice", false},
		{"boil-veg", "rice-plate", "soy sauce", false},
		{"boil-veg", "rice-plate", "lemon juice", true},
		{"pan-roots", "toasted-sandwich", "black pepper", false},
		{"dress-leaf", "toasted-sandwich", "black pepper", true},
		{"steam-veg", "grain-salad", "lemon juice", false},
	} {
		if got := SideOf(x.side).Beside(frame(x.frame), []string{x.seasoned}); got != x.want {
			t.Errorf("%s beside %s with %s: %v", x.side, x.frame, x.seasoned, got)
		}
	}
}

// A side is not what its dish is already, and not squash steamed plain.
func TestSideAddsSomething(t *testing.T) {
	frame := func(id string) *Frame {
		return &Frames()[slices.IndexFunc(Frames(), func(f Frame) bool { return f.ID == id })]
	}
	for _, x := range []struct {
		side, frame string
		want        bool
	}{
		{"roast-chunks", "tray-roast", false}, {"roast-chunks", "grill-plate", true}, {"pan-roots", "hash", false}, {"pan-roots", "rice-plate", true},
	} {
		if got := SideOf(x.side).Beside(frame(x.frame), nil); got != x.want {
			t.Errorf("%s beside %s: %v", x.side, x.frame, got)
		}
	}
	for what, want := range map[string]bool{"spaghetti squash": false, "broccoli": true} {
		f, _ := food.Default().Food(what)
		if SideOf("steam-veg").Of(Of(f, false)) != want {
			t.Errorf("steamed %s: %v", what, !want)
		}
	}
	for _, x := range [][2]string{{"mooli", "dried pasta"}, {"gorgonzola", "basil"}, {"karela", "Brussels sprout"}} {
		a, _ := food.Default().Food(x[0])
		b, _ := food.Default().Food(x[1])
		if SidesOf(Of(a, false)).With(SidesOf(Of(b, false))) == Fine {
			t.Errorf("%s goes with %s", x[0], x[1])
		}
	}
}
