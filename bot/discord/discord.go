// Package discord is a kitchen's room in Discord: messages of the channels that
// have been joined go to the bot, and what a channel is to be shown goes out.
//
// The platform delivers an event never, once or several times, and in any order.
// So a message is settled by its id, however it came: live over the gateway, or
// out of a channel's history, which is read from the last settled message on
// after every gap and now and then besides. What is to be shown is kept by the
// bot with what a message wrote, and is made to stand in the channel until it
// does; a sent answer is known by its nonce, or by the message it replies to.
//
// discordgo speaks the protocol. Where it does otherwise than the platform's
// rules ask, wire.go, dial.go, gateway.go, transport.go and payload.go say what and
// why.
package discord

import (
	"cmp"
	"context"
	"errors"
	"log/slog"
	"net/url"
	"slices"
	"sync"
	"time"

	"github.com/bwmarrin/discordgo"

	"scullion/bot"
)

// Options say how to join. Token and Bot must be there.
type Options struct {
	Bot     *bot.Bot
	Token   string       // without "Bot "; it is never logged
	URL     *url.URL     // another server that speaks as Discord does; nil: Discord itself
	Log     *slog.Logger // ids and counts; no texts of messages. nil: none
	Texts   bool         // log texts as well, to find out what went wrong
	Metrics *Metrics     // nil: none
	Now     func() time.Time
	Kitchen string   // the kitchen that the first room joins where nothing is said
	Listen  []string // ids of bots and webhooks that are heard like cooks
	Pace    Pace
}

// Pace is how long things take; the zero value is for a kitchen, others for tests.
type Pace struct {
	Open      time.Duration // the most that a connection may take to come up; 30 s
	Retry     time.Duration // the first pause before another try, doubled each time; 1 s
	MostRetry time.Duration // and the longest; 10 min for connections, a tenth for calls
	Identify  time.Duration // between two logins of new sessions; 5 s, as the platform asks
	Steady    time.Duration // after which a connection counts as good; 1 min
	Reread    time.Duration // how often the end of each history is read again; 10 min
	Late      time.Duration // after which an answer says that it is late; 90 s
	Respond   time.Duration // the most to wait before an interaction is deferred; 1.5 s
	Typing    time.Duration // how long a message is thought about before the bot is seen to type; 300 ms
	Draw      time.Duration // how long a text waits for its picture; 60 ms
	TypeOn    time.Duration // how often that is shown again; 8 s, for it lasts about 10
}

func (p Pace) filled() Pace {
	for _, d := range []struct {
		of    *time.Duration
		usual time.Duration
	}{
		{&p.Open, 30 * time.Second}, {&p.Retry, time.Second}, {&p.MostRetry, 10 * time.Minute}, {&p.Identify, 5 * time.Second},
		{&p.Steady, time.Minute}, {&p.Reread, 10 * time.Minute}, {&p.Late, 90 * time.Second}, {&p.Respond, 1500 * time.Millisecond},
		{&p.Typing, 300 * time.Millisecond}, {&p.TypeOn, 8 * time.Second}, {&p.Draw, drawTime},
	} {
		*d.of = cmp.Or(*d.of, d.usual)
	}
	return p
}

// Client is the bot's presence. Make it with New, and Run it once.
type Client struct {
	o     Options
	log   *slog.Logger
	rest  *rest
	alive context.Context // ends when work is to stop for good
	stop  context.CancelFunc
	work  sync.WaitGroup

	mu    sync.Mutex
	rooms map[string]*room
	self  string               // the bot's user id
	app   string               // the application's
	told  map[string]time.Time // direct message channels that have had the how-to
	state string
	reads chan struct{} // a place for each history that may be read at once
	rings chan struct{} // a timer has been set
}

// New makes a client.
func New(o Options) *Client {
	o.Pace = o.Pace.filled()
	if o.Log == nil {
		o.Log = slog.New(slog.DiscardHandler)
	}
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.Metrics == nil {
		o.Metrics = NewMetrics()
	}
	c := &Client{o: o, log: o.Log, rooms: map[string]*room{}, told: map[string]time.Time{}, state: "starting",
		reads: make(chan struct{}, 4), rings: make(chan struct{}, 1)}
	c.rest = newRest(o)
	return c
}

// lastWork is how long Run goes on with what is in hand once it is told to stop,
// and lastWords how long it then waits for calls that are broken off.
const (
	lastWork  = 5 * time.Second
	lastWords = time.Second
)

// Run joins and stays until ctx ends; then what is in hand is finished, as far
// as that takes no longer than a few seconds. What is not is in the ledger, and
// done on the next start. An error means that joining again is of no use.
func (c *Client) Run(ctx context.Context) error {
	c.alive, c.stop = context.WithCancel(context.WithoutCancel(ctx))
	defer c.stop()
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	if err := c.openRooms(ctx); err != nil {
		return err
	}
	c.work.Go(func() { c.ringTimers(ctx) })
	c.work.Go(func() { c.reread(ctx) })
	err := c.stayConnected(ctx)
	cancel() // it may have ended by itself
	c.finish()
	c.rest.s.Client.CloseIdleConnections()
	return err
}

// openRooms starts a worker for each room, with what is still due there.
func (c *Client) openRooms(ctx context.Context) error {
	rooms, err := c.o.Bot.Rooms(ctx)
	if err != nil {
		return err
	}
	due, err := c.o.Bot.Due(ctx)
	if err != nil {
		return err
	}
	for _, r := range rooms { // nothing is shown before the history tells what is
		x := newRoom(c, r)
		x.out.hold()
		x.unread = true
		c.begin(x)
	}
	c.show(due)
	return nil
}

// open starts a room's work, or tells the one at work of what has changed.
func (c *Client) open(r bot.Room) {
	if x := c.room(r.ID); x != nil {
		x.set(r)
		return
	}
	c.begin(newRoom(c, r))
}

func (c *Client) begin(x *room) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.rooms[x.r.ID] = x
	c.o.Metrics.rooms.Set(float64(len(c.rooms)))
	c.work.Go(x.work)
	c.work.Go(x.out.work)
}

// close ends a room's work.
func (c *Client) close(id string) {
	c.mu.Lock()
	x := c.rooms[id]
	delete(c.rooms, id)
	c.o.Metrics.rooms.Set(float64(len(c.rooms)))
	c.mu.Unlock()
	if x != nil {
		x.end()
	}
}

// room gives the room of a channel; nil where it is not joined.
func (c *Client) room(id string) *room {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.rooms[id]
}

func (c *Client) all() (list []*room) {
	c.mu.Lock()
	defer c.mu.Unlock()
	for _, r := range c.rooms {
		list = append(list, r)
	}
	return list
}

// finish lets the rooms come to the end of what they have.
func (c *Client) finish() {
	c.setState("stopping")
	for _, r := range c.all() {
		r.end()
	}
	done := make(chan struct{})
	go func() { c.work.Wait(); close(done) }()
	select {
	case <-done:
		return
	case <-time.After(lastWork):
		c.log.Warn("stopped with answers unsent; they are kept and sent on the next start")
	}
	c.stop()
	select {
	case <-done:
	case <-time.After(lastWords): // the library's limiter waits, whoever has gone
	}
}

func (c *Client) setState(s string) {
	c.mu.Lock()
	was := c.state
	c.state = s
	c.mu.Unlock()
	c.o.Metrics.setState(s)
	if was != s {
		c.log.Info("gateway", "state", s)
	}
}

// State says how the connection is: "starting", "connected", "reconnecting" or
// "stopping".
func (c *Client) State() string {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.state
}

// ids gives the bot's user id and its application's, once they are known.
func (c *Client) ids() (self, app string) {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.self, c.app
}

// heard says whether an author that is no person is heard all the same.
func (o Options) heard(id string) bool { return slices.Contains(o.Listen, id) }

// ErrFatal is in the errors after which joining again is of no use.
var ErrFatal = errors.New("the bot is not let in")

// Permissions that the bot needs in a channel, with how Discord's settings call
// them. Source: Discord API docs, topics/permissions.
var needed = []struct {
	bit  int64
	name string
}{
	{discordgo.PermissionViewChannel, "View Channel"},
	{discordgo.PermissionSendMessages, "Send Messages"},
	{discordgo.PermissionReadMessageHistory, "Read Message History"},
	{discordgo.PermissionAddReactions, "Add Reactions"},
}
