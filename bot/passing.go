package bot

import (
	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
)

// passedAgain corrects how much was thrown or given away out of a pot, and with it what was put by
// for that: so much may have been there as was said now.
func (t *turn) passedAgain(entries []pantry.Entry, at int, a *language.Amend, res result) (result, error) {
	put, e := &entries[at-1], &entries[at]
	if a.Food != "" || a.Act != "" || a.Dish != "" {
		return res, nil
	}
	s, err := t.sheetOf(put.Dish)
	if err != nil {
		return res, err
	}
	d := t.again(*e, a) // "no, 1.3" has the unit of what was said
	q, heads := language.Question{Amount: d.Amount}, 0
	if s != nil {
		heads = s.Portions
	}
	if a.Amount.How == language.Pieces && a.Amount.N.Den == 1 && a.Amount.Part == "" && sayPortions(*e) != "" && heads > 0 { // "make that 3"
		q.N, q.Amount = int(a.Amount.N.Num), language.Amount{}
	}
	if q.N == 0 && res.ask != nil && res.ask.Kind == askLeap {
		return res, nil
	}
	m, ok := d.Amount, d.Amount.How == language.Measured // of no dish that is known: plate waste
	if s != nil {
		m, ok = partOf(s, &q)
	}
	if !ok || m.Kind != t.k.Line(e.Line).Unit {
		return res, nil
	}
	if s != nil && q.N == 0 && put.Dish == t.k.Line(e.Line).Name {
		d.Amount = m
		if ask, err := t.overPot(&d, s, put.Amount); ask != nil || err != nil {
			return result{ask: ask}, err
		}
	}
	now := *e
	now.Amount, now.Approx, now.Said = m.Base, m.Approx, m.Said
	passAll(entries, at, now)
	return result{entry: &now}, nil
}

// passAll sets what was thrown or given away out of a pot to what an entry says now, and with it what was
// put by for that.
func passAll(entries []pantry.Entry, at int, e pantry.Entry) {
	put := &entries[at-1]
	put.Amount, put.Approx, put.Said = e.Amount, e.Approx, e.Said
	entries[at] = e
}

// isPassing says whether an entry puts by what the next one takes away whole: then that says all.
func isPassing(entries []pantry.Entry, i int) bool {
	if i+1 >= len(entries) {
		return false
	}
	e, next := entries[i], entries[i+1]
	return e.Act == pantry.Make && next.Line == e.Line && next.Amount == e.Amount && (next.Act == pantry.Bin || next.Act == pantry.Use || next.Act == pantry.Count && next.Lot.State == food.Frozen)
}
