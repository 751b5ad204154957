package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// eachOf takes "one of each" and "half and half" as the answer to which of two
// or more it was; not done where that is not what was said before.
func (t *turn) eachOf(q pending, about string, each language.Amount) (r Reply, done bool, err error) {
	whole, n := q.Draft.Amount, int64(len(q.Options))
	one := scaled(whole, measure.Ratio{Num: 1, Den: max(n, 1)})
	fits := each.How == language.Share && n == 2 || each.How == one.How && each.N == one.N && each.Base == one.Base
	if q.Kind != askWhich || n < 2 || whole.How != language.Pieces && whole.How != language.Measured || !fits {
		return r, false, nil
	}
	asked, err := t.book.Message(about)
	if err != nil {
		return r, false, err
	}
	before, err := t.book.InForce(asked)
	if err != nil {
		return r, false, err
	}
	var entries []pantry.Entry
	for _, o := range q.Options {
		d := q.Draft
		d.Amount, d.Line = one, o.Line
		res, err := t.resolve(&d)
		if err == nil && res.ask != nil && res.ask.Kind == askNeed {
			return Reply{Kind: Answer, Text: res.ask.Was + " Say each by itself."}, true, nil
		}
		if err != nil || res.entry == nil {
			return r, false, err
		}
		entries = append(entries, *res.entry)
	}
	r, err = t.answered(q, asked, slices.Concat(before, entries), len(before))
	return r, true, err
}

// answered puts the entries of an answered question into force, those from at
// on for the first time, and goes on with the next question.
func (t *turn) answered(q pending, asked *pantry.Message, entries []pantry.Entry, at int) (Reply, error) {
	if err := t.setQuestion(t.cook, nil); err != nil {
		return Reply{}, err
	}
	t.touch(asked)
	t.answers = asked
	effects, err := t.book.Revise(asked, t.said, pantry.Answered, entries)
	if err != nil {
		return Reply{}, err
	}
	if err := t.dishes(entries[at:]); err != nil {
		return Reply{}, err
	}
	return t.askNext(t.logged(entries[at:], effects[at:]), q.Rest, asked)
}

// leftOutSaid begins the answer to a "no".
const leftOutSaid = "Left out: "

// leaveOut drops a question and goes on with the next.
func (t *turn) leaveOut(q pending, about string) (Reply, error) {
	if err := t.setQuestion(t.cook, nil); err != nil {
		return Reply{}, err
	}
	r := Reply{Kind: Answer, Text: leftOutSaid + both(q.withNames(), "and") + "."}
	q.Rest = q.withoutGroup()
	if q.Amend != nil && q.Kind == askNeed {
		r.Text = "Left as it was."
	}
	if len(q.Rest) == 0 {
		return r, nil
	}
	asked, err := t.book.Message(about)
	if err != nil {
		return r, err
	}
	return t.askNext(r, q.Rest, asked)
}

// complete writes a draft that an answer has made clear. Its entry joins those
// of the message that it was asked about.
func (t *turn) complete(q pending, about string) (Reply, error) {
	if err := t.setQuestion(t.cook, nil); err != nil {
		return Reply{}, err
	}
	asked, err := t.book.Message(about)
	if err != nil {
		return Reply{}, err
	}
	if q.Kind == askName {
		r, err := t.nameIt(asked, q.About, q.Means, pantry.Answered)
		if err != nil {
			return r, err
		}
		return t.askNext(r, q.Rest, asked)
	}
	if q.Kind == askNeed {
		if r, done, err := t.knowingly(q, asked); done || err != nil {
			return r, err
		}
	}
	into, why := asked, pantry.Answered
	if q.Kind == askWeigh { // the scales say how much there is now, not when the round began
		into, why = t.said, pantry.Said
	}
	before, err := t.book.InForce(into)
	if err != nil {
		return Reply{}, err
	}
	if q.Kind == askEntry {
		if q.Replace > len(before) {
			return Reply{Kind: Silent}, nil
		}
		r, err := t.mend(asked, before, q.Replace-1, q.Amend)
		if err != nil || r.Kind == Asking {
			return r, err
		}
		return t.askNext(r, q.Rest, asked)
	}
	d := q.Draft
	if d.New != nil { // it may have come in since it was asked about
		if l := t.k.Named(d.New.Name); l != nil {
			d.Line, d.New = l.ID, nil
		}
	}
	if q.Replace > 0 && q.Replace <= len(before) {
		if err := t.setAside(before[q.Replace-1]); err != nil {
			return Reply{}, err
		}
	}
	var put []pantry.Entry
	pot := q.Kind == askMuch && q.Was != ""
	if d.Yes = d.Yes || pot; pot && q.Replace == 0 {
		var r Reply
		var done bool
		if put, r, done, err = t.putFirst(&d, q, asked); done || err != nil {
			return r, err
		}
	}
	res, err := t.resolve(&d)
	if err != nil {
		return Reply{}, err
	}
	switch {
	case res.ask != nil:
		res.ask.Replace = q.Replace
		return t.ask(append([]pending{*res.ask}, q.Rest...), asked)
	case res.entry == nil:
		return Reply{Kind: Answer, Text: res.tell}, nil
	}
	at := len(before)
	entries := slices.Concat(before, put, []pantry.Entry{*res.entry})
	if q.Replace > 0 && q.Replace <= len(before) {
		entries, at, why = before, q.Replace-1, pantry.Corrected
		if pot = at > 0 && isPassing(before, at-1); pot {
			passAll(entries, at, *res.entry)
		}
		entries[at] = *res.entry
	}
	if q.Kind != askWeigh {
		t.touch(asked)
		t.answers = asked
	}
	effects, err := t.book.Revise(into, t.said, why, entries)
	if err != nil {
		return Reply{}, err
	}
	if err := t.dishes([]pantry.Entry{*res.entry}); err != nil {
		return Reply{}, err
	}
	r := t.logged(entries[at:at+1+len(put)], effects[at:at+1+len(put)])
	if pot { // nobody knows what is left in it
		r.Text = strings.TrimSuffix(r.Text, " None left.")
	}
	if q.Kind == askWeigh {
		return t.nextWeighed(r, q.Rest, asked)
	}
	if l := t.k.Line(res.entry.Line); q.Kind == askInstead && res.entry.Act != pantry.Receive && t.unheard(q.About) && slices.Equal(food.SetApart(q.About), food.SetApart(l.Name)) {
		r.Text += fmt.Sprintf("\nSay \"%s is %s\", and I know it next time.", q.About, l.Name)
	}
	return t.askNext(r, q.Rest, asked)
}

// unheard says whether a phrase is no food's name, nor a slip of one.
func (t *turn) unheard(phrase string) bool {
	h := t.ear.find(phrase)
	return h.food == nil && len(h.lines) == 0 && !h.slip
}

// askNext goes on with what else was to be asked.
func (t *turn) askNext(r Reply, rest []pending, asked *pantry.Message) (Reply, error) {
	if len(rest) == 0 {
		return r, nil
	}
	for i := range rest {
		rest[i].Asked = cmp.Or(rest[i].Asked, asked.ID)
	}
	about := asked
	if id := rest[0].Asked; id != asked.ID {
		var err error
		if about, err = t.book.Message(id); err != nil {
			return r, err
		}
	}
	for i := range rest { // the message of the first is that of all that say none
		if rest[i].Asked == about.ID {
			rest[i].Asked = ""
		}
	}
	if about != asked && openLast(rest)[0].idle() { // it was told of with its own message, and nobody waits for it
		body, of, err := lifted(rest)
		if err != nil {
			return r, err
		}
		return r, t.setQuestion(t.cook, &pantry.Question{Message: cmp.Or(of, about.ID), At: about.At, Body: body})
	}
	if known, err := t.goesWith(&rest[0]); err != nil {
		return r, err
	} else if known || rest[0].Kind == askNeed && rest[0].Draft.Knowing { // "used 50g butter and 100ml cream in the tart": one "yes" is enough
		q := rest[0]
		q.Rest = rest[1:]
		next, err := t.complete(q, about.ID)
		next.Text, next.Entries = r.Brief()+"\n"+next.Text, append(r.Entries, next.Entries...)
		return next, err
	}
	next, err := t.ask(rest, about)
	if err != nil {
		return r, err
	}
	r.Text += "\n" + next.Text
	r.Ask = next.Ask
	return r, nil
}
