package bot

import (
	"errors"
	"slices"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
)

// Press is a button or a choice under an answer. It is a message of its own,
// with an id of its own.
type Press struct {
	On       string // id of the Posting that carries it
	Kind     PressKind
	N        int    // of an option or idea: which, counted from 1; of an option 0: none of them
	Question string // of an option: the Posting's Asked
}

// PressKind says what a press is for.
type PressKind string

// What can be pressed.
const (
	PressOption PressKind = "option" // an answer that was offered
	PressUndo   PressKind = "undo"   // take the entry back
	PressIdea   PressKind = "idea"   // keep what an idea needs
)

// undoFor is how long an entry can be taken back by a press: a service, not last
// week's. Saying "undo" and counting have no such bound.
const undoFor = 12 * time.Hour

// pressed does what was pressed. What cannot be done is said to the one who
// pressed, and the buttons go.
func (t *turn) pressed() (Reply, error) {
	post, err := t.book.Post(t.m.Press.On)
	if err != nil {
		return Reply{}, err
	}
	if post == nil {
		return Reply{Kind: Answer, Text: "That is too long ago to press. Say what happened."}, nil
	}
	p, err := posting(*post)
	if err != nil {
		return Reply{}, err
	}
	var r Reply
	switch t.m.Press.Kind {
	case PressOption:
		r, err = t.pressedOption()
	case PressUndo:
		r, err = t.pressedUndo(p)
	case PressIdea:
		return t.pressedIdea(p)
	default:
		return Reply{Kind: Error, Text: "That button is none of this program's."}, nil
	}
	if err == nil && r.Kind == Answer && !p.Spent {
		p.Spent = true
		if p.Reply.Kind == Asking {
			p.Reply.Text += "\n" + r.Text
		}
		err = t.savePost(p)
	}
	return r, err
}

// pressedOption answers a question, whichever cook it was put to: whoever has
// dry hands may.
func (t *turn) pressedOption() (Reply, error) {
	q, message, found, err := t.promote()
	if err != nil {
		return Reply{}, err
	}
	if !found {
		return Reply{Kind: Answer, Text: "That was answered, or is too long ago to answer now."}, nil
	}
	n := t.m.Press.N
	if n < 1 || n > len(q.Options) {
		r, err := t.leaveOut(q, message)
		if r.Kind == Answer {
			r.Kind = Log // for all to see, in place of the question
		}
		return r, err
	}
	a := language.Answer{N: n, Yes: q.Options[n-1].Yes && (q.Kind == askNew || q.Kind == askName || q.Kind == askNeed)}
	if !q.take(a) {
		return Reply{Kind: Answer, Text: "That does not answer it. Say it in words."}, nil
	}
	r, err := t.complete(q, message)
	if r.Kind == Answer && r.Ask == nil {
		r.Kind = Log
	}
	return r, err
}

// promote finds the question that was pressed on, whichever cook has it, and
// puts it before what else that cook is asked. T is then that cook's.
func (t *turn) promote() (q pending, message string, found bool, err error) {
	for cook, kept := range t.k.Questions {
		first, ok := t.stillAsked(kept)
		if !ok {
			continue
		}
		first.Asked = kept.Message
		list := append([]pending{first}, first.Rest...)
		list[0].Rest = nil
		i := slices.IndexFunc(list, func(x pending) bool { return x.On == t.m.Press.On && x.tag() == t.m.Press.Question })
		if i < 0 {
			continue
		}
		t.cook = cook
		for j := range list {
			if list[j].Asked == "" {
				list[j].Asked = kept.Message
			}
		}
		q = list[i]
		message, q.Asked = q.Asked, ""
		q.Rest = slices.Delete(list, i, i+1)
		return q, message, true, nil
	}
	return q, "", false, nil
}

// pressedUndo takes back what the message wrote; each cook takes back their own.
func (t *turn) pressedUndo(p Posting) (Reply, error) {
	m, err := t.book.Message(p.ID)
	if errors.Is(err, pantry.ErrNoMessage) {
		return Reply{Kind: Answer, Text: "That message is not known here any more."}, nil
	}
	if err != nil {
		return Reply{}, err
	}
	switch {
	case m.Cook != t.said.Cook:
		return Reply{Kind: Error, Text: "Each cook takes back their own: that was said by " + t.k.CookName(m.Cook) + "."}, nil
	case t.m.At.Sub(m.At) > undoFor:
		return Reply{Kind: Answer, Text: "That is too long ago for a button. Say what is there now, like \"there's 450g leek left\"."}, nil
	}
	if stood, err := t.stood(m); err != nil || stood == "" {
		return Reply{Kind: Answer, Text: "That has been taken back already."}, err
	}
	return t.takeBack([]*pantry.Message{m})
}

// pressedIdea keeps for the cook what an idea needs.
func (t *turn) pressedIdea(p Posting) (Reply, error) {
	n := t.m.Press.N
	if n < 1 || n > len(p.Reply.Ideas) {
		return Reply{Kind: Error, Text: "That idea is not known here. \"ideas?\" shows what can be made now."}, nil
	}
	return t.take([]shown{{Idea: p.Reply.Ideas[n-1]}}, "")
}
