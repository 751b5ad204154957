package bot

import (
	"bytes"
	"encoding/json"
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// asksScales says whether a question that is kept, or one behind it, is of a round of weighing
// back: a quick look.
func asksScales(q *pantry.Question) bool {
	return q != nil && bytes.Contains(q.Body, []byte(`"`+askWeigh+`"`))
}

// atScales takes a message that is nothing but an amount, or a word for one, as the answer to
// what the scales were asked, whoever in the room says it. It is not done where no round is on.
func (t *turn) atScales() (r Reply, done bool, err error) {
	if t.m.Edit {
		return t.reweighed()
	}
	own, ok := t.recent()
	own.Rest = nil
	mine := ok && own.Kind == askWeigh
	if !mine && !t.roundOfOthers() {
		return r, false, nil
	}
	if r, done, err := t.outOfTurn(); done || err != nil {
		return r, done, err
	}
	what, a := t.reader().Scales(t.lessName(t.m.Text))
	if what == "" || !mine && t.waiting() && (what != language.ScalesAmount || a.How != language.Measured || own.takesAmount()) {
		return r, false, nil
	}
	if !mine && t.waiting() {
		return t.weighedBeside(what, a)
	}
	if !mine {
		if (what == language.ScalesNod || what == language.ScalesStop) && !t.beganRound() {
			return r, false, nil
		}
		if err := t.takeRound(); err != nil {
			return r, true, err
		}
	}
	return t.answerScales(what, a)
}

// onScalesNow is the line that the scales were asked for last; nil none.
func (t *turn) onScalesNow() *pantry.Line {
	cook, ok := t.latestAsked()
	if !ok {
		return nil
	}
	q, _ := t.stillAsked(t.k.Questions[cook])
	return t.k.Line(q.Draft.Line)
}

// lessName leaves the name of the food out that the scales were asked for: "30 eggs", of the eggs.
func (t *turn) lessName(text string) string {
	l := t.onScalesNow()
	if l == nil {
		return text
	}
	low := strings.ToLower(strings.TrimRight(text, " .!"))
	for _, name := range []string{l.Name, plural(l.Name), singular(l.Name), lastWord(l.Name), plural(lastWord(l.Name))} {
		name = strings.ToLower(name)
		if rest, ok := strings.CutSuffix(low, " "+name); ok && name != "" {
			return strings.TrimSuffix(rest, " of")
		}
		if rest, ok := strings.CutPrefix(low, name+" "); ok && name != "" {
			return strings.TrimPrefix(rest, "is ")
		}
	}
	return text
}

// outOfTurn counts food of the round that is on, but is not the one that was asked for: "butter 1.8kg". Done is
// false where no other line of it is meant.
func (t *turn) outOfTurn() (r Reply, done bool, err error) {
	cook, ok := t.latestAsked()
	if !ok || t.lessName(t.m.Text) != t.m.Text {
		return r, false, nil
	}
	m := namedWeight.FindStringSubmatch(t.m.Text)
	if m == nil {
		return r, false, nil
	}
	name, said := m[1], m[2]
	if name == "" {
		name, said = m[4], m[3]
	}
	what, a := t.reader().Scales(said)
	h := t.ear.find(name)
	if what != language.ScalesAmount || !h.exact || h.sound || len(h.lines) != 1 {
		return r, false, nil
	}
	q, _ := t.stillAsked(t.k.Questions[cook])
	if !slices.ContainsFunc(weighings(q.Rest), func(o pending) bool { return o.Draft.Line == h.lines[0].ID }) {
		return r, false, nil
	}
	a, ok = t.onScales(a, h.lines[0])
	if !ok {
		return r, false, nil
	}
	if err := t.answersScales(q); err != nil {
		return r, true, err
	}
	t.asked = nil
	r, err = t.write([]draft{{Act: pantry.Count, Food: h.lines[0].Name, Line: h.lines[0].ID, Amount: a, Plainly: true, Day: t.day()}}, pantry.Said)
	return r, r.Kind != Silent, err
}

// namedWeight is a food with what the scales say of it, and no more.
var namedWeight = regexp.MustCompile(`(?i)^\s*(?:([a-z][a-z' -]*?),? (?:is |are |=|: ?)?(\d[\d.,]* ?[a-z]*)|(\d[\d.,]* ?(?:kg|g|l|ml)?) (?:of )?([a-z][a-z' -]*?))\s*[.!]?$`)

// answerScales takes an answer to the round of weighing back that is this cook's.
func (t *turn) answerScales(what language.About, a language.Amount) (r Reply, done bool, err error) {
	q, about, err := t.open()
	if err != nil {
		return r, true, err
	}
	if l := t.k.Line(q.Draft.Line); a.How == language.Measured && a.Kind == measure.Millilitre && l.Unit == measure.Gram { // of something else
		return Reply{Kind: Asking, Text: "Not written: " + a.Said + " is no weight. " + q.text(t), Ask: &Ask{About: q.About, Options: []string{}}}, true, nil
	}
	return t.weighing(q, about, what, a)
}

// roundOfOthers says whether the latest that any other cook was asked is a round of weighing back,
// which was begun in this room.
func (t *turn) roundOfOthers() bool {
	cook, ok := t.latestAsked()
	return ok && cook != t.cook
}

// weighedBeside takes a weight as the answer to another cook's round, of a cook who has been asked
// something that it does not answer: that stays open, and the round is the other's again.
func (t *turn) weighedBeside(what language.About, a language.Amount) (r Reply, done bool, err error) {
	from, _ := t.latestAsked()
	own := t.k.Questions[t.cook]
	if err := t.setQuestion(t.cook, nil); err != nil {
		return r, true, err
	}
	if err := t.takeRound(); err != nil {
		return r, true, err
	}
	if r, done, err = t.answerScales(what, a); err != nil {
		return r, done, err
	}
	if round := t.k.Questions[t.cook]; asksScales(round) {
		if err := t.setQuestion(from, round); err != nil {
			return r, done, err
		}
	}
	return r, done, t.setQuestion(t.cook, own)
}

// takesAmount says whether an amount may be the answer to a question.
func (q *pending) takesAmount() bool {
	return !slices.Contains([]string{askWhich, askInstead, askNew, askName, askDone, askNeed}, q.Kind)
}

// latestAsked gives the cook who was asked last, if that was what the scales say and nobody was
// asked anything at the same time.
func (t *turn) latestAsked() (cook string, ok bool) {
	some := false
	for _, kept := range t.k.Questions {
		some = some || asksScales(kept)
	}
	if !some {
		return "", false
	}
	var last *pantry.Question
	for c, kept := range t.k.Questions {
		q, open := t.stillAsked(kept)
		if !open || q.idle() || c == t.cook && q.Kind != askWeigh && !q.takesAmount() {
			continue
		}
		switch {
		case last == nil || kept.At.After(last.At):
			last, cook, ok = kept, c, q.Kind == askWeigh
		case kept.At.Equal(last.At):
			ok = false
		}
	}
	if !ok {
		return "", false
	}
	m, err := t.book.Message(last.Message)
	return cook, err == nil && m.Room == t.m.Room && !t.m.At.Before(last.At)
}

// beganRound says whether it is this cook who began the round of weighing back that is on.
func (t *turn) beganRound() bool {
	cook, ok := t.latestAsked()
	if !ok {
		return false
	}
	m, err := t.book.Message(t.k.Questions[cook].Message)
	return err == nil && m.Cook == t.cook
}

// takeRound makes the round of weighing back that is on this cook's, who answers now.
func (t *turn) takeRound() error {
	from, ok := t.latestAsked()
	if !ok {
		return nil
	}
	kept := t.k.Questions[from]
	list, err := t.takeRounds(func(cook string) bool { return cook == from })
	if err != nil || len(list) == 0 {
		return err
	}
	q := list[0]
	q.Rest = list[1:]
	if own := t.k.Questions[t.cook]; own != nil { // what this cook was asked of a dish is not forgotten for a weight
		var o pending
		if err := json.Unmarshal(own.Body, &o); err != nil {
			return err
		}
		q.Rest = append(q.Rest, slices.DeleteFunc(o.all(own.Message), func(p pending) bool { return p.isShown() })...)
	}
	body, err := json.Marshal(q)
	if err != nil {
		return err
	}
	return t.setQuestion(t.cook, &pantry.Question{Message: kept.Message, At: kept.At, Body: body})
}

// takeRounds takes what the scales are still to be asked out of the questions of those cooks, and
// gives it: each line once. What was asked too long ago is only taken out.
func (t *turn) takeRounds(of func(cook string) bool) (list []pending, err error) {
	var cooks []string
	for c, kept := range t.k.Questions {
		if asksScales(kept) && of(c) {
			cooks = append(cooks, c)
		}
	}
	slices.Sort(cooks)
	for _, c := range cooks {
		kept := t.k.Questions[c]
		_, open := t.stillAsked(kept)
		round, rest, err := parted(kept)
		if err != nil {
			return nil, err
		}
		for _, q := range round {
			if open && !slices.ContainsFunc(list, func(o pending) bool { return o.Draft.Line == q.Draft.Line }) {
				list = append(list, q)
			}
		}
		if err := t.setQuestion(c, rest); err != nil {
			return nil, err
		}
	}
	return list, nil
}

// parted parts what a cook is asked into what the scales are and the rest; nil none.
func parted(kept *pantry.Question) (round []pending, other *pantry.Question, err error) {
	var q pending
	if err := json.Unmarshal(kept.Body, &q); err != nil {
		return nil, nil, err
	}
	var rest []pending
	all := append([]pending{q}, q.Rest...)
	for _, o := range all {
		o.Rest = nil
		if o.Kind == askWeigh {
			round = append(round, o)
			continue
		}
		if o.Asked == "" {
			o.Asked = kept.Message
		}
		rest = append(rest, o)
	}
	if len(rest) == 0 {
		return round, nil, nil
	}
	first := rest[0]
	about := first.Asked
	first.Asked, first.Rest, first.Until = "", rest[1:], q.Until
	body, err := json.Marshal(first)
	return round, &pantry.Question{Message: about, At: kept.At, Body: body}, err
}

// toWeigh lists what the scales are to be asked: what is left of a round that is on, else all
// that the crate has left.
func (t *turn) toWeigh() (list []pending, err error) {
	on, err := t.takeRounds(func(string) bool { return true })
	if err != nil {
		return nil, err
	}
	for _, l := range t.k.Lines {
		if l.Shelf == food.Cupboard || l.OnHand() == 0 {
			continue
		}
		if len(on) > 0 && !slices.ContainsFunc(on, func(q pending) bool { return q.Draft.Line == l.ID }) {
			continue
		}
		list = append(list, pending{Kind: askWeigh, About: l.Name, Draft: draft{Act: pantry.Count, Food: l.Name, Line: l.ID, Plainly: true}})
	}
	if len(on) > 0 && len(list) == 0 { // what was left of it is used up
		return t.toWeigh()
	}
	return list, nil
}

// counts takes lines that were counted in other words out of a round that is on, and asks for the
// next where the one that was asked for is among them. Where that was used or binned in between, it is
// asked for again, by the record as it is now.
func (t *turn) counts(r Reply, entries []pantry.Entry) (Reply, error) {
	cook, ok := t.latestAsked()
	if !ok {
		return r, nil
	}
	kept := t.k.Questions[cook]
	q, _ := t.stillAsked(kept)
	rest := q.Rest
	q.Rest = nil
	list := append([]pending{q}, rest...)
	is := func(e pantry.Entry, o pending) bool {
		return o.Kind == askWeigh && e.Line == o.Draft.Line && e.Lot.State == ""
	}
	left := slices.DeleteFunc(slices.Clone(list), func(o pending) bool {
		return slices.ContainsFunc(entries, func(e pantry.Entry) bool { return e.Act == pantry.Count && is(e, o) })
	})
	if len(left) < len(list) && (len(left) == 0 || left[0].Draft.Line != q.Draft.Line) {
		asked, err := t.book.Message(kept.Message)
		if err != nil {
			return r, err
		}
		if err := t.setQuestion(cook, nil); err != nil {
			return r, err
		}
		return t.nextWeighed(r, left, asked)
	}
	if len(left) < len(list) {
		q = left[0]
		q.Rest = left[1:]
		body, err := json.Marshal(q)
		if err != nil {
			return r, err
		}
		if err := t.setQuestion(cook, &pantry.Question{Message: kept.Message, At: kept.At, Body: body}); err != nil {
			return r, err
		}
	}
	if slices.ContainsFunc(entries, func(e pantry.Entry) bool { return is(e, left[0]) }) && r.Kind == Log {
		q.Rest = left[1:]
		t.plain = false
		r.Text, r.Ideas = r.Brief()+"\n"+q.text(t), nil
	}
	return r, nil
}

// answersScales notes in the message which line it answers for, so that an edit of it is of the same.
func (t *turn) answersScales(q pending) (err error) {
	q.Rest = nil
	if t.asked, err = json.Marshal(q); err != nil {
		return err
	}
	return t.countsForWrapped()
}

// countsForWrapped lets what the scales say a short while after a wrap-up be of the service that was
// wrapped up, however it was said.
func (t *turn) countsForWrapped() error {
	wraps, err := t.book.WrapUps()
	if err != nil || len(wraps) == 0 || wraps[len(wraps)-1].N >= t.said.N {
		return err
	}
	if came, _, err := t.sinceWrapUp(wraps); err != nil || came {
		return err
	}
	return t.reclose()
}

// reweighed reads an edited message that was an answer at the scales: it is of the same line. It is
// not done where it is another message, or says something else now.
func (t *turn) reweighed() (r Reply, done bool, err error) {
	var q pending
	if body := questionOf(t.said); body == nil || json.Unmarshal(body, &q) != nil || q.Kind != askWeigh || saysWrap(t.said.Text) {
		return r, false, nil
	}
	what, a := t.reader().Scales(t.m.Text)
	l := t.k.Line(q.Draft.Line)
	switch what {
	case "":
		return r, false, nil
	case language.ScalesAmount:
		var ok bool
		if q.Draft.Amount, ok = t.onScales(a, l); !ok {
			t.asked = questionOf(t.said)
			return t.unweighed(&q, a), true, nil
		}
	case language.ScalesNone:
		q.Draft.Amount = noneOf(l)
	default:
		t.asked = questionOf(t.said)
		return Reply{Kind: Answer, Text: title(l.Name) + " stays as the record has it."}, true, nil
	}
	t.asked = questionOf(t.said)
	r, err = t.write([]draft{q.Draft}, pantry.Edited)
	r.Text, r.Ideas = r.Brief(), nil
	return r, true, err
}

// undoScales takes back what the cook logged last within a round of weighing back, and asks for that
// line again where it was the scales'. The round itself is taken back where nothing was.
func (t *turn) undoScales(q pending, asked *pantry.Message) (Reply, error) {
	logged, err := t.book.LastLogged(t.cook, 1)
	if err != nil {
		return Reply{}, err
	}
	if len(logged) == 0 || logged[0].N < asked.N {
		if _, err := t.takeRounds(func(string) bool { return true }); err != nil {
			return Reply{}, err
		}
		return Reply{Kind: Answer, Text: "Left out: weighing back."}, nil
	}
	list := append([]pending{q}, q.Rest...)
	list[0].Rest = nil
	var was pending
	again := json.Unmarshal(questionOf(logged[0]), &was) == nil && was.Kind == askWeigh
	if again {
		list = append([]pending{was}, list...)
	}
	r, err := t.takeBack(logged)
	if err != nil {
		return r, err
	}
	list[0].Rest = list[1:]
	list[0].Was = ""
	body, err := json.Marshal(list[0])
	if err != nil {
		return r, err
	}
	r.Text += "\n" + list[0].text(t)
	return r, t.setQuestion(t.cook, &pantry.Question{Message: asked.ID, At: t.m.At, Body: body})
}

// noneOf is what is counted of a line that is used up.
func noneOf(l *pantry.Line) language.Amount {
	return language.Amount{How: language.Measured, Kind: l.Unit, Said: "none", N: measure.Whole(0)}
}
