package bot

import (
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// undoQuestion takes back what the cook said last where it is still being
// asked about: the question, and what of the message was written.
func (t *turn) undoQuestion() (Reply, error) {
	q, message, err := t.open()
	if err != nil {
		return Reply{}, err
	}
	if err := t.book.Ask(t.cook, nil); err != nil {
		return Reply{}, err
	}
	asked, err := t.book.Message(message)
	if err != nil {
		return Reply{}, err
	}
	if entries, err := t.book.InForce(asked); err != nil || len(entries) > 0 && q.Replace == 0 {
		if err != nil {
			return Reply{}, err
		}
		return t.takeBack([]*pantry.Message{asked})
	}
	return Reply{Kind: Answer, Text: "Left out: " + q.About + "."}, nil
}

// undo withdraws the last n messages by which this cook logged something; with
// a food named, the last one about it.
func (t *turn) undo(n int, foodName string) (Reply, error) {
	list, err := t.book.LastLogged(t.cook, max(n, undoSearch))
	if err != nil {
		return Reply{}, err
	}
	if foodName != "" {
		if h := t.ear.find(foodName); len(h.lines) == 0 { // "undo your apron"
			return Reply{Kind: Silent}, nil
		}
		if list, err = t.about(list, foodName); err != nil {
			return Reply{}, err
		}
	}
	return t.takeBack(list[:min(n, len(list))])
}

// undoSearch is how many of a cook's messages "undo the leek" looks through.
const undoSearch = 10

// about gives those messages that have an entry of the food.
func (t *turn) about(list []*pantry.Message, foodName string) (kept []*pantry.Message, err error) {
	lines := t.ear.find(foodName).lines
	for _, m := range list {
		entries, err := t.book.InForce(m)
		if err != nil {
			return nil, err
		}
		if slices.ContainsFunc(entries, func(e pantry.Entry) bool {
			return slices.ContainsFunc(lines, func(l *pantry.Line) bool { return l.ID == e.Line })
		}) {
			kept = append(kept, m)
		}
	}
	return kept, nil
}

func (t *turn) takeBack(list []*pantry.Message) (Reply, error) {
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
		said, err := t.stood(m)
		if err != nil {
			return Reply{}, err
		}
		was = append(was, said)
		if _, err := t.book.Revise(m, t.said, pantry.Undone, nil); err != nil {
			return Reply{}, err
		}
		for _, e := range entries {
			lines = append(lines, t.k.Line(e.Line))
		}
	}
	t.ear = t.b.ears.of(t.k)
	for _, l := range lines {
		left = appendOnce(left, l.Name+" "+measure.Say(l.OnHand(), l.Unit))
	}
	r := Reply{Kind: Log, Text: "Taken back: " + strings.Join(was, "; ") + "."}
	if len(left) > 0 {
		r.Text += "\nLeft: " + strings.Join(left, ", ") + "."
	}
	return r, nil
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
	target, entries, err := t.lastWritten()
	if err != nil || len(entries) == 0 {
		return Reply{Kind: Silent}, err
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
	if res.ask == nil && res.entry != nil && t.leaps(old, *res.entry, a) {
		l := t.k.Line(res.entry.Line)
		res.ask = &pending{Kind: askLeap, About: l.Name, Was: measure.Say(old.Amount, l.Unit), Now: measure.Say(res.entry.Amount, l.Unit), Draft: t.again(old, a), Options: []option{{Label: "yes", Yes: true}}}
	}
	if res.ask != nil && (res.ask.Kind == askMuch || res.ask.Kind == askLeap || res.ask.Kind == askUnit) {
		res.ask.Replace = at + 1
		return t.ask([]pending{*res.ask}, target)
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
	r = t.noted([]pantry.Entry{e}, effects[at:at+1])
	was := thing(t.k.Line(old.Line), old) + verbal(old)
	r.Text = "Was " + was + ". Now: " + r.Text
	return r, nil
}

// lastWritten gives the cook's last message with entries, and those; none where
// the cook has lately written none.
func (t *turn) lastWritten() (*pantry.Message, []pantry.Entry, error) {
	list, err := t.book.LastLogged(t.cook, undoSearch)
	if err != nil {
		return nil, nil, err
	}
	for _, m := range list {
		if entries, err := t.book.InForce(m); err != nil || len(entries) > 0 { // not a lesson
			return m, entries, err
		}
	}
	return nil, nil, nil
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
		return likest(entries, at, a.Amount), silent, nil
	}
	h := t.ear.find(a.Food)
	if name := t.k.Line(entries[at].Line).Name; len(h.lines) == 0 { // "I meant brown", of the onions
		if other := t.ear.find(a.Food + " " + name[strings.LastIndexByte(name, ' ')+1:]); len(other.lines) == 1 && other.exact {
			a.Food, h = other.lines[0].Name, other
		}
	}
	if len(h.lines) == 0 && slices.Contains(t.k.Dishes, t.dish(strings.ToLower(a.Food))) { // "I meant the soup"
		a.Food, a.Dish = "", strings.ToLower(a.Food)
		return at, silent, nil
	}
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

// likest is the last entry that was measured, or counted, as the correction is:
// "make that 200g" is not about the eggs.
func likest(entries []pantry.Entry, at int, a language.Amount) int {
	if a.How != language.Measured || entries[at].Pieces == 0 {
		return at
	}
	for i := len(entries) - 1; i >= 0; i-- {
		if entries[i].Pieces == 0 {
			return i
		}
	}
	return at
}

// redone works the entry out anew with what the correction changes, on the
// stock as it would be without the old entry.
func (t *turn) redone(old pantry.Entry, a *language.Amend) (result, error) {
	d := t.again(old, a)
	if err := t.setAside(old); err != nil {
		return result{}, err
	}
	return t.resolve(&d)
}

// leaps says whether a bare number ("no, 4") is so far from what it corrects
// that it may be about something else.
func (t *turn) leaps(old, e pantry.Entry, a *language.Amend) bool {
	bare := a.Food == "" && a.Amount.How == language.Pieces && a.Amount.Part == ""
	return bare && old.Line == e.Line && (e.Amount > 10*old.Amount || old.Amount > 10*e.Amount)
}

// again drafts an entry with what a correction changes.
func (t *turn) again(old pantry.Entry, a *language.Amend) draft {
	d := draft{Act: old.Act, Line: old.Line, Dish: old.Dish, Who: old.Cook, Trim: old.Trim, Cost: old.Lot.Cost, Label: old.Lot.Label}
	if old.Lot.Label {
		d.Date = old.Lot.Date
	}
	d.Amount = amountAgain(old, t.k.Line(old.Line).Unit)
	switch {
	case a.Amount.How != language.Unsaid && a.Food != "":
		d.Amount = a.Amount
	case a.Amount.How != language.Unsaid:
		d.Amount = t.inUnitOf(old, a.Amount)
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
