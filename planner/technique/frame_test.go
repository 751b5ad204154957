package technique

import (
	"slices"
	"strings"
	"testing"

	"scullion/pantry/food"
)

// The count is pinned so that no row is lost unseen. Raise it with the table.
func TestFrameCount(t *testing.T) {
	if n := len(Frames()); n != 67 {
		t.Errorf("%d frames", n)
	}
	seen := map[string]int{}
	for _, f := range Frames() {
		seen[f.Family]++
		seen[f.Serve]++
		seen[f.Form]++
	}
	for _, w := range slices.Concat(FrameFamilies, Serves, Forms) {
		if seen[w] == 0 {
			t.Errorf("no frame is %q", w)
		}
	}
}

func TestFrameRows(t *testing.T) {
	for _, f := range Frames() {
		if !strings.Contains(f.Source, "common practice, no source") && len(f.Source) < 20 {
			t.Errorf("%s: source %q", f.ID, f.Source)
		}
		if len(f.How) > 110 {
			t.Errorf("%s: how is %d bytes: one short line for a phone, please", f.ID, len(f.How))
		}
		if strings.Contains(f.Title, "} and") || strings.Contains(f.Title, "and {") {
			t.Errorf("%s: a role may hold two foods: %q", f.ID, f.Title)
		}
		for _, c := range f.Caution {
			if len(c.Says) > 90 {
				t.Errorf("%s: a caution of %d bytes", f.ID, len(c.Says))
			}
		}
		grams := middle(&f, 2)
		total, hands := f.Minutes(grams)
		if hands < 3 || hands > 40 || total < hands {
			t.Errorf("%s: %.0f minutes, %.0f hands-on for two", f.ID, total, hands)
		}
	}
}

// A plate is a meal, or at least a pudding or a salad, with what is always
// there at its most.
func TestFramesFillAPlate(t *testing.T) {
	for _, f := range Frames() {
		most := 0.0
		for _, r := range f.Roles {
			most += r.Max
		}
		if most < 240 || most > 900 {
			t.Errorf("%s: %g g a portion at most", f.ID, most)
		}
	}
}

// known gives every word that may stand for a food in a table: foods by their
// own name, kinds that foods have, and states.
func known() map[string]bool {
	out := map[string]bool{}
	for _, f := range food.Default().Foods() {
		out[f.Name] = true
		for _, k := range f.Kinds {
			out[k] = true
		}
	}
	for _, s := range states() {
		out[s.kind] = true
	}
	return out
}

func TestFrameWords(t *testing.T) {
	known, called := known(), map[string]bool{"water": true}
	for _, f := range food.Default().Foods() {
		for _, n := range slices.Concat(f.Called(), f.Kinds) {
			called[n] = true
		}
	}
	for _, f := range Frames() {
		for _, r := range f.Roles {
			for i, s := range r.Suits {
				if !known[s.What] {
					t.Errorf("%s %s: no food or kind is called %q", f.ID, r.Name, s.What)
				}
				if slices.ContainsFunc(r.Suits[:i], func(o Suit) bool { return o.What == s.What }) {
					t.Errorf("%s %s: %q stands there twice", f.ID, r.Name, s.What)
				}
			}
			if !slices.ContainsFunc(r.Suits, func(s Suit) bool { return s.Best }) {
				t.Errorf("%s %s: nothing is best", f.ID, r.Name)
			}
		}
		for _, n := range f.Never {
			if !known[n.What] {
				t.Errorf("%s never: no food or kind is called %q", f.ID, n.What)
			}
		}
		for _, st := range f.Staples {
			for _, n := range st.Names {
				if !called[n] {
					t.Errorf("%s: no food is called %q", f.ID, n)
				}
			}
		}
	}
}

// fewFoods lists roles that fewer than five foods can fill, with the reason.
var fewFoods = map[string]string{
	"open-tart base":    "there are three pastries to roll out",
	"pasties base":      "there are three pastries to fold",
	"noodle-salad base": "there are three noodles, and cooked ones are not heated to be eaten cold",
}

// Every food that a role names outright must be able to fill it: a food that
// the rules or never keep out is a slip in the table.
func TestFramesCanBeFilled(t *testing.T) {
	for _, f := range Frames() {
		for i, r := range f.Roles {
			n := 0
			for _, x := range food.Default().Foods() {
				_, _, ok := f.Fits(i, Of(x, false))
				if ok {
					n++
				}
				if !ok && slices.ContainsFunc(r.Suits, func(s Suit) bool { return s.What == x.Name }) {
					t.Errorf("%s: %s is named for %s and does not fit", f.ID, x.Name, r.Name)
				}
				if _, _, ok := f.Fits(i, Of(x, true)); ok {
					n++
				}
			}
			few := fewFoods[f.ID+" "+r.Name] != ""
			if r.Least > 0 && (n < 5) != few {
				t.Errorf("%s: %d foods for %s", f.ID, n, r.Name)
			}
			if n == 0 {
				t.Errorf("%s: nothing fills %s", f.ID, r.Name)
			}
		}
	}
}

func TestFits(t *testing.T) {
	f := &Frames()[slices.IndexFunc(Frames(), func(f Frame) bool { return f.ID == "blended-soup" })]
	base, crunch, sauce := f.Role("base"), f.Role("crunch"), f.Role("sauce")
	for name, c := range map[string]struct {
		role  int
		food  string
		grade Grade
		ok    bool
	}{
		"what a cook thinks of first": {base, "leek", Best, true},
		"by name":                     {base, "celery", Named, true},
		"best, by kind":               {sauce, "soured cream", Best, true},
		"not there at all":            {base, "salmon", 0, false},
		"a fruit":                     {crunch, "apple", 0, false},
		"by kind, but never":          {base, "spaghetti squash", 0, false},
	} {
		x, ok := food.Default().Food(c.food)
		if !ok {
			t.Fatalf("no food %q", c.food)
		}
		g, _, ok := f.Fits(c.role, Of(x, false))
		if g != c.grade || ok != c.ok {
			t.Errorf("%s: %s grade %d, %v", name, c.food, g, ok)
		}
	}
	egg, _ := food.Default().Food("hen's egg")
	if _, _, ok := f.Fits(base, Of(egg, true)); ok {
		t.Error("a boiled egg is no soup")
	}
}

// Every oven is heated by a step of its own, in six minutes to a quarter of an
// hour, and what goes in waits for it.
func TestFrameOvensAreHot(t *testing.T) {
	n := 0
	for _, f := range Frames() {
		heats := -1
		for i, s := range f.Steps {
			if s.Heats() && s.Kit != "oven" {
				t.Errorf("%s: %q reads as a step that only heats kit", f.ID, s.What)
			}
			if s.Kit != "oven" {
				continue
			}
			if s.Heats() {
				heats = i
				if s.Unattended < 6 || s.Unattended > 15 || s.Hands(1000) > 1 {
					t.Errorf("%s: the oven heats in %g minutes", f.ID, s.Unattended)
				}
				continue
			}
			n++
			if heats < 0 || f.Steps[heats].Temp != s.Temp || !waits(f.Steps, i, heats) {
				t.Errorf("%s: %q does not wait for a hot oven", f.ID, s.What)
			}
		}
	}
	if n < 10 {
		t.Errorf("only %d steps in the oven", n)
	}
}

// waits says whether step i waits for step for.
func waits(steps []Step, i, step int) bool {
	return slices.ContainsFunc(steps[i].After, func(a int) bool { return a == step || waits(steps, a, step) })
}

// outOfThePan are frames that are ready when the last of what is always done has ended:
// what follows is for leaves and the like.
var outOfThePan = []string{
	"chowder", "dumpling-stew", "set-omelette", "folded-omelette", "thin-pancake", "baked-pasta", "gratin",
	"savoury-crumble", "topped-pie", "open-tart", "pasties", "bread-bake", "topped-flatbread", "fruit-crumble", "fruit-fool",
}

// A dish is put together and sharpened whatever is left out of it: the last step is not
// one that falls away.
func TestFramesAreFinished(t *testing.T) {
	for _, f := range Frames() {
		last := f.Handles[len(f.Steps)-1]
		always := last == nil || slices.ContainsFunc(last, func(r int) bool { return f.Roles[r].Least > 0 })
		if always == slices.Contains(outOfThePan, f.ID) {
			t.Errorf("%s: %q is always done: %v", f.ID, f.Steps[len(f.Steps)-1].What, always)
		}
	}
}
