package planner

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"scullion/pantry/food"
	"scullion/planner/technique"
)

// Raw meat and poultry, in no role of any frame, are told in words for what is cooked already,
// and poultry and mince are told how a cook sees that they are done.
func TestRawMeatIsToldAsRaw(t *testing.T) {
	done := regexp.MustCompile(`until no pink is left and the juices run clear`)
	n := 0
	for _, x := range food.Default().Foods() {
		if !isOf(x, "poultry", "mince", "tender cut", "stewing cut", "offal", "game") {
			continue
		}
		for i := range technique.Frames() {
			f := &technique.Frames()[i]
			for r := range f.Roles {
				if _, _, ok := f.Fits(r, technique.Of(x, false)); !ok {
					continue
				}
				filled := filledWith(f, r, x)
				if filled == "" {
					continue
				}
				n++
				k, d := filledDish(t, f.ID, filled)
				var all []string
				for _, s := range k.named(d, k.steps(d)) {
					all = append(all, s.Do)
				}
				said := strings.Join(all, " / ")
				for _, do := range all {
					if strings.Contains(do, strings.ToLower(x.Name)) && regexp.MustCompile(`hot through|\bwarm`).MatchString(do) && !done.MatchString(do) {
						t.Errorf("%s as %s of %s: %q", x.Name, f.Roles[r].Name, f.ID, do)
					}
				}
				if isOf(x, "poultry", "mince") && !done.MatchString(said) {
					t.Errorf("%s as %s of %s: not told when it is done: %s", x.Name, f.Roles[r].Name, f.ID, said)
				}
			}
		}
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
