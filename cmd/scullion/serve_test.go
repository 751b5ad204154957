package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"math/rand/v2"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"scullion/bot/discord/strict"
)

// chat is a kitchen's channel on a strict server, for the program as a process.
type chat struct {
	testing.TB
	srv  *strict.Server
	ch   *strict.Channel
	cook []*strict.User
	db   string
	http string
	said []*strict.Message
	live *exec.Cmd
	err  notes
}

// notes is what the program says, to be read while it runs.
type notes struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (n *notes) Write(p []byte) (int, error) {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.b.Write(p)
}

func (n *notes) String() string {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.b.String()
}

func newChat(t testing.TB) *chat {
	c := &chat{TB: t, srv: strict.New(t, strict.Options{}), db: filepath.Join(t.TempDir(), "kitchen.db"), http: freeAddress(t)}
	g := c.srv.Guild("boathouse")
	c.ch = g.Channel("galley")
	for _, name := range []string{"larder", "stove", "pastry"} {
		c.cook = append(c.cook, c.srv.User(name))
	}
	g.Manager(c.cook[0])
	c.start()
	t.Cleanup(c.kill)
	for i := 0; len(c.srv.Commands("")) == 0; i++ {
		if i > 2000 {
			t.Fatalf("no commands are registered: %s", &c.err)
		}
		time.Sleep(10 * time.Millisecond)
	}
	c.srv.Slash(c.cook[0], c.ch, "kitchen", strict.Raw{"name": "open", "type": 1}).Wait(20 * time.Second)
	return c
}

func freeAddress(t testing.TB) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().String()
}

func (c *chat) start() {
	c.Helper()
	c.live = program(c, "serve", "--db", c.db, "--http", c.http, "--board", "")
	c.live.Env = append(c.live.Env, "SCULLION_TOKEN="+strict.Token, "SCULLION_DISCORD_URL="+c.srv.URL())
	c.live.Stderr = &c.err
	if err := c.live.Start(); err != nil {
		c.Fatal(err)
	}
	c.srv.WaitReady(30 * time.Second)
}

func (c *chat) kill() {
	if c.live != nil {
		c.live.Process.Kill()
		c.live.Wait()
		c.live = nil
	}
}

// plays says a conversation, the same for the same seed: plain uses, edits and
// deletes. Between is called after each.
func (c *chat) plays(seed uint64, n int, between func(int)) {
	r := rand.New(rand.NewPCG(seed, 5))
	c.said = append(c.said, c.ch.Say(c.cook[0], "got 5kg leeks, 5kg carrots, 5 litres cream, 40 eggs"))
	between(-1)
	for i := range n {
		item := []string{"g leek", "g carrots", "ml cream"}[r.IntN(3)]
		text := fmt.Sprintf("used %d%s in the %s", 1+r.IntN(30), item, []string{"tart", "soup", "pie"}[r.IntN(3)])
		switch k := r.IntN(8); {
		case k == 0 && i > 3:
			c.srv.Edit(c.said[1+r.IntN(len(c.said)-1)], text)
		case k == 1 && i > 3:
			at := 1 + r.IntN(len(c.said)-1)
			c.srv.Delete(c.said[at])
			c.said = append(c.said[:at], c.said[at+1:]...)
		default:
			c.said = append(c.said, c.ch.Say(c.cook[r.IntN(3)], text))
		}
		between(i)
	}
}

// settled waits until everything that was said has its one answer.
func (c *chat) settled() map[string]string {
	c.Helper()
	var answers map[string]string
	for end := time.Now().Add(40 * time.Second); ; time.Sleep(20 * time.Millisecond) {
		answers = map[string]string{}
		for _, m := range c.ch.Messages() {
			if m.Ref != "" && answers[m.Ref] != "" {
				c.Fatalf("%s was answered twice: %q and %q", m.Ref, answers[m.Ref], m.Content)
			} else if m.Ref != "" {
				answers[m.Ref] = m.Content
			}
		}
		done := true
		for _, m := range c.said {
			done = done && answers[m.ID] != ""
		}
		if done {
			return answers
		}
		if time.Now().After(end) {
			c.Fatalf("not all was answered: %d of %d\n%s", len(answers), len(c.said), &c.err)
		}
	}
}

// A bot that is killed again and again in the middle of a service ends up as one
// that was left in peace: the same stock, and one answer to each message.
func TestServeKilled(t *testing.T) {
	seeds, n := 3, 90
	if testing.Short() {
		seeds, n = 1, 40
	}
	kills := 0
	for seed := range seeds {
		peace := newChat(t)
		peace.plays(uint64(seed), n, func(int) {})
		peace.settled()
		want := peace.stock()
		peace.kill()

		c := newChat(t)
		r := rand.New(rand.NewPCG(uint64(seed), 6))
		c.plays(uint64(seed), n, func(i int) {
			time.Sleep(time.Duration(r.IntN(3000)) * time.Microsecond)
			if i%8 == 4 {
				c.kill()
				kills++
			}
			if i%8 == 6 {
				c.start()
				time.Sleep(time.Duration(r.IntN(20_000)) * time.Microsecond)
			}
		})
		if c.live == nil {
			c.start()
		}
		c.settled()
		if got := c.stock(); got != want {
			t.Errorf("seed %d: in peace\n%s\nkilled\n%s", seed, want, got)
		}
		c.kill()
		must(t, "", "check", "--db", c.db)
	}
	t.Logf("%d kills", kills)
}

// stock waits until edits and deletes are in, too, and gives what is left.
func (c *chat) stock() string {
	c.Helper()
	last := ""
	for range 200 {
		time.Sleep(400 * time.Millisecond)
		now := must(c, "", "left", "--json", "--db", c.db)
		if now == last {
			return now
		}
		last = now
	}
	c.Fatal("the stock does not come to rest")
	return ""
}

// Told to stop, the program is gone within ten seconds, with nothing lost.
func TestServeStops(t *testing.T) {
	c := newChat(t)
	c.plays(1, 30, func(int) {})
	began := time.Now()
	if err := c.live.Process.Signal(syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
	if err := c.live.Wait(); err != nil {
		t.Errorf("%v: %s", err, &c.err)
	}
	if d := time.Since(began); d > 10*time.Second {
		t.Errorf("it took %v", d)
	}
	c.live = nil
	c.start()
	c.settled()
	if strings.Contains(c.err.String(), "leek") || strings.Contains(c.err.String(), strict.Token) {
		t.Errorf("the log holds a text or the token:\n%s", &c.err)
	}
}

// Health and metrics say how it goes.
func TestServeHealth(t *testing.T) {
	c := newChat(t)
	c.plays(1, 5, func(int) {})
	c.settled()
	if code, body := get(t, "http://"+c.http+"/healthz"); code != http.StatusOK || body != "connected\n" {
		t.Errorf("%d %q", code, body)
	}
	_, body := get(t, "http://"+c.http+"/metrics")
	for _, name := range []string{`scullion_messages_total{kind="log"}`, "scullion_entries_total", "scullion_asks_total", "scullion_settle_seconds_bucket",
		"scullion_gateway_connected 1", "scullion_send_queue 0", "scullion_rooms 1"} {
		if !strings.Contains(body, name) {
			t.Errorf("no %s in\n%s", name, body)
		}
	}
	c.srv.Down()
	for range 500 {
		if code, _ := get(t, "http://"+c.http+"/healthz"); code == http.StatusServiceUnavailable {
			c.srv.Up()
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Error("it is healthy without a server")
}

func get(t *testing.T, address string) (int, string) {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), 10*time.Second)
	defer cancel()
	q, err := http.NewRequestWithContext(ctx, "GET", address, nil)
	if err != nil {
		t.Fatal(err)
	}
	r, err := http.DefaultClient.Do(q)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	body, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	return r.StatusCode, string(body)
}

// The token comes from the environment or a file that nobody else may read.
func TestToken(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "token")
	if err := os.WriteFile(file, []byte("Bot abc.def\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		env  map[string]string
		mode os.FileMode
		want string
		says string
	}{
		{map[string]string{"SCULLION_TOKEN": " abc.def "}, 0o600, "abc.def", ""},
		{map[string]string{"SCULLION_TOKEN_FILE": file}, 0o600, "abc.def", ""},
		{map[string]string{"SCULLION_TOKEN_FILE": file}, 0o640, "", "chmod 600"},
		{map[string]string{"SCULLION_TOKEN_FILE": file, "CREDENTIALS_DIRECTORY": dir}, 0o440, "abc.def", ""},
		{map[string]string{"SCULLION_TOKEN_FILE": file + "x"}, 0o600, "", "cannot be read"},
		{map[string]string{"SCULLION_TOKEN_FILE": file, "SCULLION_TOKEN": "abc"}, 0o600, "", "unset one"},
		{map[string]string{"SCULLION_TOKEN": "abc def"}, 0o600, "", "spaces"},
		{nil, 0o600, "", "no token"},
	} {
		if err := os.Chmod(file, c.mode); err != nil {
			t.Fatal(err)
		}
		a := &app{env: func(k string) string { return c.env[k] }}
		got, err := a.token()
		if got != c.want || (err == nil) != (c.says == "") || err != nil && !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v: %q %v", c.env, got, err)
		}
		if err != nil && strings.Contains(err.Error(), "abc") {
			t.Errorf("the token is in the error: %v", err)
		}
	}
}

// Flags that would do something else than they seem to are refused.
func TestServeFlags(t *testing.T) {
	for _, c := range []struct {
		o    serveFlags
		says string
	}{
		{serveFlags{keep: 90, listen: []string{"80351110224678912"}}, ""},
		{serveFlags{keep: 0}, ""},
		{serveFlags{keep: -1}, "--keep"},
		{serveFlags{listen: []string{"till"}}, "--listen"},
	} {
		if err := c.o.check(); (err == nil) != (c.says == "") || err != nil && !strings.Contains(err.Error(), c.says) {
			t.Errorf("%+v: %v", c.o, err)
		}
	}
}
