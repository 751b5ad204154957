package bot

import (
	"context"
	"slices"
	"time"

	"scullion/pantry"
)

// fit is the kitchen without the lines that are to be binned by what was told of them: nothing is made of those.
func (t *turn) fit() *pantry.Kitchen {
	if t.isFit != nil {
		return t.isFit
	}
	t.isFit = t.k
	if over, err := t.unsafe(); err != nil {
		t.isFit = &pantry.Kitchen{} // what cannot be looked up is not offered
	} else if len(over) > 0 {
		t.isFit = Without(t.k, over)
	}
	return t.isFit
}

// unsafe gives the names of the lines that are to be binned by what was told.
func (t *turn) unsafe() (names []string, err error) {
	if told, err := t.doubts(); err != nil || len(told) == 0 {
		return nil, err
	}
	over, err := t.longWarm(slices.DeleteFunc(slices.Clone(t.k.Lines), func(l *pantry.Line) bool { return l.OnHand() == 0 || t.needsNoFridge(l) }))
	for _, w := range over {
		for _, l := range w.lines {
			names = append(names, l.Name)
		}
	}
	return names, err
}

// Without is a kitchen as it stands, but for the lines of some names.
func Without(k *pantry.Kitchen, names []string) *pantry.Kitchen {
	rest := *k
	rest.Lines = slices.DeleteFunc(slices.Clone(k.Lines), func(l *pantry.Line) bool { return slices.Contains(names, l.Name) })
	return &rest
}

// Unsafe gives the names of a kitchen's lines that are to be binned by what somebody told of them, whatever their date.
func (b *Bot) Unsafe(ctx context.Context, kitchen string, now time.Time) (names []string, err error) {
	err = b.ledger.Do(ctx, kitchen, func(book pantry.Book) error {
		t, err := b.asking(book, Message{Kitchen: kitchen, At: now})
		if t == nil || err != nil {
			return err
		}
		names, err = t.unsafe()
		return err
	})
	return names, err
}

// asking is a turn in which nothing is said; nil where nothing ever was.
func (b *Bot) asking(book pantry.Book, m Message) (*turn, error) {
	last, err := book.Latest()
	if err != nil || last == nil {
		return nil, err
	}
	t := &turn{b: b, book: book, k: book.Kitchen(), m: m, said: &pantry.Message{N: last.N + 1, At: m.At}}
	t.ear = b.ears.of(t.k)
	return t, nil
}
