package bot

import (
	"cmp"
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
)

// redatePots dates again what was made here of a line whose date was set right: what was past its date
// when it went in dates what it is in. It tells what changed; "" nothing.
func (t *turn) redatePots(of *pantry.Line) (text string, err error) {
	for _, l := range t.k.Lines {
		if l.Made == 0 || l.OnHand() == 0 || l == of {
			continue
		}
		told, err := t.redatePot(l, of)
		if err != nil {
			return "", err
		}
		text += told
	}
	return text, nil
}

// redatePot dates again what came last into one line.
func (t *turn) redatePot(l, of *pantry.Line) (string, error) {
	target, err := t.book.CameWith(l.ID)
	if err != nil || target == nil {
		return "", err
	}
	entries, err := t.book.InForce(target)
	if err != nil {
		return "", err
	}
	said := ""
	for i := range entries {
		e := &entries[i]
		if e.Line != l.ID || e.Act != pantry.Make || e.Lot.Label {
			continue
		}
		by, m, err := t.madeUntil(entries, e, of)
		if err != nil {
			return "", err
		}
		if by == "" || by == e.Lot.Date {
			continue
		}
		e.Lot.Date = by
		said = "\nThe " + strings.ToLower(l.Name) + " of it: use by " + sayDay(by) + "."
		if m.date != "" && m.date < pantry.DateOf(e.At.In(t.m.At.Location())) {
			said = "\nThe " + m.of + " was past its use-by (" + sayDay(m.date) + ") when it went into the " + strings.ToLower(l.Name) + ": do not keep or serve it. Bin it."
		}
	}
	if said == "" {
		return "", nil
	}
	t.unsaid = append(t.unsaid, target.ID)
	t.touch(target)
	_, err = t.book.Revise(target, t.said, pantry.Corrected, entries)
	return said, err
}

// madeUntil is the date of an entry by which something was made, by the guidance and by what is in it; ""
// where a line is not in it, or no figure is known.
func (t *turn) madeUntil(with []pantry.Entry, e *pantry.Entry, of *pantry.Line) (by pantry.Date, m limit, err error) {
	dish := e.Dish
	if i := slices.IndexFunc(with, func(o pantry.Entry) bool { return o.Act == pantry.Use && o.Dish != "" }); dish == "" && i >= 0 { // "made 3kg curry with 2kg chicken"
		dish = with[i].Dish
	}
	if dish == "" {
		return "", m, nil
	}
	since := e.At.Add(-pantry.LeftOver)
	in, err := t.book.IntoDish(dish, since)
	if err != nil {
		return "", m, err
	}
	in = slices.DeleteFunc(in, func(u pantry.Entry) bool { return u.Act != pantry.Use || u.At.After(e.At) })
	if !slices.ContainsFunc(in, func(u pantry.Entry) bool { return u.Line == of.ID }) {
		return "", m, nil
	}
	drew, err := limitOf(t.book, t.ear, dish, in, since, t.m.At.Location())
	if err != nil {
		return "", m, err
	}
	how := workOf(dish, &drew, e.Lot.State == food.Cooked)
	if e.Lot.State == food.Uncooked {
		how = workedRaw
	}
	m = drew.keeps(how)
	cooked := pantry.DateOf(in[len(in)-1].At.In(t.m.At.Location()))
	g, ok := keepsLeast(t.k, t.ear.all, cmp.Or(dish, of.Name), t.foodsOf(in), t.country())
	if by = m.date; ok && (by == "" || cooked.Add(g.Days) < by) {
		by = cooked.Add(g.Days)
	}
	return by, m, nil
}

// wasMade is what stands before the day on which something was made, where that is set right: "no, the
// soup was" (made yesterday).
var wasMade = regexp.MustCompile(`(?i)^\s*(?:(?:actually|sorry|no|nope|wait|oops|btw|fyi)[,: -]+)?(?:the |that |my )?(.+?)(?: was| were|'s)$`)

// madeOnTalk dates what was made from the day on which it was, where that is told later: "the soup was made
// yesterday". Done is false where nothing that was made and is on hand is meant.
func (t *turn) madeOnTalk() (r Reply, done bool, err error) {
	ago, rest := language.MadeOn(t.m.Text, t.m.At.Weekday())
	m := wasMade.FindStringSubmatch(rest)
	if ago == 0 || m == nil {
		return r, false, nil
	}
	name := strings.ToLower(m[1])
	l := potLine(t.k, name)
	if name == "it" || name == "they" {
		_, entries, err := t.justWritten()
		if err != nil || len(entries) != 1 || entries[0].Act != pantry.Make {
			return r, false, err
		}
		l = t.k.Line(entries[0].Line)
	}
	if l == nil {
		l = t.madeCalled(name)
	}
	if l == nil || l.Made == 0 || l.OnHand() == 0 {
		return r, false, nil
	}
	target, err := t.book.CameWith(l.ID)
	if err != nil || target == nil {
		return r, false, err
	}
	entries, err := t.book.InForce(target)
	if err != nil {
		return r, false, err
	}
	made := t.day().Add(-ago)
	i := slices.IndexFunc(entries, func(e pantry.Entry) bool { return e.Line == l.ID && e.Act == pantry.Make })
	if i < 0 {
		return r, false, nil
	}
	e := &entries[i]
	g, ok, limit, _ := t.guideFor(e.Act, e.Dish, l, t.ear.foodOf(l), e.Lot.State)
	by := made.Add(g.Days)
	if limit.date != "" && (!ok || limit.date < by) {
		by, ok = limit.date, true
	}
	if e.Lot.State == food.Uncooked && e.Lot.Date != "" && e.Lot.Date < by { // it goes by what is raw in it, whenever it was made
		by = e.Lot.Date
	}
	if !ok {
		return Reply{Kind: Answer, Text: "No figure here for how long " + l.Name + " keeps: nothing changed. Go by your own rules."}, true, nil
	}
	note := "."
	switch {
	case e.Lot.Label && e.Lot.Date < by:
		return Reply{Kind: Answer, Text: title(l.Name) + ": use by " + sayDay(e.Lot.Date) + " stays, as its label says."}, true, nil
	case by < t.day():
		note = ": that is past. Bin it."
	}
	e.Lot.Date, e.Lot.Best, e.Lot.Label = by, g.Date == "best-before", false
	e.At = e.At.AddDate(0, 0, made.Days(pantry.DateOf(e.At.In(t.m.At.Location()))))
	t.unsaid = append(t.unsaid, target.ID)
	t.touch(target)
	effects, err := t.book.Revise(target, t.said, pantry.Corrected, entries)
	if err != nil {
		return r, false, err
	}
	r = t.noted(entries[i:i+1], effects[i:i+1])
	r.Text = title(l.Name) + ", made " + sayDay(made) + ": " + sayBy(g.Date) + " " + sayDay(by) + note
	return r, true, nil
}
