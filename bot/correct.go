package bot

import (
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// undo withdraws the last n messages by which this cook logged something.
func (t *turn) undo(n int) (Reply, error) {
	list, err := t.book.LastLogged(t.cook, n)
	if err != nil {
		return Reply{}, err
	}
	if len(list) == 0 {
		return Reply{Kind: Error, Text: "Nothing of yours to take back. Each cook takes back their own."}, nil
	}
	if err := t.book.Ask(t.cook, nil); err != nil {
		return Reply{}, err
	}
	var was, left []string
	var lines []*pantry.Line
	for _, m := range list {
		entries, err := t.book.InForce(m)
		if err != nil {
			return Reply{}, err
		}
		was = append(was, t.list(entries))
		if _, err := t.book.Revise(m, t.said, pantry.Undone, nil); err != nil {
			return Reply{}, err
		}
		for _, e := range entries {
			lines = append(lines, t.k.Line(e.Line))
		}
	}
	for _, l := range lines {
		left = appendOnce(left, l.Name+" "+measure.Say(l.OnHand(), l.Unit))
	}
	return Reply{Kind: Log, Text: "Taken back: " + strings.Join(was, "; ") + ".\nLeft: " + strings.Join(left, ", ") + "."}, nil
}

func appendOnce(list []string, s string) []string {
	for _, x := range list {
		if x == s {
			return list
		}
	}
	return append(list, s)
}

// amend corrects the last thing this cook logged: its amount, its food, its
// dish. Where the message had several entries, the one that the correction
// names, else the last.
func (t *turn) amend(a *language.Amend) (Reply, error) {
	list, err := t.book.LastLogged(t.cook, 1)
	if err != nil || len(list) == 0 {
		return Reply{Kind: Silent}, err
	}
	target := list[0]
	entries, err := t.book.InForce(target)
	if err != nil {
		return Reply{}, err
	}
	last, err := t.lastChanged(target, entries)
	if err != nil {
		return Reply{}, err
	}
	at, r, err := t.amended(entries, last, a)
	if at < 0 || err != nil {
		return r, err
	}
	old := entries[at]
	res, err := t.redone(old, a)
	if err != nil {
		return Reply{}, err
	}
	switch {
	case res.ask != nil && len(res.ask.Options) > 0 && (res.ask.Kind == askWhich || res.ask.Kind == askInstead):
		return Reply{Kind: Asking, Text: res.ask.text(t) + " Say it in full, like \"make that 200g red onion\".",
			Ask: &Ask{About: res.ask.About, Options: labels(res.ask.Options)}}, nil
	case res.entry == nil:
		return Reply{Kind: Silent}, nil
	}
	e := *res.entry
	entries[at] = e
	effects, err := t.book.Revise(target, t.said, pantry.Corrected, entries)
	if err != nil {
		return Reply{}, err
	}
	if err := t.dishes([]pantry.Entry{e}); err != nil {
		return Reply{}, err
	}
	r = t.logged([]pantry.Entry{e}, effects[at:at+1])
	was := thing(t.k.Line(old.Line), old) + verbal(old)
	r.Text = "Was " + was + ". Now: " + r.Text
	return r, nil
}

func labels(options []option) (list []string) {
	for _, o := range options {
		list = append(list, o.Label)
	}
	return list
}

// lastChanged is the entry that a correction without a name is about: the one
// that the cook corrected last ("make that 3 onions", "no, 4"), else the last.
func (t *turn) lastChanged(m *pantry.Message, entries []pantry.Entry) (int, error) {
	at := len(entries) - 1
	before, err := t.book.Before(m)
	if err != nil || len(before) != len(entries) {
		return at, err
	}
	for i := range entries {
		if entries[i] != before[i] {
			return i, nil
		}
	}
	return at, nil
}

// amended finds which entry is meant; -1 where the correction makes no sense
// of any, which is then most likely talk.
func (t *turn) amended(entries []pantry.Entry, at int, a *language.Amend) (int, Reply, error) {
	silent := Reply{Kind: Silent}
	if a.Food == "" {
		return at, silent, nil
	}
	h := t.ear.find(a.Food)
	if len(h.lines) == 0 && h.food == nil || h.sound && a.Amount.How == language.Unsaid {
		return -1, silent, nil
	}
	if a.Amount.How == language.Unsaid { // "I meant celeriac": another food
		return at, silent, nil
	}
	for i, e := range entries { // "make that 200g leek": of this one
		for _, l := range h.lines {
			if e.Line == l.ID {
				return i, silent, nil
			}
		}
	}
	return at, silent, nil
}

// redone works the entry out anew with what the correction changes, on the
// stock as it would be without the old entry.
func (t *turn) redone(old pantry.Entry, a *language.Amend) (result, error) {
	d := draft{Act: old.Act, Line: old.Line, Dish: old.Dish, Who: old.Cook, Trim: old.Trim, Cost: old.Lot.Cost, Label: old.Lot.Label, Yes: true}
	if old.Lot.Label {
		d.Date = old.Lot.Date
	}
	d.Amount = amountAgain(old, t.k.Line(old.Line).Unit)
	if a.Amount.How != language.Unsaid {
		d.Amount = t.inUnitOf(old, a.Amount)
	}
	if a.Dish != "" {
		d.Dish, _ = t.place(old.Act, a.Dish)
	}
	t.setAside(old)
	if a.Food != "" {
		d.Line, d.Food = 0, a.Food
	}
	return t.resolve(&d)
}

// setAside gives back, in what this message reckons with, what an entry took.
func (t *turn) setAside(old pantry.Entry) {
	l := t.now(t.k.Line(old.Line))
	switch {
	case old.Act == pantry.Use, old.Act == pantry.Bin && !old.Trim:
		l.Apply(pantry.Entry{Act: pantry.Return, Line: old.Line, Amount: old.Amount})
	case old.Act == pantry.Claim:
		l.Apply(pantry.Entry{Act: pantry.Release, Line: old.Line, Amount: old.Amount, Cook: old.Cook, Dish: old.Dish})
	}
}

// amountAgain is the amount of an entry, as if it were said now.
func amountAgain(e pantry.Entry, unit measure.Kind) language.Amount {
	if e.Pieces != 0 {
		return language.Amount{How: language.Pieces, N: measure.Ratio{Num: e.Pieces, Den: 1000}, Part: e.Piece, Said: e.Said, Approx: e.Approx}
	}
	return language.Amount{How: language.Measured, Base: e.Amount, Kind: unit, Said: e.Said, Approx: e.Approx}
}

// inUnitOf gives a bare number ("no, 150") the unit of what it corrects.
func (t *turn) inUnitOf(old pantry.Entry, a language.Amount) language.Amount {
	if a.How != language.Pieces || a.Part != "" || old.Pieces != 0 && old.Piece == "" {
		return a
	}
	unit := strings.TrimLeft(old.Said, "0123456789.,/½⅓⅔¼¾ x-")
	if i := strings.LastIndexByte(unit, ' '); i >= 0 {
		unit = unit[i+1:]
	}
	if unit == "" {
		unit = t.k.Line(old.Line).Unit.String()
	}
	if b := t.reader().Answer(a.Said + " " + unit).Amount; b.How != language.Unsaid {
		return b
	}
	return a
}
