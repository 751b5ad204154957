package bot

import (
	"regexp"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// Food that was peeled or cut was drawn then, for no dish: "used 2kg potatoes in the mash" behind "peeled 2kg
// potatoes" is of the same potatoes.

// prepares are the words of which a message that got food ready has one.
var prepares = regexp.MustCompile(`(?i)\b(peeled|chopped|diced|sliced|minced|shredded|grated|trimmed|prepped|picked|washed|rinsed|cut|julienned|cored|stoned|pitted|hulled|tailed|filleted|skinned|boned|deboned|jointed|shelled|podded|halved|quartered|deseeded|parboiled|blanched|soaked|scrubbed|topped)\b`)

const (
	preparedLong = 4 * time.Hour // how long before it is used food is got ready; the program's own choice
	preparedBack = 12            // messages
)

// ofPrepared gives the dish to what was got ready for none, where drafts say where that went, and leaves
// those drafts out.
func (t *turn) ofPrepared(drafts []draft) (rest []draft, r Reply, err error) {
	if t.m.Edit || t.saysMore() {
		return drafts, r, nil
	}
	for _, d := range drafts {
		told, err := t.fromPrepared(&d)
		if err != nil {
			return nil, r, err
		}
		if told.Kind != Log {
			rest = append(rest, d)
			continue
		}
		r.Kind, r.Entries = Log, append(r.Entries, told.Entries...)
		r.Text = strings.TrimSpace(r.Text + "\n" + told.Text)
	}
	return rest, r, nil
}

// saysMore says whether a message tells that it is of more food than before: "another 2kg".
func (t *turn) saysMore() bool {
	text := strings.ToLower(t.m.Text)
	return slices.ContainsFunc([]string{"another", "more", "extra", "other", "again", "raw", "unpeeled", "whole"}, func(w string) bool { return strings.Contains(text, w) })
}

func (t *turn) fromPrepared(d *draft) (r Reply, err error) {
	if d.Act != pantry.Use || d.Dish == "" || d.Trim || d.Doubt || d.Off != "" || d.Line != 0 || prepares.MatchString(t.m.Text) {
		return r, nil
	}
	if _, away := pantry.Away(d.Dish); away {
		return r, nil
	}
	h := t.ear.find(d.Food)
	if !h.exact || len(h.lines) != 1 {
		return r, nil
	}
	l := h.lines[0]
	for m, err := range t.back("", t.said, preparedBack, t.m.At.Add(-preparedLong)) {
		if err != nil {
			return r, err
		}
		if m.Gone || m.Rev == 0 || !prepares.MatchString(m.Text) {
			continue
		}
		entries, err := t.book.InForce(m)
		if err != nil {
			return r, err
		}
		if slices.ContainsFunc(entries, func(e pantry.Entry) bool { return e.Act == pantry.Make }) { // its parts are lines of their own
			continue
		}
		i := slices.IndexFunc(entries, func(e pantry.Entry) bool {
			return e.Line == l.ID && e.Act == pantry.Use && e.Dish == "" && !e.Trim
		})
		if i < 0 {
			continue
		}
		part, ok := t.partPrepared(d, entries[i], l)
		if !ok {
			return r, nil
		}
		return t.givePrepared(m, entries, i, part, d)
	}
	return r, nil
}

// partPrepared is how much of what was got ready a draft is of: all where nobody said how much, or where what
// is missing may be peel. Not ok where it is more than there was.
func (t *turn) partPrepared(d *draft, e pantry.Entry, l *pantry.Line) (measure.Amount, bool) {
	switch {
	case d.Amount.How == language.Unsaid && !d.Amount.Some:
		return e.Amount, true
	case d.Amount.How == language.Pieces && d.Amount.Part == e.Piece && e.Pieces != 0:
		return e.Amount, d.Amount.N.Den == 1 && d.Amount.N.Num*1000 == e.Pieces
	case d.Amount.How != language.Measured || d.Amount.Vague() || d.Amount.Kind != l.Unit || d.Amount.Base > e.Amount:
		return 0, false
	}
	least := e.Amount
	if f := t.ear.foodOf(l); f != nil {
		if edible, err := f.Prepared().Of(e.Amount); err == nil {
			least = edible * 9 / 10
		}
	}
	if d.Amount.Base >= least {
		return e.Amount, true
	}
	return d.Amount.Base, e.Pieces == 0
}

// givePrepared writes that so much of an entry went into the dish of a draft.
func (t *turn) givePrepared(m *pantry.Message, entries []pantry.Entry, i int, part measure.Amount, d *draft) (r Reply, err error) {
	e := entries[i]
	e.Dish = d.Dish
	if part < e.Amount {
		rest := entries[i]
		rest.Amount -= part
		e.Amount, e.Said = part, d.Amount.Said
		entries = slices.Insert(entries, i+1, rest)
	}
	entries[i] = e
	t.unsaid = append(t.unsaid, m.ID)
	t.touch(m)
	effects, err := t.book.Revise(m, t.said, pantry.Corrected, entries)
	if err != nil {
		return r, err
	}
	if err := t.dishes(entries[i : i+1]); err != nil {
		return r, err
	}
	r = t.noted(entries[i:i+1], effects[i:i+1])
	r.Text += " It was drawn when it was got ready; \"another\" draws more."
	return r, nil
}
