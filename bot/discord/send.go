package discord

import (
	"errors"
	"net/http"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/bwmarrin/discordgo"

	"scullion/bot"
)

// apart marks a place that is not the answer's own and is not edited: a sign on
// the message, a list of late answers. What changes then is told anew.
const apart = "+"

// sender makes stand in a room what is to be shown there: one posting after the
// other, each as it is by then, until the platform has it or will not take it.
type sender struct {
	x *room

	mu     sync.Mutex
	list   []bot.Posting
	held   int  // how many want nothing sent for now
	barred bool // the bot lacks the rights: what is due is the ledger's to keep
	ended  bool
	wake   chan struct{}
	at     []string          // where the parts of what is in hand stand; the sending goroutine's own
	pics   map[string]uint64 // what pictures messages stand with; the sending goroutine's own
	live   map[string]stamp  // of answers to live messages that are not on their way yet, by id

	ready     map[string]*upload // pictures of what stands without, by the posting's id
	slow      map[string]int     // the Rev of what is shown while its picture is still made
	noFiles   bool               // the bot may show no pictures here
	toldFiles bool
}

// stamp is when a message came, and what of the time since the ledger took.
type stamp struct {
	came   time.Time
	ledger time.Duration
}

func newSender(x *room) *sender {
	return &sender{x: x, wake: make(chan struct{}, 1), live: map[string]stamp{}, pics: map[string]uint64{}, ready: map[string]*upload{}, slow: map[string]int{}}
}

// answers takes in the answer to a live message.
func (s *sender) answers(p bot.Posting, at stamp) {
	s.mu.Lock()
	s.live[p.ID] = at
	s.mu.Unlock()
	s.add(p)
}

// off notes that the call for a posting is made now.
func (s *sender) off(p bot.Posting) {
	s.mu.Lock()
	at, ok := s.live[p.ID]
	delete(s.live, p.ID)
	s.mu.Unlock()
	if ok {
		s.x.c.o.Metrics.overhead.Observe((time.Since(at.came) - at.ledger).Seconds())
	}
}

// add takes a posting in; of one message only the latest is of interest, and a
// press may have overtaken what it pressed on.
func (s *sender) add(p bot.Posting) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.barred {
		delete(s.live, p.ID)
		return
	}
	if slices.ContainsFunc(s.list, func(o bot.Posting) bool { return o.Kitchen == p.Kitchen && o.ID == p.ID && o.Rev > p.Rev }) {
		return
	}
	s.drop(p)
	s.list = append(s.list, p)
	s.x.c.o.Metrics.unsent.Inc()
	signal(s.wake)
}

func (s *sender) drop(p bot.Posting) {
	n := len(s.list)
	s.list = slices.DeleteFunc(s.list, func(o bot.Posting) bool { return o.Kitchen == p.Kitchen && o.ID == p.ID })
	s.x.c.o.Metrics.unsent.Sub(float64(n - len(s.list)))
}

// hold has nothing sent until release.
func (s *sender) hold() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.held++
}

func (s *sender) release() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.held--
	signal(s.wake)
}

// shut has nothing sent, for lack of rights. What is due stays so in the ledger.
func (s *sender) shut() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.barred = true
	s.x.c.o.Metrics.unsent.Sub(float64(len(s.list)))
	s.list = nil
	clear(s.live)
}

func (s *sender) isShut() bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.barred
}

// reopen tries again with what is due by now, if the room was shut.
func (s *sender) reopen() {
	s.mu.Lock()
	was := s.barred
	s.barred = false // before what is due is read, so that nothing falls between
	s.mu.Unlock()
	if !was {
		return
	}
	due, err := s.x.c.o.Bot.Due(s.x.c.alive)
	if err != nil {
		s.x.c.log.Warn("what is due could not be read; it is, later", "room", s.x.now().ID, "error", err)
		s.shut()
		return
	}
	for _, p := range due {
		if p.Room == s.x.now().ID {
			s.add(p)
		}
	}
}

func (s *sender) end() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.ended = true
	signal(s.wake)
}

// found takes in where answers stand already, sent by a run that could not keep
// that it had.
func (s *sender) found(p *past) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for i := range s.list {
		o := &s.list[i]
		if o.Place != "" {
			continue
		}
		if at := p.place(o.ID); at != "" {
			o.Place = at
		} else if n := number(o.ID); n > 0 && n <= p.late {
			o.Place, o.Sent = apart+p.lateAt, o.Rev
		}
	}
}

// next gives what to send: one posting, or several late ones at once.
func (s *sender) next() (batch []bot.Posting, ended bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if len(s.list) == 0 || s.held > 0 {
		return nil, s.ended
	}
	now := s.x.c.o.Now()
	for _, p := range s.list {
		if s.x.late(p, now) {
			batch = append(batch, p)
		}
	}
	if len(batch) < 2 {
		batch = []bot.Posting{s.list[0]}
	}
	for _, p := range batch {
		s.drop(p)
	}
	return batch, false
}

// late says whether a posting is a first answer that comes long after its
// message.
func (x *room) late(p bot.Posting, now time.Time) bool {
	return p.Place == "" && p.Reply.Kind != bot.Silent && now.Sub(p.At) > x.c.o.Pace.Late
}

func (s *sender) work() {
	for {
		batch, ended := s.next()
		switch {
		case len(batch) > 0:
			s.deliver(batch)
		case ended:
			s.shut()
			return
		default:
			select {
			case <-s.wake:
			case <-s.x.c.alive.Done():
				return
			}
		}
	}
}

// deliver shows a batch, however often that has to be tried. Where something
// newer of a posting has come meanwhile, that is next.
func (s *sender) deliver(batch []bot.Posting) {
	c := s.x.c
	s.at = nil
	if p := batch[0]; len(batch) == 1 && !strings.HasPrefix(p.Place, apart) {
		s.at = strings.Fields(p.Place)
	}
	for wait := c.o.Pace.Retry; ; wait = min(2*wait, c.o.Pace.MostRetry/10) {
		place, err := s.show(batch)
		if err == nil || s.hopeless(err, batch) {
			for _, p := range batch {
				s.shown(p, place)
			}
			return
		}
		if parked(err) { // it stays due, and is tried again when the rights may have come back
			c.log.Warn("an answer cannot be shown: the bot has no access to the room", "room", s.x.now().ID, "error", plainError(err))
			s.shut()
			return
		}
		c.o.Metrics.retries.Inc()
		pauseFor := wait
		if e := new(discordgo.RateLimitError); errors.As(err, &e) {
			pauseFor, wait = max(e.RetryAfter, 10*time.Millisecond), c.o.Pace.Retry
		}
		c.log.Debug("an answer could not be sent; trying again", "room", s.x.now().ID, "error", plainError(err), "in", pauseFor)
		pause(c.alive, pauseFor)
		if c.alive.Err() != nil {
			return
		}
	}
}

// parked says whether an error is one of access, which may come back. A refusal
// without a code comes from before the platform.
func parked(err error) bool {
	switch codeOf(err) {
	case codeNoAccess, codeNotAllowed, codeUnknownChannel, codeThreadLocked, codeNoHistory:
		return true
	case 0:
		return status(err) == http.StatusUnauthorized || status(err) == http.StatusForbidden
	}
	return status(err) == http.StatusUnauthorized
}

// hopeless says whether the platform will never take what was sent. That is told
// to the log, and the posting is done with.
func (s *sender) hopeless(err error, batch []bot.Posting) bool {
	st := status(err)
	if st < 400 || st >= 500 || st == http.StatusTooManyRequests || st == http.StatusRequestTimeout || parked(err) {
		return false
	}
	if codeOf(err) != codeUnknownMessage { // that one was deleted
		s.x.c.o.Metrics.refused.Inc()
		s.x.c.log.Error("an answer was refused", "room", s.x.now().ID, "message", batch[0].ID, "error", plainError(err))
	}
	return true
}

func (s *sender) shown(p bot.Posting, place string) {
	if place == "" {
		place = apart
	}
	wait := s.x.c.o.Bot.Shown(s.x.c.alive, p, place)
	s.mu.Lock()
	for i := range s.list { // what has come meanwhile is of the same message
		if o := &s.list[i]; o.Kitchen == p.Kitchen && o.ID == p.ID {
			o.Place, o.Sent = place, max(o.Sent, p.Rev)
		}
	}
	s.mu.Unlock()
	s.x.c.work.Go(func() {
		if err := wait(); err != nil {
			s.x.c.log.Warn("that an answer was sent could not be kept", "message", p.ID, "error", err)
		}
	})
}
