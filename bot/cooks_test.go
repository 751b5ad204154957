package bot_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"scullion/bot"
)

// A colleague's use is written down as theirs, in whatever order the cooks
// spoke first.
func TestReportedCook(t *testing.T) {
	s, _ := openKitchen(t)
	k := bot.New(s, bot.Options{})
	n := 0
	say := func(cook, text string) bot.Reply {
		n++
		r, err := k.Handle(context.Background(), bot.Message{Kitchen: "k", ID: fmt.Sprint(n), Cook: cook, At: time.Date(2026, 3, 3, 17, n, 0, 0, time.UTC), Text: text})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	say("cem", "got 2kg sugar, 1kg butter")
	say("bo", "used 10g sugar")
	say("ana", "hello")
	if r := say("bo", "cem put 100g sugar in"); len(r.Entries) != 1 || r.Entries[0].Cook != "cem" {
		t.Errorf("cem's use: %+v", r.Entries)
	}
	if r := say("cem", "save 200g butter for ana"); len(r.Entries) != 1 || r.Entries[0].Cook != "ana" {
		t.Errorf("ana's claim: %+v", r.Entries)
	}
}
