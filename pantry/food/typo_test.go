package food

import "testing"

// What comes in is a slip of a known food only where its letters say so; words
// for food, and words of other tongues that are far off, are foods of their own.
func TestCatalogueLikely(t *testing.T) {
	for said, want := range map[string]string{
		"gotes cheese": "goat's cheese", "caulifower": "cauliflower", "parmasan": "Parmesan", "courgetes": "courgette", "brocolli": "broccoli",
		"praline": "praline", "advocaat": "advocaat", "romesco": "romesco", "arancini": "arancini", "dolmades": "dolma",
		"panforte": "", "bottarga": "", "cassoulet": "", "bourride": "", "escabeche": "", "salpicon": "", "stollen": "", "rollmops": "", "lardo": "", "gougere": "",
		"saltimbocca": "", "picadillo": "", "barramundi": "", "sambal": "", "bresaola": "", "coppa": "", "cervelat": "", "andouille": "", "boudin": "", "marzipanne": "almond paste",
	} {
		f, ok := Default().Likely(said)
		if ok && f.Name != want {
			t.Errorf("%q is taken for %s, want %q", said, f.Name, want)
		} else if !ok && want != "" && len(Default().Find(said)) == 0 {
			t.Errorf("%q is not read as %s", said, want)
		}
	}
}

func TestIsNear(t *testing.T) {
	for _, c := range []struct {
		said, name string
		own, want  bool
	}{
		{"leke", "leek", true, true}, {"demons", "lemon", true, true}, {"mlk", "milk", true, true}, {"chz", "cheese", false, true},
		{"marg", "murgh", false, false}, {"marg", "murg", false, false}, {"spam", "lamb", true, false}, {"panda", "kanda", false, false},
		{"mikl", "milk", false, true},
	} {
		if got := IsNear(c.said, c.name, c.own); got != c.want {
			t.Errorf("IsNear(%q, %q, %v) = %v", c.said, c.name, c.own, got)
		}
	}
}
