package planner

import (
	"testing"

	"scullion/pantry/food"
)

// TestNeedsAllow holds foods against what a table must not be given.
func TestNeedsAllow(t *testing.T) {
	for _, c := range []struct {
		food  string
		needs Needs
		want  bool
	}{
		{"butter", Needs{}, true},
		{"butter", Needs{Avoid: []string{"milk"}}, false},
		{"butter", Needs{Vegan: true}, false},
		{"butter", Needs{Meatless: true}, true},
		{"vegetable stock cube", Needs{Avoid: []string{"celery"}}, false}, // by its label
		{"kiwi", Needs{Foods: []string{"kiwis"}}, false},
		{"tomato purée", Needs{Foods: []string{"tomato"}}, false},
		{"leek", Needs{Foods: []string{"kiwi"}, Avoid: []string{"milk"}, Vegan: true}, true},
		{"nobody knows this", Needs{Foods: []string{"kiwi"}}, false},
	} {
		f, _ := food.Default().Food(c.food)
		if got := c.needs.allow(f); got != c.want {
			t.Errorf("%s with %+v: %v", c.food, c.needs, got)
		}
	}
}
