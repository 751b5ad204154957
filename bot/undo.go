package bot

import (
	"slices"
	"strings"

	"scullion/pantry"
	"scullion/pantry/measure"
)

// undoQuestion takes back what the cook said last where it is still being
// asked about: the question, and what of the message was written.
func (t *turn) undoQuestion() (Reply, error) {
	q, message, err := t.open()
	if err != nil {
		return Reply{}, err
	}
	asked, err := t.book.Message(message)
	if err != nil {
		return Reply{}, err
	}
	if q.Kind == askWeigh {
		return t.undoScales(q, asked)
	}
	if entries, err := t.book.InForce(asked); err != nil || len(entries) > 0 && q.Replace == 0 {
		if err != nil {
			return Reply{}, err
		}
		return t.takeBack([]*pantry.Message{asked})
	}
	rest, err := t.closeOf([]*pantry.Message{asked})
	return Reply{Kind: Answer, Text: leftOutSaid + q.About + "." + rest}, err
}

// closeOf drops what a cook was asked about messages that are taken back. What was asked about others
// stays asked: it is told again.
func (t *turn) closeOf(list []*pantry.Message) (text string, err error) {
	kept := t.k.Questions[t.cook]
	if kept == nil {
		return "", nil
	}
	q, message, err := t.open()
	if err != nil {
		return "", err
	}
	if q.Kind == askWeigh { // the count goes on by its own list
		return "", t.setQuestion(t.cook, nil)
	}
	stay := slices.DeleteFunc(q.all(message), func(p pending) bool {
		return p.isShown() || slices.ContainsFunc(list, func(m *pantry.Message) bool { return m.ID == p.Asked })
	})
	if len(stay) == 0 {
		return "", t.setQuestion(t.cook, nil)
	}
	first := stay[0]
	first.Rest = stay[1:]
	body, of, err := lifted(stay)
	if err != nil {
		return "", err
	}
	return "\nStill asked: " + first.text(t) + first.sayRest(), t.setQuestion(t.cook, &pantry.Question{Message: of, At: kept.At, Body: body})
}

// askedLast says whether what the cook said last is still being asked about: nothing was logged
// since.
func (t *turn) askedLast() (bool, error) {
	if !t.waiting() {
		return false, nil
	}
	q, message, err := t.open()
	if err != nil || q.Kind == askWeigh {
		return err == nil, err
	}
	asked, err := t.book.Message(message)
	if err != nil {
		return false, err
	}
	logged, err := t.book.LastLogged(t.cook, 1)
	return len(logged) == 0 || logged[0].N <= asked.N, err
}

// undo withdraws the last n messages by which this cook logged something; with
// a food named, the last one about it. Of a message that was corrected since it takes back the
// correction first, unless whole.
func (t *turn) undo(n int, foodName string, whole bool) (Reply, error) {
	list, err := t.book.LastLogged(t.cook, max(n, undoSearch))
	if err != nil {
		return Reply{}, err
	}
	if n == 1 && foodName == "" {
		by, of, err := t.lastCorrection(list)
		if err != nil {
			return Reply{}, err
		}
		logged := list
		if by != nil { // it was the last, unless one of these was
			list = append([]*pantry.Message{by}, list...)
		}
		if r, done, err := t.unwrapped(list); done || err != nil {
			return r, err
		}
		if r, done, err := t.unnoted(list, by); done || err != nil {
			return r, err
		}
		if r, done, err := t.turnedBack(list); done || err != nil {
			return r, err
		}
		if r, done, err := t.stretchedBack(list); done || err != nil {
			return r, err
		}
		if r, done, err := t.swappedBack(list); done || err != nil {
			return r, err
		}
		if r, done, err := t.wantedAgain(list); done || err != nil {
			return r, err
		}
		if by != nil && !whole {
			if _, err := t.alsoRestored(by, of); err != nil {
				return Reply{}, err
			}
			return t.uncorrect(of)
		}
		list = logged
		if text, err := t.wholePlan(list); err != nil || text != "" {
			return Reply{Kind: Answer, Text: text}, err
		}
	}
	if foodName != "" {
		if h := t.ear.find(foodName); len(h.lines) == 0 { // "undo your apron"
			return Reply{Kind: Silent}, nil
		}
		if list, err = t.about(list, foodName); err != nil {
			return Reply{}, err
		}
	}
	return t.takeBack(list[:min(n, len(list))])
}

// wantedAgain takes back that an idea was turned down, if that is what the cook did
// last; logged are the messages by which the cook logged something.
func (t *turn) wantedAgain(logged []*pantry.Message) (r Reply, done bool, err error) {
	choices, err := t.book.Chosen(t.m.At.Add(-serviceLong))
	for _, c := range slices.Backward(choices) {
		if c.Cook != t.cook || c.Taken {
			continue
		}
		if len(logged) > 0 && logged[0].At.After(c.At) {
			break
		}
		return Reply{Kind: Answer, Text: "Taken back: " + c.Title + " may be offered again."}, true, t.book.Unchoose(c.Message)
	}
	return r, false, err
}

// undoSearch is how many of a cook's messages "undo the leek" looks through.
const undoSearch = 10

// about gives those messages that have an entry of the food.
func (t *turn) about(list []*pantry.Message, foodName string) (kept []*pantry.Message, err error) {
	lines := t.ear.find(foodName).lines
	for _, m := range list {
		entries, err := t.book.InForce(m)
		if err != nil {
			return nil, err
		}
		if slices.ContainsFunc(entries, func(e pantry.Entry) bool {
			return slices.ContainsFunc(lines, func(l *pantry.Line) bool { return l.ID == e.Line })
		}) {
			kept = append(kept, m)
		}
	}
	return kept, nil
}

func (t *turn) takeBack(list []*pantry.Message) (Reply, error) {
	if len(list) == 0 {
		return Reply{Kind: Error, Text: "Nothing of yours to take back. Each cook takes back their own."}, nil
	}
	rest, err := t.closeOf(list)
	if err != nil {
		return Reply{}, err
	}
	var was, left, again []string
	var lines []*pantry.Line
	for _, m := range list {
		entries, err := t.book.InForce(m)
		if err != nil {
			return Reply{}, err
		}
		said, err := t.stood(m)
		if err != nil {
			return Reply{}, err
		}
		was = append(was, said)
		if err := t.book.Unchoose(m.ID); err != nil {
			return Reply{}, err
		}
		if err := t.book.DropService(m.ID); err != nil {
			return Reply{}, err
		}
		back, err := t.reopen(m)
		if err != nil {
			return Reply{}, err
		}
		if back != "" {
			again = append(again, back)
		}
		if err := t.book.TakeNeeds(m, t.said); err != nil {
			return Reply{}, err
		}
		if err := t.stopFor(m.ID); err != nil {
			return Reply{}, err
		}
		t.unsaid = append(t.unsaid, m.ID)
		t.touch(m)
		if _, err := t.book.Revise(m, t.said, pantry.Undone, nil); err != nil {
			return Reply{}, err
		}
		if err := t.retire(m.ID); err != nil {
			return Reply{}, err
		}
		if len(entries) > 0 {
			more, err := t.alsoRestored(m, m)
			if err != nil {
				return Reply{}, err
			}
			lines = append(lines, more...)
		}
		for _, e := range entries {
			lines = append(lines, t.k.Line(e.Line))
		}
	}
	t.ear = t.b.ears.of(t.k)
	for _, l := range lines {
		left = appendOnce(left, l.Name+" "+measure.Say(l.OnHand(), l.Unit))
	}
	r := Reply{Kind: Log, Text: "Taken back: " + strings.Join(was, "; ") + "."}
	if len(left) > 0 {
		r.Text += "\nLeft: " + strings.Join(left, ", ") + "."
	}
	if len(again) > 0 {
		r.Text, r.Timed = r.Text+"\n"+strings.Join(again, "\n"), t.m.Room != ""
	}
	r.Text += rest
	return r, nil
}

func appendOnce[S ~string](list []S, s S) []S {
	for _, x := range list {
		if x == s {
			return list
		}
	}
	return append(list, s)
}
