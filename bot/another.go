package bot

import (
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// leapsFor is for how long a correction may be of something that was not said last. The program's own
// choice.
const leapsFor = 30 * time.Minute

// ofAnother takes a correction which names a food that the message it would be about has nothing of:
// "actually 1.5kg mussels", after butter. It is of the latest entry of that food, where there is one; of
// another cook's it asks first. Done is false where it is about what was said last after all.
func (t *turn) ofAnother(a *language.Amend, entries []pantry.Entry) (r Reply, done bool, err error) {
	if a.Food == "" || a.Named || a.Bare || a.Not != "" || a.Act != "" || a.Dish != "" || a.Amount.How == language.Unsaid || a.Amount.How == language.Share {
		return r, false, nil
	}
	if strings.HasPrefix(strings.ToLower(strings.TrimSpace(t.m.Text)), "no") || slices.ContainsFunc(entries, func(e pantry.Entry) bool { return e.Said == a.Amount.Said }) {
		return r, false, nil // "no, 200g butter": of what was said just now it is the food that was wrong
	}
	h := t.ear.find(a.Food)
	of := func(e pantry.Entry) bool {
		return !e.Trim && slices.ContainsFunc(entries, func(o pantry.Entry) bool { return o.Act == e.Act }) && slices.ContainsFunc(h.lines, func(l *pantry.Line) bool { return l.ID == e.Line })
	}
	if !h.exact || slices.ContainsFunc(entries, of) {
		return r, false, nil
	}
	amount := *a
	amount.Food = ""
	for m, err := t.book.Heard("", t.said); m != nil && err == nil && t.said.At.Sub(m.At) <= leapsFor; m, err = t.book.Heard("", m) {
		list, err := t.book.InForce(m)
		if err != nil {
			return r, false, err
		}
		i := slices.IndexFunc(list, of)
		switch {
		case i < 0 || !t.fair(m) || isPassing(list, i):
			continue
		case m.Cook == t.cook:
			r, err = t.mend(m, list, i, &amount)
			return r, r.Kind != Silent, err
		}
		res, err := t.redone(m, list[i], &amount)
		if err != nil || res.entry == nil {
			return r, false, err
		}
		l := t.k.Line(list[i].Line)
		q := pending{Kind: askLeap, About: l.Name, Was: measure.Say(list[i].Amount, l.Unit) + t.verbal(list[i]) + " (" + t.k.CookName(list[i].Cook) + ")",
			Now: measure.Say(res.entry.Amount, l.Unit), Draft: t.againIn(m, list[i], &amount), Options: []option{{Label: "yes", Yes: true}}, Replace: i + 1}
		r, err = t.ask([]pending{q}, m)
		return r, true, err
	}
	return r, false, err
}
