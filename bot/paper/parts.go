package paper

import (
	"cmp"
	"fmt"
	"math"

	"scullion/pantry/account"
	"scullion/pantry/measure"
)

// kJPerKcal is the thermochemical calorie, by which labels count (Annex XIV of Regulation (EU)
// 1169/2011 has its factors in both units, each rounded).
const kJPerKcal = 4.184

// parts puts the ingredients into words, with their total and what the dish yields. It was for so
// many as it was cooked.
func (v *view) parts(s *account.Sheet, o Options, was int) {
	var ap, ep float64
	var planned, usual []string
	for i := range s.Parts {
		p := &s.Parts[i]
		r := row{Item: name(p.Item), AP: measure.Say(p.AP, p.Unit), EP: measure.Say(p.EP, p.Unit), Planned: p.Unlogged}
		if c := counted(p); c > 0 {
			r.Count = "about " + measure.SayPieces(int64(math.Round(c*1000)))
		}
		if s.Portions > 0 {
			r.APEach = measure.Say(p.AP/measure.Amount(s.Portions), p.Unit)
			r.EPEach = measure.Say(p.EP/measure.Amount(s.Portions), p.Unit)
		}
		if p.Cost > 0 || len(p.Apart) > 0 || !p.Unpriced {
			r.Cost = eachPrice(p.Cost, p.Apart, cmp.Or(p.Sign, o.Currency), 1)
		}
		if r.Cost != "" && p.Unpriced {
			r.Cost = "over " + r.Cost
		}
		if p.Unlogged {
			planned = append(planned, r.Item)
		}
		if p.Usual {
			usual = append(usual, r.Item)
		}
		v.Parts = append(v.Parts, r)
		ap, ep = ap+apGrams(p), ep+p.Grams
	}
	v.Total = row{Item: "total by weight", AP: grams(ap), EP: grams(ep)}
	if s.Cost != 0 || len(s.Apart) > 0 {
		v.Total.Cost = prices(s, o, 1)
	}
	v.Yield = grams(ep) + " edible, of " + grams(ap) + " as purchased"
	if s.Portions > 0 {
		v.Total.APEach, v.Total.EPEach = grams(ap/float64(s.Portions)), grams(ep/float64(s.Portions))
		v.Yield += "; " + v.Total.EPEach + " a portion"
	}
	v.Yield += ", weighed before cooking."
	if s.Yield > 0 {
		v.Came = measure.Say(s.Yield, s.YieldUnit) + " cooked"
		if s.Portions > 0 {
			v.Came += "; " + measure.Say(s.Yield/measure.Amount(s.Portions), s.YieldUnit) + " a portion"
		}
		if s.Portions == was {
			v.Came += ", as weighed."
		} else {
			v.Came += ", reckoned from what it came to then."
		}
	}
	if len(planned) > 0 {
		v.Planned = "Planned and not logged: " + both(planned) + "."
	}
	if len(usual) > 0 {
		v.Usual = "Nobody said what came off " + both(usual) + ": EP is after the usual trim of the books."
	}
}

// apGrams is what an ingredient weighs as purchased: what is poured weighs as its edible part does.
func apGrams(p *account.Ingredient) float64 {
	if p.EP <= 0 {
		if p.Unit == measure.Gram {
			return p.AP.Units()
		}
		return p.Grams
	}
	return p.Grams * float64(p.AP) / float64(p.EP)
}

// energy puts energy and macronutrients into words. Nothing stands there of a dish without figures.
func (v *view) energy(s *account.Sheet) {
	e := &s.Energy
	if e.Share <= 0 {
		v.Share = "No figures for any of it."
		return
	}
	v.Share = "Figures for " + percent(e.Share) + " of the edible weight, before cooking."
	for _, f := range []struct {
		name string
		n    float64
		say  func(float64) string
	}{{"energy", e.Kcal, kcal}, {"protein", e.Protein, macro}, {"fat", e.Fat, macro}, {"carbohydrate, fibre in it", e.Carb, macro}, {"fibre", e.Fibre, macro}} {
		x := figure{Name: f.name, Dish: f.say(f.n)}
		if s.Portions > 0 {
			x.Each = f.say(f.n / float64(s.Portions))
		}
		v.Energy = append(v.Energy, x)
	}
}

// percent says a share; only a whole one is 100%.
func percent(share float64) string {
	n := int(math.Round(share * 100))
	switch {
	case n >= 100 && share < 1-1e-9:
		n = 99
	case n == 0 && share > 0:
		return "under 1%"
	}
	return num(n) + "%"
}

func kcal(n float64) string { return fmt.Sprintf("%.0f kcal (%.0f kJ)", n, n*kJPerKcal) }

// macro says grams as labels do: one decimal under 10 g, whole above.
func macro(g float64) string {
	if g < 9.95 {
		return fmt.Sprintf("%.1f g", g)
	}
	return fmt.Sprintf("%.0f g", g)
}
