package paper_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"scullion/bot/paper"
	"scullion/pantry/account"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// apOf sums what is weighed or poured, in base units as purchased.
func apOf(s *account.Sheet) (sum float64) {
	for _, p := range s.Parts {
		sum += float64(p.AP)
	}
	return sum
}

// TestScaleKeepsTheWhole: whatever the dish and the portions, the whole stays within 2 in 100 of
// the exact weight, nothing becomes none, edible parts keep their share and the sheet adds up.
func TestScaleKeepsTheWhole(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := drawSheet(rt)
		for i := range s.Parts { // names tell the parts apart after they are sorted anew
			s.Parts[i].Item = string(rune('a' + i))
		}
		to := rapid.IntRange(1, 200).Draw(rt, "to")
		x, notes := paper.Scale(s, to)
		if s.Portions == 0 {
			if x != s || len(notes) != 1 {
				rt.Fatalf("a sheet without portions became %+v, %q", x, notes)
			}
			return
		}
		by := float64(to) / float64(s.Portions)
		if x.Portions != to || len(x.Parts) != len(s.Parts) || (len(notes) > 0) != (to != s.Portions) {
			rt.Fatalf("%+v, %q", x, notes)
		}
		if off := math.Abs(apOf(x) - by*apOf(s)); off > 0.02*by*apOf(s)+float64(len(s.Parts)) {
			rt.Fatalf("%g times %g mg became %g", by, apOf(s), apOf(x))
		}
		var grams float64
		var cost int64
		for _, p := range x.Parts {
			was := s.Parts[p.Item[0]-'a']
			if p.AP <= 0 || p.Item == "" || was.EP > 1000 && math.Abs(float64(p.EP)/float64(p.AP)-float64(was.EP)/float64(was.AP)) > 0.01 {
				rt.Fatalf("%+v became %+v", was, p)
			}
			grams, cost = grams+p.Grams, cost+p.Cost
		}
		if math.Abs(grams-x.Grams) > 1e-6 || math.Abs(float64(cost-x.Cost)) > 0.5*float64(len(x.Parts)+1) || math.Abs(x.Energy.Kcal-by*s.Energy.Kcal) > 1e-6*x.Energy.Kcal {
			rt.Fatalf("%+v does not add up", x)
		}
	})
}

// TestScaleToWhatScalesCanDo goes through what one ingredient becomes among a kilogram of others,
// where nothing has to be measured more finely.
func TestScaleToWhatScalesCanDo(t *testing.T) {
	for _, c := range []struct {
		food   string
		was    measure.Amount
		pieces float64
		by     [2]int // from, to
		want   measure.Amount
	}{
		{"leek", 31_000, 0, [2]int{4, 6}, 47_000},                   // 46.5 g: by 1 g
		{"leek", 151_000, 0, [2]int{4, 6}, 225_000},                 // 226.5 g: by 5 g
		{"leek", 97_500, 0, [2]int{4, 6}, 146_000},                  // 146.25 g: by 1 g, as scales do
		{"leek", 14_500, 0, [2]int{4, 1}, 3_500},                    // 3.6 g: by ½ g
		{"leek", 403_000, 0, [2]int{4, 6}, 600_000},                 // 604.5 g: by 10 g
		{"leek", 1_777_000, 0, [2]int{4, 6}, 2_650_000},             // 2665.5 g: by 50 g
		{"double cream", 151_000, 0, [2]int{4, 6}, 225_000},         // ml alike
		{"table salt", 2_300, 0, [2]int{4, 6}, 3_500},               // 3.45 g: by 0.1 g
		{"table salt", 9_100, 0, [2]int{4, 6}, 13_500},              // 13.65 g: by 0.5 g
		{"baking powder", 4_000, 0, [2]int{4, 5}, 5_000},            // by 0.5 g
		{"hen's egg", 3 * 58_000, 3, [2]int{4, 6}, 261_000},         // 4½ eggs
		{"hen's egg", 58_000, 1, [2]int{4, 1}, 14_500},              // ¼ egg is no half
		{"hen's egg", 58_000, 1, [2]int{6, 1}, 9_500},               // ⅙ egg is weighed, beaten
		{"lemon", 2 * 108_000, 2, [2]int{3, 4}, 270_000},            // 2⅔ become 2½
		{"leek", 337_000, 1.6, [2]int{4, 6}, 510_000},               // weighed, not counted: by weight
		{"thyme", 400, 0, [2]int{4, 1}, 100},                        // a pinch stays a pinch
		{"ground nutmeg", 100, 0, [2]int{10, 1}, 100},               // nobody weighs less
		{"double cream", 100_000_000, 0, [2]int{100, 1}, 1_000_000}, // 1 l: by 10 ml
	} {
		f, ok := food.Default().Food(c.food)
		if !ok {
			t.Fatalf("no food is called %s", c.food)
		}
		rest := account.Ingredient{Item: "rest", Unit: measure.Gram, AP: 240_000_000, EP: 240_000_000, Grams: 240_000}
		s := &account.Sheet{Portions: c.by[0], Parts: []account.Ingredient{rest, {Item: "it", Food: f.Name, Unit: f.Unit, AP: c.was, EP: c.was, Grams: c.was.Units(), Pieces: c.pieces}}}
		x, _ := paper.Scale(s, c.by[1])
		if got := x.Parts[1].AP; got != c.want {
			t.Errorf("%s %d by %v: %d, not %d", c.food, c.was, c.by, got, c.want)
		}
	}
}

// TestScaleOfEggsAlone: where halves are too far off, the egg is weighed.
func TestScaleOfEggsAlone(t *testing.T) {
	s := &account.Sheet{Portions: 4, Parts: []account.Ingredient{{Item: "egg", Food: "hen's egg", Unit: measure.Gram, AP: 174_000, EP: 174_000, Grams: 174, Pieces: 3}}}
	x, _ := paper.Scale(s, 1)
	if got := x.Parts[0].AP; got != 43_500 { // ¾ egg: quarters do
		t.Errorf("¾ egg is %d mg", got)
	}
	s.Portions = 7
	if x, _ = paper.Scale(s, 1); math.Abs(float64(x.Parts[0].AP)-174_000.0/7) > 0.02*174_000/7 {
		t.Errorf("3/7 egg is %d mg", x.Parts[0].AP)
	}
}

// TestScalingNotes: what does not grow in step is said, and a small change says no more than it must.
func TestScalingNotes(t *testing.T) {
	for _, c := range []struct {
		to          int
		says, never []string
	}{
		{2, []string{"look early", "no source"}, []string{"lots", "Salt"}},
		{5, []string{"do not grow", "no source"}, []string{"lots", "Salt"}},
		{6, []string{"2 lots"}, []string{"Salt"}},
		{12, []string{"3 lots", "three quarters"}, nil},
	} {
		_, notes := paper.Scale(&account.Sheet{Portions: 4}, c.to)
		all := strings.Join(notes, " ")
		for _, w := range c.says {
			if !strings.Contains(all, w) {
				t.Errorf("for %d: no %q in %q", c.to, w, all)
			}
		}
		for _, w := range c.never {
			if strings.Contains(all, w) {
				t.Errorf("for %d: %q in %q", c.to, w, all)
			}
		}
	}
}

// TestScaledTimesStay: no form of a scaled sheet has other times than the sheet.
func TestScaledTimesStay(t *testing.T) {
	o := options()
	o.Portions = 40
	for end, print := range forms {
		doc := print(tart(t), o)
		if end != "csv" && !strings.Contains(doc, "bake at 200 C, 35 min") {
			t.Errorf("%s: the times are not of that day", end)
		}
		if end != "csv" && !strings.Contains(doc, "of that day") {
			t.Errorf("%s: nothing says so", end)
		}
	}
}
