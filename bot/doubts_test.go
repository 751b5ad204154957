package bot_test

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"scullion/bot"
	"scullion/pantry/store"
)

// TestDoubtsLast tells that food stood warm, has a week of talk and a restart go by, and asks of it: it is known still, of what
// was made of it too, and not of what came in since.
func TestDoubtsLast(t *testing.T) {
	file := filepath.Join(t.TempDir(), "kitchen.db")
	at := time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)
	n := 0
	var k *bot.Bot
	say := func(text string) string {
		t.Helper()
		n, at = n+1, at.Add(time.Minute)
		r, err := k.Handle(context.Background(), bot.Message{Kitchen: "k", ID: fmt.Sprint(n), Cook: "ana", At: at, Text: text})
		if err != nil {
			t.Fatal(err)
		}
		return r.Text
	}
	open := func() *store.Store {
		s, err := store.Open(context.Background(), file, store.Options{})
		if err != nil {
			t.Fatal(err)
		}
		k = bot.New(s, bot.Options{})
		return s
	}
	s := open()
	for _, text := range []string{"got 4kg beef mince use by 20 march", "beef mince was left out overnight", "made 2kg ragu from 2kg beef mince"} {
		say(text)
	}
	for i := range 700 {
		if text := fmt.Sprintf("used %dg leeks in the pie", i+1); i%100 == 0 {
			say("got 90kg leeks")
		} else {
			say(text)
		}
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	at = at.AddDate(0, 0, 6)
	s = open()
	defer s.Close()
	for _, c := range []struct{ text, tells, never string }{
		{"is the beef mince ok?", "No: bin the beef mince", "Within its date"},
		{"is the ragu ok?", "left out overnight", "Within its date"},
		{"ideas", "", "mince"},
		{"can we use the beef mince", "No: bin", "Within its date"}, // silent of other food: it asks the room
		{"binned 2kg beef mince", "binned", ""},
		{"got 3kg beef mince use by 20 march", "in", ""},
		{"is the beef mince ok?", "Within its date", "bin the beef mince"},
	} {
		if got := say(c.text); !strings.Contains(got, c.tells) || c.never != "" && strings.Contains(got, c.never) {
			t.Errorf("%s: %s", c.text, got)
		}
	}
	if wrong, err := s.Check(context.Background()); err != nil || len(wrong.Wrong) > 0 {
		t.Error(wrong, err)
	}
}

// BenchmarkDoubts compares a use in a kitchen of which thirty hazards were told lately with one in a kitchen of none. The
// figure to read is the ratio.
func BenchmarkDoubts(b *testing.B) {
	var spent [2]time.Duration
	var kitchens [2]*bot.Bot
	at := time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)
	n := 0
	say := func(k *bot.Bot, text string) bot.Reply {
		n, at = n+1, at.Add(time.Second)
		r, err := k.Handle(context.Background(), bot.Message{Kitchen: "k", ID: fmt.Sprint(n), Cook: "ana", At: at, Text: text})
		if err != nil {
			b.Fatal(err)
		}
		return r
	}
	for i := range kitchens {
		s, err := store.Open(context.Background(), filepath.Join(b.TempDir(), "kitchen.db"), store.Options{})
		if err != nil {
			b.Fatal(err)
		}
		defer s.Close()
		kitchens[i] = bot.New(s, bot.Options{})
		say(kitchens[i], "got 900kg leeks, 5kg chicken thighs, 3kg ham, 4kg rice, 2kg cooked rice, 20l milk")
		for j := range 30 * i {
			say(kitchens[i], []string{"the cooked rice was left out overnight", "fridge was at 12 all night", "chicken thighs probed 52"}[j%3])
		}
	}
	for b.Loop() {
		for i, k := range kitchens {
			begun := time.Now()
			if r := say(k, fmt.Sprintf("used %dg leeks in the tart", 1+n%7)); r.Kind != bot.Log {
				b.Fatal(r)
			}
			spent[i] += time.Since(begun)
		}
	}
	b.ReportMetric(float64(spent[1])/float64(spent[0]), "doubts/none")
}
