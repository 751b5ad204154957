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

// TestNeedsStay opens the kitchen anew before each message, days apart: what was said of a bed is known until it is
// said to be over, and what was said for a day ahead on that day alone, whatever was said between and tidied away.
func TestNeedsStay(t *testing.T) {
	file := filepath.Join(t.TempDir(), "kitchen.db")
	start := time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC) // a Monday
	for i, c := range []struct {
		days         int
		text         string
		tells, never string
	}{
		{0, "bed 3 is allergic to egg", "in bed 3", ""},
		{0, "saturday: table 4 nut allergy", "Kept for Sat 7 Mar: nut allergy (tree nuts, peanuts) at table 4.", "this service"},
		{0, "table?", "Sat 7 Mar: nut allergy", ""},
		{2, "table 9 no fish", "at table 9", "bed 3: none\" ends"},
		{2, "table?", "in bed 3", ""},
		{2, "got 1kg walnuts and 12 eggs", "in.", ""},
		{2, "used 100g walnuts in the salad", "into the salad", "table 4"},
		{5, "used 100g walnuts in the salad", "Nut allergy at table 4", ""},
		{5, "no", "", ""},
		{6, "used 100g walnuts in the salad", "into the salad", "table 4"},
		{6, "used 2 eggs in the mayo", "bed 3", ""},
		{6, "no", "", ""},
		{40, "table?", "in bed 3", "table 4"},
		{40, "bed 3: none", "Over: egg allergy", ""},
		{80, "table?", "no needs are known", "bed 3"},
	} {
		s, err := store.Open(context.Background(), file, store.Options{})
		if err != nil {
			t.Fatal(err)
		}
		at := start.AddDate(0, 0, c.days).Add(time.Duration(i) * time.Minute)
		if c.days >= 5 {
			if err := s.Tidy(context.Background(), "k", at.AddDate(0, 0, -1)); err != nil {
				t.Fatal(err)
			}
		}
		r, err := bot.New(s, bot.Options{}).Handle(context.Background(), bot.Message{Kitchen: "k", ID: fmt.Sprint(i), Cook: "ana", At: at, Text: c.text})
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(r.Text, c.tells) || c.never != "" && strings.Contains(r.Text, c.never) {
			t.Errorf("%s: %q: %s", at.Format("Mon 2 Jan"), c.text, r.Text)
		}
		if wrong, err := s.Check(context.Background()); err != nil || len(wrong.Wrong) > 0 {
			t.Error(wrong, err)
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
}
