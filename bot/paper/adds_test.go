package paper_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"scullion/bot/paper"
	"scullion/pantry/account"
	"scullion/pantry/measure"
)

// saidAs gives the grams of a cell, and how far the true weight may be from them: it is said to three figures from
// a kilogram on, to the gram from 10 g, to the tenth below.
func saidAs(t rapid.TB, cell string) (g, off float64) {
	n, unit, _ := strings.Cut(cell, " ")
	g, err := strconv.ParseFloat(n, 64)
	if err != nil {
		t.Fatalf("%q is no weight", cell)
	}
	switch {
	case unit == "kg":
		return g * 1000, 500 * math.Pow10(int(math.Floor(math.Log10(g)))-2)
	case g >= 10:
		return g, 0.5
	}
	return g, 0.05
}

// TestScaledSheetAddsUp: for however many a sheet is scaled, its columns add up to its totals as they are said, and
// so many portions to the whole.
func TestScaledSheetAddsUp(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := drawSheet(rt)
		s.Portions = max(1, s.Portions)
		for i := range s.Parts { // what is poured weighs otherwise than its row says
			s.Parts[i].Unit = measure.Gram
		}
		o := options()
		o.Portions = rapid.IntRange(1, 200).Draw(rt, "to")
		rows := table(paper.HTML(s, o))
		total := rows[len(rows)-1]
		near := func(what string, sum, off, want float64) {
			if math.Abs(sum-want) > off+1e-6 {
				rt.Fatalf("%s: %g are said, and make %g, %g at most apart:\n%v", what, want, sum, off, rows)
			}
		}
		for col := 1; col <= 4; col++ {
			all, off := saidAs(rt, total[col])
			sum := 0.0
			for _, r := range rows[1 : len(rows)-1] {
				g, o := saidAs(rt, r[col])
				sum, off = sum+g, off+o
			}
			near(rows[0][col], sum, off, all)
			if col < 3 {
				each, o1 := saidAs(rt, total[col+2])
				all, off := saidAs(rt, total[col])
				near("portions of "+rows[0][col], each*float64(o.Portions), off+o1*float64(o.Portions), all)
			}
		}
		sum, n := 0.0, 0.0
		for _, r := range rows[1 : len(rows)-1] {
			if c := strings.TrimLeft(r[5], "over £"); c != "" {
				sum, n = sum+lastFigure(c), n+1
			}
		}
		if total[5] != "" {
			near("cost", sum, 0.005*(n+1), lastFigure(total[5]))
		}
	})
}

// TestScaledToOne: a portion's sheet says what the dish's says of a portion, to a gram, to half a gram of what is
// little, and of an egg; what it costs too.
func TestScaledToOne(t *testing.T) {
	s := tart(t)
	o := options()
	was := table(paper.HTML(s, o))
	o.Portions = 1
	one := table(paper.HTML(s, o))
	for _, r := range one[1 : len(one)-1] {
		for _, w := range was[1:] {
			if item, _, _ := strings.Cut(r[0], ","); !strings.HasPrefix(w[0], item) || strings.HasSuffix(r[1], "l") {
				continue
			}
			is, _ := saidAs(t, r[1])
			want, off := saidAs(t, w[3])
			if step := map[bool]float64{true: 0.25, false: 0.5}[want < 10]; math.Abs(is-want) > off+step+1e-6 {
				t.Errorf("%s: %g g, %g a portion as cooked", r[0], is, want)
			}
		}
	}
	cheap := &account.Sheet{Portions: 100} // what costs less than a penny in a portion costs something in all
	for range 20 {
		cheap.Parts = append(cheap.Parts, account.Ingredient{Item: "rice", Unit: measure.Gram, AP: 500_000, EP: 500_000, Grams: 500, Cost: 40})
		cheap.Cost += 40
	}
	if x, _ := paper.Scale(cheap, 1); x.Cost != 8 {
		t.Errorf("20 of 0.4p cost %dp", x.Cost)
	}
	x, _ := paper.Scale(s, 1)
	if each := float64(s.Cost) / float64(s.Portions); math.Abs(float64(x.Cost)-each) > 0.5+0.02*each {
		t.Errorf("a portion costs %d alone, %g of the dish", x.Cost, each)
	}
}
