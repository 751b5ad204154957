package bot

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// pricedFor is for how long after a delivery talk of a price is of that delivery: its invoice may come
// the next day. The program's own choice.
const pricedFor = 48 * time.Hour

// priceTalk gives food that came in lately what it cost: "the flour was £5.20", "make that £6.50".
func (t *turn) priceTalk() (r Reply, done bool, err error) {
	if !strings.ContainsAny(t.m.Text, "0123456789") {
		return r, false, nil
	}
	q := t.reader().PriceTalk(t.m.Text)
	if q == nil || q.Cost == 0 {
		return r, false, nil
	}
	l, which, err := t.pricedLine(q)
	if err != nil || l == nil {
		return Reply{Kind: Answer, Text: which}, which != "", err
	}
	target, err := t.book.CameWith(l.ID)
	if err != nil || target == nil || t.said.At.Sub(target.At) > pricedFor {
		return r, false, err
	}
	entries, err := t.book.InForce(target)
	if err != nil {
		return r, false, err
	}
	i := -1
	for n, e := range entries {
		if e.Line == l.ID && e.Act == pantry.Receive {
			i = n
		}
	}
	if i < 0 {
		return r, false, nil
	}
	e := &entries[i]
	was := e.Sign + sayCost(e.Lot.Cost)
	if e.Lot.Cost == 0 {
		was = ""
	}
	cost, ok := costOf(q, *e)
	if !ok {
		return Reply{Kind: Answer, Text: fmt.Sprintf("For how much of the %s is that? Say what all %s of it cost.", l.Name, measure.Say(e.Amount, l.Unit))}, true, nil
	}
	if e.Lot.Cost = cost; q.Sign != "" {
		e.Sign = q.Sign
	}
	t.unsaid = append(t.unsaid, target.ID)
	t.touch(target)
	if _, err := t.book.Revise(target, t.said, pantry.Corrected, entries); err != nil {
		return r, true, err
	}
	text := fmt.Sprintf("%s %s: cost %s%s", title(l.Name), measure.Say(e.Amount, l.Unit), e.Sign, sayCost(cost))
	if was != "" {
		text += ", it was " + was
	}
	return Reply{Kind: Log, Entries: []Entry{t.show(*e)}, Text: text + "."}, true, nil
}

// pricedLine gives the line that a price is of: that which words name, else what this cook took in
// with the last message, where that was one food; nil none. Which asks where it was several.
func (t *turn) pricedLine(q *language.Question) (l *pantry.Line, which string, err error) {
	if q.About == language.AboutPrice {
		h := t.ear.find(q.Food)
		if !h.exact || h.sound || len(h.lines) != 1 {
			return nil, "", nil
		}
		return h.lines[0], "", nil
	}
	if m, err := t.book.Heard(t.cook, t.said); err != nil || m != nil && !m.Gone && t.fair(m) {
		if err != nil {
			return nil, "", err
		}
		if before := t.reader().PriceTalk(m.Text); before != nil && before.About == language.AboutPrice { // "no, £8.50"
			return t.pricedLine(before)
		}
	}
	_, entries, err := t.justWritten()
	entries = slices.DeleteFunc(slices.Clone(entries), func(e pantry.Entry) bool { return e.Act != pantry.Receive })
	if err != nil || len(entries) == 0 {
		return nil, "", err
	}
	if l = t.k.Line(entries[0].Line); len(entries) > 1 {
		return nil, fmt.Sprintf(`Which of them cost that? Say "the %s %s %s%s".`, l.Name, was(l.Name), q.Sign, sayCost(q.Cost)), nil
	}
	return l, "", nil
}

// costOf is what all of an entry cost; false where a price by the piece or by a unit cannot be told from
// its amount.
func costOf(q *language.Question, e pantry.Entry) (int64, bool) {
	switch {
	case q.Each:
		cost, err := measure.Ratio{Num: e.Pieces, Den: 1000}.Of(measure.Amount(q.Cost))
		return int64(cost), err == nil && cost > 0
	case q.To != nil:
		one, err := q.To.Base(measure.Whole(1))
		if err != nil || one <= 0 {
			return 0, false
		}
		cost, err := measure.Ratio{Num: int64(e.Amount), Den: int64(one)}.Of(measure.Amount(q.Cost))
		return int64(cost), err == nil && cost > 0
	}
	return q.Cost, true
}
