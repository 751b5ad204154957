package discord_test

import (
	"bytes"
	"context"
	"fmt"
	"log/slog"
	"net/url"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"scullion/bot"
	"scullion/bot/discord"
	"scullion/bot/discord/strict"
	"scullion/pantry/store"
)

// soon is how long a test waits for what should be there at once.
const soon = time.Minute

// quick is a pace for tests. A picture is waited for, however slowly the race detector draws.
var quick = discord.Pace{Open: 2 * time.Second, Retry: 20 * time.Millisecond, MostRetry: time.Second, Identify: 50 * time.Millisecond,
	Steady: time.Hour, Reread: time.Hour, Late: 90 * time.Second, Respond: time.Second, Draw: time.Minute,
}

// kit is a kitchen in a channel of the strict server.
type kit struct {
	testing.TB
	srv                 *strict.Server
	guild               *strict.Guild
	ch                  *strict.Channel
	chef, stove, larder *strict.User // chef may manage channels
	file                string
	pace                discord.Pace
	o                   discord.Options
	ahead               time.Duration // how far the bot's clock is ahead

	s    *store.Store
	c    *discord.Client
	stop func() error
	wait func() error // for the bot to stop by itself
	log  *lines
}

// lines is a log that can be read while it is written.
type lines struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (l *lines) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.Write(p)
}

func (l *lines) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.String()
}

// newKit starts a server with a channel that is not joined yet.
func newKit(t testing.TB, o strict.Options) *kit {
	o.Intents = 1<<0 | 1<<9 | 1<<12 | 1<<15 // guilds, their messages, direct messages, texts
	k := &kit{TB: t, srv: strict.New(t, o), file: filepath.Join(t.TempDir(), "kitchen.db"), pace: quick, log: &lines{}}
	k.guild = k.srv.Guild("boathouse")
	k.ch = k.guild.Channel("galley")
	k.chef, k.stove, k.larder = k.srv.User("chef"), k.srv.User("stove"), k.srv.User("larder")
	k.guild.Manager(k.chef)
	t.Cleanup(func() {
		if k.stop != nil {
			k.down()
		}
		if t.Failed() {
			t.Logf("the log:\n%s", k.log)
		}
		if strings.Contains(k.log.String(), strict.Token) {
			t.Error("the token is in the log")
		}
	})
	return k
}

// joined is a kit that runs, with the channel joined and some stock in.
func joined(t testing.TB, o strict.Options) *kit {
	k := newKit(t, o)
	k.join()
	return k
}

// join runs the bot, joins the channel and gets some stock in.
func (k *kit) join() {
	k.Helper()
	k.up()
	k.open(k.ch)
	k.say(k.larder, "got 6 leeks, 1.2kg, 4 red onions, 6 brown onions, 12 eggs, 600ml cream")
}

// up runs the bot, and waits until it is connected.
func (k *kit) up() {
	k.Helper()
	k.start()
	k.srv.WaitReady(soon)
}

func (k *kit) start() {
	k.Helper()
	s, err := store.Open(context.Background(), k.file, store.Options{})
	if err != nil {
		k.Fatal(err)
	}
	k.s = s
	address, err := url.Parse(k.srv.URL())
	if err != nil {
		k.Fatal(err)
	}
	o := k.o
	o.Bot, o.Token, o.URL, o.Kitchen, o.Pace = bot.New(s, bot.Options{Open: "kitchen", Think: time.Minute}), strict.Token, address, "kitchen", k.pace
	o.Log = slog.New(slog.NewTextHandler(k.log, &slog.HandlerOptions{Level: slog.LevelDebug}))
	o.Now = func() time.Time { return time.Now().Add(k.ahead) }
	k.c = discord.New(o)
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- k.c.Run(ctx) }()
	k.wait = func() error { return <-done }
	k.stop = func() error {
		cancel()
		select {
		case err := <-done:
			return err
		case <-time.After(soon):
			return fmt.Errorf("the bot does not stop")
		}
	}
}

// down stops the bot, and checks the ledger.
func (k *kit) down() {
	k.Helper()
	if err := k.stop(); err != nil {
		k.Error(err)
	}
	k.stop = nil
	if r, err := k.s.Check(context.Background()); err != nil || len(r.Wrong) > 0 {
		k.Errorf("check: %v %v", r.Wrong, err)
	}
	if err := k.s.Close(); err != nil {
		k.Error(err)
	}
}

func sub(name string, options ...strict.Raw) strict.Raw {
	return strict.Raw{"name": name, "type": 1, "options": options}
}

func text(name, value string) strict.Raw {
	return strict.Raw{"name": name, "type": 3, "value": value}
}

// open makes a channel a kitchen.
func (k *kit) open(ch *strict.Channel, options ...strict.Raw) string {
	k.Helper()
	k.registered()
	return k.srv.Slash(k.chef, ch, "kitchen", sub("open", options...)).Wait(soon).Content
}

// registered waits until the commands are.
func (k *kit) registered() {
	k.Helper()
	k.until("the commands", func() bool { return len(k.srv.Commands("")) > 0 })
}

// until waits for what should be so soon.
func (k *kit) until(what string, so func() bool) {
	k.Helper()
	for end := time.Now().Add(soon); !so(); time.Sleep(2 * time.Millisecond) {
		if time.Now().After(end) {
			k.Fatalf("%s: not in %v", what, soon)
		}
	}
}

// say says something that is answered, and gives the answer.
func (k *kit) say(u *strict.User, said string) *strict.Message {
	k.Helper()
	return k.answer(k.ch, k.ch.Say(u, said))
}

// answer waits for the answer to a message.
func (k *kit) answer(ch *strict.Channel, to *strict.Message) (a *strict.Message) {
	k.Helper()
	k.until("an answer to "+to.Content, func() bool {
		a = reply(ch, to)
		return a != nil
	})
	return a
}

func reply(ch *strict.Channel, to *strict.Message) *strict.Message {
	for _, m := range ch.Messages() {
		if m.Ref == to.ID {
			return m
		}
	}
	return nil
}

// shows waits until an answer shows a text.
func (k *kit) shows(a *strict.Message, want string) *strict.Message {
	k.Helper()
	var now *strict.Message
	for end := time.Now().Add(soon); time.Now().Before(end); time.Sleep(2 * time.Millisecond) {
		for _, m := range k.ch.Messages() {
			if m.ID == a.ID {
				now = m
			}
		}
		if now != nil && strings.Contains(now.Content, want) {
			return now
		}
	}
	k.Fatalf("the answer is %+v, and not %q", now, want)
	return nil
}

// settles waits until all that was said has been, by saying something behind it.
func (k *kit) settles() {
	k.Helper()
	k.say(k.larder, "how much cream?")
}

// has checks what is on hand of a line, in mg or µl.
func (k *kit) has(kitchen, item string, want int64) {
	k.Helper()
	v, err := k.s.View(context.Background(), kitchen)
	if err != nil {
		k.Fatal(err)
	}
	l := v.Named(item)
	if l == nil || int64(l.OnHand()) != want {
		k.Errorf("%s: %+v, not %d", item, l, want)
	}
}

// button gives the id of the button of that label.
func button(t testing.TB, m *strict.Message, label string) string {
	t.Helper()
	if id := findButton(m, label); id != "" {
		return id
	}
	t.Fatalf("no button %q in %s", label, m.Components)
	return ""
}
