package planner

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"scullion/pantry/food"
	"scullion/planner/technique"
)

// filledWith gives a dish of a frame with a food in one role and, in the others that must be
// filled, the first that suits and goes with it; "" where there is none.
func filledWith(f *technique.Frame, role int, x *food.Food) string {
	var list []string
	for r, R := range f.Roles {
		if R.Least == 0 && r != role {
			continue
		}
		grams := 4 * (R.Min + R.Max) / 2
		if r == role {
			list = append(list, fmt.Sprintf("%s=%s %.0f", R.Name, x.Name, grams))
			continue
		}
		n := 0
		for _, s := range R.Suits {
			y, ok := food.Default().Food(s.What)
			if !ok || y == x || slices.ContainsFunc(list, func(s string) bool { return strings.Contains(s, "="+y.Name+" ") }) {
				continue
			}
			if _, _, ok := f.Fits(r, technique.Of(y, false)); ok {
				list = append(list, fmt.Sprintf("%s=%s %.0f", R.Name, y.Name, grams/float64(R.Least)))
				if n++; n == R.Least {
					break
				}
			}
		}
		if n < R.Least {
			return ""
		}
	}
	return strings.Join(list, ";")
}

// inEachRole hands do a dish of each frame for each role that a food may have in it, raw.
func inEachRole(t *testing.T, x *food.Food, do func(f *technique.Frame, role *technique.FrameRole, k *kitchen, d *dish, steps []Step)) {
	for i := range technique.Frames() {
		f := &technique.Frames()[i]
		for r := range f.Roles {
			if _, _, ok := f.Fits(r, technique.Of(x, false)); !ok {
				continue
			}
			if filled := filledWith(f, r, x); filled != "" {
				k, d := filledDish(t, f.ID, filled)
				do(f, &f.Roles[r], k, d, k.named(d, k.steps(d)))
			}
		}
	}
}

// Wild mushrooms have made people ill that were cooked for a few minutes: in every frame they
// have a quarter of an hour in one pan or in the oven, in every way of that step, and the step
// says so; as a technique they have it too.
func TestWildMushroomsAreCookedThrough(t *testing.T) {
	const least = 15 // minutes, apart from the table
	for _, name := range []string{"morel", "chanterelle", "dried porcini"} {
		x, _ := food.Default().Food(name)
		s := technique.Of(x, false)
		n := 0
		inEachRole(t, x, func(f *technique.Frame, role *technique.FrameRole, _ *kitchen, _ *dish, steps []Step) {
			n++
			good := false
			for _, step := range steps {
				if !strings.Contains(step.Do, fmt.Sprintf("%d min at least", least)) {
					continue
				}
				good = true
				for _, w := range append([]Step{step}, step.ways...) {
					if !strings.Contains(w.Do, x.Name[:5]) || w.whole-w.hands < least || !slices.Contains([]string{"ring", "oven", "grill"}, w.Kit) {
						t.Errorf("%s as %s of %s: %q on the %s takes %d min, %d of hands", name, role.Name, f.ID, w.Do, w.Kit, w.whole, w.hands)
					}
				}
			}
			if !good {
				t.Errorf("%s as %s of %s: no step gives it %d min", name, role.Name, f.ID, least)
			}
		})
		if n < 3 && name != "dried porcini" {
			t.Errorf("%s is in %d frames: the test tests nothing", name, n)
		}
		for i := range technique.Default() {
			fit, ok := technique.Default()[i].Fit(s)
			if ok && !slices.ContainsFunc(fit.Steps, func(s technique.Step) bool {
				return s.Cooks() && s.Unattended >= least && strings.Contains(s.What, fmt.Sprintf("%d min at least", least))
			}) {
				t.Errorf("%s: %s gives it no %d min", name, fit.ID, least)
			}
		}
	}
}

// A root is not fried through in ten minutes, and what is done soon is not cooked for long.
func TestDoneInTime(t *testing.T) {
	for _, c := range []struct {
		frame, filled string
		step          string // of its words
		least, most   float64
	}{
		{"grain-salad", "base=basmati rice 260;star=golden beetroot 300;body=cucumber 300;crunch=walnut 50", "fry the golden beetroots?", 20, 60},
		{"toast-plate", "base=white bread 320;star=butternut squash 600", "cook the butternut squash", 12, 60},
		{"grain-salad", "base=basmati rice 260;star=garden pea 375;body=cucumber 300;crunch=walnut 50", "fry the garden peas", 0, 9},
		{"pulse-pot", "base=tinned chickpea 500;body=broccoli 300;body=tomato 300;season=brown onion 120", "simmer, broccoli in for the last 8 min", 0, 60},
		{"pulse-pot", "base=tinned chickpea 500;body=broccoli 300;body=tomato 300;season=brown onion 120", "soften all that .*but not yet the broccoli", 0, 60},
		{"grill-plate", "base=white bread 300;star=salmon 900;green=cucumber 400", "turn once, through, in 2 lots", 22, 40},
		{"stir-fry", "base=basmati rice 260;star=prawn 300;green=carrot 300;green=leek 300", "fry the carrots", 0, 9},
	} {
		k, d := filledDish(t, c.frame, c.filled)
		found := false
		var all []string
		for _, s := range k.named(d, k.steps(d)) {
			all = append(all, s.Do)
			if regexp.MustCompile(c.step).MatchString(s.Do) {
				found = true
				if took := math.Round(s.Minutes); took < c.least || took > c.most {
					t.Errorf("%s of %s: %q takes %.0f min", c.frame, c.filled, s.Do, took)
				}
			}
		}
		if !found {
			t.Errorf("%s of %s: no step is %q of %q", c.frame, c.filled, c.step, all)
		}
	}
}
