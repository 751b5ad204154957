package discord

import (
	"sync"
	"time"

	"scullion/bot"
)

// task is one thing for a room to do, in order.
type task struct {
	said   *message // a message, as it was said or edited
	edited bool
	came   time.Time // when it came over the gateway; zero: from history
	gone   string    // id of a message that was deleted
	read   bool      // read the history
	whole  bool      // and what may have been edited or deleted unseen
}

// room is a channel that is joined to a kitchen. One goroutine settles its
// messages one after the other, another makes stand there what is to be shown.
type room struct {
	c      *Client
	out    *sender
	unread bool // the history has not been read since the start; work's own

	mu    sync.Mutex
	r     bot.Room
	queue []task
	ended bool
	wake  chan struct{}
}

func newRoom(c *Client, r bot.Room) *room {
	x := &room{c: c, r: r, wake: make(chan struct{}, 1)}
	x.out = newSender(x)
	return x
}

// now is the room as it is joined.
func (x *room) now() bot.Room {
	x.mu.Lock()
	defer x.mu.Unlock()
	return x.r
}

func (x *room) set(r bot.Room) {
	x.mu.Lock()
	defer x.mu.Unlock()
	x.r = r
}

// add puts a task behind the others. Reading the history once will do for all
// who want it read.
func (x *room) add(t task) {
	x.mu.Lock()
	defer x.mu.Unlock()
	if x.ended {
		return
	}
	if t.read {
		for i := range x.queue {
			if x.queue[i].read {
				x.queue[i].whole = x.queue[i].whole || t.whole
				return
			}
		}
	}
	x.queue = append(x.queue, t)
	x.c.o.Metrics.waiting.Inc()
	signal(x.wake)
}

// end lets the room finish what it has, and take no more.
func (x *room) end() {
	x.mu.Lock()
	x.ended = true
	x.mu.Unlock()
	signal(x.wake)
}

func (x *room) ending() bool {
	x.mu.Lock()
	defer x.mu.Unlock()
	return x.ended
}

func (x *room) next() (t task, ok, ended bool) {
	x.mu.Lock()
	defer x.mu.Unlock()
	if len(x.queue) == 0 {
		return t, false, x.ended
	}
	t = x.queue[0]
	if x.queue = x.queue[1:]; len(x.queue) == 0 {
		x.queue = nil // so that what a busy hour needed is given back
	}
	x.c.o.Metrics.waiting.Dec()
	return t, true, false
}

// work settles what comes until the room is ended.
func (x *room) work() {
	defer x.out.end()
	for {
		t, ok, ended := x.next()
		switch {
		case ok:
			x.do(t)
		case ended:
			return
		default:
			select {
			case <-x.wake:
			case <-x.c.alive.Done():
				return
			}
		}
	}
}

func (x *room) do(t task) {
	switch {
	case t.read:
		x.catchUp(t.whole)
	case t.gone != "":
		x.delete(t.gone)
	case t.edited && t.said.Author == nil && t.said.Content != nil: // cannot be told whose
		x.add(task{read: true, whole: true})
	case t.edited && t.said.Edited == nil: // a link that was unfurled, a pin
	default:
		x.take(t.said, t.edited, t.came)
	}
}

// take settles a message that was said or edited, if it is one for the kitchen.
func (x *room) take(m *message, edited bool, came time.Time) {
	if m.Content == nil || !x.c.isTalk(m) {
		return
	}
	if m.bare() {
		x.c.blind()
		return
	}
	if !x.ours(m.ID) || *m.Content == "" && !edited {
		return
	}
	self, _ := x.c.ids()
	b := x.message(m.ID)
	b.Cook, b.Person, b.Text, b.Edit, b.Edited = m.name(), m.Author.ID, m.text(self), edited, m.editedAt()
	if edited {
		b.At = m.Edited.In(b.At.Location())
		b.Version = m.Edited.UTC().Format(time.RFC3339Nano)
	}
	if !came.IsZero() {
		b.Thinks = x.typing
	}
	x.settle(b, came)
}

func (x *room) delete(id string) {
	if !x.ours(id) {
		return
	}
	b := x.message(id)
	b.Delete, b.At = true, x.c.o.Now()
	x.settle(b, time.Time{})
}

// ours says whether a message was said since the room was joined.
func (x *room) ours(id string) bool { return number(id) > number(x.now().Since) }

func (x *room) message(id string) bot.Message {
	r, now := x.now(), x.c.o.Now()
	b := bot.Message{Kitchen: r.Kitchen, Room: r.ID, ID: id, At: said(id).In(now.Location())}
	if now.Sub(b.At) > x.c.o.Pace.Late {
		b.Heard = now
	}
	return b
}

// settle has the bot settle a message, however often that has to be tried: what
// comes behind it waits, for the order matters. It gives up where the program is
// told to stop; history has the message still.
func (x *room) settle(b bot.Message, came time.Time) (bot.Reply, bool) {
	began := time.Now()
	for wait := x.c.o.Pace.Retry; ; wait = min(2*wait, x.c.o.Pace.MostRetry/10) {
		r, err := x.c.o.Bot.Handle(x.c.alive, b)
		if err == nil {
			x.c.o.Metrics.settled(r, came, began)
			x.c.logged(b, r)
			if r.Timed {
				signal(x.c.rings)
			}
			mine, others := partition(r.Posts, b.ID)
			x.c.show(others)
			if mine != nil && !came.IsZero() {
				x.out.answers(*mine, stamp{came, time.Since(began)})
			} else if mine != nil {
				x.out.add(*mine)
			}
			return r, true
		}
		x.c.o.Metrics.faults.Inc()
		x.c.log.Error("a message could not be settled; trying again", "room", b.Room, "message", b.ID, "error", err)
		pause(x.c.alive, wait)
		if x.c.alive.Err() != nil || x.ending() {
			return bot.Reply{}, false
		}
	}
}

// show hands postings to the rooms they are for.
func (c *Client) show(posts []bot.Posting) {
	for _, p := range posts {
		if r := c.room(p.Room); r != nil {
			r.out.add(p)
		}
	}
}

// logged notes a message in the log: ids and counts, and the text only where
// the operator wants it.
func (c *Client) logged(b bot.Message, r bot.Reply) {
	args := []any{"room", b.Room, "message", b.ID, "kind", string(r.Kind), "entries", len(r.Entries)}
	if c.o.Texts {
		args = append(args, "text", b.Text, "answer", r.Text)
	}
	if r.Kind == bot.Silent {
		c.log.Debug("settled", args...)
		return
	}
	c.log.Info("settled", args...)
}

// blind says once that messages come without their texts.
func (c *Client) blind() {
	if c.o.Metrics.blind.Swap(true) {
		return
	}
	c.log.Error("messages come without their texts: turn on Message Content Intent on the bot's page; until then nothing said is counted, and it will be read when it is on")
}
