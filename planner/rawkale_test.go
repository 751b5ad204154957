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
		inEachRole(t, x, func(f *technique.Frame, role *technique.FrameRole, _ *kitchen, _ *dish, steps []Step) {
			if role.Heat != technique.None {
				return
			}
			n++
			ok, said := false, ""
			for _, s := range steps {
				said += s.Do + " / "
				ok = ok || strings.Contains(s.Do, "strip") && strings.Contains(s.Do, "rub") && s.Minutes-s.HandsOn >= 9.5
			}
			if !ok {
				t.Errorf("%s as %s of %s: %s", name, role.Name, f.ID, said)
			}
		})
	}
	if n < 3 {
		t.Errorf("%d dishes: the test tests nothing", n)
	}
}
