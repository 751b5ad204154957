package food

import "testing"

func TestTells(t *testing.T) {
	for _, c := range []struct {
		food, words string
		want        bool
	}{
		{"kiwi", "kiwi", true},
		{"kiwi", "kiwis", true},
		{"chopped tomatoes", "tomato", true},
		{"tomato purée", "tomatoes", true},
		{"leek", "kiwi", false},
		{"leek", "", false},
	} {
		f, ok := Default().Food(c.food)
		if !ok {
			t.Errorf("no food %q", c.food)
			continue
		}
		if got := f.Tells(c.words); got != c.want {
			t.Errorf("%s tells %q: %v", f.Name, c.words, got)
		}
	}
}
