package discord_test

import (
	"encoding/json"
	"net/http"
	"runtime"
	"strings"
	"testing"
	"time"

	"scullion/bot/discord/strict"
)

// own gives what the bot has said since a message.
func (k *kit) own(since string) (list []*strict.Message) {
	for _, m := range k.ch.Messages() {
		if m.Author.ID == k.srv.Self().ID && number(m.ID) > number(since) {
			list = append(list, m)
		}
	}
	return list
}

// answeredNotKept has a message answered by a run that then ends without having kept
// that it did.
func (k *kit) answeredNotKept() *strict.Message {
	k.Helper()
	m := k.ch.Say(k.stove, "used 300g leek in the tart")
	k.answer(k.ch, m)
	k.settles()
	k.down()
	k.unsend(m.ID)
	return m
}

// What a crash has left unsent is sent once by the next run, and what it had sent
// without having kept that is found in the history.
func TestSentButNotKept(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{NonceWindow: time.Nanosecond})
	m := k.answeredNotKept()
	k.up()
	k.settles()
	n := 0
	for _, x := range k.ch.Messages() {
		if x.Ref == m.ID {
			n++
		}
	}
	if n != 1 {
		t.Errorf("answered %d times:\n%s", n, contents(k.ch))
	}
}

// So is the answer to a command.
func TestCommandNotKept(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{NonceWindow: time.Nanosecond})
	i := k.srv.Slash(k.stove, k.ch, "use", text("food", "leek"), text("amount", "300g"))
	i.Wait(soon)
	k.settles()
	k.down()
	k.unsend("i" + i.ID)
	k.up()
	k.settles()
	if n := strings.Count(contents(k.ch), "Leek 300 g"); n != 1 {
		t.Errorf("answered %d times:\n%s", n, contents(k.ch))
	}
}

// So is an answer in several parts.
func TestPartsNotKept(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{NonceWindow: time.Nanosecond})
	k.stocked()
	m := k.ch.Say(k.stove, "what's left?")
	k.until("two parts", func() bool { return len(k.own(m.ID)) == 2 })
	k.settles()
	before := len(k.own(m.ID))
	k.down()
	k.unsend(m.ID)
	k.up()
	k.settles()
	if n := len(k.own(m.ID)); n != before+1 {
		t.Errorf("%d messages, not %d:\n%s", n, before+1, contents(k.ch))
	}
}

// When a part of an answer cannot be sent, those that stand are not sent again,
// however long it takes.
func TestPartRefused(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{NonceWindow: time.Nanosecond})
	k.stocked()
	n := 0
	k.srv.Fault(func(r *http.Request) *strict.Fault {
		if r.Method == "POST" && strings.HasSuffix(r.URL.Path, "/messages") {
			if n++; n == 2 || n == 3 {
				return &strict.Fault{Status: http.StatusServiceUnavailable}
			}
		}
		return nil
	})
	m := k.ch.Say(k.stove, "what's left?")
	k.settles()
	if own := k.own(m.ID); len(own) != 3 { // two parts, and the one behind them
		t.Errorf("%d messages:\n%s", len(own), contents(k.ch))
	}
}

// A command whose response may have got lost is answered once.
func TestResponseLost(t *testing.T) {
	t.Parallel()
	for _, f := range []strict.Fault{{Status: 500, Applied: true}, {Status: 500}, {Status: 503}} {
		k := joined(t, strict.Options{})
		failed := false
		k.srv.Fault(func(r *http.Request) *strict.Fault {
			if strings.HasSuffix(r.URL.Path, "/callback") && !failed {
				failed = true
				return &f
			}
			return nil
		})
		i := k.srv.Slash(k.stove, k.ch, "use", text("food", "leek"), text("amount", "300g"))
		if r := i.Wait(soon); !strings.Contains(r.Content, "Leek 300 g") {
			t.Errorf("%+v: %+v", f, r)
		}
		k.settles()
		if n := strings.Count(contents(k.ch), "Leek 300 g"); n != 1 {
			t.Errorf("%+v: answered %d times:\n%s", f, n, contents(k.ch))
		}
		if strings.Contains(k.log.String(), "second scullion") {
			t.Errorf("%+v: it takes itself for another", f)
		}
	}
}

// Until the gateway has said who the bot is, no history is read: its own answers
// would not be known there.
func TestNothingReadBeforeReady(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{NonceWindow: time.Nanosecond})
	m := k.answeredNotKept()
	k.pace.Open, k.pace.Reread = time.Second, 50*time.Millisecond
	k.srv.OnConnect("silent")
	k.up()
	k.settles()
	k.told([]*strict.Message{m})
}

// Nor is anything shown where the history could not be read before the stop.
func TestStopsWithHistoryUnread(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{NonceWindow: time.Nanosecond})
	m := k.answeredNotKept()
	k.srv.Fault(func(r *http.Request) *strict.Fault {
		if r.Method == "GET" && strings.HasSuffix(r.URL.Path, "/messages") {
			return &strict.Fault{Status: http.StatusInternalServerError}
		}
		return nil
	})
	k.up()
	k.until("it is tried", func() bool { return strings.Contains(k.log.String(), "a history could not be read") })
	k.down()
	k.told([]*strict.Message{m})
}

// A message that the platform lists late is not taken for deleted.
func TestListedLate(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	k.say(k.stove, "used 300g leek in the tart")
	other := k.ch.Say(k.larder, "the radio is too loud")
	page, err := json.Marshal([]strict.Raw{{"id": other.ID, "channel_id": k.ch.ID, "type": 0, "content": other.Content, "author": other.Author}})
	if err != nil {
		t.Fatal(err)
	}
	read := func() int { return k.srv.Stats().Requests["GET /channels/{id}/messages"] }
	before := read()
	k.srv.Fault(func(r *http.Request) *strict.Fault {
		if r.Method == "GET" && strings.HasSuffix(r.URL.Path, "/messages") {
			return &strict.Fault{Status: http.StatusOK, Body: string(page), Header: http.Header{"Content-Type": {"application/json"}}}
		}
		return nil
	})
	k.guild.Back() // has the history read
	k.until("it is read", func() bool { return read() > before })
	k.srv.Fault(nil)
	k.settles()
	k.has("kitchen", "leek", 900_000)
}

// A message that was deleted while the bot was away is missed, though nothing
// was said after it.
func TestLastDeletedAway(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	k.srv.Slash(k.chef, k.ch, "kitchen", sub("quiet", strict.Raw{"name": "on", "type": 5, "value": true})).Wait(soon)
	m := k.ch.Say(k.stove, "used 300g leek in the tart")
	leek := func(want int64) func() bool {
		return func() bool {
			v, err := k.s.View(t.Context(), "kitchen")
			return err == nil && int64(v.Named("leek").OnHand()) == want
		}
	}
	k.until("it is counted", leek(900_000))
	k.until("a sign", func() bool { return k.srv.Stats().Reactions > 0 })
	k.down()
	k.srv.Delete(m)
	k.ahead = time.Hour
	k.up()
	k.until("it is taken back", leek(1_200_000))
}

// Once it has stopped, nothing of it goes on. It counts goroutines, and so is not
// run beside others.
func TestNothingLeftRunning(t *testing.T) {
	k := newKit(t, strict.Options{})
	before := runtime.NumGoroutine()
	k.join()
	k.say(k.stove, "used 300g leek in the tart")
	k.srv.Drop()
	k.say(k.stove, "used 100g leek in the tart")
	k.down()
	k.until("as many goroutines as before", func() bool { return runtime.NumGoroutine() <= before })
}
