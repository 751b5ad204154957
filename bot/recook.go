package bot

import (
	"fmt"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/bot/paper"
	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/measure"
)

// cookedBefore finds the sheet of a dish by words of its name, where it was made last; nil
// where none is meant.
func (x *Records) cookedBefore(list []*Wrap, said string) (*account.Sheet, error) {
	for _, w := range slices.Backward(list) {
		if n := w.Dish(said); n >= 0 {
			return x.Sheet(w, w.Dishes[n].Name)
		}
	}
	return nil, nil
}

// recook keeps what is there for a dish that was made before, for as many as are wanted, and
// tells what is short. What is kept for that dish already is of it: a second number is said instead of
// the first. Done is false where no such dish was made.
func (t *turn) recook(q *language.Question) (r Reply, done bool, err error) {
	x, list, err := t.wraps()
	if err != nil {
		return r, true, err
	}
	s, err := x.cookedBefore(list, q.Food)
	if err != nil || s == nil {
		return r, err != nil, err
	}
	was := s.Portions
	s, notes := paper.Scale(s, q.N)
	var entries []pantry.Entry
	var kept, freed, short []string
	for _, p := range s.Parts {
		l := t.k.Named(p.Item)
		if l == nil {
			short = append(short, measure.Say(p.AP, p.Unit)+" "+p.Item+" (none here)")
			continue
		}
		own := claimedBy(l, t.cook, s.Dish)
		held := heldFor(l, s.Dish)
		have := max(min(l.Free()+held, p.AP), held-own) // nobody takes what others keep from them
		if lack := p.AP - min(have, l.OnHand()); lack > p.AP/20 {
			short = append(short, thing(l, claimOf(&p, lack)))
		}
		if have > 0 {
			kept = append(kept, thing(l, claimOf(&p, have)))
		}
		e := claimOf(&p, max(have-held, held-have))
		if have < held {
			e.Act = pantry.Release
			freed = append(freed, thing(l, e))
		}
		if have == held {
			continue
		}
		e.Line, e.Dish, e.Cook, e.At, e.Said = l.ID, s.Dish, t.cook, t.m.At, measure.Say(e.Amount, l.Unit)
		entries = append(entries, e)
	}
	if text, err := t.recookBreaks(s); err != nil || text != "" {
		return Reply{Kind: Answer, Text: text}, true, err
	}
	if _, err := t.book.Revise(t.said, t.said, pantry.Said, entries); err != nil {
		return r, true, err
	}
	if err := t.dishes(entries); err != nil {
		return r, true, err
	}
	r = Reply{Kind: Log}
	for _, e := range entries {
		r.Entries = append(r.Entries, t.show(e))
	}
	head := title(s.Dish)
	switch {
	case s.Portions > 0:
		head += fmt.Sprintf(" for %d", s.Portions)
		if was != s.Portions {
			head += fmt.Sprintf(" (it was for %d", was)
			if s.Covers > 0 {
				head += " covers: its portions nobody told"
			}
			head += ")"
		}
	default:
		head += ", as it was"
	}
	text := head + ": nothing of it is free"
	if len(kept) > 0 {
		text = head + ": kept " + both(kept, "and")
	}
	lines := []string{text + "."}
	if len(freed) > 0 {
		lines = append(lines, title(both(freed, "and"))+" free again.")
	}
	if len(short) > 0 {
		lines = append(lines, "Short: "+both(short, "and")+".")
	}
	lines = append(lines, notes[:min(len(notes), 1)]...)
	if len(s.Holds) > 0 {
		lines = append(lines, sayHolds(s))
	}
	if len(entries) == 0 {
		r.Kind = Answer
	}
	r.Text = strings.Join(lines, "\n")
	return r, true, nil
}

// heldFor is how much of a line is kept for a dish, by whomever.
func heldFor(l *pantry.Line, dish string) (sum measure.Amount) {
	for _, h := range l.Holds {
		if h.Dish == dish {
			sum += h.Amount
		}
	}
	return sum
}

// claimOf claims so much of an ingredient: in pieces where that is how it was used.
func claimOf(p *account.Ingredient, n measure.Amount) pantry.Entry {
	e := pantry.Entry{Act: pantry.Claim, Amount: n, Approx: p.Pieces > 0}
	if p.Pieces > 0 && p.AP > 0 {
		e.Pieces = int64(p.Pieces*1000*float64(n)/float64(p.AP) + 0.5)
	}
	return e
}

// recookBreaks tells what of a dish somebody at the table is allergic to: nothing is kept for it
// then. "" nothing.
func (t *turn) recookBreaks(s *account.Sheet) (string, error) {
	var allergens, items []string
	for _, a := range s.Holds {
		allergens = append(allergens, a.Name)
	}
	for _, p := range s.Parts {
		items = append(items, p.Item)
	}
	hard, err := t.breaches(allergens, items, t.needs())
	if err != nil || len(hard) == 0 {
		return "", err
	}
	return t.sayBreach("the "+s.Dish, hard) + " Nothing is kept for it. For other guests keep each food by itself (\"need 300g leek for the " + lastWord(s.Dish) + "\").", nil
}
