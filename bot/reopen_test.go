package bot_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"scullion/bot"
	"scullion/pantry"
)

// A plan that another took the place of, or that a wrap-up ended, is on again where that is
// taken back: what it kept is kept, and its timers run.
func TestPlanOnAgain(t *testing.T) {
	type state struct {
		claims string
		timers int
		ended  bool
	}
	now := func(r *room) (x state) {
		k, err := r.s.View(context.Background(), "k")
		if err != nil {
			t.Fatal(err)
		}
		x.claims = claimsOf(k)
		if err := r.s.Do(context.Background(), "k", func(b pantry.Book) error {
			list, err := b.Timers()
			if err != nil {
				return err
			}
			x.timers = len(list)
			services, err := b.Services(time.Time{})
			x.ended = len(services) == 0 || !services[len(services)-1].Ended.IsZero()
			return err
		}); err != nil {
			t.Fatal(err)
		}
		return x
	}
	for _, c := range []struct{ end, back string }{{"accept", "undo"}, {"accept", "@delete"}, {"wrap up", "undo"}, {"wrap up", "@delete"}} {
		r, _, _ := begun(t)
		before := now(r)
		if c.end == "accept" {
			r.say("7", "ana", "plan 1 dish for 2 in 45 minutes, two cooks")
		}
		r.say("7", "ana", c.end)
		if now(r) == before || before.timers == 0 || before.claims == "" {
			t.Fatalf("%s changed nothing of %+v", c.end, before)
		}
		if c.back == "undo" {
			r.say("7", "ana", "undo")
		} else if got := r.do(bot.Message{ID: fmt.Sprint("m", r.n), Delete: true}); got.Kind == bot.Error {
			t.Fatalf("%+v", got)
		}
		if after := now(r); after != before {
			t.Errorf("%s, %s: %+v, before %+v", c.end, c.back, after, before)
		}
	}
}
