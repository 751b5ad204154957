package bot

import (
	"slices"

	"scullion/pantry"
)

// keepWrapped lets what is logged a short while after a wrap-up be of the service that was
// wrapped up, if nothing came in since: a plate that was forgotten, a count of what is left. The
// account ends with this message then, and that is told.
func (t *turn) keepWrapped(r Reply) (Reply, error) {
	if r.Kind != Log || len(r.Entries) == 0 || !slices.ContainsFunc(r.Entries, func(e Entry) bool {
		return slices.Contains([]string{string(pantry.Use), string(pantry.Bin), string(pantry.Return), string(pantry.Count)}, e.Kind) || e.Kind == string(pantry.Make) && e.Dish != ""
	}) {
		return r, nil
	}
	wraps, err := t.book.WrapUps()
	if err != nil || len(wraps) == 0 {
		return r, err
	}
	last := wraps[len(wraps)-1]
	if last.N >= t.said.N || t.said.At.Sub(last.At) >= wrapAgain {
		return r, nil
	}
	if came, _, err := t.sinceWrapUp(wraps); err != nil || came {
		return r, err
	}
	if err := t.reclose(); err != nil {
		return r, err
	}
	if _, weighing := t.latestAsked(); !weighing {
		t.plain = false
		r.Text, r.Ideas = r.Brief()+"\nIt counts for the service that was wrapped up at "+sayWhen(last.At, t.m.At)+".", nil
	}
	return r, nil
}

// touch notes that a message's entries are changed.
func (t *turn) touch(m *pantry.Message) {
	if t.touched == 0 || m.N < t.touched {
		t.touched = m.N
	}
}

// tellClosed tells that a change is of a service that was wrapped up: its account is another now.
func (t *turn) tellClosed(r Reply) (Reply, error) {
	if r.Kind != Log || t.touched == 0 {
		return r, nil
	}
	if _, weighing := t.latestAsked(); weighing {
		return r, nil
	}
	wraps, err := t.book.WrapUps()
	for _, w := range wraps {
		if t.touched <= w.N && w.N != t.said.N {
			r.Text, r.Ideas = r.Brief()+"\nThe account of the service wrapped up at "+sayWhen(w.At, t.m.At)+" has changed with that.", nil
			t.plain = false
			break
		}
	}
	return r, err
}
