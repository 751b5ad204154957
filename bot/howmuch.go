package bot

import (
	"errors"
	"fmt"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// measured works out how much, and asks where that is not clear or looks odd.
// l is nil for a line still to be made.
func (t *turn) measured(d *draft, l *pantry.Line, f *food.Food, unit measure.Kind) (result, error) {
	cook := d.Who
	if cook == "" {
		cook = t.cook
	}
	if d.Back && l != nil {
		if res := t.backInFreezer(d, l); res.tell != "" {
			return res, nil
		}
	}
	if d.State != "" {
		return t.turned(d, l, f, cook)
	}
	base, pieces, approx, err := t.weigh(*d, l, f, unit)
	if a := d.Amount; d.Act == pantry.Make && a.How == language.Pieces && a.N.Den == 1 && a.N.Num > 1 {
		if drawn := t.drawn(); drawn > 0 && (err != nil || pieces == 0 || base > drawn) { // no more comes of food than went in
			base, pieces, approx, err = drawn, a.N.Num*1000, true, nil
		}
	}
	switch {
	case errors.Is(err, errNoWeight):
		return result{ask: &pending{Kind: askAmount, About: t.called(d, l), Draft: *d, Part: d.Amount.Part}}, nil
	case errors.Is(err, measure.ErrTooLarge):
		return result{tell: "Not written: that is more than a kitchen holds. Say the amount again.", fault: true}, nil
	case err != nil:
		return result{}, err
	}
	if d.Trim && pieces != 0 && f != nil { // "binned 8 leek tops": of the leeks the tops
		if off, ok := f.Trimming(d.Off); ok {
			base, pieces, approx = base*measure.Amount(off.Share)/1000, 0, true
		} else if f.Refuse > 0 {
			base, pieces, approx = base*measure.Amount(f.Refuse)/100, 0, true
		}
	}
	if d.Amount.How == language.Unsaid {
		switch {
		case d.Doubt, d.Act == pantry.Receive && !d.Plainly && !d.Amount.Some: // "got the leeks on"
			return result{}, nil
		case d.Amount.Some && d.Act != pantry.Claim, d.Act == pantry.Use, d.Act == pantry.Bin, d.Act == pantry.Return, d.Act == pantry.Receive, d.Act == pantry.Count:
			return result{ask: t.howMuch(d, l)}, nil
		case d.Act == pantry.Make:
			if base, approx = t.drawn(), true; base == 0 { // "made everything out of nothing"
				return result{}, nil
			}
		case d.Act == pantry.Claim:
			base = l.Free()
		case d.Act == pantry.Release:
			base = claimedBy(l, cook, d.Dish)
		}
	}
	if d.Act == pantry.Release { // no more can be given back than is held
		base = min(base, claimedBy(l, cook, d.Dish))
	}
	if held := claimedBy(l, cook, ""); d.Only && l != nil && held > base { // "only need 300g" of 500
		d.Act, d.Dish, base, pieces = pantry.Release, "", held-base, 0
	}
	if r, ok := t.odd(d, l, base, cook); ok {
		return r, nil
	}
	if q := eachOrAll(d, l, f, base); q != nil && !d.Told {
		q.About = t.called(d, l)
		return result{ask: q}, nil
	}
	if q, err := t.mayNot(d, l); err != nil {
		return result{}, err
	} else if q != nil {
		t.inDoubt += base
		return result{ask: q}, nil
	}
	if l == nil {
		if l, err = t.makeLine(d); err != nil {
			return result{}, err
		}
		if l, err = t.now(l); err != nil {
			return result{}, err
		}
	}
	var onePiece measure.Amount
	if d.Act == pantry.Count && !approx {
		said := base
		base, pieces, onePiece = weighedAgain(d.Amount, l, f, base, pieces)
		approx = base != said
	}
	if d.Act == pantry.Count && onePiece == 0 && d.Amount.How != language.Share {
		whole, frozen, res := t.besideFrozen(d, l, base)
		if res.ask != nil || res.tell != "" {
			return res, nil
		}
		if frozen > 0 {
			base, pieces, approx = whole, 0, approx || d.Amount.How == language.Pieces
			t.note = t.sayBesideFrozen(d, l, frozen)
		}
	}
	e := pantry.Entry{Act: d.Act, Line: l.ID, Amount: base, Pieces: pieces, Approx: approx, Trim: d.Trim, Dish: d.Dish, Cook: cook, At: t.when(d), Said: d.Amount.Said}
	if d.Amount.Part != "" && pieces != 0 {
		e.Piece = d.Amount.Part
	}
	if d.Act == pantry.Receive || d.Act == pantry.Make {
		e.Lot = t.terms(d, l, f, base, pieces)
		if e.Lot.Cost != 0 {
			e.Sign = d.Sign
		}
	}
	if onePiece > 0 {
		e.Lot.PieceMg, e.Lot.Weighed = onePiece, true
	}
	if e.Trim {
		t.trimmed = dinner(f, d.Off)
	}
	e.Trim = e.Trim || d.Act == pantry.Use && offDrawn(l, f, d.Off, base)
	if e.Act == pantry.Count && l.Made > 0 && base > 0 {
		t.warnPast(l, f)
		if err := t.warnOver(l); err != nil {
			return result{}, err
		}
	}
	if e.Act == pantry.Use && !e.Trim {
		if e.Dish != pantry.AwayTo(supplier) {
			t.warnPast(l, f)
			if err := t.warnOver(l); err != nil {
				return result{}, err
			}
		}
		_, err = t.drew.drawing(e, l, f, t.day())
	} else {
		_, err = l.Apply(e)
	}
	return result{entry: &e}, err
}

// odd catches what should be asked or told before it is written.
func (t *turn) odd(d *draft, l *pantry.Line, base measure.Amount, cook string) (result, bool) {
	name := t.called(d, l)
	draws := (d.Act == pantry.Use || d.Act == pantry.Bin) && !d.Trim
	manyPieces := d.Amount.How == language.Pieces && d.Amount.Part == "" && d.Amount.N.Num >= 50*d.Amount.N.Den
	switch {
	case base == 0 && d.Act == pantry.Release:
		return result{tell: "You hold no claim on " + name + "."}, true
	case base == 0 && d.Act == pantry.Claim:
		return result{tell: "No " + name + " is free."}, true
	case base == 0 && d.Amount.How == language.Share && d.Act != pantry.Count:
		return result{tell: "No " + name + " is on hand, so nothing was written."}, true
	case base == 0 && d.Act != pantry.Count:
		return result{tell: "Not written: " + d.Amount.Said + " of " + name + " is nothing.", fault: true}, true
	case t.leftOverRaw(d, l, base):
		return result{tell: fmt.Sprintf(`Cooked, or raw? Nothing was written. "made %s cooked %s" puts by what was cooked; "%s raw %s left" counts the raw.`, strings.ReplaceAll(measure.Say(base, l.Unit), " ", ""), strings.ToLower(d.Food), d.Amount.Said, strings.ToLower(d.Food)), fault: true}, true
	case d.Doubt && !d.Yes:
		return result{ask: &pending{Kind: askDone, About: name, Draft: *d, Options: []option{{Label: "yes", Yes: true}}}}, true
	case draws && !d.Yes && base > 2*l.OnHand() && manyPieces: // "used 200 leek"
		g := measure.Amount(d.Amount.N.Num/d.Amount.N.Den) * 1000
		return result{ask: &pending{Kind: askUnit, About: name, Draft: *d, Options: []option{{Label: measure.Say(g, l.Unit), Base: g, Kind: l.Unit}, {Label: d.Amount.Said + " of them", Yes: true}}}}, true
	case draws && !d.Yes && base > 2*l.OnHand():
		return result{ask: &pending{Kind: askMuch, About: name, Draft: *d, Options: []option{{Label: "yes", Yes: true}, {Label: "all of it", All: true}}}}, true
	}
	return result{}, false
}

func (t *turn) called(d *draft, l *pantry.Line) string {
	switch {
	case l != nil:
		return l.Name
	case d.New != nil:
		return d.New.Name
	}
	return strings.ToLower(d.Food)
}

func claimedBy(l *pantry.Line, cook, dish string) (sum measure.Amount) {
	if l == nil {
		return 0
	}
	for _, h := range l.Holds {
		if h.Cook == cook && (dish == "" || dish == h.Dish) {
			sum += h.Amount
		}
	}
	return sum
}

// drawn is the weight of what this message has drawn so far: what was turned
// into something weighs about as much as what it was made of.
func (t *turn) drawn() (sum measure.Amount) {
	for _, e := range t.ready {
		if e.Act == pantry.Use {
			sum += e.Amount
		}
	}
	return sum + t.inDoubt
}
