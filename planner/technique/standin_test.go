package technique

import (
	"slices"
	"testing"

	"scullion/pantry/food"
)

// TestStandIns holds that the table names foods and frames that there are, that each row
// does something, and that what stands in is of the same group as what it stands for, or
// near it: nothing that an allergic guest does not expect.
func TestStandIns(t *testing.T) {
	for what, in := range standIns() {
		f, ok := food.Default().Food(what)
		if !ok || f.Name != what {
			t.Errorf("%s is no food", what)
			continue
		}
		for _, as := range in.as {
			o, ok := food.Default().Food(as)
			if !ok || o.Name != as {
				t.Errorf("%s: %s is no food", what, as)
				continue
			}
			if f.Vegan != o.Vegan && f.Meatless != o.Meatless {
				t.Errorf("%s (meatless %s) for %s (meatless %s)", what, f.Meatless, as, o.Meatless)
			}
		}
		for _, id := range slices.Concat(in.only, in.not) {
			if !slices.ContainsFunc(Frames(), func(f Frame) bool { return f.ID == id }) {
				t.Errorf("%s: no frame %s", what, id)
			}
		}
		stands := false
		for i := range Frames() {
			fr := &Frames()[i]
			for r := range fr.Roles {
				s := Of(f, false)
				_, named := grade(fr.Roles[r].Suits, s)
				if _, _, fits := fr.Fits(r, s); fits && !named {
					stands = true
				}
			}
		}
		if !stands {
			t.Errorf("%s stands for %v nowhere", what, in.as)
		}
		for _, id := range in.only {
			i := slices.IndexFunc(Frames(), func(f Frame) bool { return f.ID == id })
			if i < 0 {
				continue
			}
			fr := &Frames()[i]
			fits := false
			for r := range fr.Roles {
				_, _, ok := fr.Fits(r, Of(f, false))
				fits = fits || ok
			}
			if !fits {
				t.Errorf("%s does not stand for %v in %s", what, in.as, id)
			}
		}
	}
}
