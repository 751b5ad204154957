package discord

import (
	"cmp"
	"context"
	"net/http"
	"slices"
	"strings"
	"time"

	"scullion/bot"
)

const (
	// overlap is how far before the last settled message a history is read again:
	// ids are made in several places, and near ones may be listed late.
	overlap = 10 * time.Second
	// lookBack is how far back edits and deletes that nobody told of are looked
	// for, and mostKnown in how many messages.
	lookBack  = 24 * time.Hour
	mostKnown = 1000
)

// past is what a room's history says, read from after on.
type past struct {
	after    string
	messages []message           // oldest first
	newest   uint64              // the greatest id seen
	shown    map[string]uint64   // the first answer of the bot's own, by the message or command that it answers
	parts    map[string][]uint64 // what goes on with an answer, by the answer
	late     uint64              // the last message that an answer for several is for
	lateAt   string              // where that stands
}

// catchUp reads the room's history since what was settled last, and settles what
// is new in it, in order. Where whole, it goes back further, for edits and
// deletes in what is known. Meanwhile nothing is shown there: what is due may
// turn out to stand there already, and late answers are gathered.
func (x *room) catchUp(whole bool) {
	x.out.hold()
	defer x.out.release()
	for wait := x.c.o.Pace.Retry; ; wait = min(2*wait, x.c.o.Pace.MostRetry/10) {
		err := x.read(whole)
		if err == nil {
			x.begun()
			return
		}
		x.c.log.Warn("a history could not be read", "room", x.now().ID, "error", plainError(err))
		switch st := status(err); {
		case codeOf(err) == codeUnknownChannel: // deleted while nobody told
			x.c.gone(x.now())
			return
		case st == http.StatusForbidden:
			x.out.shut()
			fallthrough
		case st == http.StatusNotFound, st == http.StatusBadRequest:
			x.begun() // what is live goes on; an operator has been told
			return
		}
		pause(x.c.alive, wait)
		if x.c.alive.Err() != nil || x.ending() {
			return
		}
	}
}

// begun lets go out what has been held since the start.
func (x *room) begun() {
	if x.unread {
		x.unread = false
		x.out.release()
	}
}

func (x *room) read(whole bool) error {
	c := x.c
	select {
	case c.reads <- struct{}{}:
		defer func() { <-c.reads }()
	case <-c.alive.Done():
		return c.alive.Err()
	}
	known, err := c.o.Bot.KnownOf(c.alive, x.now().ID, mostKnown)
	if err != nil {
		return err
	}
	sure := number(idAt(c.o.Now().Add(-overlap)))
	p, err := x.page(c.alive, x.from(whole, known))
	if err != nil {
		return err
	}
	x.out.reopen()
	x.out.found(p)
	by := map[string]bot.Known{}
	for _, k := range known {
		by[k.ID] = k
	}
	stuck := x.apply(p, by)
	x.missing(p, known, sure)
	x.settledUpTo(p, stuck)
	return nil
}

// from is the id after which to read.
func (x *room) from(whole bool, known []bot.Known) string {
	r := x.now()
	after := earlier(cmp.Or(r.Settled, r.Since), overlap)
	if back := idAt(x.c.o.Now().Add(-lookBack)); whole && number(back) < number(after) {
		after = back
		if len(known) == mostKnown {
			if oldest := known[mostKnown-1].ID; number(oldest) > number(after) {
				after = oldest
			}
		}
	}
	if number(after) < number(r.Since) {
		after = r.Since
	}
	return after
}

// page reads all messages after an id.
func (x *room) page(ctx context.Context, after string) (*past, error) {
	p := &past{after: after, newest: number(after), shown: map[string]uint64{}, parts: map[string][]uint64{}}
	self, _ := x.c.ids()
	for {
		list, err := x.c.rest.history(ctx, x.now().ID, after)
		if err != nil {
			return nil, err
		}
		for _, m := range list {
			p.newest = max(p.newest, number(m.ID))
			if number(m.ID) > number(after) {
				after = m.ID
			}
			if m.Author != nil && m.Author.ID == self {
				p.own(&m)
				continue
			}
			p.messages = append(p.messages, m)
		}
		if len(list) < pageSize {
			break
		}
	}
	slices.SortFunc(p.messages, func(a, b message) int { return cmp.Compare(number(a.ID), number(b.ID)) })
	return p, nil
}

// own notes an answer of the bot's own that stands in the history.
func (p *past) own(m *message) {
	to, n := "", number(m.ID)
	switch {
	case m.Command != nil:
		to = "i" + m.Command.ID
	case m.Reference != nil:
		to = m.Reference.Message
	}
	if m.Content != nil && strings.HasPrefix(*m.Content, lateLead) {
		if to := number(to); to > p.late {
			p.late, p.lateAt = to, m.ID
		}
		return
	}
	p.parts[to] = append(p.parts[to], n)
	if first := p.shown[to]; first == 0 || n < first {
		p.shown[to] = n
	}
}

// place is where the answer to a message stands, all its parts; "" nowhere.
func (p *past) place(to string) string {
	if p.shown[to] == 0 {
		return ""
	}
	at := []string{decimal(p.shown[to])}
	for _, n := range slices.Sorted(slices.Values(p.parts[at[0]])) {
		at = append(at, decimal(n))
	}
	return strings.Join(at, " ")
}

// apply settles what is new. It gives the first message that cannot be read yet;
// 0 none.
func (x *room) apply(p *past, known map[string]bot.Known) (stuck uint64) {
	for i := range p.messages {
		m := &p.messages[i]
		if x.c.alive.Err() != nil {
			return cmp.Or(stuck, number(m.ID))
		}
		if m.bare() && x.c.isTalk(m) && stuck == 0 {
			stuck = number(m.ID)
		}
		k, heard := known[m.ID]
		switch {
		case !heard:
			x.take(m, false, time.Time{})
		case !k.Gone && m.Edited != nil && m.editedAt() > k.Edited:
			x.take(m, true, time.Time{})
		}
	}
	return stuck
}

// missing settles the deletes that nobody told of: messages that are known, were
// not deleted, and stand in the history no more. Those after sure may not be
// listed yet. Where the history is empty it may be that the bot may not read it.
func (x *room) missing(p *past, known []bot.Known, sure uint64) {
	there := map[string]bool{}
	for _, m := range p.messages {
		there[m.ID] = true
	}
	for _, k := range slices.Backward(known) {
		n := number(k.ID)
		switch {
		case k.Gone || n <= number(p.after) || n >= sure || there[k.ID]:
		case len(p.messages)+len(p.shown) == 0:
			x.c.log.Warn("a history shows nothing: may the bot Read Message History there?", "room", x.now().ID)
			return
		default:
			x.delete(k.ID)
		}
	}
}

// settledUpTo keeps how far the history has been settled. It is never beyond a
// message that could not be read.
func (x *room) settledUpTo(p *past, stuck uint64) {
	r := x.now()
	to := p.newest
	if stuck > 0 {
		to = min(to, stuck-1)
	}
	if to <= number(r.Settled) || x.c.alive.Err() != nil {
		return
	}
	r.Settled = decimal(to)
	x.set(r)
	if err := x.c.o.Bot.Keep(x.c.alive, r); err != nil {
		x.c.log.Warn("how far a history is settled could not be kept; it is read again", "room", r.ID, "error", err)
	}
}

// reread has the end of each history read again now and then: the gateway may
// leave an event out without a sign. Rooms take turns, for all at once would use
// up what calls the platform allows.
func (c *Client) reread(ctx context.Context) {
	for ctx.Err() == nil {
		rooms := c.all()
		if self, _ := c.ids(); self == "" {
			rooms = nil // what is its own cannot be told yet
		}
		for _, r := range rooms {
			pause(ctx, c.o.Pace.Reread/time.Duration(len(rooms)))
			r.add(task{read: true})
		}
		if len(rooms) == 0 {
			pause(ctx, c.o.Pace.Reread)
		}
	}
}
