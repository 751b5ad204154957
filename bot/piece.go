package bot

import (
	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// How far a weight may lie from the tables' range for one piece and still be
// believed is common practice, no source, all through this file. What lies
// further off is asked about or taken as a weight alone, never thrown away.

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
	have := l.OnHand()
	onRecord := l.Pieces()                          // thousandths of a piece
	if onRecord == 0 && f != nil && f.PieceMg > 0 { // taken in by weight: about so many
		onRecord = int64(have) * 1000 / int64(f.PieceMg)
	}
	if a.Both {
		one, err := measure.Ratio{Num: a.Count.Den, Den: a.Count.Num}.Of(base)
		switch {
		case err != nil || one == 0:
			return base, pieces, 0
		case a.Sample && onRecord > pieces+500+pieces/4:
			all := sampled(l, one)
			return all, int64(all) * 1000 / int64(one), one
		case a.Sample && onRecord == 0 && a.Count == measure.Whole(1) && have > 0:
			return have, 0, one
		}
		return base, pieces, one
	}
	whole := (onRecord + 500) / 1000
	if a.How != language.Measured || a.Approx || base == 0 || whole == 0 || l.PieceMg() == 0 || l.Weighed() || abs(onRecord-whole*1000) > nearlyWhole {
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

// sampled is what is on hand where one piece has been found to weigh so much:
// lots that were only counted change, those that were weighed stay.
func sampled(l *pantry.Line, one measure.Amount) (sum measure.Amount) {
	for i := range l.Lots {
		lot := &l.Lots[i]
		left := lot.Left
		if lot.PieceMg > 0 && !lot.Weighed {
			if now, err := (measure.Ratio{Num: int64(one), Den: int64(lot.PieceMg)}).Of(left); err == nil {
				left = now
			}
		}
		sum += left
	}
	return sum
}

// isPiece says whether so much is the weight of one piece of the food, and not
// of a pack of them: a sack of potatoes is no potato.
func isPiece(a language.Amount, f *food.Food, one measure.Amount) bool {
	if a.Pack != "" { // the printed weight is what it is
		return f != nil && f.Piece == a.Pack
	}
	if f == nil || f.PieceMg == 0 || f.Piece != "" { // a sea bass is no fillet
		return true
	}
	low, high := f.PieceSpread()
	return one >= low/3 && one <= high*2
}

// eachOrAll asks about a weight that may be of each or of all: "5 leeks, 220g",
// which is no weight for five, and would be one for each of them; "3 punnets of
// strawberries, 1.2kg"; and "eggs weigh 60g", with twelve there.
func eachOrAll(d *draft, l *pantry.Line, f *food.Food, base measure.Amount) *pending {
	a := d.Amount
	each, n := base, a.Count // of each, and how many
	switch {
	case a.Perhaps && (d.Act == pantry.Receive || d.Act == pantry.Use):
		each, _ = measure.Ratio{Num: n.Den, Den: n.Num}.Of(base)
		if pack, ok := packOf(a.Pack, f); ok && near(each, pack) {
			return nil
		}
		if one, err := (measure.Ratio{Num: n.Den, Den: n.Num}).Of(each); err == nil && (a.Pack == "tin" || a.Pack == "jar" || a.Pack == "bottle") && n.Num >= 2*n.Den && one < leastTin { // no tin holds 35 g
			return nil
		}
		if a.Kind == measure.Millilitre && language.PackHolds(a.Pack, int64(each)/1000) { // a bottle of 750 ml
			return nil
		}
	case a.Both && a.Count.Num > a.Count.Den && (d.Act == pantry.Receive || d.Act == pantry.Use):
		if one, err := (measure.Ratio{Num: n.Den, Den: n.Num}).Of(base); err != nil || !tooLight(f, one, base) {
			return nil
		}
	case d.Act == pantry.Count && a.How == language.Measured && !a.Both && l != nil && l.Pieces() >= 2500:
		n = measure.Ratio{Num: l.Pieces(), Den: 1000}
		if !tooLight(f, base*1000/measure.Amount(l.Pieces()), base) {
			return nil
		}
	default:
		return nil
	}
	all, err := n.Of(each)
	if err != nil {
		return nil
	}
	kind := measure.Gram
	if a.How == language.Measured {
		kind = a.Kind
	}
	said := measure.Say(each, kind)
	return &pending{Kind: askEach, Draft: *d, Options: []option{
		{Label: said + " in all", Base: each, Kind: kind},
		{Label: said + " each", Base: all, Kind: kind},
	}}
}

// leastTin is what a tin, a jar or a bottle holds at least. Common practice, no source.
const leastTin = 60_000

// tooLight says whether one piece weighs too little to be one, where so much
// would be a fair weight for one.
func tooLight(f *food.Food, one, each measure.Amount) bool {
	if f == nil || f.PieceMg == 0 {
		return false
	}
	low, high := f.PieceSpread()
	return one < low/2 && each >= low*2/3 && each <= high*3/2
}

// packOf is what one pack of a food weighs, by the tables.
func packOf(pack string, f *food.Food) (measure.Amount, bool) {
	if f == nil {
		return 0, false
	}
	if f.Piece == pack && f.PieceMg > 0 {
		return f.PieceMg, true
	}
	return f.PartMg(pack)
}

// near says whether the larger of two weights is at most twice the smaller.
func near(a, b measure.Amount) bool { return a*2 >= b && b*2 >= a }

func abs(n int64) int64 { return max(n, -n) }
