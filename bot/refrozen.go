package bot

import (
	"cmp"

	"scullion/pantry"
)

// thawedIn is what a line that was made has in it that was cooked, frozen and thawed before: such food is not
// frozen a second time, whatever dish it went into. It looks so deep into what was made of what was made; ""
// nothing.
func (t *turn) thawedIn(l *pantry.Line, deep int) (string, error) {
	if l.Made == 0 || deep == 0 {
		return "", nil
	}
	entries, err := t.book.Since(l.ID, &pantry.Message{})
	if err != nil {
		return "", err
	}
	dish := l.Name
	for _, e := range append(entries, t.ready...) {
		if e.Line == l.ID && e.Act == pantry.Make {
			dish = cmp.Or(e.Dish, l.Name)
		}
	}
	dish, in, err := t.cooked(dish)
	if err != nil || len(in) == 0 {
		return "", err
	}
	drew, err := limitOf(t.book, t.ear, dish, in, t.said.At.Add(-pantry.LeftOver), t.m.At.Location())
	if err != nil || drew.thawed != "" {
		return drew.thawed, err
	}
	for _, e := range in {
		if e.Line == l.ID {
			continue
		}
		if of, err := t.thawedIn(t.k.Line(e.Line), deep-1); err != nil || of != "" {
			return of, err
		}
	}
	return "", nil
}
