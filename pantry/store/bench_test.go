package store

import (
	"bytes"
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"scullion/pantry"
)

var longReply = bytes.Repeat([]byte("left "), 160) // 800 bytes

// stocked is a store whose kitchen has 60 lines, with a little table beside.
func stocked(b *testing.B) *Store {
	b.Helper()
	s := must(Open(context.Background(), newFile(b), Options{}))(b)
	b.Cleanup(func() { s.Close() })
	do(b, s, func(k pantry.Book) error {
		for i := range 60 {
			l, err := line(k, fmt.Sprint("food ", i))
			if err != nil {
				return err
			}
			if err := say(k, fmt.Sprint("in ", i), "larder", entry(l.ID, pantry.Receive, 1_000_000)); err != nil {
				return err
			}
		}
		return nil
	})
	if err := s.writer.run("CREATE TABLE bare (n INTEGER PRIMARY KEY, text TEXT NOT NULL)"); err != nil {
		b.Fatal(err)
	}
	return s
}

// bare is a one-row durable transaction, on the writer's own connection while
// the writer has nothing to do.
func bare(b *testing.B, s *Store) {
	for _, q := range []string{"BEGIN IMMEDIATE", "INSERT INTO bare (text) VALUES ('a row')", "COMMIT"} {
		if err := s.writer.exec(q); err != nil {
			b.Fatal(err)
		}
	}
}

var messages atomic.Int64

// message is what one logged message costs the store.
func message(b *testing.B, s *Store) {
	n := messages.Add(1)
	err := s.Do(context.Background(), boathouse, func(k pantry.Book) error {
		m, err := k.Hear(pantry.Message{ID: fmt.Sprint("m", n), Cook: "larder", At: tuesday})
		if err != nil {
			return err
		}
		if _, err := k.Revise(m, m, pantry.Said, []pantry.Entry{entry(1+n%60, pantry.Use, 1)}); err != nil {
			return err
		}
		return k.Answer(m, "used 1g of food in the tart", longReply)
	})
	if err != nil {
		b.Error(err)
	}
}

func median(d []time.Duration) float64 {
	slices.Sort(d)
	return float64(d[len(d)/2])
}

// BenchmarkMessage times a bare transaction and a message in turn and reports
// the medians and their ratio.
func BenchmarkMessage(b *testing.B) {
	s := stocked(b)
	var bares, full []time.Duration
	for b.Loop() {
		at := time.Now()
		bare(b, s)
		bares = append(bares, time.Since(at))
		at = time.Now()
		message(b, s)
		full = append(full, time.Since(at))
	}
	b.ReportMetric(median(bares)/1e3, "bare-µs")
	b.ReportMetric(median(full)/1e3, "message-µs")
	b.ReportMetric(median(full)/median(bares), "ratio")
}

// BenchmarkInFlight times rounds of 64 messages, one after another and all at
// once, in turn, and reports how many times faster the second is.
func BenchmarkInFlight(b *testing.B) {
	s := stocked(b)
	var single, together []time.Duration
	for b.Loop() {
		at := time.Now()
		for range 64 {
			message(b, s)
		}
		single = append(single, time.Since(at))
		var all sync.WaitGroup
		at = time.Now()
		for range 64 {
			all.Go(func() {
				for range 4 {
					message(b, s)
				}
			})
		}
		all.Wait()
		together = append(together, time.Since(at)/4)
	}
	b.ReportMetric(64e9/median(single), "single/s")
	b.ReportMetric(64e9/median(together), "in-flight/s")
	b.ReportMetric(median(single)/median(together), "ratio")
}

// BenchmarkLedgerSize does the same to kitchens of 60 lines with few and with
// very many entries, in turn, and reports the medians and their ratio. Opening
// and reading must not tell them apart.
func BenchmarkLedgerSize(b *testing.B) {
	if testing.Short() {
		b.Skip("builds a file of 1,000,000 entries")
	}
	short, long := longLedger(b, 1_000), longLedger(b, 1_000_000)
	b.Run("Open", func(b *testing.B) {
		compare(b, func(path string) {
			if err := must(Open(context.Background(), path, Options{}))(b).Close(); err != nil {
				b.Fatal(err)
			}
		}, short, long)
	})
	few, many := must(Open(context.Background(), short, Options{}))(b), must(Open(context.Background(), long, Options{}))(b)
	defer few.Close()
	defer many.Close()
	b.Run("View", func(b *testing.B) {
		compare(b, func(s *Store) { must(s.View(context.Background(), boathouse))(b) }, few, many)
	})
	b.Run("Edit", func(b *testing.B) {
		compare(b, func(s *Store) { editSecond(b, s) }, few, many)
	})
	b.Run("Check", func(b *testing.B) {
		compare(b, func(s *Store) { checkStore(b, s) }, few, many)
	})
}

// compare times do on few and many in turn.
func compare[T any](b *testing.B, do func(T), few, many T) {
	var a, z []time.Duration
	for b.Loop() {
		at := time.Now()
		do(few)
		a = append(a, time.Since(at))
		at = time.Now()
		do(many)
		z = append(z, time.Since(at))
	}
	b.ReportMetric(median(a)/1e3, "few-µs")
	b.ReportMetric(median(z)/1e3, "many-µs")
	b.ReportMetric(median(z)/median(a), "ratio")
}

// editSecond changes an entry near the start, which folds its line anew.
func editSecond(b *testing.B, s *Store) {
	do(b, s, func(k pantry.Book) error {
		m, err := k.Message("m61")
		if err == nil {
			_, err = k.Revise(m, m, pantry.Edited, []pantry.Entry{entry(2, pantry.Use, 9)})
		}
		return err
	})
}

// longLedger writes n entries over 60 lines in bulk: every fiftieth of a line
// a delivery of 500 g, the others uses of 10 g.
func longLedger(b *testing.B, n int) string {
	b.Helper()
	path := filepath.Join(b.TempDir(), "kitchen.db")
	s := must(Open(context.Background(), path, Options{}))(b)
	do(b, s, func(k pantry.Book) error {
		for i := range 60 {
			if _, err := line(k, fmt.Sprint("food ", i)); err != nil {
				return err
			}
		}
		w := k.(*book).w
		const count = "WITH RECURSIVE c(i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM c WHERE i + 1 < ?) "
		for _, q := range []string{
			`INSERT INTO message SELECT i + 1, 1, 'm' || i, 'larder', '2026-03-03T17:00:00Z', 'used 10g of it in the tart', 1, 0, 'Food 10 g into the tart.' FROM c`,
			`INSERT INTO entry SELECT i + 1, 1, 0, 1 + i % 60, iif(i / 60 % 50 = 0, 'receive', 'use'), iif(i / 60 % 50 = 0, 500000, 10000),
				0, '', 0, 0, '', 'larder', '2026-03-03T17:00:00Z', '10g', '', 0, 0, 0 FROM c`,
		} {
			if err := w.run(count+q, n); err != nil {
				return err
			}
		}
		for _, l := range k.Kitchen().Lines {
			if err := k.(*book).refoldLine(l, &pantry.Message{}, nil); err != nil {
				return err
			}
		}
		return nil
	})
	if err := s.Close(); err != nil {
		b.Fatal(err)
	}
	return path
}
