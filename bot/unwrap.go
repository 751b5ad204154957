package bot

import (
	"scullion/bot/language"
	"scullion/pantry"
)

// unwrapped takes a wrap-up back, if that is what the cook said last; logged are the messages
// by which the cook logged something.
func (t *turn) unwrapped(logged []*pantry.Message) (r Reply, done bool, err error) {
	wraps, err := t.book.WrapUps()
	if err != nil || len(wraps) == 0 {
		return r, false, err
	}
	last := wraps[len(wraps)-1]
	if last.Cook != t.cook || len(logged) > 0 && logged[0].N > last.N {
		return r, false, nil
	}
	m, err := t.book.Message(last.Message)
	if err != nil {
		return r, false, err
	}
	if q := t.reader().WrapTalk(m.Text); q == nil || q.About != language.AboutWrapUp { // it is what was logged then
		return r, false, nil
	}
	r, err = t.unwrap(m)
	return r, true, err
}

// unwrapLast takes the last wrap-up back, whoever it was by and whatever was logged since.
func (t *turn) unwrapLast() (Reply, error) {
	wraps, err := t.book.WrapUps()
	if err != nil || len(wraps) == 0 || t.said.At.Sub(wraps[len(wraps)-1].At) > serviceLong {
		return Reply{Kind: Error, Text: "There is no wrap-up of late to take back."}, err
	}
	m, err := t.book.Message(wraps[len(wraps)-1].Message)
	if err != nil {
		return Reply{}, err
	}
	return t.unwrap(m)
}

// unwrap takes a wrap-up back that ended with message m.
func (t *turn) unwrap(m *pantry.Message) (r Reply, err error) {
	if err := t.book.TakeNeeds(m, t.said); err != nil {
		return r, err
	}
	if err := t.book.DropWrapUp(m); err != nil {
		return r, err
	}
	text := "Taken back: the wrap-up. The account is open again."
	on, err := t.reopen(m)
	if on != "" {
		text += "\n" + on
	}
	return Reply{Kind: Answer, Text: text, Timed: on != "" && t.m.Room != ""}, err
}
