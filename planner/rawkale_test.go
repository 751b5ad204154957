package planner

import (
	"strings"
	"testing"

	"scullion/pantry/food"
	"scullion/planner/technique"
)

// Raw kale is chaff unless its ribs are out and it has been shredded, rubbed with salt and left to
// stand: 10 min, in every frame that takes it raw.
func TestRawKaleIsRubbed(t *testing.T) {
	n := 0
	for _, name := range []string{"kale", "cavolo nero"} {
		x, _ := food.Default().Food(name)
		for i := range technique.Frames() {
			f := &technique.Frames()[i]
			for r := range f.Roles {
				if _, _, ok := f.Fits(r, technique.Of(x, false)); !ok || f.Roles[r].Heat != technique.None {
					continue
				}
				n++
				k, d := filledDish(t, f.ID, filledWith(f, r, x))
				ok, said := false, ""
				for _, s := range k.named(d, k.steps(d)) {
					said += s.Do + " / "
					ok = ok || strings.Contains(s.Do, "strip") && strings.Contains(s.Do, "rub") && s.Minutes-s.HandsOn >= 9.5
				}
				if !ok {
					t.Errorf("%s as %s of %s: %s", name, f.Roles[r].Name, f.ID, said)
				}
			}
		}
	}
	if n < 3 {
		t.Errorf("%d dishes: the test tests nothing", n)
	}
}
