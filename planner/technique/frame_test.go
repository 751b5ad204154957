package technique

import (
	"encoding/csv"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"scullion/pantry/food"
)

// The count is pinned so that no row is lost unseen. Raise it with the table.
func TestFrameCount(t *testing.T) {
	if n := len(Frames()); n != 60 {
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
			if len(c) > 90 {
				t.Errorf("%s: a caution of %d bytes", f.ID, len(c))
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

const tradeFrames = "../../../shared/trade/frames.csv"

// notAlike lists frames whose minutes are meant to differ, with the reason.
var notAlike = map[string]string{
	"pulse-salad": "lentils are boiled from dry here, 22 minutes; the notes have them cooked",
}

// TestFrameMinutes holds the minutes for two portions against those of a chef's
// notes, for frames of the same id: within 40 %.
func TestFrameMinutes(t *testing.T) {
	noted := tradeMinutes(t)
	n := 0
	for _, f := range Frames() {
		want, ok := noted[f.ID]
		if !ok {
			continue
		}
		n++
		got, _ := f.Minutes(middle(&f, 2))
		if off := got/want - 1; max(off, -off) > 0.4 && notAlike[f.ID] == "" {
			t.Errorf("%s: %.0f minutes for two, the notes say %.0f", f.ID, got, want)
		}
	}
	if n < 30 {
		t.Errorf("only %d frames compared", n)
	}
	t.Logf("%d frames compared", n)
}

// middle gives the middle amounts for so many portions: what is always there in
// full, what may be left out at half its least.
func middle(f *Frame, portions float64) []float64 {
	grams := make([]float64, len(f.Roles))
	for i, r := range f.Roles {
		grams[i] = portions * (r.Min + r.Max) / 2
		if r.Least == 0 {
			grams[i] = portions * r.Min / 2
		}
	}
	return grams
}

func tradeMinutes(t *testing.T) map[string]float64 {
	f, err := os.Open(tradeFrames)
	if os.IsNotExist(err) {
		t.Skip("the chef's notes are not here: ", tradeFrames)
	}
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	id, minutes := slices.Index(rows[0], "id"), slices.Index(rows[0], "minutes_for_2")
	out := map[string]float64{}
	for _, r := range rows[1:] {
		m, err := strconv.ParseFloat(r[minutes], 64)
		if err != nil {
			t.Fatalf("row %v has no minutes", r)
		}
		out[r[id]] = m
	}
	return out
}

// More food in any role never takes less time, and hands grow with it.
func TestFrameMinutesGrow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := &Frames()[rapid.IntRange(0, len(Frames())-1).Draw(t, "frame")]
		less := make([]float64, len(f.Roles))
		for i := range less {
			less[i] = rapid.Float64Range(0, 2500).Draw(t, f.Roles[i].Name)
		}
		at := rapid.IntRange(0, len(less)-1).Draw(t, "role")
		more := slices.Clone(less)
		more[at] += rapid.Float64Range(1, 2500).Draw(t, "more")
		total, hands := f.Minutes(less)
		total2, hands2 := f.Minutes(more)
		if total2 < total-1e-9 || hands2 < hands-1e-9 || total < hands-1e-9 {
			t.Fatalf("%s: %g minutes (%g hands), then %g (%g)", f.ID, total, hands, total2, hands2)
		}
	})
}

// What is not filled is not made.
func TestFrameSkips(t *testing.T) {
	for _, f := range Frames() {
		full := middle(&f, 2)
		for i, r := range f.Roles {
			if r.Least > 0 {
				continue
			}
			without := slices.Clone(full)
			without[i] = 0
			total, hands := f.Minutes(full)
			total2, hands2 := f.Minutes(without)
			if total2 > total || hands2 >= hands {
				t.Errorf("%s without %s: %.1f minutes, %.2f hands; with it %.1f, %.2f", f.ID, r.Name, total2, hands2, total, hands)
			}
		}
	}
}

// Every oven is heated by a step of its own, in six minutes to a quarter of an
// hour, and what goes in waits for it.
func TestFrameOvensAreHot(t *testing.T) {
	n := 0
	for _, f := range Frames() {
		heats := -1
		for i, s := range f.Steps {
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
