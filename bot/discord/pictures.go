package discord

import (
	"bytes"
	"context"
	"encoding/json"
	"hash/fnv"
	"net/http"
	"time"

	"scullion/bot"
	"scullion/bot/drawn"
	"scullion/bot/picture"
)

// How a picture comes with a text: so many px wide, which a phone shows whole, and twice as many
// dots; the text waits so long for it at most, and has it edited in where that is not enough.
const (
	pictureWidth = 440
	drawTime     = 60 * time.Millisecond
)

// mostAlt is the most characters that the description of an attachment may have. Source: Discord API
// docs, resources/message, "Attachment Structure".
const mostAlt = 1024

// attachFiles is the right to show a picture. Source: Discord API docs, topics/permissions.
const attachFiles = 1 << 15

// upload is a picture as it is sent.
type upload struct {
	name, alt string
	png       []byte
	sum       uint64 // tells what it shows from other pictures
}

// attachment names an upload, by its number, in the message that it comes with.
type attachment struct {
	ID   int    `json:"id"`
	Name string `json:"filename"`
	Alt  string `json:"description"`
}

// with gives the message a picture. Where it is edited, that takes the place of the one there.
func (p payload) with(u *upload) payload {
	p.file, p.Attached = u, &[]attachment{{0, u.name, u.alt}}
	return p
}

// bare takes the picture off the message, the one that stands there too.
func (p payload) bare() payload {
	p.file, p.Attached = nil, &[]attachment{}
	return p
}

// draw draws what is to be seen beside a text; nil where it cannot be drawn.
func draw(l *bot.Look) *upload {
	p := drawn.Look(l)
	var b bytes.Buffer
	if p.PNG(&b, picture.Options{Width: pictureWidth}) != nil {
		return nil
	}
	u := &upload{name: "left.png", alt: clip(p.Text(), mostAlt), png: b.Bytes(), sum: sumOf(l)}
	if l.Plan != nil {
		u.name = "plan.png"
	}
	return u
}

// sumOf tells one look from another.
func sumOf(l *bot.Look) uint64 {
	h := fnv.New64a()
	json.NewEncoder(h).Encode(l) // a Look holds nothing that cannot be marshalled
	return h.Sum64()
}

// drawing is a picture that is being made.
type drawing struct{ done chan *upload }

func begin(l *bot.Look) *drawing {
	d := &drawing{make(chan *upload, 1)}
	go func() { d.done <- draw(l) }()
	return d
}

// soon gives the picture if it is there in time.
func (d *drawing) soon(most time.Duration) (u *upload, ok bool) {
	select {
	case u = <-d.done:
		return u, true
	case <-time.After(most):
		return nil, false
	}
}

// pictured gives the picture that a posting is shown with now; nil none, or none yet: later then
// sees to it that it is edited in.
func (s *sender) pictured(p bot.Posting, now time.Time) (u *upload, later *drawing) {
	s.mu.Lock()
	ready, barred := s.ready[p.ID], s.noFiles
	delete(s.ready, p.ID)
	delete(s.slow, p.ID)
	s.mu.Unlock()
	switch {
	case p.Look == nil || barred || s.x.late(p, now):
		return nil, nil
	case ready != nil && ready.sum == sumOf(p.Look):
		return ready, nil
	}
	d := begin(p.Look)
	if u, ok := d.soon(s.x.c.o.Pace.Draw); ok {
		return u, nil
	}
	return nil, d
}

// addLater has the picture of what stands at a place edited in when it is made, unless something newer
// of it is shown by then.
func (s *sender) addLater(p bot.Posting, place string, d *drawing) {
	s.mu.Lock()
	s.slow[p.ID] = p.Rev
	s.mu.Unlock()
	p.Place = place
	s.x.c.work.Go(func() {
		u := <-d.done
		s.mu.Lock()
		wanted := u != nil && s.slow[p.ID] == p.Rev
		if wanted {
			s.ready[p.ID] = u
		}
		s.mu.Unlock()
		if wanted && s.x.c.alive.Err() == nil {
			s.add(p)
		}
	})
}

// standsWith notes what picture a message stands with. Edits that do not change it leave it alone.
func (s *sender) standsWith(id string, u *upload) {
	if len(s.pics) > 500 {
		clear(s.pics)
	}
	delete(s.pics, id)
	if u != nil {
		s.pics[id] = u.sum
	}
}

// dressed gives a message that is edited the picture it is to stand with.
func (s *sender) dressed(id string, m payload, u *upload) payload {
	switch sum, known := s.pics[id]; {
	case u == nil:
		return m.bare()
	case known && sum == u.sum:
		return m // what is not named stays
	}
	return m.with(u)
}

// try makes a call with a message. Where it is refused because of the picture, the text goes out
// alone, and the operator is told once.
func (s *sender) try(m payload, call func(payload) error) error {
	err := call(m)
	if m.file == nil || !refusesFile(err) {
		return err
	}
	alone := m.bare()
	if m.Nonce != "" { // a new message has none to take off
		alone.Attached = nil
	}
	if err2 := call(alone); err2 != nil {
		return err2
	}
	s.mu.Lock()
	told := s.toldFiles
	s.noFiles, s.toldFiles = true, true
	s.mu.Unlock()
	if !told {
		s.x.c.log.Error("pictures cannot be shown in this room: the bot lacks the right Attach Files there; answers go out as text alone until it has it", "room", s.x.now().ID, "error", plainError(err))
	}
	return nil
}

// refusesFile says whether a call may have been refused because of what is attached.
func refusesFile(err error) bool {
	switch st := status(err); {
	case st < 400 || st >= 500, st == http.StatusTooManyRequests, st == http.StatusUnauthorized, st == http.StatusNotFound, st == http.StatusRequestTimeout:
		return false
	}
	return true
}

// mayAttach has pictures tried again: the bot's rights may have changed.
func (s *sender) mayAttach() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.noFiles = false
}

// showAlone shows a picture to the one who asked alone, behind the text.
func (c *Client) showAlone(ctx context.Context, i *interaction, l *bot.Look) {
	if l == nil || i.lacksFiles() {
		return
	}
	u := draw(l)
	if u == nil {
		return
	}
	p := forOne("").with(u)
	if err := c.rest.followUp(ctx, i, p); err != nil {
		c.log.Warn("a picture could not be shown", "interaction", i.ID, "error", plainError(err))
	}
}
