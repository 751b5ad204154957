package bot

import "testing"

// What is made up raw is never taken for cooked, and what a name says was cooked never for raw.
func TestWorkOf(t *testing.T) {
	meat := drawnOn{flesh: true, fresh: []string{"beef mince", "chicken thigh", "chicken"}}
	none := drawnOn{fresh: []string{"double cream", "potato"}}
	for _, c := range []struct {
		name   string
		of     drawnOn
		served bool
		want   worked
	}{
		{"raw burger", meat, false, workedRaw},
		{"burger", meat, false, workedRaw},
		{"koftas", meat, false, workedRaw},
		{"sausage roll", meat, false, workedRaw},
		{"fish cakes", meat, false, workedRaw},
		{"marinated chicken", meat, false, workedRaw},
		{"marinade", meat, true, workedRaw},
		{"chicken", meat, false, workedRaw}, // diced
		{"shredded chicken", meat, false, workedRaw},
		{"grilled koftas", meat, false, workedCooked},
		{"grilled marinated chicken", meat, false, workedCooked},
		{"uncooked roast chicken", meat, false, workedRaw},
		{"burgers", meat, true, workedCooked}, // left over
		{"kofta curry", meat, false, workedCooked},
		{"burger sauce", meat, false, workedCooked},
		{"beef stew", meat, false, workedCooked},
		{"chicken sandwich", meat, false, workedCold},
		{"roast beef sandwiches", none, true, workedCold},
		{"bean burger", none, false, workedCooked},
		{"whipped cream", none, false, workedCold},
		{"mash", none, false, workedCooked},
		{"marinade", none, true, workedCold},
	} {
		if got := workOf(c.name, &c.of, c.served); got != c.want {
			t.Errorf("%s, served %v: %s, want %s", c.name, c.served, got, c.want)
		}
	}
}

// The table has no way but those that the code knows, and no word twice.
func TestUncookedTable(t *testing.T) {
	ways := map[string]bool{"raw": true, "readied": true, "shaped": true, "cooked": true, "worked": true, "cold": true, "base": true, "egg": true, "boiled": true}
	seen := map[string]bool{}
	for _, w := range workWords() {
		key := ""
		for _, s := range w.words {
			key += s + " "
		}
		if !ways[w.how] || len(w.words) == 0 {
			t.Errorf("%q is worked %q", key, w.how)
		}
		if seen[key+w.how] && w.how != "cold" { // "salads" folds to "salad"
			t.Errorf("%q stands twice under %s", key, w.how)
		}
		seen[key+w.how] = true
	}
}
