package discord_test

import (
	"net/http"
	"strings"
	"testing"
	"time"

	"scullion/bot/discord/strict"
)

// Where the bot may not read the history, nothing is taken for deleted.
func TestHistoryDenied(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	k.say(k.stove, "used 300g leek in the tart")
	k.down()
	k.ch.Deny(strict.ReadHistory)
	k.ahead = time.Minute
	k.up()
	k.ch.Say(k.stove, "used 100g leek in the tart")
	k.until("the live message", func() bool {
		v, err := k.s.View(t.Context(), "kitchen")
		return err == nil && v.Named("leek").OnHand() == 800_000_000/1000
	})
	k.until("it is told", func() bool { return strings.Contains(k.log.String(), "Read Message History") })
	k.srv.Allow("160002")
	k.srv.Allow("50013")
	k.has("kitchen", "leek", 800_000)
}

// Messages that come without their texts are not settled, and an operator is
// told; they are read when the texts may be.
func TestBlind(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	bare := k.ch.Post(strict.Raw{"content": "", "author": k.stove})
	k.until("it is told", func() bool { return strings.Contains(k.log.String(), "Message Content Intent") })
	k.say(k.stove, "used 300g leek in the tart")
	k.down()
	k.up()
	k.settles()
	rooms, err := k.s.Rooms(t.Context())
	if err != nil || len(rooms) != 1 || number(rooms[0].Settled) >= number(bare.ID) {
		t.Errorf("settled up to %+v, beyond %s: %v", rooms, bare.ID, err)
	}
	k.has("kitchen", "leek", 900_000)
}

// A channel's answers stay due where the bot may not write, and the rest goes on.
func TestMayNotWrite(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	k.srv.Allow("50013")
	k.srv.Allow("50001")
	k.ch.Deny(strict.SendMessages)
	m := k.ch.Say(k.stove, "used 100g leek in the tart")
	k.until("it is told", func() bool { return strings.Contains(k.log.String(), "no access to the room") })
	k.has("kitchen", "leek", 1_100_000)
	k.ch.Allow(strict.SendMessages)
	k.down()
	k.up()
	k.answer(k.ch, m)
}

// When the bot may write again, what is due is shown: as soon as it is told so, and
// else with the next reading of the history. Until then it asks once, not for
// each answer.
func TestMayWriteAgain(t *testing.T) {
	t.Parallel()
	for _, told := range []bool{true, false} {
		t.Run(map[bool]string{true: "told", false: "not told"}[told], func(t *testing.T) {
			t.Parallel()
			k := newKit(t, strict.Options{})
			if !told {
				k.pace.Reread = 400 * time.Millisecond
			}
			k.up()
			k.open(k.ch)
			k.say(k.larder, "got 1.2kg leeks")
			k.ch.Deny(strict.SendMessages)
			var said []*strict.Message
			for range 5 {
				said = append(said, k.ch.Say(k.stove, "used 100g leek in the tart"))
			}
			k.until("all is counted", func() bool {
				v, err := k.s.View(t.Context(), "kitchen")
				return err == nil && v.Named("leek").OnHand() == 700_000
			})
			k.until("it is told", func() bool { return strings.Contains(k.log.String(), "no access to the room") })
			if n := k.srv.Stats().Status[http.StatusForbidden]; n > 4 {
				t.Errorf("%d calls were refused", n)
			}
			if told {
				k.ch.Allow(strict.SendMessages)
			} else {
				k.srv.Hold()
				k.ch.Allow(strict.SendMessages)
				k.ch.Say(k.stove, "the radio is too loud")
				k.srv.Release(1)
			}
			for _, m := range said {
				k.answer(k.ch, m)
			}
			k.settles()
			k.told(said)
		})
	}
}

// A refusal that does not come from the platform itself loses no answer.
func TestRefusedByProxy(t *testing.T) {
	t.Parallel()
	k := newKit(t, strict.Options{})
	k.pace.Reread = 200 * time.Millisecond
	k.up()
	k.open(k.ch)
	refused := false
	k.srv.Fault(func(r *http.Request) *strict.Fault {
		if r.Method == "POST" && strings.HasSuffix(r.URL.Path, "/messages") && !refused {
			refused = true
			return &strict.Fault{Status: http.StatusForbidden, Body: "<html>Access denied</html>"}
		}
		return nil
	})
	k.say(k.larder, "got 1.2kg leeks")
}

// A channel that was deleted while the bot was away is joined no more.
func TestGoneWhileAway(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	k.down()
	k.ch.Remove()
	k.up()
	k.until("the room is left", func() bool {
		rooms, err := k.s.Rooms(t.Context())
		return err == nil && len(rooms) == 0
	})
}

// A server that is out for a while is not left: what was said there meanwhile is
// read when it is back. One that the bot is removed from is.
func TestServerOutAndLeft(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	k.guild.Outage()
	m := k.ch.Say(k.stove, "used 300g leek in the tart")
	k.guild.Back()
	k.answer(k.ch, m)
	k.has("kitchen", "leek", 900_000)
	k.guild.Kick()
	k.until("the room is left", func() bool {
		rooms, err := k.s.Rooms(t.Context())
		return err == nil && len(rooms) == 0
	})
}

// Where texts are withheld later on, edited messages come without theirs. That
// does not take back what they said.
func TestBlindEdit(t *testing.T) {
	t.Parallel()
	k := joined(t, strict.Options{})
	m := k.ch.Say(k.stove, "used 300g leek in the tart")
	k.answer(k.ch, m)
	k.srv.Edit(m, "")
	k.settles()
	k.has("kitchen", "leek", 900_000)
	if !strings.Contains(k.log.String(), "Message Content Intent") {
		t.Error("nobody is told")
	}
	k.down()
	k.up()
	k.settles()
	k.has("kitchen", "leek", 900_000)
}
