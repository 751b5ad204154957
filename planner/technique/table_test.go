package technique

import (
	"slices"
	"strings"
	"testing"

	"scullion/pantry/food"
)

// The count is pinned so that no row is lost unseen. Raise it with the table.
func TestTableCount(t *testing.T) {
	if n := len(Default()); n != 178 {
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
			for _, n := range s.Names {
				if !called[n] {
					t.Errorf("%s: no food is called %q", x.ID, n)
				}
			}
		}
	}
}
