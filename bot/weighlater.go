package bot

import (
	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// weighedLater takes what one weighs of food that was counted, and whose weight was a guess, as what it
// weighed when it came: the guess was wrong, and nothing is missing. Done is false where the weight was
// known, or some of the food has been used since.
func (t *turn) weighedLater(drafts []draft) (r Reply, done bool, err error) {
	if len(drafts) != 1 || drafts[0].Act != pantry.Count || drafts[0].State != "" || !drafts[0].Amount.Both || drafts[0].Amount.Count.Num <= 0 {
		return r, false, nil
	}
	h := t.ear.find(drafts[0].Food)
	if !h.exact || len(h.lines) != 1 {
		return r, false, nil
	}
	l := h.lines[0]
	target, err := t.book.CameWith(l.ID)
	if err != nil || target == nil || !t.fair(target) || sayGuessed(l, t.ear.foodOf(l)) == "" {
		return r, false, err
	}
	since, err := t.book.Since(l.ID, target)
	if err != nil || len(since) > 0 {
		return r, false, err
	}
	entries, err := t.book.InForce(target)
	if err != nil {
		return r, false, err
	}
	for i, e := range entries {
		if e.Line != l.ID || e.Pieces <= 0 || e.Act != pantry.Receive && e.Act != pantry.Make {
			continue
		}
		a := drafts[0].Amount
		one, err := (measure.Ratio{Num: a.Count.Den, Den: a.Count.Num}).Of(a.Base)
		if err != nil {
			return r, false, nil
		}
		n := measure.Ratio{Num: e.Pieces, Den: 1000}
		all, err := n.Of(one)
		if err != nil || all == 0 || a.Kind != l.Unit {
			return r, false, nil
		}
		now := language.Amount{How: language.Measured, Base: all, Kind: l.Unit, Count: n, Both: true, Said: measure.SayPieces(e.Pieces) + " x " + measure.Say(one, l.Unit)}
		r, err = t.mend(target, entries, i, &language.Amend{Amount: now})
		return r, r.Kind != Silent, err
	}
	return r, false, nil
}
