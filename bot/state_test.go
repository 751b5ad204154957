package bot_test

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"scullion/bot"
	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/pantry/store"
)

func stateOf(t failer, s *store.Store, at time.Time) (state *bot.State, open *bot.Wrap) {
	t.Helper()
	if err := s.Records(context.Background(), "k", func(r *store.Record) error {
		x := &bot.Records{Kitchen: r.Kitchen, WrapUps: r.WrapUps, Services: r.Services, Ledger: r}
		x.Foods(food.Default())
		list, err := x.Wraps()
		if err != nil {
			return err
		}
		open = list[len(list)-1]
		state, err = bot.StateOf(x, r, at)
		return err
	}); err != nil {
		t.Fatal(err)
	}
	return state, open
}

func line(t *testing.T, s *bot.State, item string) bot.StockLine {
	t.Helper()
	for _, l := range s.Crate {
		if l.Item == item {
			return l
		}
	}
	t.Fatalf("no %s in %+v", item, s.Crate)
	return bot.StockLine{}
}

// What a board shows of what is left, of dishes and of what has gone.
func TestState(t *testing.T) {
	r := newRoom(t) // 1.2 kg leeks, onions, 600 ml cream
	r.say("2", "dee", "need 200ml cream for the tart")
	r.say("3", "bo", "used 300g leeks in the soup, 30g peel")
	r.say("3", "bo", "gave 100g leeks to next door")
	r.say("3", "bo", "binned 60g leeks")
	r.say("3", "bo", "used 100ml cream in the soup")
	r.say("3", "bo", "the radio is loud")
	s, _ := stateOf(t, r.s, r.at.Add(26*time.Hour))
	leek := line(t, s, "leek")
	if leek.Left != "740 g" || leek.Of != "1.2 kg" || leek.Came != "yesterday" || leek.Held != 0 || len(leek.Claims) > 0 {
		t.Errorf("%+v", leek)
	}
	cream := line(t, s, "cream")
	if cream.Left != "500 ml" || cream.Free != "300 ml" || len(cream.Claims) != 1 || cream.Claims[0] != (bot.Claim{Cook: "dee", Amount: "200 ml", Dish: "tart"}) || cream.Held != 0.4 {
		t.Errorf("%+v", cream)
	}
	if len(s.Dishes) != 1 || s.Dishes[0].Name != "soup" || strings.Join(s.Dishes[0].In, ", ") != "300 g leek, 100 ml cream" {
		t.Errorf("%+v", s.Dishes)
	}
	if g := s.Gone; g.Used != "368 g" || g.Given != "100 g" || g.Trim != "30 g" || g.Binned != "60 g" || g.BinnedShare < 0.1 || g.BinnedShare > 0.12 {
		t.Errorf("%+v", g)
	}
	if len(s.Said) == 0 || s.Said[0].Text != "used 100ml cream in the soup" || s.Said[0].Cook != "bo" || !strings.Contains(s.Said[0].Reply, "Cream 100 ml") {
		t.Errorf("%+v", s.Said)
	}
	r.say("3", "bo", "need 2kg leeks for the pie")
	s, _ = stateOf(t, r.s, r.at)
	if leek := line(t, s, "leek"); leek.Short != "1.26 kg" || leek.Free != "0 g" || leek.Held != 1 {
		t.Errorf("%+v", leek)
	}
	r.say("3", "bo", "wrap up")
	if s, _ = stateOf(t, r.s, r.at); len(s.Dishes) > 0 || s.Gone.Used != "" || s.Gone.Binned != "" {
		t.Errorf("after the wrap-up: %+v, %+v", s.Dishes, s.Gone)
	}
}

// A claim for a dish of the plan that is on names it by its number.
func TestStatePlan(t *testing.T) {
	r, p, _ := begun(t)
	s, _ := stateOf(t, r.s, r.at)
	if s.Plan == nil || len(s.Dishes) != len(p.Dishes) {
		t.Fatalf("%+v", s)
	}
	claims := 0
	for _, l := range s.Crate {
		for _, c := range l.Claims {
			claims++
			if c.DishN < 1 || c.DishN > len(p.Dishes) || s.Dishes[c.DishN-1].Name != c.Dish {
				t.Errorf("%s: %+v of %+v", l.Item, c, s.Dishes)
			}
		}
	}
	if claims == 0 {
		t.Error("nothing is claimed")
	}
	for _, x := range s.Timers {
		if !x.Due.After(r.at) {
			t.Errorf("%+v", x)
		}
	}
}

// Whatever is said, what has gone on a board is what the account of the wrap-up says.
func TestStateAgrees(t *testing.T) {
	dir, files, some := t.TempDir(), 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		files++
		s, err := store.Open(context.Background(), filepath.Join(dir, fmt.Sprint(files)), store.Options{})
		if err != nil {
			rt.Fatal(err)
		}
		defer s.Close()
		k := &kitchen{T: rt, s: s, k: bot.New(s, bot.Options{}), at: time.Date(2026, 3, 3, 17, 0, 0, 0, time.UTC), heard: map[string]string{}}
		k.say("larder", "got 2kg leeks, 1kg carrots, 500g red onions, 1 pint cream and 800g spinach, 1kg flour")
		for range rapid.IntRange(1, 15).Draw(rt, "turns") {
			if rapid.IntRange(0, 4).Draw(rt, "what") == 0 {
				k.say("stove", rapid.SampledFrom([]string{"wrap up", "gave 100g leek to next door", "used 200g carrots in the soup, 20g peel", "put back 50g carrots", "undo"}).Draw(rt, "other"))
				continue
			}
			k.turn()
		}
		state, open := stateOf(rt, s, k.at)
		say := func(g float64) string {
			if g <= 0 {
				return ""
			}
			return measure.Say(measure.Amount(g*1000+0.5), measure.Gram)
		}
		got := [4]string{state.Gone.Used, state.Gone.Given, state.Gone.Trim, state.Gone.Binned}
		c := open.Crate
		if want := [4]string{say(c.Dishes.AP), say(c.Given.AP), say(c.Trim.AP), say(c.Binned.AP)}; got != want {
			rt.Fatalf("%q, the account has %q", got, want)
		}
		if got != [4]string{} {
			some++
		}
	})
	if some < files/8 {
		t.Errorf("something had gone in %d of %d kitchens", some, files)
	}
}

// Where timers are seen as they run they may be set, although nobody can be called there; once
// they have been seen to be due they go.
func TestTimerSeen(t *testing.T) {
	r := newRoom(t)
	say := func(text string) bot.Reply {
		t.Helper()
		r.n++
		r.at = r.at.Add(time.Second)
		got, err := r.b.Handle(context.Background(), bot.Message{Kitchen: "k", ID: fmt.Sprint("b", r.n), Cook: "bo", At: r.at, Text: text, Counts: true})
		if err != nil {
			t.Fatal(err)
		}
		return got
	}
	if got := say("timer 12 min for the custard"); !strings.Contains(got.Text, "Timer set: custard") || len(got.Posts) > 0 {
		t.Fatalf("%+v", got)
	}
	due := r.at.Add(12 * time.Minute)
	seen := func(at time.Time) int {
		s, _ := stateOf(t, r.s, at)
		return len(s.Timers)
	}
	if rung, next, err := r.b.Ring(context.Background(), due.Add(time.Minute)); err != nil || len(rung) > 0 || !next.IsZero() {
		t.Errorf("%v, %v, %v", rung, next, err) // nobody to call
	}
	for after, want := range map[time.Duration]int{-time.Minute: 1, 5 * time.Minute: 1, 11 * time.Minute: 0} {
		if n := seen(due.Add(after)); n != want {
			t.Errorf("%d seen %v after it is due", n, after)
		}
	}
	r.at = due.Add(20 * time.Minute)
	if got := say("timers?"); !strings.Contains(got.Text, "No timer") {
		t.Errorf("%s", got.Text)
	}
	for n := range 60 { // those that are over are in nobody's way
		r.at = r.at.Add(time.Hour)
		if got := say("timer 1 min"); !strings.Contains(got.Text, "Timer set") {
			t.Fatalf("%d: %s", n, got.Text)
		}
	}
}

// BenchmarkState reads what a board shows from a ledger of 20 services of 200 entries; a board
// does so after each commit, and has 100 ms for all that it does.
func BenchmarkState(b *testing.B) {
	s := year(b, 20, 200)
	for b.Loop() {
		if err := s.Records(context.Background(), "k", func(r *store.Record) error {
			x := &bot.Records{Kitchen: r.Kitchen, WrapUps: r.WrapUps, Services: r.Services, Ledger: r}
			x.Foods(food.Default())
			state, err := bot.StateOf(x, r, time.Now())
			if err == nil && len(state.Crate) == 0 {
				b.Fatal("nothing is left")
			}
			return err
		}); err != nil {
			b.Fatal(err)
		}
	}
}
