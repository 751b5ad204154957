package paper_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
	"pgregory.net/rapid"

	"scullion/bot/paper"
	"scullion/pantry"
	"scullion/pantry/food"
)

// TestLabelPages: every page of the table fits its paper, the same margin on both sides, labels
// that do not overlap, and says where it comes from.
func TestLabelPages(t *testing.T) {
	sizes := map[string]string{"a4-21": "21 of 63.5 x 38.1", "a4-24": "24 of 64 x 33.9", "a4-24-full": "24 of 70 x 37", "letter-30": "30 of 66.675 x 25.4", "roll-62": "1 of 62 x 40"}
	for _, p := range paper.LabelPages() {
		if got := fmt.Sprintf("%d of %g x %g", p.Columns*p.Rows, p.Width, p.Height); got != sizes[p.ID] {
			t.Errorf("%s: %s, not %s", p.ID, got, sizes[p.ID])
		}
		right := p.PageWidth - p.Left - float64(p.Columns-1)*p.PitchX - p.Width
		bottom := p.PageHeight - p.Top - float64(p.Rows-1)*p.PitchY - p.Height
		if math.Abs(right-p.Left) > 0.01 || math.Abs(bottom-p.Top) > 0.01 || p.Left < 0 || p.Top < 0 {
			t.Errorf("%s: margins %g and %g, %g and %g", p.ID, p.Left, right, p.Top, bottom)
		}
		if p.PitchX < p.Width || p.PitchY < p.Height || p.Name == "" {
			t.Errorf("%s: labels overlap, or it has no name", p.ID)
		}
		if got, err := paper.LabelPageCalled(p.ID); err != nil || got != p {
			t.Errorf("%s: %v", p.ID, err)
		}
	}
	if _, err := paper.LabelPageCalled("a3"); err == nil || !strings.Contains(err.Error(), "a4-21, a4-24, ") {
		t.Errorf("an unknown page: %v", err)
	}
}

// hard are labels that hardly fit.
func hard() []paper.Label {
	all := food.Allergens()
	return []paper.Label{
		{Name: "Leek tart", Made: evening, UseBy: "2026-03-07", Allergens: []string{"milk", "eggs"}, Initials: "BO"},
		{Name: strings.Repeat("slow-cooked shoulder of lamb with ", 12), Made: evening, UseBy: "2026-03-25", Kind: "best before", Allergens: all, Unknown: true, Initials: "MÜLLER-SMYTHE", Note: "reheat once, until it is steaming hot right through to the middle"},
		{Name: strings.Repeat("W", 70), Allergens: all, Note: "W"},
		{Name: "Stock"},
		{Name: "", Unknown: true},
		{Name: strings.Repeat("水", 40), Made: evening, UseBy: "2026-03-07", Allergens: all[:6]},
		{Name: "tart", Allergens: slices.Repeat([]string{"something that is long to tell"}, 30)},
	}
}

func many(n int) (list []paper.Label) {
	for i := range n {
		l := hard()[i%len(hard())]
		list = append(list, l)
	}
	return list
}

// TestLabels holds labels, as parsed, to what they must say, and their number and place to the page.
func TestLabels(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := rapid.SampledFrom(paper.LabelPages()).Draw(rt, "page")
		n := rapid.IntRange(0, 70).Draw(rt, "labels")
		var list []paper.Label
		for range n {
			list = append(list, paper.Label{Name: rapid.SampledFrom(nasty).Draw(rt, "name"), UseBy: pantry.Date(rapid.SampledFrom([]string{"", "2026-03-07"}).Draw(rt, "date")),
				Allergens: rapid.SliceOfNDistinct(rapid.SampledFrom(food.Allergens()), 0, 14, rapid.ID).Draw(rt, "allergens"), Unknown: rapid.Bool().Draw(rt, "unknown")})
		}
		root := strict(rt, paper.Labels(list, p))
		pages, cells := count(root, atom.Main), texts(root, atom.Article)
		a := p.Columns * p.Rows
		if pages != (n+a-1)/a || len(cells) != n {
			rt.Fatalf("%d labels, %d a page: %d on %d pages", n, a, len(cells), pages)
		}
		for i, l := range list {
			for _, a := range l.Allergens {
				if !strings.Contains(cells[i], a) {
					rt.Fatalf("no %s in %q", a, cells[i])
				}
			}
			if l.Unknown != strings.Contains(cells[i], "unknown: ask") || (l.UseBy == "") != strings.Contains(cells[i], "Use by __") {
				rt.Fatalf("%+v is %q", l, cells[i])
			}
			if !strings.HasPrefix(strings.TrimSpace(cells[i]), shown(l.Name)) && !strings.Contains(cells[i], "…") {
				rt.Fatalf("%+v is %q", l, cells[i])
			}
		}
	})
}

// TestLabelWords: nothing logged is not said as nothing in it, and what does not fit is not left out unsaid.
func TestLabelWords(t *testing.T) {
	p := paper.LabelPages()[0]
	cells := texts(strict(t, paper.Labels(hard(), p)), atom.Article)
	for i, says := range [][]string{
		{"Leek tart", "Made Wed 4 Mar 17:00, BO", "Use by Sat 7 Mar 2026", "Contains milk, eggs: check labels."},
		{"Best before Wed 25 Mar 2026", "lupin, molluscs. The rest unknown: ask.", "…", "reheat once"},
		{"WWW", "Use by ____", "molluscs: check labels."},
		{"Made ____", "None of the 14 logged: check labels."},
		{"something without a name", "Allergens unknown: ask."},
		{"水"},
		{"More allergens than fit here: ask"},
	} {
		for _, s := range says {
			if !strings.Contains(cells[i], s) {
				t.Errorf("no %q in %q", s, cells[i])
			}
		}
	}
}

func count(root *html.Node, a atom.Atom) (n int) { return len(texts(root, a)) }

func texts(root *html.Node, a atom.Atom) (list []string) {
	for n := range root.Descendants() {
		if n.DataAtom == a {
			list = append(list, text(n))
		}
	}
	return list
}
