package bot

import (
	"cmp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
)

// dateTalk gives food that has come in the date that its label turns out to have: "the chicken is
// use by Friday". It counts for the delivery that came last, as if it had been said then.
func (t *turn) dateTalk() (r Reply, done bool, err error) {
	if r, done, err := t.madeOnTalk(); done || err != nil {
		return r, done, err
	}
	if r, done, err := t.dateMended(); done || err != nil {
		return r, done, err
	}
	text := strings.ToLower(t.m.Text)
	if !slices.ContainsFunc([]string{"by", "best", "date", "label", "ub", "u/b", "bb", "b/b", "exp", "use ", "good ", "goes off", "expired"}, func(w string) bool { return strings.Contains(text, w) }) {
		return r, false, nil
	}
	if r, done, err := t.datesTogether(); done || err != nil {
		return r, done, err
	}
	q := cmp.Or(t.pastDate(t.m.Text), t.reader().DateTalk(t.m.Text))
	if q == nil {
		return r, false, nil
	}
	lines, err := t.datedLines(q)
	if err != nil || len(lines) == 0 {
		return r, false, err
	}
	if len(lines) > 1 {
		var names []string
		for _, l := range lines {
			names = append(names, l.Name)
		}
		return Reply{Kind: Answer, Text: "Which, " + both(names, "or") + `? Say it in full, like "the ` + names[0] + ` is use by Friday".`}, true, nil
	}
	when, ok := day(q.Date, t.said.At.In(t.m.At.Location()))
	if !ok {
		return Reply{Kind: Answer, Text: "That is no day of the calendar."}, true, nil
	}
	r, err = t.redate(lines[0], pantry.DateOf(when), q.About == language.AboutBestBy || q.About == language.AboutItsBestBy)
	return r, r.Kind != Silent, err
}

// datedLines gives the lines that a date may be meant for: those that words name, else what this
// cook took in with the last message, where that was one food.
func (t *turn) datedLines(q *language.Question) ([]*pantry.Line, error) {
	if q.About == language.AboutUseBy || q.About == language.AboutBestBy {
		h := t.ear.find(q.Food)
		if !h.exact || h.sound {
			return nil, nil
		}
		held := slices.DeleteFunc(slices.Clone(h.lines), func(l *pantry.Line) bool { return l.OnHand() == 0 })
		if len(held) > 0 {
			return held, nil
		}
		return h.lines, nil
	}
	_, entries, err := t.justWritten()
	if err != nil || len(entries) != 1 || entries[0].Act != pantry.Receive && entries[0].Act != pantry.Make {
		return nil, err
	}
	return []*pantry.Line{t.k.Line(entries[0].Line)}, nil
}

// redate puts the delivery by which a line came in last into force with another date. Where
// guidance for food that came in cooked, or was made, is the sooner, that goes first.
func (t *turn) redate(l *pantry.Line, date pantry.Date, best bool) (Reply, error) {
	target, err := t.book.CameWith(l.ID)
	if err != nil || target == nil {
		return Reply{Kind: Silent}, err
	}
	entries, err := t.book.InForce(target)
	if err != nil {
		return Reply{}, err
	}
	sooner := ""
	for i := range entries {
		e := &entries[i]
		if e.Line != l.ID || e.Act != pantry.Receive && e.Act != pantry.Make {
			continue
		}
		was := e.Lot.Date
		e.Lot.Date, e.Lot.Best, e.Lot.Label = date, best, true
		if e.Lot.State == "" {
			continue
		}
		g, ok, m, from := t.guideFor(e.Act, e.Dish, l, t.ear.foodOf(l), e.Lot.State)
		by := cmp.Or(from, pantry.DateOf(e.At.In(t.m.At.Location()))).Add(g.Days)
		if m.date != "" && (!ok || m.date < by) {
			by, ok = m.date, true
		}
		if e.Lot.State == food.Uncooked && was != "" && was < by { // of what is raw in it
			by = was
		}
		if ok && by < date {
			e.Lot.Date, e.Lot.Best, e.Lot.Label = by, g.Date == "best-before", false
			sooner = " The guidance is the sooner, and goes first: " + sayBy(g.Date) + " " + t.sayDate(by) + "."
		}
	}
	t.unsaid = append(t.unsaid, target.ID)
	t.touch(target)
	effects, err := t.book.Revise(target, t.said, pantry.Corrected, entries)
	if err != nil {
		return Reply{}, err
	}
	i := slices.IndexFunc(entries, func(e pantry.Entry) bool { return e.Line == l.ID })
	r := t.noted(entries[i:i+1], effects[i:i+1])
	by := "use-by"
	if best {
		by = "best-before"
	}
	r.Text = title(l.Name) + ": " + sayBy(by) + " " + t.sayDate(date) + ", as its label says. It counts from when it came in." + sooner
	pots, err := t.redatePots(l)
	r.Text += t.cameLate(entries[i], l) + pots
	return r, err
}
