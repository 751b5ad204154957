package bot

import (
	"encoding/json"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// changed settles an edit or a delete of a message that was heard before: what
// it had written is withdrawn, and after an edit it is read anew.
func (t *turn) changed() (Reply, error) {
	if t.said.Gone {
		if raw, err := t.book.Change(t.said, t.event()); err != nil || raw != nil {
			return t.repeat(raw, err)
		}
		return Reply{To: t.m.ID, Kind: Silent}, nil
	}
	if raw, err := t.book.Change(t.said, t.event()); err != nil || raw != nil {
		return t.repeat(raw, err)
	}
	old, err := t.book.InForce(t.said)
	if err != nil {
		return Reply{}, err
	}
	needs := t.needsByMessage(t.said)
	before, err := t.withdraw()
	if err != nil {
		return Reply{}, err
	}
	t.then = t.said
	r := Reply{Kind: Silent}
	stay := t.m.Edit && len(needs) > 0 && !t.retells(t.m.Text)
	if stay { // what it says now is answered, and asked about, with them
		if err := t.book.KeepNeeds(t.said, needs); err != nil {
			return Reply{}, err
		}
	}
	if t.m.Edit && !(len(needs) > 0 && takesBack.MatchString(t.m.Text)) {
		if r, err = t.answer(pantry.Edited); err != nil {
			return Reply{}, err
		}
	}
	kept := ""
	if stay {
		kept = sayStay(t.k, needs)
	}
	if !stay {
		kept, err = t.needsStay(needs, r)
	}
	if err != nil {
		return Reply{}, err
	}
	if kept != "" { // what is told as taken back are its entries alone
		if before = ""; len(old) > 0 {
			before = t.together(old)
		}
	}
	if before != "" {
		switch r.Kind {
		case Log:
			r.Text = "Changed. " + r.Text
		case Silent:
			r = Reply{Kind: Log, Text: "Taken back: " + before + "."}
		default:
			stays, err := t.stays(r, old)
			if err != nil {
				return Reply{}, err
			}
			if stays {
				r.Text = title(before) + " stays until you answer.\n" + r.Text
				r.Entries = []Entry{t.show(old[0])}
			} else {
				r.Text = "Taken back: " + before + ".\n" + r.Text
			}
		}
	}
	switch {
	case kept != "" && r.Kind == Silent:
		r = Reply{Kind: Answer, Text: kept}
	case kept != "":
		r.Text = r.with(kept)
	}
	if t.on != "" && r.Kind != Silent {
		r.Text, r.Timed = r.with(t.on), r.Timed || t.m.Room != ""
	}
	told := slices.DeleteFunc(slices.Clone(t.regained), func(e pantry.Entry) bool { return t.on != "" && e.Act == pantry.Claim })
	if len(told) > 0 && r.Kind != Silent {
		r.Text = r.with("Counted again: " + t.together(told) + ".")
	}
	if r, err = t.tellNeeds(r); err != nil {
		return Reply{}, err
	}
	if r, err = t.keepPlan(r); err != nil {
		return Reply{}, err
	}
	if r, err = t.mindWarm(r); err != nil {
		return Reply{}, err
	}
	if err = t.keepDoubt(); err != nil {
		return Reply{}, err
	}
	if r, err = t.tellClosed(r); err != nil {
		return Reply{}, err
	}
	raw, text := t.pack(&r)
	t.said.Edited = max(t.said.Edited, t.m.Edited)
	if err := t.post(r); err != nil {
		return Reply{}, err
	}
	if raw == nil {
		raw = []byte(`{"to":` + quote(t.m.ID) + `,"kind":"silent","text":""}`)
	}
	return r, t.book.AnswerChange(t.said, t.event(), text, t.m.Delete, raw)
}

// stays lets the one entry that a message had stand where what it says after an edit has to be
// asked about: the answer takes its place. It says whether it does.
func (t *turn) stays(r Reply, old []pantry.Entry) (bool, error) {
	if r.Kind != Asking || len(r.Entries) > 0 || len(old) != 1 || !t.waiting() {
		return false, nil
	}
	q, message, err := t.open()
	if err != nil || message != t.said.ID || q.Replace > 0 || q.Draft.Act == "" || len(q.Rest) > 0 {
		return false, err
	}
	if _, err := t.book.Revise(t.said, t.said, pantry.Restored, old); err != nil {
		return false, err
	}
	q.Replace = 1
	return true, t.keep(q, message)
}

func quote(s string) string {
	raw, _ := json.Marshal(s) // a string always can be
	return string(raw)
}

func (t *turn) repeat(raw []byte, err error) (Reply, error) {
	if err != nil {
		return Reply{}, err
	}
	return stored(t.m.ID, raw)
}

// withdraw takes back what the message had written: its entries, its
// corrections of other messages, and the question it left open. It says what
// the entries were.
func (t *turn) withdraw() (before string, err error) {
	why := pantry.Edited
	if t.m.Delete {
		why = pantry.Deleted
	}
	if q := t.k.Questions[t.cook]; q != nil && q.Message == t.said.ID {
		if err := t.setQuestion(t.cook, nil); err != nil {
			return "", err
		}
	}
	if err := t.dropUnread(func(p *pending) bool { return p.Asked == t.said.ID }); err != nil {
		return "", err
	}
	if _, err := t.takeRounds(func(cook string) bool { return t.k.Questions[cook].Message == t.said.ID }); err != nil {
		return "", err
	}
	others, err := t.book.Revised(t.said)
	if err != nil {
		return "", err
	}
	t.unsaid = append(t.unsaid, t.said.ID)
	on, _, err := t.running()
	if err != nil {
		return "", err
	}
	for _, o := range others {
		if o.Gone || o.ID == on.Message { // what was deleted since does not come back; a plan keeps what it needs now
			continue
		}
		t.unsaid = append(t.unsaid, o.ID)
		why, err := t.book.RevisedFor(o)
		if err != nil {
			return "", err
		}
		if err := t.restore(o); err != nil {
			return "", err
		}
		before = "the correction"
		if q := questionOf(o); q != nil && why == pantry.Answered && !asksScales(&pantry.Question{Body: q}) { // the question is open again
			before = "the answer"
			t.reopened = true
			if err := t.setQuestion(t.cook, &pantry.Question{Message: o.ID, At: t.m.At, Body: q}); err != nil {
				return "", err
			}
			continue
		}
		entries, err := t.book.InForce(o)
		if err != nil {
			return "", err
		}
		t.regained = append(t.regained, entries...)
	}
	if timed, err := t.untimed(); err != nil {
		return "", err
	} else if timed != "" {
		before = timed
	}
	if err := t.book.Unchoose(t.said.ID); err != nil {
		return "", err
	}
	if q := t.reader().WrapTalk(t.said.Text); q != nil && q.About == language.AboutWrapUp { // what was logged a while after one only moved its end
		if err := t.book.DropWrapUp(t.said); err != nil {
			return "", err
		}
	}
	if err := t.book.DropService(t.said.ID); err != nil {
		return "", err
	}
	if t.on, err = t.reopen(t.said); err != nil {
		return "", err
	}
	if back, err := t.book.ReturnNeeds(t.said); err != nil {
		return "", err
	} else if len(back) > 0 && before == "" {
		before = "the correction"
	}
	was, err := t.stood(t.said)
	if err != nil || was == "" {
		return before, err
	}
	if err := t.book.TakeNeeds(t.said, t.said); err != nil {
		return "", err
	}
	t.touch(t.said)
	_, err = t.book.Revise(t.said, t.said, why, nil)
	t.ear = t.b.ears.of(t.k)
	return was, err
}

// stood says what a message has written or taught, as it stands; "" nothing.
func (t *turn) stood(m *pantry.Message) (string, error) {
	entries, err := t.book.InForce(m)
	if err != nil {
		return "", err
	}
	var list []string
	if len(entries) > 0 {
		var told []pantry.Entry
		for i, e := range entries {
			if !isPassing(entries, i) {
				told = append(told, e)
			}
		}
		list = append(list, t.together(told))
	} else if lessons, err := t.book.Lessons(m); err != nil {
		return "", err
	} else if len(lessons) > 0 {
		list = append(list, whatWasTaught(lessons[0]))
	}
	return strings.Join(append(list, t.needsOf(m)...), "; "), nil
}

// restore puts a message's entries or lessons back as they were before their
// latest revision.
func (t *turn) restore(m *pantry.Message) error {
	lessons, err := t.book.LessonsBefore(m)
	if err != nil {
		return err
	}
	if len(lessons) > 0 {
		err = t.book.Teach(m, t.said, pantry.Restored, lessons)
		t.ear = t.b.ears.of(t.k)
		return err
	}
	was, err := t.book.Before(m)
	if err != nil {
		return err
	}
	t.touch(m)
	_, err = t.book.Revise(m, t.said, pantry.Restored, was)
	return err
}
