package planner

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"scullion/pantry/food"
	"scullion/planner/technique"
)

// Raw meat and poultry are in no role of any frame told in words for what is cooked already, and
// poultry and mince are told how a cook sees that they are done.
func TestRawMeatIsToldAsRaw(t *testing.T) {
	done, forCooked := regexp.MustCompile(`until no pink is left and the juices run clear`), regexp.MustCompile(`hot through|\bwarm`)
	n := 0
	for _, x := range food.Default().Foods() {
		if !isOf(x, "poultry", "mince", "tender cut", "stewing cut", "offal", "game") {
			continue
		}
		inEachRole(t, x, func(f *technique.Frame, role *technique.FrameRole, _ *kitchen, _ *dish, steps []Step) {
			n++
			var all []string
			for _, s := range steps {
				all = append(all, s.Do)
				if strings.Contains(s.Do, strings.ToLower(x.Name)) && forCooked.MatchString(s.Do) && !done.MatchString(s.Do) {
					t.Errorf("%s as %s of %s: %q", x.Name, role.Name, f.ID, s.Do)
				}
			}
			if said := strings.Join(all, " / "); isOf(x, "poultry", "mince") && !done.MatchString(said) {
				t.Errorf("%s as %s of %s: not told when it is done: %s", x.Name, role.Name, f.ID, said)
			}
		})
	}
	if n < 50 {
		t.Errorf("%d dishes: the test tests nothing", n)
	}
}

// A thigh fillet in the pan takes ten to twelve minutes where it is not cut thin.
func TestThighFilletTakesItsMinutes(t *testing.T) {
	x, _ := food.Default().Food("chicken thigh fillet")
	n := 0
	for i := range technique.Frames() {
		f := &technique.Frames()[i]
		for r := range f.Roles {
			if _, _, ok := f.Fits(r, technique.Of(x, false)); !ok || slices.Contains([]string{"stir-fry", "noodle-fry", "fried-rice", "noodle-bowl", "filled-flatbread"}, f.ID) {
				continue
			}
			k, d := filledDish(t, f.ID, filledWith(f, r, x))
			over := 0.0
			for _, s := range k.steps(d) {
				if slices.Contains(cooksIn(f, r), s.at) {
					over += heatOf(&s)
				}
			}
			if n++; over < 9.5 {
				t.Errorf("%s: %.1f min over the heat", f.ID, over)
			}
		}
	}
	if n < 8 {
		t.Errorf("%d dishes: the test tests nothing", n)
	}
}
