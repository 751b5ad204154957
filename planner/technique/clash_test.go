package technique

import (
	"testing"

	"scullion/pantry/food"
)

func subject(t *testing.T, name string) Subject {
	t.Helper()
	f, _ := food.Default().Food(name)
	if f == nil {
		t.Fatalf("no food %q", name)
	}
	return Of(f, false)
}

// Pairs that every cook refuses, asks about, or likes. Common practice, no source.
func TestClashes(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want Clash
	}{
		{"stilton", "cod", NeverTogether}, {"banana", "garlic", NeverTogether}, {"melon", "leek", NeverTogether},
		{"cod", "parmesan", Unusual}, {"chicken thigh", "mackerel", Unusual}, {"potato", "penne", Unusual},
		{"leek", "potato", Fine}, {"pear", "stilton", Fine}, {"bacon", "leek", Fine}, {"tomato", "basil", Fine}, {"beetroot", "goat's cheese", Fine},
	} {
		x, y := SidesOf(subject(t, c.a)), SidesOf(subject(t, c.b))
		if got := x.With(y); got != c.want || y.With(x) != got {
			t.Errorf("%s with %s: %v and %v, want %v", c.a, c.b, got, y.With(x), c.want)
		}
	}
}

// Every word of the table means a food or a kind that some food has.
func TestClashWords(t *testing.T) {
	known := map[string]bool{}
	for _, f := range food.Default().Foods() {
		for _, n := range append(f.Called(), f.Kinds...) {
			known[n] = true
		}
	}
	for _, c := range clashes() {
		if !known[c.a] || !known[c.b] {
			t.Errorf("%q with %q: no such food or kind", c.a, c.b)
		}
	}
	if len(clashes()) < 200 {
		t.Errorf("only %d rows", len(clashes()))
	}
}
