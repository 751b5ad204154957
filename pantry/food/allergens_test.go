package food

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// usNine are the major food allergens of US law, as the tables name them.
var usNine = []string{"milk", "eggs", "fish", "crustacean shellfish", "tree nuts", "peanuts", "wheat", "soybeans", "sesame"}

const checkLabel = " (check label)"

func TestAllergenTables(t *testing.T) {
	table, err := readAllergens()
	if err != nil {
		t.Fatal(err)
	}
	if len(table.names) != 14 {
		t.Errorf("allergens.csv has %q, not fourteen", table.names)
	}
	var reached []string
	for _, us := range table.us {
		reached = addOnce(reached, strings.TrimSuffix(us, checkLabel))
	}
	for _, row := range table.foods {
		if us := strings.TrimSuffix(row.us, checkLabel); us != "" && !slices.Contains(usNine, us) {
			t.Errorf("us_foods.csv: %q is none of the nine", us)
		}
	}
	slices.Sort(reached)
	if want := slices.Sorted(slices.Values(usNine)); !slices.Equal(reached, want) {
		t.Errorf("allergens.csv leads to %q, want %q", reached, want)
	}
}

func TestAllergenRowsRefused(t *testing.T) {
	for _, rec := range [][]string{{"", "", "", "a book"}, {"milk", "milk", "", ""}, {"fish", "fish", "", "a book"}} {
		table := &allergenTables{names: []string{"fish"}, us: map[string]string{}}
		if table.addName(rec) == nil {
			t.Errorf("%q was taken", rec)
		}
	}
	for _, rec := range [][]string{{"", "fish", "fish", "", "a book"}, {"roe", "fish", "fish", "", ""}, {"roe", "caviar", "fish", "", "a book"}, {"roe", "", "", "", "a book"}} {
		table := &allergenTables{names: []string{"fish"}, us: map[string]string{}}
		if table.addFood(rec) == nil {
			t.Errorf("%q was taken", rec)
		}
	}
}

func TestUS(t *testing.T) {
	for _, c := range []struct{ in, want []string }{
		{nil, nil},
		{[]string{"celery", "mustard", "sulphites", "lupin", "molluscs"}, nil},
		{[]string{"gluten cereals", "milk"}, []string{"wheat (check label)", "milk"}},
		{[]string{"crustaceans", "crustaceans", "dust"}, []string{"crustacean shellfish"}},
		{allergenTable().names, []string{"wheat (check label)", "crustacean shellfish", "eggs", "fish", "peanuts", "soybeans", "milk", "tree nuts", "sesame"}},
	} {
		if got := US(c.in); !slices.Equal(got, c.want) {
			t.Errorf("US(%q) = %q, want %q", c.in, got, c.want)
		}
	}
}

// A food of a cook's own table, whose names the table has not seen, must never
// lose a wheat that might be there.
func TestUSAllergensOfOwnFoods(t *testing.T) {
	for name, want := range map[string]string{
		"barley and wheat loaf": "wheat", "barley bread": "wheat", "malt loaf": "wheat (check label)", "barley flakes": "",
		"rye flour": "", "wheat beer": "wheat", "Beer": "wheat (check label)", "khorasan pilaf": "wheat", "mystery roll": "wheat (check label)",
	} {
		f := &Food{Name: name, Allergen: []string{"gluten cereals"}}
		if got := strings.Join(f.USAllergens(), ";"); got != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
	pine := &Food{Name: "toasted pine nuts"}
	if got := pine.USAllergens(); !slices.Equal(got, []string{"tree nuts"}) {
		t.Errorf("pine nuts: %q", got)
	}
}

// Whatever the food, the US names are among the nine, once each, and every
// allergen but gluten cereals keeps its pair.
func TestUSAllergensKeepsPairs(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		f := Food{
			Name:     rapid.SampledFrom(Default().Foods()).Draw(r, "food").Name,
			Allergen: rapid.SliceOfDistinct(rapid.SampledFrom(allergenTable().names), rapid.ID[string]).Draw(r, "allergens"),
		}
		got := f.USAllergens()
		for i, us := range got {
			if !slices.Contains(usNine, strings.TrimSuffix(us, checkLabel)) || slices.Contains(got[:i], us) {
				r.Fatalf("%s %q: %q", f.Name, f.Allergen, got)
			}
		}
		for _, a := range f.Allergen {
			pair := allergenTable().us[a]
			if a != "gluten cereals" && pair != "" && !slices.Contains(got, pair) && !slices.Contains(got, pair+checkLabel) {
				r.Fatalf("%s %q lost %s: %q", f.Name, f.Allergen, a, got)
			}
		}
	})
}
