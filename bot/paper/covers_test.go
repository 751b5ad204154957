package paper_test

import (
	"strings"
	"testing"

	"scullion/bot/paper"
)

// TestCoversAreNoPortions: what was taken for the portions that nobody told is said to be, as cooked, scaled and in
// every form that has words for it; where it would be too little there is no portion at all.
func TestCoversAreNoPortions(t *testing.T) {
	s := tart(t)
	s.Covers = s.Portions
	for _, doc := range []string{paper.Markdown(s, options()), paper.HTML(s, options()), paper.JSONLD(s, options())} {
		if want := "Portions not told: taken as 4, the covers."; !strings.Contains(doc, want) {
			t.Errorf("no %q in\n%s", want, doc)
		}
	}
	o := options()
	o.Portions = 10
	if doc, want := paper.Markdown(s, o), "scaled from 4, the covers: portions were not told."; !strings.Contains(doc, want) {
		t.Errorf("no %q in\n%s", want, doc)
	}
	s.Portions = 0
	switch doc := paper.Markdown(s, options()); {
	case !strings.Contains(doc, "Nobody said for how many; for the 4 covers it is too little each."):
		t.Errorf("it does not say why there is no portion:\n%s", doc)
	case strings.Contains(doc, "a portion |"):
		t.Errorf("it tells a portion:\n%s", doc)
	}
}
