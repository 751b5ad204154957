package discord

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"net"
	"net/url"
	"slices"
	"sync"
	"sync/atomic"
	"time"

	"github.com/bwmarrin/discordgo"
)

// intents are the events that are asked for: guilds, their messages, direct
// messages, and what messages say. Source: Discord API docs, events/gateway.
const intents = discordgo.IntentsGuilds | discordgo.IntentsGuildMessages | discordgo.IntentsDirectMessages | discordgo.IntentMessageContent

// fatal lists the close codes after which another try is of no use, and what to
// do. Source: Discord API docs, topics/opcodes-and-status-codes.
var fatal = map[int]string{
	4004: "the token is not right: take a new one from the bot's page and put it in its place",
	4010: "the shard is not right: this program uses one",
	4011: "the bot is in more servers than one connection may serve",
	4012: "the protocol's version is not served any more: a newer scullion is needed",
	4013: "what is asked for is not allowed: a newer scullion is needed",
	4014: "the bot may not read messages: turn on Message Content Intent on the bot's page",
}

// spent lists the close codes after which the session cannot be gone on with.
var spent = []int{4007, 4009}

// gateway keeps one connection. discordgo's own reconnecting is turned off: it
// ignores close codes, and its Open can hang for good.
type gateway struct {
	c    *Client
	o    Options
	link atomic.Pointer[link]

	mu      sync.Mutex
	conn    *wire // the one in use
	login   time.Time
	code    int      // the close code that the server gave last; 0 none
	resume  *url.URL // where the session is to be resumed; nil: where it was begun
	goodbye atomic.Bool
	parted  chan struct{} // the connection has ended after the goodbye
}

// link is a session of the library's, and what is heard of it.
type link struct {
	*discordgo.Session
	gone chan struct{} // the connection has been lost
	up   chan struct{} // a session has begun or been resumed
}

// stayConnected connects, and again whenever the connection is lost, until ctx
// ends or it is of no use.
func (c *Client) stayConnected(ctx context.Context) error {
	g := &gateway{c: c, o: c.o, parted: make(chan struct{}, 1)}
	g.renew()
	wait := c.o.Pace.Retry
	for ctx.Err() == nil {
		began := time.Now()
		err := g.once(ctx)
		if ctx.Err() != nil {
			break
		}
		code := g.closeCode()
		c.o.Metrics.reconnects.Inc()
		c.log.Warn("the connection is lost", "code", code, "why", plainError(err), "after", time.Since(began).Round(time.Millisecond))
		if what := fatal[code]; what != "" {
			return fmt.Errorf("%w (close code %d): %s", ErrFatal, code, what)
		}
		if errors.Is(err, ErrFatal) {
			return err
		}
		if slices.Contains(spent, code) {
			g.renew()
		}
		c.setState("reconnecting")
		if time.Since(began) > c.o.Pace.Steady {
			wait = c.o.Pace.Retry
		}
		pause(ctx, wait+rand.N(wait))
		wait = min(2*wait, c.o.Pace.MostRetry)
	}
	g.leave()
	return nil
}

// pause waits, or until ctx ends.
func pause(ctx context.Context, d time.Duration) {
	select {
	case <-ctx.Done():
	case <-time.After(d):
	}
}

// quiet has the library log nothing: what is worth it comes back as an error, or is
// seen on the wire.
var quiet = sync.OnceFunc(func() { discordgo.Logger = func(int, int, string, ...any) {} })

// renew makes a session that has nothing to resume.
func (g *gateway) renew() {
	quiet()
	g.resumeAt(nil)
	s, err := discordgo.New("Bot " + g.o.Token)
	if err != nil {
		panic(err) // it only ever fails where there is no memory
	}
	s.ShouldReconnectOnError = false
	s.ShouldRetryOnRateLimit = false
	s.MaxRestRetries = 0
	s.StateEnabled = false
	s.SyncEvents = true // else each event has a goroutine of its own, and they overtake each other
	s.Identify.Intents = intents
	s.UserAgent = g.c.rest.s.UserAgent
	s.Client = g.c.rest.s.Client
	s.Dialer = g.dialer()
	l := &link{Session: s, gone: make(chan struct{}, 1), up: make(chan struct{}, 1)}
	s.AddHandler(func(_ *discordgo.Session, e *discordgo.Event) {
		if g.leaving() {
			return // the next start reads what was said
		}
		if e.Type == "READY" {
			g.resumeAt(e.RawData)
		}
		if e.Type == "READY" || e.Type == "RESUMED" {
			signal(l.up)
		}
		g.c.onEvent(e)
	})
	s.AddHandler(func(*discordgo.Session, *discordgo.Disconnect) { signal(l.gone) })
	g.link.Store(l)
}

// signal notes that something has happened, if that is not noted yet.
func signal(c chan struct{}) {
	select {
	case c <- struct{}{}:
	default:
	}
}

func drain(c chan struct{}) {
	select {
	case <-c:
	default:
	}
}

// once connects and stays until the connection is lost.
func (g *gateway) once(ctx context.Context) error {
	g.mu.Lock()
	g.code = 0
	g.mu.Unlock()
	if err := g.mayLogin(ctx); err != nil {
		return err
	}
	l := g.link.Load()
	drain(l.gone)
	drain(l.up)
	opened := make(chan error, 1)
	go func() { opened <- l.Open() }()
	select {
	case err := <-opened:
		if err != nil {
			g.resumeAt(nil) // it may be that place that is down
			g.cut()
			return err
		}
	case <-time.After(g.o.Pace.Open):
		g.resumeAt(nil)
		return g.hung(opened)
	case <-ctx.Done():
		g.cut()
		return ctx.Err()
	}
	return g.stay(ctx, l)
}

// hung deals with an Open that does not come back: it waits for a server that is
// silent, or for a lock that it has itself. Of the second kind only a new
// session helps; the old one is left behind.
func (g *gateway) hung(opened chan error) error {
	g.cut()
	select {
	case err := <-opened:
		if err == nil {
			err = errors.New("it came up when it had been given up")
		}
		return err
	case <-time.After(g.o.Pace.Open / 10):
		g.c.log.Warn("the library is stuck; a new session is begun")
		g.renew()
		return errors.New("opening the connection hung")
	}
}

// stay watches the connection. Where no session comes up on it in time, or the
// library is stuck, it is cut.
func (g *gateway) stay(ctx context.Context, l *link) error {
	upBy := time.After(g.o.Pace.Open)
	stuck := 0
	check := time.NewTicker(max(g.o.Pace.Open/4, 500*time.Millisecond))
	defer check.Stop()
	for {
		select {
		case <-l.gone:
			return errors.New("disconnected")
		case <-l.up:
			upBy = nil
			g.c.setState("connected")
		case <-upBy:
			g.resumeAt(nil)
			g.cut()
			upBy = nil
		case <-check.C:
			if l.TryRLock() {
				l.RUnlock()
				stuck = 0
			} else if stuck++; stuck > 4 { // Close holds the lock for a second
				g.cut()
				g.renew()
				return errors.New("the library was stuck")
			}
		case <-ctx.Done():
			return ctx.Err()
		}
	}
}

// leave says goodbye, so that the bot is seen to be away at once. The library then
// sleeps for a second, in which nothing happens: that is not waited for.
func (g *gateway) leave() {
	g.goodbye.Store(true)
	done := make(chan struct{})
	go func() { g.link.Load().Close(); close(done) }()
	select {
	case <-done:
	case <-g.parted:
	case <-time.After(3 * time.Second):
	}
	g.cut()
}

func (g *gateway) leaving() bool { return g.goodbye.Load() }

// watch makes a connection the one in use.
func (g *gateway) watch(c net.Conn) net.Conn {
	w := &wire{Conn: c, g: g}
	g.mu.Lock()
	g.conn = w
	g.mu.Unlock()
	return w
}

// cut ends the connection in use, whoever waits for it.
func (g *gateway) cut() {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.conn != nil {
		g.conn.Close()
		g.conn = nil
	}
}

// closeCode is the code that the server closed with; 0 none.
func (g *gateway) closeCode() int {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.code
}

// ended hears that a connection has come to its end, with the server's close code
// or without.
func (g *gateway) ended(w *wire, code int) {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.conn != w {
		return
	}
	g.code = code
	if g.leaving() {
		signal(g.parted)
	}
}
