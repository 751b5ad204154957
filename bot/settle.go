package bot

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"unicode/utf8"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// longest is the most characters that one message may have. Chat services
// allow fewer; a longer text is a paste, not something a cook typed.
const longest = 4000

// turn is one message being settled.
type turn struct {
	b    *Bot
	book pantry.Book
	k    *pantry.Kitchen
	ear  *ear
	m    Message         // as it came in
	said *pantry.Message // as the ledger has it
	cook string

	ready   []pantry.Entry         // what this message will write
	sim     map[int64]*pantry.Line // lines as they will stand with ready
	asks    bool                   // ideas are asked for in the same breath: none goes behind the entries
	trimmed string                 // what the trim just binned would have made
	note    string                 // what else the cook should know
	asked   []byte                 // the question that this message leaves open

	posts     []Posting       // what rooms are to be shown now
	plain     bool            // the reply says nothing that the cook did not
	askTag    string          // tells the question that the reply asks from others
	reopened  bool            // the message was an answer, and its question is open again
	unsaid    []string        // messages whose entries are no longer what they were
	on        string          // that a plan is on again
	touched   int64           // the first of the messages whose entries it changed; 0 of none
	regained  []pantry.Entry  // of other messages, in force again: what took them back is gone
	knowing   bool            // what breaks a need at the table was asked about, and is done
	suitsTold bool            // a plan has told which dishes suit whom
	tabled    bool            // what is said of the table's needs has been read
	inDoubt   measure.Amount  // drawn by what is asked about because of a need
	then      *pantry.Message // set while an edited message is read: stock is as it was then
}

// settle answers one message and writes what it brings about.
func (b *Bot) settle(book pantry.Book, m Message) (Reply, error) {
	m.Text = strings.ToValidUTF8(m.Text, "")
	t := &turn{b: b, book: book, k: book.Kitchen(), m: m, cook: m.Cook}
	t.ear = b.ears.of(t.k)
	said, err := book.Message(m.ID)
	switch {
	case errors.Is(err, pantry.ErrNoMessage):
		r, err := t.fresh()
		r.Posts = t.posts
		return r, err
	case err != nil:
		return Reply{}, err
	}
	t.said, t.cook = said, said.Cook
	if m.Edit && m.Edited > 0 && m.Edited <= said.Edited { // late, and overtaken by one made after it
		return stored(m.ID, said.Reply)
	}
	if m.Edit || m.Delete {
		r, err := t.changed()
		r.Posts = t.posts
		return r, err
	}
	return stored(m.ID, said.Reply)
}

// kept is a reply as it is stored: with the question that it left open, so
// that taking an answer back can open it again.
type kept struct {
	Reply
	Question json.RawMessage `json:"question,omitempty"`
}

// questionOf gives the question that a message left open; nil none.
func questionOf(m *pantry.Message) []byte {
	var k kept
	if json.Unmarshal(m.Reply, &k) != nil {
		return nil
	}
	return k.Question
}

// stored gives the reply that was given before.
func stored(id string, raw []byte) (Reply, error) {
	r := Reply{To: id, Kind: Silent}
	if len(raw) == 0 {
		return r, nil
	}
	err := json.Unmarshal(raw, &r)
	return r, err
}

// fresh settles a message that was never heard before; an edit of one counts
// as the message itself, a delete of one is only remembered.
func (t *turn) fresh() (Reply, error) {
	said, err := t.hear()
	if err != nil {
		return Reply{}, err
	}
	r := Reply{Kind: Silent}
	switch {
	case t.m.Press != nil:
		r, err = t.pressed()
	case !t.m.Delete:
		r, err = t.answer(pantry.Said)
	}
	if err != nil {
		return Reply{}, err
	}
	if r, err = t.tellNeeds(r); err != nil {
		return Reply{}, err
	}
	if r, err = t.keepPlan(r); err != nil {
		return Reply{}, err
	}
	r = t.notSilent(r)
	if r, err = t.keepWrapped(r); err != nil {
		return Reply{}, err
	}
	if r, err = t.tellClosed(r); err != nil {
		return Reply{}, err
	}
	if err := t.withMorning(&r); err != nil {
		return Reply{}, err
	}
	raw, text := t.pack(&r)
	if err := t.post(r); err != nil {
		return Reply{}, err
	}
	if t.m.Edit || t.m.Delete {
		if err := t.book.AnswerChange(said, t.event(), text, t.m.Delete, raw); err != nil {
			return Reply{}, err
		}
	}
	return r, t.book.Answer(said, text, raw)
}

// hear writes the message down, and finds out who says it.
func (t *turn) hear() (*pantry.Message, error) {
	if t.m.Person != "" {
		cook, err := t.book.CookOf(t.m.Person, t.m.Cook)
		if err != nil {
			return nil, err
		}
		t.cook = cook
		t.ear = t.b.ears.of(t.k)
	}
	said, err := t.book.Hear(pantry.Message{ID: t.m.ID, Cook: t.cook, At: t.m.At, Gone: t.m.Delete, Room: t.m.Room, Edited: t.m.Edited})
	t.said = said
	return said, err
}

// apologise answers a message that broke the program, and reads nothing of it.
func (t *turn) apologise() (Reply, error) {
	r := Reply{Kind: Error, Text: "A fault in the program kept this from being read. Nothing was written; say it another way."}
	said, err := t.book.Message(t.m.ID)
	if errors.Is(err, pantry.ErrNoMessage) {
		said, err = t.hear()
	}
	if err != nil {
		return r, err
	}
	t.said = said
	raw, text := t.pack(&r)
	if err := t.post(r); err != nil {
		return r, err
	}
	r.Posts = t.posts
	if t.m.Edit || t.m.Delete {
		return r, t.book.AnswerChange(said, t.event(), said.Text, said.Gone, raw)
	}
	return r, t.book.Answer(said, text, raw)
}

// pack completes a reply and gives it as it is kept. The text of talk that is
// not for the bot is not kept, nor is a reply of silence.
func (t *turn) pack(r *Reply) (raw []byte, text string) {
	r.To = t.m.ID
	if r.Kind == Silent {
		return nil, ""
	}
	raw, err := json.Marshal(kept{*r, t.asked})
	if err != nil {
		panic(err) // a Reply holds nothing that cannot be marshalled
	}
	return raw, t.m.Text
}

// event tells the changes of one message apart, so that a repeat is known.
func (t *turn) event() string {
	if t.m.Delete {
		return "delete"
	}
	sum := sha256.Sum256([]byte(t.m.Text))
	return "edit " + t.m.Version + " " + hex.EncodeToString(sum[:8])
}

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
	before, err := t.withdraw()
	if err != nil {
		return Reply{}, err
	}
	t.then = t.said
	r := Reply{Kind: Silent}
	if t.m.Edit {
		if r, err = t.answer(pantry.Edited); err != nil {
			return Reply{}, err
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
		list = append(list, t.together(entries))
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

// answer reads the message and does what it says.
func (t *turn) answer(why string) (Reply, error) {
	if utf8.RuneCountInString(t.m.Text) > longest {
		if !t.reader().Read(string([]rune(t.m.Text)[:longest/10])).Acted {
			return Reply{Kind: Silent}, nil // a paste
		}
		return Reply{Kind: Error, Text: "That is too long to read. Send it in parts of up to 4,000 characters."}, nil
	}
	if r, done, err := t.tableTalk(why); done || err != nil {
		return r, err
	}
	if r, done, err := t.planning(); done || err != nil {
		return r, err
	}
	if r, done, err := t.refine(); done || err != nil {
		return r, err
	}
	if r, done, err := t.madeTalk(why); done || err != nil {
		return r, err
	}
	if r, done, err := t.wrapTalk(); done || err != nil {
		return r, err
	}
	if r, done, err := t.moneyTalk(); done || err != nil {
		return r, err
	}
	if r, done, err := t.keepTalk(); done || err != nil {
		return r, err
	}
	if r, done, err := t.ruleTalk(why); done || err != nil {
		return r, err
	}
	if r, done, err := t.atScales(); done || err != nil {
		return r, err
	}
	reading := t.reader().Read(t.m.Text)
	taught := reading.Teaching != nil && reading.Teaching.Means == ""
	if len(reading.Statements) == 0 && (len(reading.Questions) == 0 || t.waiting() && t.mayAnswer(reading.Questions)) && reading.Undo == 0 && !taught && reading.Timer == nil && (!t.m.Edit || t.reopened) {
		if r, done, err := t.resume(); done || err != nil {
			return r, err
		}
	}
	r, err := t.acted(reading, why)
	if err != nil || reading.Timer == nil {
		return r, err
	}
	return t.alsoTimed(r, reading.Timer)
}

// mayAnswer says whether what is asked, all of it about ideas that were shown, may as
// well be the answer to an open question: "do 2" picks the second of what was offered
// before it begins an idea.
func (t *turn) mayAnswer(list []*language.Question) bool {
	open, _ := t.recent()
	for _, q := range list {
		if !slices.Contains(language.Shown, q.About) || q.N > len(open.Options) || len(q.Others) > 0 {
			return false
		}
	}
	return true
}

// acted does what a message says, but for timers.
func (t *turn) acted(reading language.Reading, why string) (Reply, error) {
	switch {
	case reading.Undo > 0:
		return t.instead(reading, why)
	case reading.Teaching != nil:
		return t.teach(reading.Teaching, why)
	case reading.Amend != nil && len(reading.Statements) == 0:
		return t.amend(reading.Amend)
	case reading.Again != nil:
		return t.goOn(reading.Again, why)
	}
	t.asks = slices.ContainsFunc(reading.Questions, func(q *language.Question) bool {
		return q.About == language.AboutIdeas || q.About == language.AboutWith
	})
	r, err := t.state(reading, why)
	if err != nil {
		return r, err
	}
	if reading.Wrong != "" && r.Kind == Silent && len(reading.Statements) == 0 && len(reading.Questions) == 0 && reading.Acted {
		return Reply{Kind: Error, Text: "Not written: " + reading.Wrong + `. Say it again, like "used 300g leek".`}, nil
	}
	for _, q := range reading.Questions[:min(len(reading.Questions), mostQuestions)] {
		if r, err = t.alsoAsked(r, q); err != nil {
			return r, err
		}
	}
	return r, nil
}

// instead takes back, and writes what was done instead: "scrap that, used 150g
// celeriac in the mash".
func (t *turn) instead(reading language.Reading, why string) (r Reply, err error) {
	asked, e := t.askedLast()
	if e != nil {
		return r, e
	}
	if reading.Undo == 1 && reading.UndoFood == "" && asked {
		r, err = t.undoQuestion()
	} else if _, entries, e := t.justWritten(); reading.UndoNear && (len(entries) == 0 || e != nil) {
		return Reply{Kind: Silent}, e
	} else {
		r, err = t.undo(reading.Undo, reading.UndoFood)
	}
	if err != nil || len(reading.Statements) == 0 {
		return r, err
	}
	s, err := t.state(reading, why)
	if err != nil || s.Kind == Silent {
		return r, err
	}
	s.Text = strings.TrimSpace(r.Text + "\n" + s.Text)
	return s, nil
}

func (t *turn) reader() *language.Reader {
	return &language.Reader{Foods: t.ear, Place: t.b.o.Units, Cooks: t.ear.cooks}
}

// mostQuestions is how many of a message's questions are answered.
const mostQuestions = 5

// alsoAsked answers a question behind a statement, or behind another question.
func (t *turn) alsoAsked(r Reply, q *language.Question) (Reply, error) {
	if r.Kind == Log && q.About == language.AboutFood && q.Food == "" {
		return r, nil // "used 2 lemons, how many are left?" is answered by the log
	}
	a, err := t.question(q)
	if err != nil || a.Kind == Silent {
		return r, err
	}
	if r.Kind == Silent {
		return a, nil
	}
	r.Text += "\n" + a.Text
	r.Ideas = append(r.Ideas, a.Ideas...)
	return r, nil
}
