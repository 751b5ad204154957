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
	switch {
	case q != nil && q.About == language.AboutReturned:
		t.note = fmt.Sprintf(`What comes back for it: "credit £3 on the %s".`, strings.ToLower(q.Food))
		r, err = t.write([]draft{{Act: pantry.Use, Food: q.Food, Amount: q.Amount, Dish: pantry.AwayTo(supplier), Day: t.day()}}, pantry.Said)
		return r, r.Kind != Silent, err
	case q == nil || q.Cost == 0:
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
	cost, ok := t.costSaid(q, *e, target)
	if !ok {
		return Reply{Kind: Answer, Text: fmt.Sprintf("For how much of the %s is that? Say what all %s of it cost.", l.Name, measure.Say(e.Amount, l.Unit))}, true, nil
	}
	credit := ""
	if q.About == language.AboutCredit {
		switch {
		case was == "":
			return Reply{Kind: Answer, Text: fmt.Sprintf(`Nobody said what the %s cost: say what it cost less the credit, like "the %s was £9".`, l.Name, l.Name)}, true, nil
		case cost > e.Lot.Cost || q.Sign != "" && e.Sign != "" && q.Sign != e.Sign:
			return Reply{Kind: Error, Text: fmt.Sprintf("Not written: the %s cost %s in all, so %s%s cannot come back of it.", l.Name, was, q.Sign, sayCost(cost))}, true, nil
		}
		credit, cost = " after "+q.Sign+sayCost(cost)+" credit", e.Lot.Cost-cost
	}
	if e.Lot.Cost = cost; q.Sign != "" {
		e.Sign = q.Sign
	}
	t.unsaid = append(t.unsaid, target.ID)
	t.touch(target)
	if _, err := t.book.Revise(target, t.said, pantry.Corrected, entries); err != nil {
		return r, true, err
	}
	text := fmt.Sprintf("%s %s: cost %s%s", title(l.Name), measure.Say(e.Amount, l.Unit), e.Sign, sayCost(cost)+credit)
	if was != "" {
		text += ", it was " + was
	}
	return Reply{Kind: Log, Entries: []Entry{t.show(*e)}, Text: text + "."}, true, nil
}

// pricedLine gives the line that a price is of: that which words name, else what this cook took in
// with the last message, where that was one food; nil none. Which asks where it was several.
func (t *turn) pricedLine(q *language.Question) (l *pantry.Line, which string, err error) {
	if q.About != language.AboutItsPrice {
		h := t.ear.find(q.Food)
		if h.exact && !h.sound && len(h.lines) == 1 {
			return h.lines[0], "", nil
		}
		return t.lineNamed(q.Food), "", nil
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

// lineNamed gives the one line that came in whose name ends so: "the wine" for red wine; nil none, or several.
func (t *turn) lineNamed(said string) (found *pantry.Line) {
	said = strings.ToLower(said)
	for _, l := range t.k.Lines {
		if l.Received == 0 || !strings.HasSuffix(l.Name, " "+said) && !strings.HasSuffix(l.Name, " "+singular(said)) {
			continue
		}
		if found != nil {
			return nil
		}
		found = l
	}
	return found
}

// sayEachOf says what a price "each" was taken for of pieces that came in cases: "Eggs: £0.20 for each piece, £12.00 in
// all. ..."; "" where there is no doubt.
func sayEachOf(it language.Item) string {
	count, other := it.Amount.N, it.Amount.Outer
	if it.Each != language.OnePiece {
		count, other = it.Amount.Outers, language.OnePiece
	}
	if it.Each == "" || count.Num <= 0 {
		return ""
	}
	one, _ := measure.Ratio{Num: count.Den, Den: count.Num}.Of(measure.Amount(it.Cost))
	return fmt.Sprintf(`%s: %s for each %s, %s in all. For each %s? "the %s %s %s a %s".`, title(it.Food), it.Sign+sayCost(int64(one)), it.Each, it.Sign+sayCost(it.Cost), other, it.Food, was(it.Food), it.Sign+sayCost(int64(one)), other)
}

// costSaid is costOf; of a case it is that of as many as the delivery told of, and so is "each" where no piece costs
// so much.
func (t *turn) costSaid(q *language.Question, e pantry.Entry, delivery *pantry.Message) (int64, bool) {
	if q.Outer == "" && !q.Each || q.Outer == language.OnePiece {
		return costOf(q, e)
	}
	for _, s := range t.reader().Read(language.MendShort(delivery.Text)).Statements {
		for _, it := range s.Items {
			a := it.Amount
			n := a.Outers
			if q.Outer == "" {
				if a.Outer == "" || a.How != language.Pieces || !t.isFood(e, it.Food) || language.EachIsPiece(q.Cost, a) {
					continue
				}
			} else if a.How == language.Pieces && a.Part == q.Outer {
				n = a.N
			} else if a.Pack == q.Outer && a.Outer == "" { // "2 x 5kg box"
				n = a.Count
			} else if a.Outer != q.Outer {
				continue
			}
			if !t.isFood(e, it.Food) || n.Num <= 0 {
				continue
			}
			cost, err := n.Of(measure.Amount(q.Cost))
			return int64(cost), err == nil && cost > 0
		}
	}
	if q.Outer == "" {
		return costOf(q, e)
	}
	return 0, false
}

// costOf is what all of an entry cost; false where a price by the piece or by a unit cannot be told from
// its amount.
func costOf(q *language.Question, e pantry.Entry) (int64, bool) {
	switch {
	case q.Each:
		if e.Pieces == 0 && e.Lot.PieceMg > 0 {
			e.Pieces = int64(e.Amount) * 1000 / int64(e.Lot.PieceMg)
		}
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
