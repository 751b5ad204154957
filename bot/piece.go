package bot

import (
	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// nearlyWhole is how far from a whole number of pieces a record may be and
// still be one, in thousandths.
const nearlyWhole = 20

// weighedAgain looks at what a count by weight says of one piece. It gives the
// entry's amount and pieces, and the weight of one piece; 0 where nothing is
// learned of it.
//
// "3 leeks weigh 700 g", where three or fewer are on record, is a stocktake. Of
// fewer than there are it is a sample: the number on record stays, each at the
// new weight. "The leeks weigh 700 g" of pieces that were only counted so far
// corrects the piece the tables assume, if such a piece may weigh so much.
func weighedAgain(a language.Amount, l *pantry.Line, f *food.Food, base measure.Amount, pieces int64) (measure.Amount, int64, measure.Amount) {
	have, old := l.OnHand(), l.PieceMg()
	onRecord := int64(0) // thousandths of a piece
	if old > 0 {
		onRecord = int64(have) * 1000 / int64(old)
	}
	if a.Both {
		one, err := measure.Ratio{Num: a.Count.Den, Den: a.Count.Num}.Of(base)
		if err != nil || one == 0 {
			return base, pieces, 0
		}
		switch {
		case onRecord > pieces+500:
			if all, err := (measure.Ratio{Num: onRecord, Den: 1000}).Of(one); err == nil {
				return all, onRecord, one
			}
		case onRecord == 0 && a.Count == measure.Whole(1) && have > 0:
			return have, 0, one
		}
		return base, pieces, one
	}
	whole := (onRecord + 500) / 1000
	if a.How != language.Measured || a.Approx || base == 0 || whole == 0 || l.Weighed() || abs(onRecord-whole*1000) > nearlyWhole {
		return base, pieces, 0
	}
	one := base / measure.Amount(whole)
	if f != nil {
		if low, high := f.PieceSpread(); one < low || one > high {
			return base, pieces, 0
		}
	}
	return base, pieces, one
}

// eachOrAll asks about "5 leeks, 220g": what is no weight for five, and would be
// one for each of them.
func eachOrAll(d *draft, f *food.Food, base measure.Amount) *pending {
	a := d.Amount
	if !a.Both || a.Count.Num <= a.Count.Den || f == nil || f.PieceMg == 0 || d.Act != pantry.Receive && d.Act != pantry.Use {
		return nil
	}
	low, high := f.PieceSpread()
	one, err1 := measure.Ratio{Num: a.Count.Den, Den: a.Count.Num}.Of(base)
	all, err2 := a.Count.Of(base)
	if err1 != nil || err2 != nil || one >= low/2 || base < low*2/3 || base > high*3/2 {
		return nil
	}
	said := measure.Say(base, measure.Gram)
	return &pending{Kind: askEach, Draft: *d, Options: []option{
		{Label: said + " in all", Base: base, Kind: measure.Gram},
		{Label: said + " each", Base: all, Kind: measure.Gram},
	}}
}

func abs(n int64) int64 { return max(n, -n) }
