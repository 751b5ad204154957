package bot

import (
	"encoding/json"
	"fmt"
	"hash/fnv"
	"slices"
	"strings"
	"time"

	"scullion/pantry"
)

// Posting is what a room is to be shown for a message, and how far that has
// got. It is kept in the same transaction as what the message wrote, and is due
// until Bot.Shown says that the Rev has been shown.
type Posting struct {
	Kitchen string
	ID      string    // of the message that is answered, or the posting's own where it answers none
	To      string    `json:",omitempty"` // the message that it is a reply to, where that is not ID
	Room    string    // where
	At      time.Time // when that message was said
	Rev     int       // changes of what is to be shown, from 1
	Sent    int       // the Rev that was shown last; 0 none
	Place   string    // where it stands, in the platform's ids, as Shown was told; "" nowhere yet

	Reply Reply
	Cook  string // who said the message, by the name shown
	Plain bool   // nothing in it that the cook did not say: a sign will do where a room is quiet
	Spent bool   // what it offers to press has been done with
	Look  *Look  `json:",omitempty"` // what a picture beside the reply shows; nil none
	Asked string `json:",omitempty"` // what a Press of its Ask must name as its Question
}

// Due says whether the posting is still to be shown.
func (p *Posting) Due() bool { return p.Rev > p.Sent && (p.Place != "" || p.Reply.Kind != Silent) }

// Brief is the reply's text without the idea: of that the best has gone by when
// an answer is late.
func (r Reply) Brief() string {
	if len(r.Ideas) > 0 && r.Kind != Answer {
		if i := strings.LastIndex(r.Text, "\nFree "); i >= 0 {
			return r.Text[:i]
		}
	}
	return r.Text
}

// posting reads a post.
func posting(p pantry.Post) (Posting, error) {
	var s Posting
	err := json.Unmarshal(p.Body, &s)
	if err != nil {
		return s, fmt.Errorf("the answer to message %s: %w", p.ID, err)
	}
	s.Kitchen, s.ID, s.Room, s.At, s.Rev, s.Sent, s.Place = p.Kitchen, p.ID, p.Room, p.At, p.Rev, p.Sent, p.Place
	return s, nil
}

// body is a posting as it is kept: less what has columns of its own.
func (s Posting) body() ([]byte, error) {
	return json.Marshal(Posting{To: s.To, Reply: s.Reply, Cook: s.Cook, Plain: s.Plain, Spent: s.Spent, Look: s.Look, Asked: s.Asked})
}

// post keeps the reply for the room that the message was said in. Silence needs
// no post, unless something stands there that is true no more.
func (t *turn) post(r Reply) error {
	if t.m.Room == "" {
		return nil
	}
	id := t.m.ID
	if t.m.Press != nil && t.m.Press.Kind != PressIdea { // it takes the place of what was pressed
		if r.Kind != Log && r.Kind != Asking { // for the one who pressed alone
			return nil
		}
		id = t.m.Press.On
	}
	old, err := t.book.Post(id)
	if err != nil || old == nil && r.Kind == Silent {
		return err
	}
	if r.Kind == Silent {
		r.Kind, r.Text = Answer, "Left out: the message was changed."
		if t.m.Delete {
			r.Text = "Left out: the message was deleted."
		}
	}
	p := Posting{Kitchen: t.m.Kitchen, ID: id, Room: t.m.Room, At: t.said.At, Reply: r, Cook: t.k.CookName(t.said.Cook),
		Plain: t.plain && r.Kind == Log && !t.m.Edit && t.m.Press == nil, Look: r.Look, Asked: t.askTag}
	p.Spent = t.m.Delete || t.m.Press != nil && t.m.Press.Kind != PressIdea && r.Kind == Log
	if old != nil {
		was, err := posting(*old)
		if err != nil {
			return err
		}
		p.Room, p.At, p.Rev, p.Sent, p.Place, p.Cook = was.Room, was.At, was.Rev, was.Sent, was.Place, was.Cook
	}
	return t.savePost(p)
}

// savePost keeps a posting that has changed.
func (t *turn) savePost(p Posting) error {
	p.Reply.Posts, p.Reply.Look = nil, nil
	body, err := p.body()
	if err != nil {
		return err
	}
	p.Rev++
	t.posts = slices.DeleteFunc(t.posts, func(o Posting) bool { return o.ID == p.ID })
	t.posts = append(t.posts, p)
	return t.book.SavePost(pantry.Post{Kitchen: p.Kitchen, ID: p.ID, Room: p.Room, At: p.At, Body: body, Rev: p.Rev, Sent: p.Sent, Place: p.Place})
}

// announce posts what answers no message.
func announce(book pantry.Book, p Posting) (Posting, error) {
	body, err := p.body()
	if err != nil {
		return p, err
	}
	p.Rev = 1
	return p, book.SavePost(pantry.Post{Kitchen: p.Kitchen, ID: p.ID, Room: p.Room, At: p.At, Body: body, Rev: 1})
}

// retire takes what there is to press off the answer to a message.
func (t *turn) retire(id string) error {
	old, err := t.book.Post(id)
	if err != nil || old == nil {
		return err
	}
	p, err := posting(*old)
	if err != nil || p.Spent || t.m.Press != nil && t.m.Press.On == id || id == t.m.ID {
		return err // the last two are about to be posted anew
	}
	p.Spent = true
	return t.savePost(p)
}

// setQuestion keeps what a cook is asked, nil nothing, and takes the buttons off
// the answers that asked what is asked no more.
func (t *turn) setQuestion(cook string, q *pantry.Question) error {
	was := askedOn(t.k.Questions[cook])
	q, err := t.withIdeas(t.k.Questions[cook], q)
	if err != nil {
		return err
	}
	if err := t.book.Ask(cook, q); err != nil {
		return err
	}
	still := askedOn(q)
	for _, id := range was {
		if !slices.Contains(still, id) {
			if err := t.retire(id); err != nil {
				return err
			}
		}
	}
	return nil
}

// withIdeas sees to it that the ideas, or the plan, a cook was shown last outlive what is asked in
// between: behind a question they wait in it, and after it they stand alone again. The
// message that asked for them takes them along when it goes.
func (t *turn) withIdeas(old, q *pantry.Question) (*pantry.Question, error) {
	var was, now pending
	if old == nil || json.Unmarshal(old.Body, &was) != nil {
		return q, nil
	}
	ideas := was.Ideas
	if was.isShown() {
		ideas = old
	}
	if ideas == nil || ideas.Message == t.said.ID {
		return q, nil
	}
	if q == nil {
		return ideas, nil
	}
	if err := json.Unmarshal(q.Body, &now); err != nil || now.isShown() {
		return q, err
	}
	now.Ideas = ideas
	body, err := json.Marshal(now)
	return &pantry.Question{Message: q.Message, At: q.At, Body: body}, err
}

// askedOn lists the messages in answer to which a question, and what else is to
// be asked behind it, was put.
func askedOn(q *pantry.Question) (list []string) {
	if q == nil {
		return nil
	}
	var p pending
	if json.Unmarshal(q.Body, &p) != nil {
		return nil
	}
	for _, x := range append([]pending{p}, p.Rest...) {
		if x.On != "" {
			list = append(list, x.On)
		}
	}
	return list
}

// tag tells questions about one message apart.
func (q *pending) tag() string {
	h := fnv.New32a()
	fmt.Fprint(h, q.Kind, "\x00", q.About, "\x00", q.Draft.Amount.Said)
	for _, o := range q.Options {
		fmt.Fprint(h, "\x00", o.Label)
	}
	return fmt.Sprintf("%08x", h.Sum32())
}
