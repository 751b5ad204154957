package bot_test

import (
	"context"
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"scullion/bot"
	"scullion/pantry"
	"scullion/pantry/store"
)

// BenchmarkLongTalk logs a use in a kitchen that has said little and in one that has said 20,000 messages, in turn.
// The figure to read is how many times slower the second is.
func BenchmarkLongTalk(b *testing.B) {
	at := time.Date(2026, 3, 3, 12, 0, 0, 0, time.UTC)
	var spent [2]time.Duration
	var kitchens [2]*bot.Bot
	for i, said := range []int{10, 20_000} {
		s, err := store.Open(context.Background(), filepath.Join(b.TempDir(), "kitchen.db"), store.Options{})
		if err != nil {
			b.Fatal(err)
		}
		defer s.Close()
		if err := s.Do(context.Background(), "k", func(k pantry.Book) error {
			for n := range said {
				m, err := k.Hear(pantry.Message{ID: fmt.Sprint("before ", n), Cook: "bo", At: at})
				if err == nil {
					err = k.Answer(m, "", nil)
				}
				if err != nil {
					return err
				}
			}
			return nil
		}); err != nil {
			b.Fatal(err)
		}
		kitchens[i] = bot.New(s, bot.Options{})
	}
	n := 0
	say := func(k *bot.Bot, text string) {
		n++
		if r, err := k.Handle(context.Background(), bot.Message{Kitchen: "k", ID: fmt.Sprint("m", n), Cook: "bo", At: at.Add(time.Duration(n) * time.Second), Text: text}); err != nil || r.Kind != bot.Log {
			b.Fatal(r, err)
		}
	}
	for _, k := range kitchens {
		say(k, "got 900kg leeks")
	}
	for b.Loop() {
		for i, k := range kitchens {
			start := time.Now()
			say(k, "used 20g leeks in the tart")
			spent[i] += time.Since(start)
		}
	}
	b.ReportMetric(float64(spent[1])/float64(spent[0]), "20000/10")
}
