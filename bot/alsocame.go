package bot

import (
	"slices"

	"scullion/bot/language"
	"scullion/pantry"
)

// camePriced says whether something has a price in a message that goes on: then it came in.
func camePriced(a *language.Again) bool {
	return slices.ContainsFunc(a.Items, func(it language.Item) bool { return it.Cost > 0 })
}

// allPriced says whether a message is nothing but food with prices, two or more: that is a delivery.
func allPriced(a *language.Again) bool {
	return len(a.Items) > 1 && !slices.ContainsFunc(a.Items, func(it language.Item) bool { return it.Cost == 0 || it.Food == "" })
}

// alsoCame writes what came in with the cook's last delivery: "and 3kg flour £2.10, 60 eggs £11". It
// is silent where there was none in fair time.
func (t *turn) alsoCame(a *language.Again, why string) (Reply, error) {
	last, err := t.lastCame(t.cook)
	if err == nil && last.Line == 0 { // one cook unloads what another began to tell
		last, err = t.lastCame("")
	}
	if err != nil || last.Line == 0 && !allPriced(a) {
		return Reply{Kind: Silent}, err
	}
	var drafts []draft
	for _, it := range a.Items {
		d := draft{Act: pantry.Receive, Who: t.cook, Cost: it.Cost, Sign: it.Sign, Day: t.day()}
		if !t.isMore(&d, it, last, false) {
			return Reply{Kind: Silent}, nil
		}
		t.cameFrozen(&d)
		t.saidFrozen(&d, it)
		if t.dated(&d, it); d.Amount.Part == "tin" || d.Amount.Pack == "tin" {
			d.Food = t.tinned(d.Food)
		}
		drafts = append(drafts, d)
	}
	return t.write(drafts, why)
}

// mostBehind is behind how many messages of a cook a delivery is still gone on from.
const mostBehind = 8

// lastCame gives the last entry of a cook's last delivery, or with "" of anybody's; none where that was too long ago.
func (t *turn) lastCame(cook string) (pantry.Entry, error) {
	at := t.said
	for range mostBehind {
		m, err := t.book.Heard(cook, at)
		if err != nil || m == nil || !t.fair(m) {
			return pantry.Entry{}, err
		}
		entries, err := t.book.InForce(m)
		if err != nil {
			return pantry.Entry{}, err
		}
		for _, e := range slices.Backward(entries) {
			if e.Act == pantry.Receive {
				return e, nil
			}
		}
		at = m
	}
	return pantry.Entry{}, nil
}
