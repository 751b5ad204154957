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

// TestWhatReadingsClear plays what a probe shows in a US kitchen, and asks of the food: hours in the danger zone stay told, whole
// fish is through at 63 C (145 F) for 15 s by the US FDA Food Code 2022 3-401.11 and nothing else is, and a newer fault is told
// beside an older reading. A message "+N" lets N minutes pass.
func TestWhatReadingsClear(t *testing.T) {
	for _, c := range []struct{ talk, tells, never string }{
		{"got 6 lb salmon|salmon at 147 for 15 seconds|is the salmon ok", "Within its date", "no proof"},
		{"got 6 lb salmon|salmon at 147 for 5 seconds|is the salmon ok", "no proof", "Within its date"},
		{"got 6 lb chicken breast|chicken breast at 147 for 15 seconds|is the chicken breast ok", "no proof", "Within its date"},
		{"made 4l stew|stew at 110|+130|stew at 170|is the stew ok", "whatever it reads now", "Within its date"},
		{"made 4l stew|stew at 110|+60|stew at 170|is the stew ok", "Within its date", "whatever it reads now"},
		{"got 6 lb chicken|chicken core 110|+180|chicken core 170|is the chicken ok", "Within its date", "whatever it reads now"}, // it was being cooked
		{"got 6 lb salmon|salmon core 147|power out 5 hrs|is the salmon ok", `"power out 5 hrs"`, "Within its date"},
		{"made 4l soup|soup at 130|used 2 lb butter in the biscuits|undo|is the soup ok", `"soup at 130"`, "Within its date"},
		{"made 4l soup|soup at 130|used 2 lb butter in the biscuits|no|undo|is the soup ok", `"soup at 130"`, "Within its date"},
		{"made 4l soup|+5760|can table 3 have the soup", "Past its use-by", "Within its date"},
	} {
		s, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "kitchen.db"), store.Options{})
		if err != nil {
			t.Fatal(err)
		}
		k, at, last := bot.New(s, bot.Options{Units: "us"}), time.Date(2026, 3, 3, 9, 0, 0, 0, time.UTC), ""
		for i, text := range strings.Split(c.talk, "|") {
			var minutes int
			if n, _ := fmt.Sscanf(text, "+%d", &minutes); n == 1 {
				at = at.Add(time.Duration(minutes) * time.Minute)
				continue
			}
			at = at.Add(30 * time.Second)
			r, err := k.Handle(context.Background(), bot.Message{Kitchen: "k", ID: fmt.Sprint(i), Cook: "kim", At: at, Text: text})
			if err != nil {
				t.Fatal(err)
			}
			last = r.Text
		}
		if !strings.Contains(last, c.tells) || strings.Contains(last, c.never) {
			t.Errorf("%s: %s", c.talk, last)
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
}
