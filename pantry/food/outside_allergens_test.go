package food

import (
	"slices"
	"strings"
	"testing"
)

// named gives the foods of a list; "group:nut" stands for the foods of a group.
func named(t *testing.T, list, except string) []*Food {
	t.Helper()
	var foods []*Food
	left := listed(except)
	for _, name := range listed(list) {
		group, isGroup := strings.CutPrefix(name, "group:")
		if !isGroup {
			foods = append(foods, known(t, name))
			continue
		}
		before := len(foods)
		for i := range Default().Foods() {
			if f := Default().Foods()[i]; f.Group == group && !slices.Contains(left, f.Name) {
				foods = append(foods, f)
			}
		}
		if len(foods) == before {
			t.Errorf("no food is of the group %q", group)
		}
	}
	return foods
}

// TestAnnexII holds the catalogue to the EU and UK list of fourteen: every
// food that a layman would read the law to mean carries it.
func TestAnnexII(t *testing.T) {
	var entries []string
	for _, r := range rowsOf(t, "testdata/annex2.csv") {
		allergen := r["allergen"]
		entries = addOnce(entries, allergen)
		for _, f := range named(t, r["must"], r["except"]) {
			if !slices.Contains(f.Allergen, allergen) {
				t.Errorf("%s: Annex II, entry %s (%s) makes it hold %s; it has %q", f.Name, r["number"], r["example"], allergen, f.Allergen)
			}
		}
		for _, f := range named(t, r["may"], "") {
			if !slices.Contains(slices.Concat(f.Allergen, f.MayCarry), allergen) {
				t.Errorf("%s: its label is to be looked at for %s; it has %q", f.Name, allergen, f.MayCarry)
			}
		}
		for _, f := range named(t, r["except"], "") {
			if slices.Contains(f.Allergen, allergen) && !slices.Contains(listed(r["may"]), f.Name) {
				t.Errorf("%s: holds %s, but the table makes an exception of it", f.Name, allergen)
			}
		}
		if f, ok := Default().Food(r["example"]); r["must"]+r["may"] == "" && ok {
			t.Errorf("%s: now in the catalogue, so annex2.csv must say what it holds", f.Name)
		}
	}
	if !slices.Equal(entries, allergenTable().names) {
		t.Errorf("the entries are %q, want the fourteen in order", entries)
	}
}

// TestUSNine holds Food.USAllergens to the US list.
func TestUSNine(t *testing.T) {
	var nine []string
	for _, r := range rowsOf(t, "testdata/us9.csv") {
		us := r["allergen"]
		nine = append(nine, us)
		for _, c := range []struct {
			list       string
			has, check bool
		}{{r["has"], true, false}, {r["check"], false, true}, {r["not"], false, false}} {
			for _, f := range named(t, c.list, "") {
				got := f.USAllergens()
				if slices.Contains(got, us) != c.has || slices.Contains(got, us+checkLabel) != c.check {
					t.Errorf("%s (%q): %q in the US; want %s: %v, to be checked: %v", f.Name, f.Allergen, got, us, c.has, c.check)
				}
			}
		}
	}
	if slices.Sort(nine); !slices.Equal(nine, slices.Sorted(slices.Values(usNine))) {
		t.Errorf("the nine are %q", nine)
	}
}

// TestAllergensAgainstReference holds every food of the reference's table that
// is in the catalogue to it. Absence from that table is no clearance, so it is
// asked only one way.
func TestAllergensAgainstReference(t *testing.T) {
	compared, missing := 0, 0
	for _, r := range rowsOf(t, outside(t, "allergens.csv")) {
		allergen := r["allergen"]
		if strings.HasPrefix(allergen, "diet:") {
			continue
		}
		for _, column := range []string{"foods_always", "foods_often_check_label"} {
			for _, name := range listed(r[column]) {
				f, ok := Default().Food(name)
				if !ok {
					missing++
					t.Logf("not in the catalogue: %s (%s)", name, allergen)
					continue
				}
				compared++
				if name == "table salt" { // of which it means celery salt: that is a food of its own here, and holds celery
					if f, ok := Default().Food("celery salt"); !ok || !slices.Contains(f.Allergen, allergen) {
						t.Errorf("celery salt holds no %s", allergen)
					}
					continue
				}
				has := slices.Contains(f.Allergen, allergen)
				if !has && (column == "foods_always" || !slices.Contains(f.MayCarry, allergen)) {
					t.Errorf("%s: %s has it under %s; ours: %q, %q", f.Name, column, allergen, f.Allergen, f.MayCarry)
				}
			}
		}
	}
	t.Logf("%d compared, %d not in the catalogue", compared, missing)
	if compared < 350 {
		t.Errorf("only %d compared", compared)
	}
}

// TestDietsAgainstReference does the same for its rows on diets: what is never
// vegan is "no", what often is not is no plain "yes".
func TestDietsAgainstReference(t *testing.T) {
	diets := map[string]func(*Food) string{
		"diet: not vegetarian": func(f *Food) string { return f.Meatless },
		"diet: not vegan":      func(f *Food) string { return f.Vegan },
	}
	compared := 0
	for _, r := range rowsOf(t, outside(t, "allergens.csv")) {
		diet := diets[r["allergen"]]
		if diet == nil {
			continue
		}
		for _, column := range []string{"foods_always", "foods_often_check_label"} {
			for _, name := range listed(r[column]) {
				f, ok := Default().Food(name)
				if !ok {
					continue
				}
				compared++
				if is := diet(f); is == "yes" || column == "foods_always" && is != "no" {
					t.Errorf("%s: %s, %s, but the catalogue says %q", f.Name, r["allergen"], column, is)
				}
			}
		}
	}
	if compared < 250 {
		t.Errorf("only %d compared", compared)
	}
}
