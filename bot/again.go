package bot

import (
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// fairTime is how long what a cook said may be leaned on: "another 40g" an hour
// later is about something else. Common practice, no source.
const fairTime = 30 * time.Minute

// fair says whether a message is recent enough to lean on.
func (t *turn) fair(m *pantry.Message) bool {
	gap := t.said.At.Sub(m.At)
	return gap >= 0 && gap <= fairTime
}

// justWritten gives the message with the entries that the cook's last message
// wrote or corrected, and those; none where the cook has said anything else
// since, or that was too long ago.
func (t *turn) justWritten() (*pantry.Message, []pantry.Entry, error) {
	return t.wroteLast(t.cook)
}

// wroteLast is justWritten of a cook, or with "" of all.
func (t *turn) wroteLast(cook string) (*pantry.Message, []pantry.Entry, error) {
	m, err := t.book.Heard(cook, t.said)
	if err != nil || m == nil || m.Gone || !t.fair(m) {
		return nil, nil, err
	}
	entries, err := t.book.InForce(m)
	if err != nil || len(entries) > 0 {
		return m, entries, err
	}
	others, err := t.book.Revised(m)
	if err != nil {
		return nil, nil, err
	}
	on, _, err := t.running()
	others = slices.DeleteFunc(others, func(o *pantry.Message) bool { return o.ID == on.Message }) // what a plan keeps nobody has said
	if err != nil || len(others) == 0 {
		return nil, nil, err
	}
	entries, err = t.book.InForce(others[0])
	return others[0], entries, err
}

// goOn does what a message says that leans on its cook's last entry, and is
// silent where there is none that it fits.
func (t *turn) goOn(a *language.Again, why string) (Reply, error) {
	silent := Reply{Kind: Silent}
	if camePriced(a) {
		return t.alsoCame(a, why)
	}
	target, entries, err := t.justWritten()
	if err != nil || len(entries) == 0 || t.isCook(a.Dish) {
		return silent, err
	}
	last := entries[len(entries)-1]
	if a.Went {
		return t.wentIn(target, entries, a.Dish)
	}
	d := draft{Act: last.Act, Who: last.Cook, Dish: last.Dish, Trim: last.Trim}
	switch {
	case last.Act == pantry.Count || last.Act == pantry.Make || last.Act == pantry.Release:
		return silent, nil
	case a.There && (last.Dish == "" || last.Act != pantry.Use):
		return silent, nil
	case a.Dish != "":
		d.Dish, _ = t.place(last.Act, a.Dish)
	}
	var drafts []draft
	ours := len(a.Items) == 0
	for _, it := range a.Items {
		more := d
		is := t.isMore(&more, it, last, a.Same)
		weighed := last.Act == pantry.Use && last.Dish != "" && it.Food != "" && it.Amount.How == language.Measured && !it.Amount.Vague()
		if !is && !weighed {
			return silent, nil
		}
		h := t.ear.find(it.Food)
		ours = ours || is || h.exact && h.food != nil
		drafts = append(drafts, more) // what is not here, as flour out of the cupboard, is asked about
	}
	if !ours {
		return silent, nil
	}
	if len(a.Items) == 0 {
		if last.Act != pantry.Use && last.Act != pantry.Claim || len(entries) > 1 {
			return silent, nil
		}
		d.Line, d.Food = last.Line, t.k.Line(last.Line).Name
		d.Amount = amountAgain(last, t.k.Line(last.Line).Unit)
		drafts = append(drafts, d)
	}
	return t.write(drafts, why)
}

// isMore completes the draft of an item that goes on from an entry; it is none
// where the food is not plainly one of ours.
func (t *turn) isMore(d *draft, it language.Item, last pantry.Entry, same bool) bool {
	l := t.k.Line(last.Line)
	d.Food, d.Amount = it.Food, it.Amount
	if d.Act == pantry.Receive {
		d.Cost, d.Sign = it.Cost, it.Sign
	}
	switch {
	case same:
		d.Amount = amountAgain(last, l.Unit)
	case it.Food == "" && last.Pieces == 0 && it.Amount.How == language.Pieces && it.Amount.Part == "" && it.Amount.N == measure.Whole(1): // "another one", of what was weighed
		return false
	case it.Food == "" && last.Pieces == 0:
		d.Amount = t.inUnitOf(last, it.Amount)
		if d.Amount.How != language.Measured {
			return false
		}
	}
	if it.Food == "" {
		d.Line, d.Food = l.ID, l.Name
		return true
	}
	d.Trim = false
	h := t.ear.find(it.Food)
	counted := d.Amount.How == language.Pieces && (h.food == nil || h.food.PieceMg == 0)
	if d.Act == pantry.Receive && (d.Amount.How == language.Measured && !d.Amount.Vague() || h.food != nil && food.Piece(d.Food) > 0) { // what no table knows may come in as well
		return true
	}
	return h.exact && (len(h.lines) > 0 || d.Act == pantry.Receive && !counted) // "plus 2 coffees"
}

// wentIn notes the dish of what was used before without one: "for the salad",
// "those went in the cottage pie". It was used once.
func (t *turn) wentIn(target *pantry.Message, entries []pantry.Entry, dish string) (Reply, error) {
	last := entries[len(entries)-1]
	without := !slices.ContainsFunc(entries, func(e pantry.Entry) bool { return e.Dish != "" || e.Act != last.Act })
	if d, _ := t.place(last.Act, dish); d == "" || !without || last.Act != pantry.Use && last.Act != pantry.Claim {
		return Reply{Kind: Silent}, nil
	}
	return t.mend(target, entries, len(entries)-1, &language.Amend{Dish: dish})
}

// leanOn gives the entry that "it", "them" and "the rest" of an act are about:
// the cook's own last. Where the cook has lately written none, it is what was
// written just before by another, if that was of one food and it is said what
// became of how much: "used half of it in the tiramisu", "I'll take the rest".
func (t *turn) leanOn(d draft, more bool) (e pantry.Entry, ok bool, err error) {
	m, entries, err := t.lastWritten()
	if d.Act == pantry.Use && d.Amount.How == language.Unsaid && severalLines(entries) { // "pureed them" is none of a delivery's twelve foods
		return e, false, err
	}
	if err != nil || len(entries) > 0 && t.fair(m) {
		return lastOf(entries), len(entries) > 0, err
	}
	figure := d.Amount.How == language.Measured || d.Amount.How == language.Share
	if figure && (d.Act == pantry.Claim && !more || d.Act == pantry.Use && d.Dish != "") {
		_, others, err := t.wroteLast("")
		if err != nil || len(others) > 0 && !severalLines(others) {
			return lastOf(others), len(others) > 0, err
		}
	}
	return lastOf(entries), len(entries) > 0, nil
}

// severalLines says whether entries are of more than one line.
func severalLines(entries []pantry.Entry) bool {
	return slices.ContainsFunc(entries, func(e pantry.Entry) bool { return e.Line != entries[0].Line })
}

// goesOn completes the draft of an act on "it" or "2 more" by the entry that it
// leans on; false where the two do not go together.
func (t *turn) goesOn(d *draft, it language.Item, on pantry.Entry) bool {
	switch {
	case d.Act == pantry.Receive && on.Act != pantry.Receive: // "another 50 just turned up" may be guests
		return false
	case on.Act == pantry.Count && d.Amount.How == language.Unsaid && !d.Amount.Some && (d.Act == pantry.Bin || d.Act == pantry.Use): // "only 120g yoghurt left", "binned it"
		d.Amount = language.Amount{How: language.Share, N: measure.Whole(1), Said: "it"}
	case on.Dish != "" && d.Dish == "" && d.Amount.How == language.Share && strings.Contains(strings.ToLower(t.m.Text), "finished"): // "finished it": the dish
		return false
	case it.More && on.Pieces == 0 && d.Amount.How == language.Pieces && d.Amount.Part == "" && d.Amount.N.Num < smallestBare*d.Amount.N.Den: // "need 2 more on the pass"
		return false
	case it.More:
		if d.Dish == "" && d.Act == on.Act {
			d.Dish = on.Dish
		}
		if on.Pieces == 0 {
			d.Amount = t.inUnitOf(on, d.Amount)
		}
	}
	return true
}

// lastFood is the food that this cook last logged; "" none.
func (t *turn) lastFood() (string, error) {
	_, entries, err := t.lastWritten()
	if err != nil || len(entries) == 0 {
		return "", err
	}
	return t.k.Line(lastOf(entries).Line).Name, nil
}

func lastOf(entries []pantry.Entry) pantry.Entry {
	if len(entries) == 0 {
		return pantry.Entry{}
	}
	return entries[len(entries)-1]
}
