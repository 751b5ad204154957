package technique

import (
	"testing"

	"scullion/pantry/food"
)

// What a caution is said of is a food or a kind that some food, raw or cooked, has;
// and it is said of that, and of nothing else.
func TestCautionWords(t *testing.T) {
	known := map[string]bool{}
	for _, f := range food.Default().Foods() {
		f := f
		for _, s := range []Subject{Of(f, false), Of(f, true)} {
			known[s.Name] = true
			for _, k := range s.Kinds {
				known[k] = true
			}
		}
	}
	check := func(id string, list []Caution) {
		for _, c := range list {
			for _, w := range c.Of {
				if !known[w] {
					t.Errorf("%s: %q: no food is or was %q", id, c.Says, w)
				}
			}
		}
	}
	some := 0
	for _, x := range Default() {
		check(x.ID, x.Caution)
	}
	for _, f := range Frames() {
		check(f.ID, f.Caution)
		for _, c := range f.Caution {
			if c.Of != nil {
				some++
			}
		}
	}
	if some < 30 {
		t.Errorf("only %d cautions of frames are of certain foods", some)
	}
	c := Caution{[]string{"poultry", "rice"}, "hot"}
	if !c.Concerns(subject(t, "chicken thigh")) || !c.Concerns(subject(t, "basmati rice")) || c.Concerns(subject(t, "leek")) || !(Caution{Says: "hot"}).Concerns(subject(t, "leek")) {
		t.Error("a caution is said of the wrong foods")
	}
}
