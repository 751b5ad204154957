package discord_test

import (
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"

	"scullion/bot/discord"
	"scullion/bot/discord/strict"
)

// told counts the answers to messages, and complains of a message that has more
// or less than one.
func (k *kit) told(list []*strict.Message) {
	k.Helper()
	by := map[string]int{}
	for _, m := range k.ch.Messages() {
		by[m.Ref]++
	}
	for _, m := range list {
		if by[m.ID] != 1 {
			k.Errorf("%q was answered %d times", m.Content, by[m.ID])
		}
	}
}

// uses has messages said, each of which takes 1 g of leek, with a trouble made
// in between; all must be counted once and answered once.
func uses(t *testing.T, o strict.Options, trouble func(k *kit, n int)) *kit {
	t.Helper()
	return usesAt(t, quick, o, trouble)
}

func usesAt(t *testing.T, pace discord.Pace, o strict.Options, trouble func(k *kit, n int)) *kit {
	t.Helper()
	k := newKit(t, o)
	k.pace = pace
	k.join()
	var said []*strict.Message
	const n = 30
	for i := range n {
		said = append(said, k.ch.Say(k.stove, fmt.Sprintf("used 1g leek in the pie %c", 'a'+i%3)))
		trouble(k, i)
	}
	k.srv.WaitReady(soon)
	for _, m := range said {
		k.answer(k.ch, m)
	}
	k.settles()
	k.told(said)
	k.has("kitchen", "leek", 1_200_000-n*1000)
	return k
}

// The connection is lost in every way there is: nothing is lost with it, and a
// session that can be resumed is.
func TestConnectionLost(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name    string
		trouble func(*strict.Server)
		resumes bool
	}{
		{"cut", (*strict.Server).Drop, true},
		{"cut in the middle of a frame", (*strict.Server).CutNextFrame, true},
		{"reconnect asked for", func(s *strict.Server) { s.Op(7, nil) }, true},
		{"closed by 4000", func(s *strict.Server) { s.CloseWith(4000) }, true},
		{"closed by 4007", func(s *strict.Server) { s.CloseWith(4007) }, false},
		{"closed by 4009", func(s *strict.Server) { s.CloseWith(4009) }, false},
		{"session not valid any more", func(s *strict.Server) { s.ForgetSessions(); s.Drop() }, false},
		{"op 9, resumable", func(s *strict.Server) { s.Op(9, true) }, true},
		{"op 9", func(s *strict.Server) { s.ForgetSessions(); s.Op(9, false) }, false},
		{"no acks", func(s *strict.Server) { s.Acks(false); s.OnConnect("") }, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			o := strict.Options{}
			if c.name == "no acks" {
				o.Heartbeat = 200 * time.Millisecond
			}
			k := uses(t, o, func(k *kit, i int) {
				if i == 10 {
					c.trouble(k.srv)
				}
				if c.name == "no acks" && i == 11 {
					k.until("the dead connection is noticed", func() bool { return k.srv.Stats().Connections > 1 })
					k.srv.Acks(true)
				}
			})
			k.until("another connection", func() bool { return c.name == "op 9, resumable" || c.name == "op 9" || k.srv.Stats().Connections > 1 })
			if got := k.srv.Stats(); c.resumes && (got.Resumed == 0 || got.ResumeURL == 0) && c.name != "op 9, resumable" {
				t.Errorf("not resumed, or not where READY said: %+v", got)
			}
		})
	}
}

// Every way for a connection not to come up, one after the other.
func TestConnectionDoesNotComeUp(t *testing.T) {
	t.Parallel()
	ways := []string{"op7-before-hello", "silent", "op9", "op7-instead-of-ready", "op11-instead-of-ready", "no-hello", "close:4000", "close:4008"}
	if testing.Short() {
		ways = ways[:3]
	}
	for _, way := range ways {
		t.Run(way, func(t *testing.T) {
			t.Parallel()
			pace := quick
			pace.Open = time.Second
			k := usesAt(t, pace, strict.Options{}, func(k *kit, i int) {
				if i == 10 {
					k.srv.Allow("a heartbeat with d") // the library's number is the lost session's until a new one begins
					k.srv.OnConnect(way, way, "")
					k.srv.Drop()
				}
			})
			if n := k.srv.Stats().Identifies; n > 6 {
				t.Errorf("%d logins", n)
			}
		})
	}
}

// Where the platform will not have the bot, it stops and says what to do.
func TestFatal(t *testing.T) {
	t.Parallel()
	for code, want := range map[int]string{4004: "token", 4014: "Message Content Intent"} {
		k := newKit(t, strict.Options{})
		k.srv.OnConnect(fmt.Sprint("close:", code))
		k.start()
		done := make(chan error, 1)
		go func() { done <- k.wait() }()
		select {
		case err := <-done:
			if err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("%d: %v", code, err)
			}
		case <-time.After(soon):
			t.Fatalf("%d: the bot goes on", code)
		}
		k.stop = nil
		k.s.Close()
		if strings.Contains(k.log.String(), "unsent") {
			t.Errorf("%d: it has waited for what is not there", code)
		}
	}
}

// Endless "invalid session" is not met with endless logins.
func TestEndlessInvalidSession(t *testing.T) {
	t.Parallel()
	k := newKit(t, strict.Options{})
	k.srv.OnConnect("op9", "op9", "op9", "op9", "op9", "op9")
	k.start()
	time.Sleep(1500 * time.Millisecond)
	if n := k.srv.Stats().Identifies; n > 8 {
		t.Errorf("%d logins in a second and a half", n)
	}
	k.srv.WaitReady(soon)
}

// A storm of refusals of every kind delays answers, and loses and doubles none.
func TestStorms(t *testing.T) {
	t.Parallel()
	for kind, n := range map[string]int{"route": 3, "global": 3, "shared": 3, "html": 1} { // a page says whole seconds
		t.Run(kind, func(t *testing.T) {
			t.Parallel()
			uses(t, strict.Options{}, func(k *kit, i int) {
				if i%10 == 5 {
					k.srv.Storm(n, kind)
				}
			})
		})
	}
}

// A channel's own limit is kept to, and delays answers alone.
func TestRateLimit(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	k.srv.Limit("POST /channels/{id}/messages", 3, 200*time.Millisecond)
	var said []*strict.Message
	for range 12 {
		said = append(said, k.ch.Say(k.stove, "used 1g leek in the pie"))
	}
	for _, m := range said {
		k.answer(k.ch, m)
	}
	k.told(said)
	if n := k.srv.Stats().Status[http.StatusTooManyRequests]; n > 2 {
		t.Errorf("%d sends too many", n)
	}
}

// A server that fails before or after it has done what it was asked for.
func TestServerFails(t *testing.T) {
	t.Parallel()
	faults := []strict.Fault{
		{Status: 502, Applied: true}, {Applied: true, Cut: true}, {Status: 500}, {Status: 500, Applied: true}, {Status: 502}, {Status: 503},
		{Status: 504, Applied: true}, {Status: 500, Applied: true, Delay: 200 * time.Millisecond},
	}
	if testing.Short() {
		faults = faults[:2]
	}
	for _, f := range faults {
		t.Run(fmt.Sprintf("%d applied %v cut %v", f.Status, f.Applied, f.Cut), func(t *testing.T) {
			t.Parallel()
			n := 0
			uses(t, strict.Options{}, func(k *kit, i int) {
				if i != 5 {
					return
				}
				k.srv.Fault(func(r *http.Request) *strict.Fault {
					if n++; n%3 == 0 && n < 40 && strings.Contains(r.URL.Path, "/messages") {
						return &f
					}
					return nil
				})
			})
		})
	}
}

// The server is down for a while, with messages piling up.
func TestServerDown(t *testing.T) {
	t.Parallel()
	uses(t, strict.Options{}, func(k *kit, i int) {
		switch i {
		case 5:
			k.srv.Down()
		case 20:
			time.Sleep(300 * time.Millisecond)
			k.srv.Up()
		}
	})
}

// Events come twice, not at all and in the wrong order.
func TestEventsMixed(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	k.srv.Hold()
	a := k.ch.Say(k.stove, "used 100g leek in the tart")
	k.srv.Edit(a, "used 200g leek in the tart")
	b := k.ch.Say(k.stove, "used 100ml cream in the tart")
	k.srv.Delete(b)
	c := k.ch.Say(k.stove, "used 10g leek in the pie")
	d := k.ch.Say(k.stove, "used 3 eggs in the pie")
	k.srv.Edit(d, "used 2 eggs in the pie")
	// The edit before what it edits, the delete before what it deletes, one twice;
	// the last but one is left out.
	k.srv.Release(1, 0, 0, 3, 2, 4, 4, 6)
	k.answer(k.ch, a)
	k.answer(k.ch, c)
	k.answer(k.ch, d)
	k.settles()
	k.has("kitchen", "leek", 990_000)
	k.has("kitchen", "cream", 600_000)
	k.has("kitchen", "egg", 580_000)
	k.told([]*strict.Message{a, c, d})
}

// Of edits within one millisecond the last stands.
func TestQuickEdits(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	m := k.ch.Say(k.stove, "used 100g leek in the tart")
	for i := range 20 {
		k.srv.Edit(m, fmt.Sprintf("used %dg leek in the tart", 101+i))
	}
	k.shows(k.answer(k.ch, m), "Leek 120 g")
	k.has("kitchen", "leek", 1_080_000)
}

// What the gateway leaves out without a sign is found by reading again.
func TestEventLeftOut(t *testing.T) {
	t.Parallel()
	k := newKit(t, strict.Options{})
	k.pace.Reread = 200 * time.Millisecond
	k.up()
	k.open(k.ch)
	k.say(k.larder, "got 1.2kg leeks")
	k.srv.Hold()
	m := k.ch.Say(k.stove, "used 100g leek in the tart")
	n := k.ch.Say(k.larder, "used 100g leek in the pie")
	k.srv.Release(1)
	k.answer(k.ch, n)
	k.answer(k.ch, m)
	k.has("kitchen", "leek", 1_000_000)
}
