package bot

import (
	"context"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/bot/paper"
	"scullion/pantry"
)

// MarkWarm notes on labels to print that somebody said of their food that it stood warm, or smelt, or that a fridge
// failed which it may have been in: the chat has it in full, and no date knows of it.
func (b *Bot) MarkWarm(ctx context.Context, kitchen string, now time.Time, list []paper.Label) error {
	return b.ledger.Do(ctx, kitchen, func(book pantry.Book) error {
		t, err := b.asking(book, Message{Kitchen: kitchen, At: now})
		if t == nil || err != nil {
			return err
		}
		warm, err := t.warmOf(slices.DeleteFunc(slices.Clone(t.k.Lines), func(l *pantry.Line) bool { return l.OnHand() == 0 }))
		for _, w := range warm {
			for _, l := range w.lines {
				for i := range list {
					if name, _, _ := strings.Cut(strings.ToLower(list[i].Name), ","); name == strings.ToLower(l.Name) || isPotOf(l.Name, name) {
						list[i].Note = t.noteWarm(w)
					}
				}
			}
		}
		for i := range list {
			if list[i].Note != "" || err != nil {
				continue
			}
			name, _, _ := strings.Cut(strings.ToLower(list[i].Name), ",")
			w, e := t.warmDish(name)
			if err = e; w != nil {
				list[i].Note = t.noteWarm(*w)
			}
		}
		return err
	})
}

// noteWarm: "Stood warm, said at 16:02: see chat".
func (t *turn) noteWarm(w warm) string {
	what := "Stood warm"
	switch {
	case w.why != nil && (w.why.About == language.AboutFreezer || w.why.About == language.AboutFreezerAt):
		what = "Freezer failed"
	case w.why != nil && w.why.About == language.AboutCameWarm:
		what = "Came in warm"
	case w.why != nil && w.why.About == language.AboutPower:
		what = "Power was gone"
	case w.ofFridge():
		what = "Fridge was warm"
	case w.why != nil && w.why.About == language.AboutSmells:
		what = "Smells"
	}
	at := w.said.At.In(t.m.At.Location())
	form := "at 15:04"
	if pantry.DateOf(at) != pantry.DateOf(t.m.At) {
		form = "2 Jan 15:04"
	}
	return what + ", said " + at.Format(form) + ": see chat"
}
