package bot_test

import (
	"context"
	"fmt"
	"slices"
	"testing"
	"time"

	"scullion/bot"
	"scullion/pantry/food"
	"scullion/pantry/store"
)

// BenchmarkMorning compares the morning message with "what's left?" of the same kitchen, in turn
// within one run: 300 lines, 60 of which have a date. Each is from the
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
	stock(b, s, say)
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

const consonants = "bdfgjklmnprstvwxzq"

// stock brings the kitchen to 300 lines, 60 of them with a date: the others are foods that no
// table has.
func stock(b *testing.B, s *store.Store, say func(string) bot.Reply) {
	foods, names := food.Default().Foods(), 0
	for {
		k, err := s.View(context.Background(), "k")
		if err != nil {
			b.Fatal(err)
		}
		dated := 0
		for _, l := range k.Lines {
			if d, _ := l.Soonest(); d != "" {
				dated++
			}
		}
		switch { // a name that is some food's after all brings a date
		case len(k.Lines) > 300 || names > 400 || len(foods) == 0:
			b.Fatalf("%d lines, %d dated", len(k.Lines), dated)
		case dated < 60 && len(k.Lines) >= 240+dated:
			say("got 500g " + foods[0].Name + " use by 4 mar")
			foods = foods[1:]
		case len(k.Lines) < 300:
			x, y := consonants[names%len(consonants)], consonants[names/len(consonants)%len(consonants)]
			say("got 500g " + string([]byte{x, 'u', x, 'o', y, 'a', y, x, 'i', y})) // no two come near each other
			names++
		default:
			return
		}
	}
}
