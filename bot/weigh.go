package bot

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/measure"
)

// mostWeighed is how many lines a round of weighing back goes through.
const mostWeighed = 60

// weighBack goes through what the crate has left, line by line: what the scales say is counted,
// and settles the account. Where that was closed a short while ago it ends with this message
// instead.
func (t *turn) weighBack() (Reply, error) {
	list, err := t.toWeigh()
	if err != nil {
		return Reply{}, err
	}
	if len(list) == 0 {
		return Reply{Kind: Answer, Text: "Nothing is left of the crate to weigh."}, nil
	}
	if err := t.reclose(); err != nil {
		return Reply{}, err
	}
	return t.ask(list[:min(len(list), mostWeighed)], t.said)
}

// reclose lets an account that was closed a short while ago end with the message that is being
// answered, so that what it writes is of it.
func (t *turn) reclose() error {
	wraps, err := t.book.WrapUps()
	if err != nil || len(wraps) == 0 {
		return err
	}
	last := wraps[len(wraps)-1]
	if t.said.At.Sub(last.At) >= wrapAgain {
		return nil
	}
	m, err := t.book.Message(last.Message)
	if err != nil {
		return err
	}
	if err := t.book.DropWrapUp(m); err != nil {
		return err
	}
	return t.book.SaveWrapUp(t.said, last.At)
}

// tooMuch is how many times what the record has a count is asked about first. The program's own
// judgement, no source.
const tooMuch = 2

// doubted asks about a figure at the scales that is far from the record; ok is false where it
// is not, or was said twice.
func (t *turn) doubted(q pending, about string) (r Reply, ok bool, err error) {
	l, a := t.k.Line(q.Draft.Line), q.Draft.Amount
	if q.Kind != askWeigh || a.How == language.Share {
		return r, false, nil
	}
	base, _, _, err := t.weigh(q.Draft, l, t.ear.foodOf(l), l.Unit)
	if errors.Is(err, errNoWeight) {
		return t.unweighed(&q, a), true, nil
	}
	if err != nil {
		return r, false, nil // what is too much for a kitchen is told where it is written
	}
	record := "The record has " + measure.Say(l.OnHand(), l.Unit)
	if !unlikely(base, l.OnHand()) {
		came, err := t.everThere(l)
		if err != nil || base <= came+came/slackShare || sayGuessed(l, t.ear.foodOf(l)) != "" {
			return r, false, err
		}
		if came != l.OnHand() {
			record = "No more than " + measure.Say(came, l.Unit) + " ever came in"
		}
	}
	said := measure.Say(base, l.Unit)
	if a.How == language.Pieces {
		said = a.Said
	}
	if q.Was == said {
		return r, false, nil
	}
	q.Was = said
	text := fmt.Sprintf("%s %s? %s. Say \"yes\", or the right amount.", said, l.Name, record)
	return Reply{Kind: Asking, Text: text, Ask: &Ask{About: l.Name, Options: []string{}}}, true, t.keep(q, about)
}

// slackShare: a crate may weigh a tenth more than it was sold as. The program's own judgement, no source.
const slackShare = 10

// everThere is all that a line had to give since the wrap-up before: what was there, came in or was made.
func (t *turn) everThere(l *pantry.Line) (measure.Amount, error) {
	w, _, err := t.lastWrap()
	if err != nil || w == nil {
		return l.OnHand(), err
	}
	for i := range w.period.Lines {
		if a := &w.period.Lines[i]; a.ID == l.ID {
			return max(l.OnHand(), a.In().Amount), nil
		}
	}
	return l.OnHand(), nil
}

// weighing answers what the scales were asked.
func (t *turn) weighing(q pending, about string, what language.About, a language.Amount) (r Reply, done bool, err error) {
	l := t.k.Line(q.Draft.Line)
	if err := t.answersScales(q); err != nil {
		return r, true, err
	}
	switch what {
	case language.ScalesSame, language.ScalesNod:
		if err := t.setQuestion(t.cook, nil); err != nil {
			return r, true, err
		}
		asked, err := t.book.Message(about)
		if err != nil {
			return r, true, err
		}
		r, err = t.nextWeighed(Reply{Kind: Answer}, q.Rest, asked)
		return r, true, err
	case language.ScalesEnough, language.ScalesStop:
		if _, err := t.takeRounds(func(cook string) bool { return cook == t.cook }); err != nil { // what else was asked still is
			return r, true, err
		}
		r, err = t.weighed(Reply{Kind: Answer})
		return r, true, err
	case language.ScalesNone:
		q.Draft.Amount = noneOf(l)
	default:
		var ok bool
		if q.Draft.Amount, ok = t.onScales(a, l); !ok {
			return t.unweighed(&q, a), true, nil
		}
		if r, asked, err := t.doubted(q, about); asked || err != nil {
			return r, true, err
		}
	}
	r, err = t.complete(q, about)
	return r, true, err
}

// surely takes a "yes": to a figure that was asked about, or to the record.
func (t *turn) surely(q pending, about string) (r Reply, done bool, err error) {
	a := t.reader().Answer(t.m.Text)
	if q.Kind != askWeigh || !a.Yes || a.Other || a.Amount.How != language.Unsaid || len(a.Words) > 0 {
		return r, false, nil
	}
	if q.Was == "" {
		return t.weighing(q, about, language.ScalesSame, a.Amount)
	}
	r, err = t.complete(q, about)
	return r, true, err
}

// nextWeighed asks for the next line, or gives the account where that was the last. What could
// be made of what is left is not told now.
func (t *turn) nextWeighed(r Reply, rest []pending, asked *pantry.Message) (Reply, error) {
	if r.Kind == Log {
		if err := t.countsForWrapped(); err != nil { // the account that is given has it
			return r, err
		}
		t.plain = false
		r.Text, r.Ideas = r.Brief(), nil
	}
	if len(weighings(rest)) == 0 {
		r, err := t.weighed(r)
		if err != nil || len(rest) == 0 {
			return r, err
		}
		return t.askNext(r, rest, asked)
	}
	r, err := t.askNext(r, rest, asked)
	r.Text = strings.TrimSpace(r.Text)
	return r, err
}

// weighed gives the account after a round of weighing back.
func (t *turn) weighed(r Reply) (Reply, error) {
	w, x, err := t.lastWrap()
	if err != nil || w == nil {
		return r, err
	}
	r.Text = strings.TrimSpace(r.Text + "\n" + w.Short(x, t.m.At))
	return r, nil
}

// weighings are those of several questions that the scales are asked.
func weighings(list []pending) []pending {
	return slices.DeleteFunc(slices.Clone(list), func(q pending) bool { return q.Kind != askWeigh })
}

// sayScales asks for what the scales say: "Leek: 600 g by the record. What do the scales say?"
func (t *turn) sayScales(q *pending) string {
	l := t.k.Line(q.Draft.Line)
	text := fmt.Sprintf("%s: %s by the record. What do the scales say?", title(l.Name), measure.Say(l.OnHand(), l.Unit))
	if n := len(weighings(q.Rest)); n > 0 {
		text += fmt.Sprintf(` (%d more; "same", "skip", or "enough" to end)`, n)
	}
	return text
}

// asPlanned writes down that what a plan kept for its dishes, and nobody has said, went into
// them. Not done where there was no plan.
func (t *turn) asPlanned() (r Reply, done bool, err error) {
	w, x, err := t.lastWrap()
	if err != nil || w == nil {
		return r, false, err
	}
	on := x.lastPlan(w.period)
	if on == nil {
		return r, false, nil
	}
	entries := t.unlogged(on, w.period)
	if len(entries) == 0 {
		return Reply{Kind: Answer, Text: "All that the plan kept is written down already, or is gone."}, true, nil
	}
	if err := t.reclose(); err != nil {
		return r, true, err
	}
	if _, err := t.book.Revise(t.said, t.said, pantry.Said, entries); err != nil {
		return r, true, err
	}
	if err := t.dishes(entries); err != nil {
		return r, true, err
	}
	r = Reply{Kind: Log}
	foods := map[string]int{}
	var names []string
	for _, e := range entries {
		if foods[e.Dish]++; foods[e.Dish] == 1 {
			names = append(names, e.Dish)
		}
		r.Entries = append(r.Entries, t.show(e))
	}
	var list []string
	for _, n := range names {
		list = append(list, fmt.Sprintf("the %s, %s", n, counted1(foods[n], "food", "foods")))
	}
	r.Text = "Written as planned: " + strings.Join(list, "; ") + ". \"undo\" takes it back."
	return r, true, nil
}

// unlogged lists as uses what a plan's dishes take and nobody has said, as far as it is there.
func (t *turn) unlogged(on *running, p *account.Period) (entries []pantry.Entry) {
	used := map[string]measure.Amount{}
	for i := range p.Lines {
		for _, d := range p.Lines[i].Of {
			used[fmt.Sprint(p.Lines[i].ID, "/", d.Name)] += d.Amount
		}
	}
	left := map[int64]measure.Amount{}
	for n := range on.Plan.Dishes {
		d := t.less(on, n)
		for i := range len(d.Uses) + len(d.Cupboard) {
			u := d.quantity(i)
			l := t.k.Named(u.Item)
			if l == nil || l.Unit.String() != u.Unit || n >= len(on.Names) {
				continue
			}
			if _, ok := left[l.ID]; !ok {
				left[l.ID] = l.OnHand()
			}
			want := measure.Amount(u.Amount*1000 + 0.5)
			a := min(want-used[fmt.Sprint(l.ID, "/", on.Names[n])], left[l.ID])
			if a <= want/20 { // it was weighed a little less
				continue
			}
			left[l.ID] -= a
			at := on.Begun.Add(time.Duration(d.Ready) * time.Minute)
			if at.After(t.m.At) {
				at = t.m.At
			}
			entries = append(entries, pantry.Entry{Act: pantry.Use, Line: l.ID, Amount: a, Dish: on.Names[n], Cook: on.Cook, At: at, Said: measure.Say(a, l.Unit), Approx: true})
		}
	}
	return entries
}

// endPlan ends the plan that is on: its timers stop, what it kept is free. It tells what of that
// nobody has said went in.
func (t *turn) endPlan() (string, error) {
	w, x, err := t.lastWrap()
	if err != nil || w == nil {
		return "", err
	}
	on := x.lastPlan(w.period)
	if on == nil {
		return "", t.endService()
	}
	on.complete(t)
	entries := t.unlogged(on, w.period)
	if err := t.endService(); err != nil {
		return "", err
	}
	if err := t.freeKept(on.Message); err != nil {
		return "", err
	}
	if len(entries) == 0 {
		return "", nil
	}
	return fmt.Sprintf(`The plan is over. Of %s nobody said that it went in: "as planned" writes it down.`, counted1(len(entries), "thing it kept", "things it kept")), nil
}

// freeKept frees what the plan that a message began has kept.
func (t *turn) freeKept(message string) error {
	said, err := t.book.Message(message)
	if err != nil {
		return err
	}
	_, err = t.book.Revise(said, t.said, pantry.Corrected, nil)
	return err
}

// endService ends what is on: its timers stop.
func (t *turn) endService() error {
	on, ok, err := t.running()
	if err != nil || !ok {
		return err
	}
	on.Ended = t.m.At
	if err := t.save(on); err != nil {
		return err
	}
	return t.stopFor(on.Message)
}

// planOf finds the plan of a period that has a dish, and which of its dishes that is; nil none.
func (x *Records) planOf(p *account.Period, dish string) (*running, int) {
	for i := len(x.Services) - 1; i >= 0; i-- {
		on := x.planAt(p, i)
		if on == nil {
			continue
		}
		for n, name := range on.Names {
			if name == dish && n < len(on.Plan.Dishes) && !on.Plan.Dishes[n].isOff() {
				return on, n
			}
		}
	}
	return nil, 0
}

// lastPlan gives the latest plan that was begun in a period; nil none.
func (x *Records) lastPlan(p *account.Period) *running {
	for i := len(x.Services) - 1; i >= 0; i-- {
		if on := x.planAt(p, i); on != nil && len(on.Plan.Dishes) > 0 {
			return on
		}
	}
	return nil
}
