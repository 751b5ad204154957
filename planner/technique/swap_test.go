package technique

import (
	"testing"

	"scullion/pantry/food"
)

// TestSwaps holds that the table names foods that there are, none of which does instead of
// itself, and that no meat comes in for what had none: a guest would not ask.
func TestSwaps(t *testing.T) {
	for what, list := range swaps() {
		f, ok := food.Default().Food(what)
		if !ok || f.Name != what {
			t.Errorf("%s is no food", what)
			continue
		}
		for _, w := range list {
			by, ok := food.Default().Food(w.By)
			if !ok || by.Name != w.By || w.By == what {
				t.Errorf("%s: %s does not do instead", what, w.By)
				continue
			}
			if f.Meatless == "yes" && by.Meatless == "no" {
				t.Errorf("%s is no %s for those who eat no meat", w.By, what)
			}
		}
	}
}
