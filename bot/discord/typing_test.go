package discord_test

import (
	"net/http"
	"strings"
	"testing"
	"time"

	"scullion/bot/discord/strict"
)

// planKit is a kit with enough in stock for a plan to be thought about.
func planKit(t *testing.T, typing, again time.Duration) *kit {
	k := newKit(t, strict.Options{})
	k.pace.Typing, k.pace.TypeOn = typing, again
	k.join()
	k.say(k.larder, "got 1kg potatoes, 800g cauliflower, 600g carrots, 500g mushrooms, 200g butter, 500g yoghurt, 4 lemons, 300g cheddar, 400g spinach, 500g red onions")
	k.say(k.larder, "got 1kg plain flour, 1l olive oil, 500g penne, 1kg basmati rice, 300g salt, 400g white bread, 2 x 400g tins of chickpeas for the cupboard")
	return k
}

const planIt = "plan 3 dishes for 2 in 60 minutes, two cooks"

func (k *kit) typed() int { return k.srv.Stats().Requests["POST /channels/{id}/typing"] }

// While a plan is made the bot is seen to type, again and again, and no more once the answer
// is there.
func TestTyping(t *testing.T) {
	t.Parallel()
	k := planKit(t, time.Millisecond, 5*time.Millisecond)
	if n := k.typed(); n > 0 {
		t.Errorf("%d times for what needs no thought", n)
	}
	m := k.ch.Say(k.stove, planIt)
	k.until("typing", func() bool { return k.typed() > 1 })
	if a := k.answer(k.ch, m); !strings.Contains(a.Content, "All ready in") {
		t.Errorf("%s", a.Content)
	}
	k.settles()
	n := k.typed()
	k.ch.Say(k.stove, "the radio is too loud")
	k.say(k.stove, "used 100g leek in the tart")
	if now := k.typed(); now != n {
		t.Errorf("%d times after the answer", now-n)
	}
}

// An answer that is there before the moment is over is not announced.
func TestNoTyping(t *testing.T) {
	t.Parallel()
	k := planKit(t, time.Hour, time.Hour)
	k.say(k.stove, planIt)
	if n := k.typed(); n > 0 {
		t.Errorf("%d times", n)
	}
}

// Where the platform does not take it, it is let be, and the answer comes all the same.
func TestTypingRefused(t *testing.T) {
	t.Parallel()
	for _, f := range []strict.Fault{
		{Status: 429, Body: `{"message":"You are being rate limited.","retry_after":3600,"global":false}`,
			Header: http.Header{"Retry-After": {"3600"}, "X-Ratelimit-Scope": {"user"}, "X-Ratelimit-Reset-After": {"3600"}, "X-Ratelimit-Remaining": {"0"}, "Content-Type": {"application/json"}}},
		{Status: 403, Body: `{"message":"Missing Permissions","code":50013}`, Header: http.Header{"Content-Type": {"application/json"}}},
		{Status: 500},
	} {
		k := planKit(t, time.Millisecond, time.Millisecond)
		k.srv.Fault(func(r *http.Request) *strict.Fault {
			if !strings.HasSuffix(r.URL.Path, "/typing") {
				return nil
			}
			return &f
		})
		a := k.say(k.stove, planIt)
		if !strings.Contains(a.Content, "All ready in") {
			t.Errorf("%d: %s", f.Status, a.Content)
		}
		if n := k.typed(); n != 1 {
			t.Errorf("%d: tried %d times", f.Status, n)
		}
		k.settles()
	}
}
