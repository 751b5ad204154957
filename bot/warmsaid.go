package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// mostWarmBack is how many messages back somebody may have said that food stood warm.
const mostWarmBack = 200

// mostFridge is for how long what was said of a fridge is told of the food that may have been in it.
const mostFridge = 2 * 24 * time.Hour

// warm is a message that told that food stood warm or smelt, or that a fridge failed which it may have been in.
type warm struct {
	said  *pantry.Message
	why   *language.Question // nil where it was told by the way
	lines []*pantry.Line
}

// warmSaid tells that somebody said of food on these lines that it stood warm, or smelt, since it came in or
// was made: no date knows of that. "" nobody did.
func (t *turn) warmSaid(lines []*pantry.Line) (string, error) {
	list, err := t.warmOf(lines)
	var says []string
	for _, w := range list {
		says = append(says, t.sayWarm(w))
	}
	return strings.Join(says, "\n"), err
}

// overOf gives the names of lines all of which somebody said was warm for longer than food may be, or smells.
func (t *turn) overOf(lines []*pantry.Line) (names []string, err error) {
	list, err := t.longWarm(lines)
	for _, w := range list {
		for _, l := range w.lines {
			names = append(names, l.Name)
		}
	}
	return names, err
}

// longWarm gives the messages that told so.
func (t *turn) longWarm(lines []*pantry.Line) ([]warm, error) {
	list, err := t.warmOf(lines)
	return slices.DeleteFunc(list, func(w warm) bool {
		return w.ofFridge() || w.why == nil || w.why.About == language.AboutStoodHours && w.why.N <= t.mostOut(w.lines) || w.why.About != language.AboutStoodHours && !w.isOver()
	}), err
}

// warnOver notes that what is used next was warm for too long, as somebody said.
func (t *turn) warnOver(l *pantry.Line) error {
	if l = t.k.Line(l.ID); l == nil || t.keepsOut([]*pantry.Line{l}) {
		return nil
	}
	list, err := t.longWarm([]*pantry.Line{l})
	for _, w := range list {
		says := "Do not serve it: " + t.sayWarm(w)
		if t.note != "" {
			says = t.note + "\n" + says
		}
		t.note = says
	}
	return err
}

// sayWarm: `Ana said at 16:02: "the rice was out all night". No date knows of that: ...`.
func (t *turn) sayWarm(w warm) string {
	tail := "No date knows of that: what stood warm too long or smells is binned."
	if w.ofFridge() {
		var names []string
		for _, l := range w.lines {
			names = append(names, l.Name)
		}
		tail = fmt.Sprintf("No date knows of that. If it was in there, and above %d C for over %d hours, it is binned: %s.", t.limits().cold, t.limits().out, few(names))
	}
	at := w.said.At.In(t.m.At.Location())
	when := "at " + at.Format("15:04")
	if day := pantry.DateOf(at); day != pantry.DateOf(t.m.At) {
		when = "on " + sayDay(day) + " " + when
	}
	return fmt.Sprintf("%s said %s: %q. %s", title(t.k.CookName(w.said.Cook)), when, w.said.Text, tail)
}

// ofFridge says whether it was told of a fridge, not of the food.
func (w warm) ofFridge() bool {
	return w.why != nil && (w.why.About == language.AboutFridge || w.why.About == language.AboutFridgeAt)
}

// warmOf gives the messages that told so of food on some lines, the latest of each; of a fridge only where nobody told
// it of the food.
func (t *turn) warmOf(lines []*pantry.Line) ([]warm, error) {
	list, rest, err := t.warmLately(lines)
	if err != nil {
		return nil, err
	}
	pots, err := t.warmPots(rest)
	return append(list, pots...), err
}

// warmLately is warmOf of what was on hand when it was told, and the lines of which nobody did.
func (t *turn) warmLately(lines []*pantry.Line) (list []warm, open []*pantry.Line, err error) {
	open = lines
	var fridges []warm
	defer func() {
		for _, w := range fridges {
			w.lines = slices.DeleteFunc(w.lines, func(l *pantry.Line) bool { return !slices.Contains(open, l) })
			if len(w.lines) > 0 {
				list, open = append(list, w), without(open, w.lines)
			}
		}
	}()
	for m, err := range t.back("", t.said, mostWarmBack, t.m.At.Add(-mostKept)) {
		if err != nil || len(open) == 0 {
			return list, open, err
		}
		if m.Gone {
			continue
		}
		w := warm{said: m}
		var of []*pantry.Line
		if of, w.why, err = t.warmIn(m); err != nil {
			return nil, nil, err
		}
		for _, l := range of {
			if !slices.Contains(open, l) {
				continue
			}
			later, err := t.book.Since(l.ID, m)
			if err != nil {
				return nil, nil, err
			}
			new := measure.Amount(0)
			for _, e := range later {
				if e.At.After(m.At) && (e.Act == pantry.Make || e.Act == pantry.Receive) {
					new += e.Amount
				}
			}
			if l.OnHand() > new { // the oldest goes first
				w.lines = append(w.lines, l)
			}
		}
		switch {
		case len(w.lines) == 0:
		case w.ofFridge():
			fridges = append(fridges, w)
		default:
			list, open = append(list, w), without(open, w.lines)
		}
	}
	return list, open, nil
}

func without(lines, some []*pantry.Line) []*pantry.Line {
	return slices.DeleteFunc(slices.Clone(lines), func(l *pantry.Line) bool { return slices.Contains(some, l) })
}

// warmIn gives the lines of which a message told that they stood warm or smelt, or may have been in a fridge that
// failed.
func (t *turn) warmIn(m *pantry.Message) (list []*pantry.Line, why *language.Question, err error) {
	q := t.abuse(m.Text)
	t.outSince(q, m.Text, m.At)
	if err = t.pointed(q, m); err != nil {
		return nil, nil, err
	}
	switch {
	case q == nil:
	case t.stoodTooWarm(q):
		lines, _ := t.warmLines(q)
		if t.sayCooked(q) != "" { // no line of it is meant
			lines = nil
		}
		return lines, q, nil
	case q.About == language.AboutFridge, q.About == language.AboutFridgeAt && q.N > t.limits().cold:
		if t.m.At.Sub(m.At) < mostFridge {
			list = slices.DeleteFunc(slices.Clone(t.k.Lines), func(l *pantry.Line) bool { return !t.inFridge(l) })
		}
		return list, q, nil
	}
	if q, lines := t.warmDegrees(m.Text); q != nil {
		return lines, q, nil
	}
	if !language.SaysStoodOut(m.Text) {
		return nil, nil, nil
	}
	entries, err := t.book.InForce(m)
	for _, e := range entries {
		if e.Act == pantry.Make || e.Act == pantry.Count || e.Act == pantry.Receive {
			list = append(list, t.k.Line(e.Line))
		}
	}
	return list, nil, err
}

// inFridge says whether some of a line must be chilled, and is not frozen.
func (t *turn) inFridge(l *pantry.Line) bool {
	return slices.ContainsFunc(l.Lots, func(o pantry.Lot) bool {
		return o.Left > 0 && o.State != food.Frozen && (isUseBy(o, l, t.ear.foodOf(l), t.country()) || t.mustChill(l.Name))
	})
}

// stoodWarm refuses to freeze what stood warm for too long, as somebody said: freezing makes it no safer. Of what may
// have been warm it only tells.
func (t *turn) stoodWarm(d *draft, l *pantry.Line) (result, error) {
	if d.State != food.Frozen || d.Yes {
		return result{}, nil
	}
	list, err := t.warmOf([]*pantry.Line{t.k.Line(l.ID)})
	if err != nil || len(list) == 0 {
		return result{}, err
	}
	w := list[0]
	if w.ofFridge() || w.why == nil || w.why.About == language.AboutHeldAt || w.why.About == language.AboutCooled || w.why.About == language.AboutStoodHours && w.why.N <= t.mostOut(w.lines) {
		t.note = cmp.Or(t.note, t.sayWarm(w))
		return result{}, nil
	}
	return result{tell: "Not frozen: freezing makes it no safer. " + t.sayWarm(w), fault: true}, nil
}
