package terminal

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"time"

	"scullion/bot"
)

// inFlight is how many messages may be on their way to the ledger at once.
const inFlight = 64

// Pipe is the conversation as JSON lines: exactly one line out for each line
// in, in order. Now is the time of messages that give none.
type Pipe struct {
	Bot     *bot.Bot
	Kitchen string
	Now     func() time.Time
}

// Run answers every line of in until it ends or ctx does; then what has been
// taken in is still answered. A line that makes no sense gets an error reply
// and the next is read. When the ledger fails, the messages it failed for get
// an error reply, no more is read, and the ledger's error is returned.
func (p Pipe) Run(ctx context.Context, in io.Reader, out io.Writer) error {
	// One more message is in the printer's hand, and one in ours.
	queue := make(chan pending, inFlight-2)
	printer := newPrinter(out)
	printed := make(chan error, 1)
	go func() { printed <- printer.run(queue) }()
	readErr := p.feed(ctx, in, queue, printer.broken)
	close(queue)
	if err := <-printed; err != nil {
		return err
	}
	return readErr
}

// pending is an answer on its way.
type pending struct {
	to   string
	wait func() (bot.Reply, error)
}

// line is what the reader found.
type line struct {
	n    int
	text string
	err  error
}

// feed starts the messages in the order of their lines.
func (p Pipe) feed(ctx context.Context, in io.Reader, queue chan<- pending, broken <-chan struct{}) error {
	found, stop := make(chan line), make(chan struct{})
	defer close(stop)
	go readLines(in, found, stop)
	for {
		select {
		case <-ctx.Done():
			return nil
		case <-broken:
			return nil
		case l := <-found:
			switch {
			case l.err == io.EOF:
				return nil
			case l.err != nil && l.err != errTooLong:
				return fmt.Errorf("the messages cannot be read: %w", l.err)
			}
			queue <- p.start(ctx, l)
		}
	}
}

func readLines(in io.Reader, found chan<- line, stop <-chan struct{}) {
	r := newLines(in)
	for n := 1; ; n++ {
		text, err := r.next()
		select {
		case found <- line{n, text, err}:
		case <-stop:
			return
		}
		if err != nil && err != errTooLong {
			return
		}
	}
}

// start hands the line's message to the bot. Once started a message is
// answered, whatever becomes of ctx.
func (p Pipe) start(ctx context.Context, l line) pending {
	var s said
	err := l.err
	if err == nil {
		s, err = readSaid(l.text)
	}
	var m bot.Message
	if err == nil {
		m, err = s.message(p.Kitchen, p.Now)
	}
	if err != nil {
		if s.id == "" { // nothing else says which line it was
			err = fmt.Errorf("line %d: %w", l.n, err)
		}
		r := refusal(clip(s.id, longestID), err.Error())
		return pending{s.id, func() (bot.Reply, error) { return r, nil }}
	}
	return pending{m.ID, p.Bot.Start(context.WithoutCancel(ctx), m)}
}

func refusal(to, text string) bot.Reply { return bot.Reply{To: to, Kind: bot.Error, Text: text} }

// printer writes the answers. It closes broken when no more should be read.
type printer struct {
	w      *bufio.Writer
	enc    *json.Encoder
	broken chan struct{}
	err    error
}

func newPrinter(out io.Writer) *printer {
	w := bufio.NewWriter(out)
	p := &printer{w: w, enc: json.NewEncoder(w), broken: make(chan struct{})}
	p.enc.SetEscapeHTML(false)
	return p
}

// run prints until the queue is closed, and gives the first error. It flushes
// whenever nothing else is on its way, so that a caller who waits for an
// answer gets it.
func (p *printer) run(queue <-chan pending) error {
	for next := range queue {
		r, err := next.wait()
		if err != nil {
			r = refusal(next.to, OneLine(err))
			p.fail(err)
		}
		if err := p.enc.Encode(r); err != nil {
			p.fail(err)
		}
		if len(queue) > 0 {
			continue
		}
		if err := p.w.Flush(); err != nil {
			p.fail(err)
		}
	}
	return p.err
}

func (p *printer) fail(err error) {
	if p.err == nil {
		p.err = err
		close(p.broken)
	}
}
