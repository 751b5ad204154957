package technique

import (
	"slices"
	"strings"
	"testing"

	"scullion/pantry/food"
)

// The count is pinned so that no row is lost unseen. Raise it with the table.
func TestTableCount(t *testing.T) {
	if n := len(Default()); n != 394 {
		t.Errorf("%d techniques", n)
	}
}

func TestTableHasEveryFamilyAndRole(t *testing.T) {
	families, roles := map[string]int{}, map[string]int{}
	for _, x := range Default() {
		families[x.Family]++
		roles[x.Role]++
	}
	for _, f := range Families {
		if families[f] < 4 {
			t.Errorf("family %s has %d techniques", f, families[f])
		}
	}
	for _, r := range Roles {
		if roles[r] == 0 {
			t.Errorf("role %s has none", r)
		}
	}
}

func TestTableRows(t *testing.T) {
	for _, x := range Default() {
		t.Run(x.ID, func(t *testing.T) {
			if !strings.Contains(x.Source, "common practice, no source") && len(x.Source) < 20 {
				t.Errorf("source %q", x.Source)
			}
			if len(x.How) > 110 || strings.Contains(x.How, "\n") {
				t.Errorf("how is %d bytes: one short line for a phone, please", len(x.How))
			}
			if h := twoPortions(x); h < 0.5 || h > 40 {
				t.Errorf("%.1f hands-on minutes for two portions", h)
			}
			for _, c := range x.Caution {
				if len(c.Says) >= 90 {
					t.Errorf("caution is %d bytes: %s", len(c.Says), c.Says)
				}
			}
			total, _ := Minutes(x.Steps, x.Min*2)
			if total <= 0.5 || total > 700 {
				t.Errorf("%.1f minutes", total)
			}
			for _, s := range x.Steps {
				if s.Kit == "oven" && s.Heats() && (s.Unattended < 6 || s.Unattended > 15) {
					t.Errorf("oven heats in %g minutes", s.Unattended)
				}
			}
		})
	}
}

// sizeless are cuts that have no size: what is poured, whole or beaten.
var sizeless = []string{
	"whole", "as it is", "beaten", "rinsed", "poured", "reduced", "stirred", "whisked", "bruised", "blended", "loosened", "in the shell",
	"split", "melted", "broken up", "churned", "strained", "whipped", "boiled down", "a spoonful", "a dash", "the last of the jar",
	"leaves", "crushed", "ground", "curds", "coating", "filling", "fried", "paste", "shaken", "slaked", "spooned", "scoops", "sieved",
	"small bowls", "one block", "stirred in",
}

func TestCutsHaveASize(t *testing.T) {
	for _, x := range Default() {
		cut, _, _ := strings.Cut(x.Cut, ",")
		cut = strings.TrimSuffix(strings.TrimSuffix(cut, " to a froth"), " cloves")
		if !strings.ContainsAny(x.Cut, "0123456789") && !slices.Contains(sizeless, strings.TrimSuffix(cut, " leaves")) {
			t.Errorf("%s: the cut has no size: %s", x.ID, x.Cut)
		}
	}
}

// twoPortions gives the hands-on minutes for two portions.
func twoPortions(x Technique) float64 {
	_, hands := Minutes(x.Steps, x.Min+x.Max)
	return hands
}

// Every word of the tables must mean something: a food of the catalogue by its
// own name, a kind that foods have, or a state.
func TestTableWords(t *testing.T) {
	known := map[string]bool{}
	for _, f := range food.Default().Foods() {
		known[f.Name] = true
		for _, k := range f.Kinds {
			known[k] = true
		}
	}
	for _, s := range states() {
		for _, k := range s.from {
			if !known[k] {
				t.Errorf("states: no food has the kind %q", k)
			}
		}
	}
	for _, s := range states() {
		known[s.kind] = true
	}
	check := func(where, word string) {
		if !known[word] {
			t.Errorf("%s: no food or kind is called %q", where, word)
		}
	}
	for _, x := range Default() {
		for _, s := range x.Suits {
			check(x.ID+" suits", s.What)
		}
		for _, n := range x.Never {
			check(x.ID+" never", n.What)
		}
		for _, tm := range x.Times {
			check(x.ID+" times", tm.What)
		}
	}
	for _, r := range Rules() {
		for _, w := range append([]string{r.What}, r.But...) {
			if !strings.HasPrefix(w, "word:") {
				check("safety", w)
			}
		}
	}
}

// Nothing stands in the table that no pantry can meet: every technique fits a
// food, every food or kind that it is said to suit is one, fit to eat so, and
// every time is used.
func TestTableIsAlive(t *testing.T) {
	foods := food.Default().Foods()
	for i := range Default() {
		x := &Default()[i]
		met := map[string]bool{}
		for _, f := range foods {
			for _, cooked := range []bool{false, true} {
				s := Of(f, cooked)
				if _, ok := x.Fit(s); !ok || !cooked && x.Heat == None && f.Taste.Raw == "not raw" && x.Family != "keep" {
					continue
				}
				for _, suit := range x.Suits {
					met[suit.What] = met[suit.What] || s.Is(suit.What)
				}
				for _, tm := range x.Times {
					met["time "+tm.What] = met["time "+tm.What] || s.Is(tm.What)
				}
			}
		}
		for _, suit := range x.Suits {
			if !met[suit.What] {
				t.Errorf("%s suits %s, and never may", x.ID, suit.What)
			}
		}
		for _, tm := range x.Times {
			if !met["time "+tm.What] {
				t.Errorf("%s has a time for %s, which it does not fit", x.ID, tm.What)
			}
		}
	}
}

// What a technique saves is a trimming, and dinner, of a food that it fits.
func TestTableSaves(t *testing.T) {
	any := 0
	for i := range Default() {
		x := &Default()[i]
		for _, saved := range x.Saves {
			if !savedBy(x, saved) {
				t.Errorf("%s saves %q, which no food that it fits has, or which is not food", x.ID, saved)
			}
		}
		if len(x.Saves) > 0 {
			any++
		}
	}
	if any < 100 {
		t.Errorf("only %d techniques save a trimming", any)
	}
}

func savedBy(x *Technique, saved string) bool {
	return slices.ContainsFunc(food.Default().Foods(), func(f *food.Food) bool {
		_, ok := x.Fit(Of(f, false))
		trim, has := f.Trimming(saved)
		return ok && has && trim.Eaten != food.NotFood
	})
}

// A staple may be asked for by any name a cook has for it.
func TestTableStaples(t *testing.T) {
	called := map[string]bool{"water": true}
	for _, f := range food.Default().Foods() {
		for _, n := range slices.Concat(f.Called(), f.Kinds) {
			called[n] = true
		}
	}
	for _, x := range Default() {
		for _, s := range x.Staples {
			if slices.Contains(s.Names, "water") && len(s.Names) > 1 {
				t.Errorf("%s: water stands for nothing else: %q", x.ID, s.Names)
			}
			for _, n := range s.Names {
				if !called[n] {
					t.Errorf("%s: no food is called %q", x.ID, n)
				}
			}
		}
	}
}
