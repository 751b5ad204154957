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
	drew    drawnOn                // what ready draws on, for what is made of it
	cutting bool                   // what it makes is cut of what it draws
	trimmed string                 // what the trim just binned would have made
	note    string                 // what else the cook should know
	asked   []byte                 // the question that this message leaves open

	posts        []Posting       // what rooms are to be shown now
	plain        bool            // the reply says nothing that the cook did not
	askTag       string          // tells the question that the reply asks from others
	reopened     bool            // the message was an answer, and its question is open again
	unsaid       []string        // messages whose entries are no longer what they were
	turnedNow    bool            // it has changed the plan that is on
	on           string          // that a plan is on again
	touched      int64           // the first of the messages whose entries it changed; 0 of none
	regained     []pantry.Entry  // of other messages, in force again: what took them back is gone
	knowing      bool            // what breaks a need at the table was asked about, and is done
	suitsTold    bool            // a plan has told which dishes suit whom
	tabled       bool            // what is said of the table's needs has been read
	partSilent   bool            // a part of what is said of needs was read as nothing
	needsFor     pantry.Date     // the day that it says they are for; "" this service
	ofTrim       []string        // foods of whose trimmings it made something
	passed       bool            // it told amounts of food that were not written, and may have gone into a dish
	told         *[]pantry.Doubt // see doubts; nil not yet looked for
	hazards      map[hazardKey]hazardHeard
	heats        map[hazardKey]heatHeard
	answers      *pantry.Message // which an answer has made clear; nil none
	minding      bool            // what a message tells of heat is told behind what it wrote
	wholeSaid    string          // the message as it was said
	hot          *[]int64        // see toldHot
	isFit        *pantry.Kitchen // see fit
	into         trail           // see withTrail
	unsaved      []pantry.Doubt  // found by it, and not kept yet
	stoodFull    bool            // lines stand as they did before they were used up, see asBefore
	inDoubt      measure.Amount  // drawn by what is asked about because of a need
	tooFar       []pantry.Entry  // that a correction does not reach back to
	behindUnread bool            // since what the cook said after those was not read, or could not be written
	then         *pantry.Message // set while an edited message is read: stock is as it was then
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
	if r, err = t.madeForMany(r); err != nil {
		return Reply{}, err
	}
	if r, err = t.keepPlan(r); err != nil {
		return Reply{}, err
	}
	if r, err = t.mindWarm(r); err != nil {
		return Reply{}, err
	}
	if r, err = t.mindHeard(r); err != nil {
		return Reply{}, err
	}
	if r, err = t.mindReheated(t.mindCooked(r)); err != nil {
		return Reply{}, err
	}
	r = t.partUnread(t.riskUnread(t.notOfTable(t.notSilent(r), t.m.Text)))
	if r, err = t.mindAsked(t.mindProbe(r)); err != nil {
		return Reply{}, err
	}
	if r, err = t.mindHeld(r); err != nil {
		return Reply{}, err
	}
	if r, err = t.mindMended(r); err != nil {
		return Reply{}, err
	}
	if r, err = t.mindNotCleared(r); err != nil {
		return Reply{}, err
	}
	if r, err = t.mindFollowed(r); err != nil {
		return Reply{}, err
	}
	if err = t.keepDoubt(); err != nil {
		return Reply{}, err
	}
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
	if t.country() == "US" {
		r.Text = withFahrenheit(r.Text, t.m.Text)
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

// answer reads the message and does what it says.
func (t *turn) answer(why string) (Reply, error) {
	r, err := t.reply(why)
	if err != nil {
		return r, err
	}
	if r, err = t.nothingLost(r); err != nil {
		return r, err
	}
	if t.note != "" && len(r.Entries) > 0 && (r.Kind == Log || r.Kind == Asking) && !strings.Contains(r.Text, t.note) { // of what an answer or a correction wrote
		r.Text += "\n" + t.note
	}
	return t.coatLost(r)
}

func (t *turn) reply(why string) (Reply, error) {
	if utf8.RuneCountInString(t.m.Text) > longest {
		if !t.reader().Read(string([]rune(t.m.Text)[:longest/10])).Acted {
			return Reply{Kind: Silent}, nil // a paste
		}
		return Reply{Kind: Error, Text: "That is too long to read. Send it in parts of up to 4,000 characters."}, nil
	}
	whole := t.m.Text
	defer func() { t.m.Text = whole }()
	t.wholeSaid = whole
	t.m.Text = t.sheetFor(t.hadInDish(t.pickShown(t.asRead(t.withoutCore(withLabels(t.withoutDegrees(whole)))))))
	if r, done, err := t.first(talks(), why); done || err != nil {
		return r, err
	}
	if err := t.bareTrim(); err != nil {
		return Reply{}, err
	}
	reading := t.reader().Read(t.m.Text)
	taught := reading.Teaching != nil && reading.Teaching.Means == ""
	if q, _ := t.recent(); q.Kind == askWeigh && reading.Amend != nil && len(reading.Statements) == 0 { // "make that 4.6" is of what was weighed last
		return t.amend(reading.Amend)
	}
	if len(reading.Statements) == 0 && t.ofLastWritten(reading.Amend) { // "sorry 1.2kg butter", though flour is asked about
		return t.amend(reading.Amend)
	}
	if len(reading.Statements) == 0 && (len(reading.Questions) == 0 || t.waiting() && t.mayAnswer(reading.Questions)) && reading.Undo == 0 && !taught && reading.Timer == nil && (!t.m.Edit || t.reopened) {
		if r, done, err := t.resume(); done || err != nil {
			return r, err
		}
	}
	r, err := t.acted(reading, why)
	if err == nil && r.Kind == Silent && reading.Timer == nil && len(t.ready) == 0 {
		if r, done, err := t.putIn(reading, why); done || err != nil {
			return r, err
		}
		if r, done, err := t.first(lateTalks(), why); done || err != nil {
			return r, err
		}
	}
	if err != nil || reading.Timer == nil {
		return r, err
	}
	return t.alsoTimed(r, reading.Timer)
}

// asRead puts what is said in other words into those that the tables have.
func (t *turn) asRead(text string) string {
	text = t.asMade(language.LongWords(text, t.isKnownFood))
	text = language.AskedAlike(language.MendShort(withoutStood(language.MendNeeds(text))))
	return t.asMended(t.asWhole(t.asPortions(t.asClaim(t.asFrozen(text)))))
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
	if r, done, err := t.otherDish(reading); done || err != nil {
		return r, err
	}
	r, err := t.state(reading, why)
	if err != nil {
		return r, err
	}
	r = t.tellBack(r, reading.Back)
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
	if reading.Undo == 1 && reading.UndoFood == "" {
		if told, done, e := t.notUndone(len(reading.Statements) > 0, reading.UndoNear); e != nil || done && len(reading.Statements) == 0 {
			return told, e
		} else if done {
			return t.andInstead(told, reading, why)
		}
	}
	asked, e := t.askedLast()
	if e != nil {
		return r, e
	}
	if reading.Undo == 1 && reading.UndoFood == "" && asked {
		r, err = t.undoQuestion()
	} else if _, entries, e := t.justWritten(); reading.UndoNear && (len(entries) == 0 || e != nil) {
		return Reply{Kind: Silent}, e
	} else {
		r, err = t.undo(reading.Undo, reading.UndoFood, len(reading.Statements) > 0)
	}
	if err != nil || len(reading.Statements) == 0 {
		return r, err
	}
	return t.andInstead(r, reading, why)
}

// andInstead writes what a message says was done instead, behind what it is answered.
func (t *turn) andInstead(r Reply, reading language.Reading, why string) (Reply, error) {
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
	if a.Look != nil {
		r.Look = a.Look
	}
	return r, nil
}
