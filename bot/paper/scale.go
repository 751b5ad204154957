package paper

import (
	"math"
	"slices"

	"scullion/pantry/account"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// slack is how far the weight of a scaled dish may be from the exact one.
const slack = 0.02

// Scale gives a sheet for so many portions, in amounts that scales and cooks can do, and what to
// mind. The whole, as purchased, stays within 2 in 100 of the exact weight: where rounding goes
// beyond that, the ingredient furthest off is measured more finely. Nothing becomes none. Energy,
// as all of a portion, stays a portion's; steps stay those of the day. A sheet that nobody said
// the portions of, and a number below 1, is given back as it is, with the reason where there is one.
func Scale(s *account.Sheet, portions int) (*account.Sheet, []string) {
	switch {
	case portions < 1 || portions == s.Portions:
		return s, nil
	case s.Portions < 1:
		return s, []string{"Not scaled: nobody said how many portions it was cooked for. Say that first."}
	}
	by := float64(portions) / float64(s.Portions)
	x := *s
	x.Portions = portions
	parts := make([]scaling, len(s.Parts))
	for i := range s.Parts {
		parts[i] = newScaling(&s.Parts[i], by)
	}
	settle(parts)
	x.Parts, x.Grams, x.Cost = make([]account.Ingredient, len(parts)), 0, 0
	cost := 0.0
	for i := range parts {
		x.Parts[i] = parts[i].done()
		x.Grams += x.Parts[i].Grams
		cost += float64(s.Parts[i].Cost) * parts[i].by()
	}
	x.Cost = int64(math.Round(cost)) // of many that cost less than a penny each too
	if len(s.Apart) > 0 {            // the parts are in several currencies
		x.Cost, x.Apart = 0, scalePrices(s.Apart, by)
	}
	slices.SortStableFunc(x.Parts, func(a, b account.Ingredient) int {
		switch {
		case a.Grams > b.Grams:
			return -1
		case a.Grams < b.Grams:
			return 1
		}
		return 0
	})
	x.Yield = measure.Amount(math.Round(float64(s.Yield) * by))
	e := &x.Energy
	e.Kcal, e.Protein, e.Fat, e.Carb, e.Fibre = e.Kcal*by, e.Protein*by, e.Fat*by, e.Carb*by, e.Fibre*by
	return &x, scalingNotes(by)
}

func scalePrices(list []account.Price, by float64) (out []account.Price) {
	for _, p := range list {
		out = append(out, account.Price{Sign: p.Sign, Cost: int64(math.Round(float64(p.Cost) * by))})
	}
	return out
}

// scaling is one ingredient while it is scaled: exact and rounded amounts as purchased, in base units.
type scaling struct {
	from         *account.Ingredient
	exact, round float64
	finer        int // how many times it is measured more finely than usual
}

func newScaling(p *account.Ingredient, by float64) scaling {
	s := scaling{from: p, exact: float64(p.AP) * by}
	s.measure()
	return s
}

// measure rounds the exact amount: counted things to halves, then quarters, where that is no more than a tenth off,
// then by weight.
func (s *scaling) measure() {
	if n := counted(s.from); n > 0 {
		piece := float64(s.from.AP) / n
		for ; s.finer < 2; s.finer++ {
			s.round = piece * nearest(s.exact/piece, 0.5/float64(1+s.finer))
			if math.Abs(s.round-s.exact) <= s.exact/10 {
				return
			}
		}
	}
	s.round = nearest(s.exact, s.step())
}

// by is what the ingredient is multiplied by as it was rounded.
func (s *scaling) by() float64 {
	if s.from.AP <= 0 {
		return 1
	}
	return math.Round(s.round) / float64(s.from.AP)
}

// nearest rounds to a multiple of step; what is there does not become nothing.
func nearest(n, step float64) float64 {
	if n <= 0 {
		return n
	}
	return max(step, math.Round(n/step)*step)
}

// steps are what amounts are rounded to, in mg or µl: common practice, no source.
var steps = []struct{ under, to float64 }{{10_000, 500}, {200_000, 1000}, {500_000, 5000}, {2_000_000, 10_000}, {math.Inf(1), 50_000}}

// pinches are the same for spices, salt and what makes dough rise, of which a gram is much.
var pinches = []struct{ under, to float64 }{{5000, 100}, {50_000, 500}}

// step is what the amount is rounded to: usually, or finer.
func (s *scaling) step() float64 {
	list := steps
	if f, ok := food.Default().Food(s.from.Food); ok && (f.Group == "spice" || f.Group == "baking") {
		list = slices.Concat(pinches, steps[1:])
	}
	to := list[slices.IndexFunc(list, func(x struct{ under, to float64 }) bool { return s.exact < x.under })].to
	finer := s.finer
	if counted(s.from) > 0 {
		finer -= 2
	}
	for range finer {
		to = max(1, math.Floor(to/5))
	}
	if s.exact < to { // a drop of it: by the tenth of a gram
		to = max(1, min(to, 100))
	}
	return to
}

// settle measures what is furthest off more finely until the whole is near enough.
func settle(parts []scaling) {
	for {
		exact, off, worst := 0.0, 0.0, -1
		for i := range parts {
			p := &parts[i]
			exact += p.exact
			off += p.round - p.exact
			if worst < 0 || math.Abs(p.round-p.exact) > math.Abs(parts[worst].round-parts[worst].exact) {
				worst = i
			}
		}
		if worst < 0 || math.Abs(off) <= slack*exact || math.Abs(parts[worst].round-parts[worst].exact) < 1 {
			return
		}
		parts[worst].finer++
		parts[worst].measure()
	}
}

// done gives the ingredient as rounded; its edible part and cost keep their share.
func (s *scaling) done() account.Ingredient {
	p := *s.from
	p.AP = measure.Amount(math.Round(s.round))
	if s.from.AP <= 0 {
		return p
	}
	by := s.by()
	p.NoCost = measure.Amount(math.Round(float64(p.NoCost) * by))
	p.EP = measure.Amount(math.Round(float64(s.from.EP) * by))
	p.Apart = scalePrices(p.Apart, by)
	p.Grams, p.Pieces, p.Cost = p.Grams*by, p.Pieces*by, int64(math.Round(float64(p.Cost)*by))
	return p
}

// counted gives how many pieces somebody counted, 0 where it was weighed: a weight that happens
// to be no simple fraction of a piece was not counted. An egg is an egg.
func counted(p *account.Ingredient) float64 {
	if p.Pieces <= 0 {
		return 0
	}
	if f, ok := food.Default().Food(p.Food); ok && f.Group == "egg" {
		return p.Pieces
	}
	for _, part := range []float64{2, 3, 4} {
		if n := p.Pieces * part; math.Round(n) > 0 && math.Abs(n-math.Round(n)) < 0.01*part {
			return p.Pieces
		}
	}
	return 0
}

// scalingNotes says what changes with the amount and does not grow in step with it. All of it is
// common practice, no source.
func scalingNotes(by float64) []string {
	if by < 1 {
		return []string{
			"Less food is done sooner: look early, and take smaller pans and tins, or it dries out.",
			"Done is what it is in the middle, not what the clock says. (Common practice, no source.)",
		}
	}
	lots := int(math.Ceil(by - 0.25)) // a pan takes a quarter more without crowding
	notes := []string{"Times do not grow with the amount. A second tray makes the oven slower, by about a quarter: swap trays halfway."}
	if lots > 1 {
		notes = append(notes, "Pans: don't crowd them. Cook in "+num(lots)+" lots of the size it was, or in "+num(lots)+" pans. A big pot takes longer to boil and to cool.")
	}
	if by >= 2 {
		notes = append(notes, "Salt, chilli and strong spice: put in three quarters, then taste.")
	}
	return append(notes, "Done is what it is in the middle, not what the clock says. (Common practice, no source.)")
}
