package bot

import (
	"fmt"
	"slices"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// mostWarmBack is how many messages back somebody may have said that food stood warm.
const mostWarmBack = 200

// warmSaid tells that somebody said of food on these lines that it stood warm, or smelt, since it came in or
// was made: no date knows of that. "" nobody did.
func (t *turn) warmSaid(lines []*pantry.Line) (string, error) {
	since := t.m.At.Add(-mostKept)
	m := t.said
	for range mostWarmBack {
		var err error
		if m, err = t.book.Heard("", m); err != nil || m == nil || m.At.Before(since) {
			return "", err
		}
		if m.Gone {
			continue
		}
		of, err := t.warmIn(m)
		if err != nil {
			return "", err
		}
		for _, l := range of {
			if !slices.Contains(lines, l) {
				continue
			}
			later, err := t.book.Since(l.ID, m)
			if err != nil {
				return "", err
			}
			new := measure.Amount(0)
			for _, e := range later {
				if e.At.After(m.At) && (e.Act == pantry.Make || e.Act == pantry.Receive) {
					new += e.Amount
				}
			}
			if l.OnHand() > new { // the oldest goes first
				return fmt.Sprintf("%s said at %s: %q. No date knows of that: what stood warm too long or smells is binned.", title(t.k.CookName(m.Cook)), m.At.In(t.m.At.Location()).Format("15:04"), m.Text), nil
			}
		}
	}
	return "", nil
}

// warmIn gives the lines of which a message told that they stood warm or smelt.
func (t *turn) warmIn(m *pantry.Message) (list []*pantry.Line, err error) {
	if q := t.reader().AbuseTalk(m.Text); q != nil && (q.About == language.AboutStood || q.About == language.AboutStoodHours || q.About == language.AboutSmells) {
		lines, _ := t.heldLines(q.Food)
		return lines, nil
	}
	if !language.SaysStoodOut(m.Text) {
		return nil, nil
	}
	entries, err := t.book.InForce(m)
	for _, e := range entries {
		if e.Act == pantry.Make || e.Act == pantry.Count || e.Act == pantry.Receive {
			list = append(list, t.k.Line(e.Line))
		}
	}
	return list, err
}
