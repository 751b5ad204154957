package bot_test

import (
	"context"
	"fmt"
	"slices"
	"testing"
	"time"

	"scullion/bot"
	"scullion/pantry/food"
)

// BenchmarkMorning compares the morning message with "what's left?" of the same kitchen, in turn
// within one run: 300 lines, 60 of which have a date that is today's or past. Each is from the
// call to the durable answer. The figure to read is the ratio of the medians.
func BenchmarkMorning(b *testing.B) {
	s, kitchen := openKitchen(b)
	at := time.Date(2026, 3, 3, 8, 0, 0, 0, time.UTC)
	n := 0
	say := func(text string) bot.Reply {
		n++
		r, err := kitchen.Handle(context.Background(), bot.Message{Kitchen: "k", ID: fmt.Sprint("m", n), Cook: "larder", Room: "r1", At: at, Text: text})
		if err != nil {
			b.Fatal(err)
		}
		return r
	}
	stock(b, say)
	say("tell us at 9 what must go today")
	var morning, left []time.Duration
	for b.Loop() {
		at = at.AddDate(0, 0, 1).Truncate(24 * time.Hour).Add(9 * time.Hour)
		start := time.Now()
		rung, _, err := kitchen.Ring(context.Background(), at)
		if morning = append(morning, time.Since(start)); err != nil || len(rung) != 1 {
			b.Fatal(rung, err)
		}
		start = time.Now()
		r := say("what's left?")
		if left = append(left, time.Since(start)); r.Kind != bot.Answer {
			b.Fatal(r)
		}
	}
	slices.Sort(morning)
	slices.Sort(left)
	one, other := morning[len(morning)/2], left[len(left)/2]
	b.ReportMetric(float64(one.Microseconds()), "morning-µs")
	b.ReportMetric(float64(other.Microseconds()), "left-µs")
	b.ReportMetric(float64(one)/float64(other), "morning/left")
	if wrong, err := s.Check(context.Background()); err != nil || len(wrong.Wrong) > 0 {
		b.Fatal(wrong, err)
	}
}

// stock brings the kitchen to 300 lines: 60 with a label of the day, the rest of foods that keep
// for years or have no figure, so that they bring no date that is near.
func stock(b *testing.B, say func(string) bot.Reply) {
	have, dated := 7, 0 // what openKitchen has brought
	for _, f := range food.Default().Foods() {
		if have == 300 {
			break
		}
		text := "got 500g " + f.Name
		if dated < 60 {
			text += " use by 4 mar"
		}
		r := say(text)
		if r.Kind != bot.Log || len(r.Entries) != 1 {
			continue
		}
		have++
		if dated < 60 {
			dated++
		}
	}
	if have < 300 || dated < 60 {
		b.Fatalf("%d lines, %d dated", have, dated)
	}
}
