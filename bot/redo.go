package bot

import (
	"strings"
	"unicode/utf8"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// redone works the entry of a message out anew with what the correction changes, on the
// stock as it would be without the old entry.
func (t *turn) redone(target *pantry.Message, old pantry.Entry, a *language.Amend) (result, error) {
	d := t.againIn(target, old, a)
	said := d
	if d.Amount.How == language.Unsaid && old.Said != "" {
		return result{}, nil
	}
	if err := t.setAside(old); err != nil {
		return result{}, err
	}
	res, err := t.resolve(&d)
	if err == nil && res.ask == nil && res.entry != nil && t.leaps(old, *res.entry, a) {
		l := t.k.Line(res.entry.Line)
		res = result{ask: &pending{Kind: askLeap, About: l.Name, Was: measure.Say(old.Amount, l.Unit), Now: measure.Say(res.entry.Amount, l.Unit), Draft: said, Options: []option{{Label: "yes", Yes: true}}}}
	}
	return res, err
}

// leaps says whether a bare number ("no, 4") is so far from what it corrects
// that it may be about something else.
func (t *turn) leaps(old, e pantry.Entry, a *language.Amend) bool {
	bare := a.Food == "" && a.Amount.How == language.Pieces && a.Amount.Part == ""
	return bare && old.Line == e.Line && (e.Amount > 10*old.Amount || old.Amount > 10*e.Amount)
}

// again drafts an entry with what a correction changes.
func (t *turn) again(old pantry.Entry, a *language.Amend) draft {
	d := draft{Act: old.Act, Line: old.Line, Dish: old.Dish, Who: old.Cook, Trim: old.Trim, Cost: old.Lot.Cost, Sign: old.Sign, Label: old.Lot.Label, Best: old.Lot.Best && old.Lot.Label,
		Day: pantry.DateOf(old.At.In(t.m.At.Location())), When: old.At}
	if old.Lot.Label {
		d.Date = old.Lot.Date
	}
	if old.Act == pantry.Count && old.Lot.State != "" {
		d.State, d.Yes = old.Lot.State, true
	}
	d.Amount = amountAgain(old, t.k.Line(old.Line).Unit)
	switch {
	case a.Amount.How != language.Unsaid && a.Food != "":
		d.Amount = a.Amount
	case a.Amount.How == language.Pieces && a.Amount.Part == "" && a.Amount.N.Num < a.Amount.N.Den && old.Pieces == 0 && !strings.ContainsAny(a.Amount.Said, digits): // "no, half"
		d.Amount = scaled(d.Amount, a.Amount.N)
	case a.Amount.How != language.Unsaid:
		d.Amount = t.inUnitOf(old, a.Amount)
	case a.Scale.Den > 0:
		d.Amount = scaled(d.Amount, a.Scale)
	case a.Unit != "":
		d.Amount = t.inUnit(old.Said, a.Unit)
	case a.Food != "":
		d.Amount = t.shareAgain(old, d.Amount)
	}
	d.Knowing = a.Food == "" && a.Dish == "" && a.Act == "" // it was asked about before it was written
	if a.Act != "" {
		d.Act = pantry.Act(a.Act)
		if d.Act == pantry.Bin {
			d.Dish = ""
		}
	}
	if a.Dish != "" {
		d.Dish, _ = t.place(old.Act, a.Dish)
	}
	d.Food = t.k.Line(old.Line).Name
	if a.Food != "" {
		d.Line, d.Food = 0, a.Food
	}
	return d
}

// setAside gives back, in what this message reckons with, what an entry took.
func (t *turn) setAside(old pantry.Entry) error {
	l, err := t.now(t.k.Line(old.Line))
	switch {
	case err != nil:
	case (old.Act == pantry.Use || old.Act == pantry.Bin) && !old.Trim:
		_, err = l.Apply(pantry.Entry{Act: pantry.Return, Line: old.Line, Amount: old.Amount})
	case old.Act == pantry.Claim:
		_, err = l.Apply(pantry.Entry{Act: pantry.Release, Line: old.Line, Amount: old.Amount, Cook: old.Cook, Dish: old.Dish})
	}
	return err
}

// amountAgain is the amount of an entry, as if it were said now.
func amountAgain(e pantry.Entry, unit measure.Kind) language.Amount {
	switch {
	case e.Pieces != 0 && !e.Approx: // counted and weighed
		return language.Amount{How: language.Measured, Base: e.Amount, Kind: unit, Count: measure.Ratio{Num: e.Pieces, Den: 1000}, Both: true, Said: e.Said}
	case e.Pieces != 0:
		return language.Amount{How: language.Pieces, N: measure.Ratio{Num: e.Pieces, Den: 1000}, Part: e.Piece, Said: e.Said, Approx: e.Approx}
	}
	return language.Amount{How: language.Measured, Base: e.Amount, Kind: unit, Said: e.Said, Approx: e.Approx}
}

// shareAgain is the amount of an entry where it was said without a figure: of
// another food, "the rest of" is as much as there is of that.
func (t *turn) shareAgain(old pantry.Entry, a language.Amount) language.Amount {
	if old.Said == "" && old.Act == pantry.Claim {
		return language.Amount{}
	}
	if said := t.reader().Answer(old.Said).Amount; said.How == language.Share {
		return said
	}
	return a
}

// scaled is an amount so many times over.
func scaled(a language.Amount, by measure.Ratio) language.Amount {
	if base, err := by.Of(a.Base); err == nil {
		a.Base = base
	}
	if a.N.Den > 0 {
		a.N, _ = a.N.Times(by)
	}
	if a.Count.Den > 0 {
		a.Count, _ = a.Count.Times(by)
	}
	if a.Said = measure.Say(a.Base, a.Kind); a.How == language.Pieces {
		milli, _ := a.N.Of(1000)
		a.Said = measure.SayPieces(int64(milli))
	}
	return a
}

// inUnit gives the number of what was said another unit: "2lb" is 2 kg. Unsaid
// where there is no number in it.
func (t *turn) inUnit(said, unit string) language.Amount {
	number := strings.TrimRightFunc(said, func(r rune) bool { return !strings.ContainsRune(digits, r) })
	if number == "" { // two pounds
		number, _, _ = strings.Cut(said, " ")
	}
	if a := t.reader().Answer(number + " " + unit).Amount; a.How == language.Measured && !a.Vague() {
		return a
	}
	return language.Amount{}
}

// inUnitOf gives a bare number ("no, 150") the unit of what it corrects.
func (t *turn) inUnitOf(old pantry.Entry, a language.Amount) language.Amount {
	if a.How != language.Pieces || a.Part != "" || old.Pieces != 0 && old.Piece == "" {
		return a
	}
	if old.Act == pantry.Count && old.Lot.State == "" {
		if b, ok := t.onScales(a, t.k.Line(old.Line)); ok {
			return b
		}
	}
	if n, _, ok := strings.Cut(old.Said, " portion"); ok { // of 2 portions, now 3
		if was := t.reader().Answer(n).Amount; was.How == language.Pieces && was.N.Num > 0 {
			if by, ok := a.N.Times(measure.Ratio{Num: was.N.Den, Den: was.N.Num}); ok {
				if base, err := by.Of(old.Amount); err == nil {
					return language.Amount{How: language.Measured, Base: base, Kind: t.k.Line(old.Line).Unit, Said: a.Said + " portions", Approx: true}
				}
			}
		}
	}
	unit := lastWord(strings.TrimSpace(old.Said))
	if i := strings.LastIndexAny(old.Said, digits); i >= 0 {
		_, n := utf8.DecodeRuneInString(old.Said[i:])
		unit = lastWord(strings.TrimSpace(old.Said[i+n:]))
	}
	if b := t.reader().Answer(a.Said + " " + unit).Amount; b.How == language.Measured || b.Part != "" {
		return b
	}
	if b := t.reader().Answer(a.Said + " " + t.k.Line(old.Line).Unit.String()).Amount; b.How == language.Measured {
		return b
	}
	return a
}
