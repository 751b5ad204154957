package bot

import (
	"errors"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

var errNoWeight = errors.New("no weight is known")

// weigh turns an amount into base units of the line. Pieces are thousandths.
// errNoWeight means that a count cannot be turned into a weight.
func (t *turn) weigh(d draft, l *pantry.Line, f *food.Food, unit measure.Kind) (base measure.Amount, pieces int64, approx bool, err error) {
	a := d.Amount
	approx = a.Approx
	switch a.How {
	case language.Measured:
		base = a.Base
		if own, ok := f.PartMg(a.Unit); ok && a.Unit != "" { // a handful of this food
			if base, err = a.N.Of(own); err != nil {
				return 0, 0, false, err
			}
			a.Kind = measure.Gram
		}
		if a.Kind != unit {
			approx = true
			base, err = across(base, a.Kind, f)
		}
		if a.Both {
			var milli measure.Amount
			if milli, err = a.Count.Of(1000); err != nil {
				return 0, 0, false, err
			}
			pieces = int64(milli)
		}
	case language.Pieces:
		one, known := pieceWeight(d, l, f)
		if pack, err := t.packCame(a, l); err != nil {
			return 0, 0, true, err
		} else if pack > 0 && d.Act != pantry.Receive {
			one, known = pack, true
		}
		if plainNumber(d, l, one, known) { // "butter 50 in the sauce", "leek 300"
			base, err = a.N.Of(1000)
			return base, 0, a.Approx, err
		}
		if !known {
			return 0, 0, true, errNoWeight
		}
		if base, err = a.N.Of(one); err != nil {
			return 0, 0, false, err
		}
		milli, err := a.N.Of(1000)
		if err != nil {
			return 0, 0, false, err
		}
		pieces, approx = int64(milli), true
	case language.Share:
		switch {
		case l != nil && d.Act == pantry.Claim: // what others hold is not to be had
			base, err = a.N.Of(l.Free())
		case l != nil:
			base, err = a.N.Of(l.OnHand())
		}
		if a.Less != nil && err == nil {
			kept := d
			kept.Amount = *a.Less
			less, _, about, lessErr := t.weigh(kept, l, f, unit)
			base, approx, err = max(0, base-less), about, lessErr
		}
		if off, ok := trimming(f, d.Off); ok && err == nil && d.Off != "" { // "all the leek tops" are not the leeks
			approx = true
			base, err = measure.Ratio{Num: int64(off.Share), Den: 1000}.Of(base)
		}
	}
	if a.EP && f != nil { // prepared weight: draw what it took
		if kept := f.Prepared(); kept.Num > 0 && kept.Num < kept.Den {
			approx = true
			base, err = measure.Ratio{Num: kept.Den, Den: kept.Num}.Of(base)
		}
	}
	return base, pieces, approx, err
}

// plainNumber says whether a number without a unit is one of grams or
// millilitres: of a food that nobody counts, or where so many pieces cannot be and
// so many grams can.
func plainNumber(d draft, l *pantry.Line, one measure.Amount, known bool) bool {
	n := d.Amount.N
	if d.Amount.Part != "" || d.Amount.Article || n.Num < smallestBare*n.Den || d.Yes {
		return false
	}
	if !known {
		return !manyFold(d, l)
	}
	if l == nil || d.Act != pantry.Use && d.Act != pantry.Bin && d.Act != pantry.Claim {
		return false
	}
	grams, err := n.Of(1000)
	pieces, err2 := n.Of(one)
	return err == nil && (err2 != nil || pieces > 2*l.OnHand()) && grams <= l.OnHand() && n.Num >= 50*n.Den
}

// leastOfStock is what share of what is on hand a bare number is of grams of, or it is none: "20 curry left" of 6 kg are
// 20 portions. The program's own judgement, no source.
const leastOfStock = 20

// manyFold says whether a bare number that tells what is left, or of what was made here, would be next to nothing as
// grams.
func manyFold(d draft, l *pantry.Line) bool {
	if l == nil || d.Act != pantry.Count && l.Made == 0 {
		return false
	}
	grams, err := d.Amount.N.Of(1000)
	return err == nil && grams < l.OnHand()/leastOfStock
}

// guessedPiece is what one is taken to weigh of a food of which no table has a piece: as what is
// called so weighs as a rule; 0 nobody can tell, as of a food that is known, and not by the piece.
func guessedPiece(called string, l *pantry.Line, f *food.Food) measure.Amount {
	if f != nil && f.PieceMg > 0 {
		return 0
	}
	mg := food.Piece(called)
	if mg == 0 && l != nil {
		mg = food.Piece(l.Name)
	}
	if mg == 0 && f == nil && l == nil {
		mg = unknownPieceMg
	}
	return mg
}

// pieceWeight is the weight of one piece, or of one part, of a food: as this
// lot has it, else as the tables do, else as a guess has it. A part behind the food's
// name, of which the tables know nothing, is a piece if it is the food's name:
// "salmon fillets".
func pieceWeight(d draft, l *pantry.Line, f *food.Food) (measure.Amount, bool) {
	a, named := d.Amount, d.Whole != ""
	part, size := a.Part, food.Size(a.Size)
	if size == catering { // what one holds is on its label
		return 0, false
	}
	if part != "" && language.IsPack(part) {
		size = ""
	}
	if f != nil && part != "" && part != "piece" {
		if mg, ok := f.PartMg(part); ok {
			return mg, true
		}
		if f.Piece != part && !(a.Loose && named) {
			return 0, false
		}
	}
	if l != nil && l.PieceMg() > 0 && (part == "" || part == "piece" || f != nil) {
		return food.Sized(l.PieceMg(), size, f), true
	}
	if part == "" && food.IsWhole(d.Food, f, strings.HasSuffix(a.Said, "whole")) {
		return 0, false
	}
	if f != nil && f.PieceMg > 0 {
		return f.PieceOf(size), true
	}
	if part == "" || part == "piece" {
		if mg := guessedPiece(d.Food, l, f); mg > 0 {
			return food.Sized(mg, size, f), true
		}
	}
	return 0, false
}
