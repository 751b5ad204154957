package technique

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"scullion/pantry/food"
)

// knownWords are all names and kinds that a table may speak of.
func knownWords() map[string]bool {
	known := map[string]bool{}
	for _, f := range food.Default().Foods() {
		for _, k := range append(append(cooked(f), f.Kinds...), f.Name) {
			known[k] = true
		}
	}
	return known
}

// A row that no step has the words of is of no use, nor one that tells what it does not
// look for, nor one behind another that takes the same always.
func TestWordingRows(t *testing.T) {
	if n := len(Wordings()); n != 247 {
		t.Errorf("%d wordings", n)
	}
	steps, known := allSteps(), knownWords()
	for i := range Wordings() {
		w := &Wordings()[i]
		is := func(s stepOf) bool {
			return w.Is(s.id, s.Step) || slices.ContainsFunc(Ways(), func(v Way) bool { return v.Is(s.id, s.Step) && w.Is(s.id, v.Step(s.Step)) }) ||
				slices.ContainsFunc(Wordings()[:i], func(o Wording) bool { return o.Is(s.id, s.Step) && strings.Contains(o.Told, w.Words) })
		}
		if !slices.ContainsFunc(steps, is) {
			t.Errorf("%q: no step is so", w.Words)
		}
		for _, id := range w.Frames {
			if !slices.ContainsFunc(steps, func(s stepOf) bool { return s.id == id && is(s) }) {
				t.Errorf("%q: %s has no such step", w.Words, id)
			}
		}
		for _, f := range w.Of {
			if !known[f] {
				t.Errorf("%q: no food is %q", w.Words, f)
			}
		}
		if w.When != "any" && w.When != "all" && strings.Contains(w.Told, "{") {
			t.Errorf("%q: %q names what is not there", w.Words, w.Told)
		}
		if w.When == "all" && strings.Contains(w.Told, "{rest}") {
			t.Errorf("%q: there is no rest of all", w.Words)
		}
		for j := range Wordings()[:i] {
			if o := &Wordings()[j]; o.Words == w.Words && slices.Equal(o.Frames, w.Frames) && slices.Equal(o.Roles, w.Roles) && o.When == w.When && slices.Equal(o.Of, w.Of) {
				t.Errorf("%q: stands there twice", w.Words)
			}
		}
	}
}

// What safety wants at the boil gets its minutes there, however a step is told.
func TestWordingsBoil(t *testing.T) {
	for i := range Wordings() {
		w := &Wordings()[i]
		for _, f := range food.Default().Foods() {
			s := Of(f, false)
			if heat, boil, _ := Need(s); w.Timed && (boil > 0 || heat == Boil) && w.About(s) {
				t.Errorf("%q: %s needs its minutes at the boil", w.Words, f.Name)
			}
			last := 0.0
			if _, minutes, ok := strings.Cut(w.Told, "for the last "); ok {
				fmt.Sscan(minutes, &last)
			}
			if _, boil, _ := Need(s); last > 0 && boil > max(5, last) && slices.ContainsFunc(w.Of, s.Is) {
				t.Errorf("%q: %s needs longer at the boil", w.Words, f.Name)
			}
		}
	}
}

func TestUncut(t *testing.T) {
	known := knownWords()
	for what := range uncut() {
		if !known[what] {
			t.Errorf("no food is %q", what)
		}
	}
	for what, want := range map[string]bool{"tinned chickpea": true, "garden pea": true, "hen's egg": true, "double cream": true, "carrot": false, "brown onion": false, "feta": false, "chicken breast": false} {
		f, _ := food.Default().Food(what)
		if Uncut(Of(f, false)) != want {
			t.Errorf("%s: uncut %v", what, !want)
		}
	}
}
