package bot_test

import (
	"context"
	"database/sql"
	"fmt"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"scullion/bot"
	"scullion/pantry/store"
)

// BenchmarkMessage compares a logged message, from text to durable answer,
// with a bare durable transaction of one row in a file with the same settings,
// and with a line of talk that is not for the bot, in turn within one run, and
// with 64 messages in flight. The figures to read are the ratios: message/bare
// and talk/message (medians) and 64-in-flight/single (rates).
func BenchmarkMessage(b *testing.B) {
	s, kitchen := openKitchen(b)
	insert := bareFile(b)
	at := time.Date(2026, 3, 3, 17, 0, 0, 0, time.UTC)
	n := 0
	next := func() bot.Message {
		n++
		return bot.Message{Kitchen: "k", ID: fmt.Sprint("m", n), Cook: "stove", At: at, Text: fmt.Sprintf("used %dg leek in the tart", 1+n%3)}
	}
	lines := kitchenTalk(b, 12_000) // no line twice: what a word was found to be is kept
	var bare, one, talk []time.Duration
	for b.Loop() {
		start := time.Now()
		if _, err := insert.Exec("used 300g leek in the tart"); err != nil {
			b.Fatal(err)
		}
		bare = append(bare, time.Since(start))
		m := next()
		start = time.Now()
		if r, err := kitchen.Handle(context.Background(), m); err != nil || r.Kind != bot.Log {
			b.Fatal(r, err)
		}
		one = append(one, time.Since(start))
		m = next()
		m.Text = lines[n%len(lines)]
		start = time.Now()
		if _, err := kitchen.Handle(context.Background(), m); err != nil {
			b.Fatal(err)
		}
		talk = append(talk, time.Since(start))
	}
	many := inFlight(b, kitchen, next, 64, 64*60)
	median := func(list []time.Duration) time.Duration {
		slices.Sort(list)
		return list[len(list)/2]
	}
	b.ReportMetric(float64(median(bare).Microseconds()), "bare-µs")
	b.ReportMetric(float64(median(one).Microseconds()), "message-µs")
	b.ReportMetric(float64(median(one))/float64(median(bare)), "message/bare")
	b.ReportMetric(float64(median(talk))/float64(median(one)), "talk/message")
	b.ReportMetric(float64(median(one))/float64(many), "64-in-flight/single")
	if wrong, err := s.Check(context.Background()); err != nil || len(wrong.Wrong) > 0 {
		b.Fatal(wrong, err)
	}
}

// inFlight settles total messages with so many on their way at once, and gives
// the time a message took on average.
func inFlight(b *testing.B, k *bot.Bot, next func() bot.Message, flight, total int) time.Duration {
	var wg sync.WaitGroup
	var mu sync.Mutex
	start := time.Now()
	for range flight {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for range total / flight {
				mu.Lock()
				m := next()
				mu.Unlock()
				if r, err := k.Handle(context.Background(), m); err != nil || r.Kind != bot.Log {
					b.Error(r, err)
				}
			}
		}()
	}
	wg.Wait()
	return time.Since(start) / time.Duration(total)
}

func bareFile(b *testing.B) *sql.Stmt {
	path := filepath.Join(b.TempDir(), "bare.db")
	db, err := sql.Open(sql.Drivers()[0], path) // package store has registered one
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { db.Close() })
	db.SetMaxOpenConns(1)
	for _, q := range []string{"PRAGMA journal_mode = WAL", "PRAGMA synchronous = FULL", "CREATE TABLE one (n INTEGER PRIMARY KEY, text TEXT)"} {
		if _, err := db.Exec(q); err != nil {
			b.Fatal(err)
		}
	}
	insert, err := db.Prepare("INSERT INTO one (text) VALUES (?)")
	if err != nil {
		b.Fatal(err)
	}
	return insert
}

func openKitchen(t testing.TB) (*store.Store, *bot.Bot) {
	t.Helper()
	s, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "kitchen.db"), store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if r, err := s.Check(context.Background()); err != nil || len(r.Wrong) > 0 {
			t.Errorf("check: %v %v", r.Wrong, err)
		}
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	})
	k := bot.New(s, bot.Options{})
	at := time.Date(2026, 3, 3, 16, 0, 0, 0, time.UTC)
	for i, text := range []string{"got 1000kg leeks, 1000kg carrots, 500kg potatoes", "got 200l milk, 50kg butter", "got 5kg plain flour, 5l olive oil"} {
		if r, err := k.Handle(context.Background(), bot.Message{Kitchen: "k", ID: fmt.Sprint("seed", i), Cook: "larder", At: at, Text: text}); err != nil || r.Kind != bot.Log {
			t.Fatal(r, err)
		}
	}
	return s, k
}
