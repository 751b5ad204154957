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

// said plays "cook: text" or "cook@room: text", a minute apart, and gives the last answer.
func said(t *testing.T, lines ...string) (r bot.Reply, s *store.Store) {
	t.Helper()
	s, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "kitchen.db"), store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	k := bot.New(s, bot.Options{})
	for n, line := range lines {
		who, text, named := strings.Cut(line, ": ")
		if !named {
			who, text = "bo", line
		}
		cook, room, _ := strings.Cut(who, "@")
		m := bot.Message{Kitchen: "k", ID: fmt.Sprint(n), Cook: cook, Room: room, Text: text, At: time.Date(2026, 3, 3, 17, n, 0, 0, time.UTC)}
		if r, err = k.Handle(context.Background(), m); err != nil {
			t.Fatalf("%s: %v", line, err)
		}
	}
	return r, s
}

// Whose answer is which line at the scales is certain, or it is no answer.
func TestScalesAnswered(t *testing.T) {
	begin := []string{"ana@1: got 1kg leeks, 800g potatoes, 4 red onions, 6 brown onions", "bo@1: used 100g leek in the soup", "ana@1: weigh back"}
	for _, c := range []struct {
		name  string
		lines []string
		want  string // begins the last answer; "" silence
	}{
		{"another cook", []string{"bo@1: 850g"}, "Leek is 850 g"},
		{"a cook who said nothing before", []string{"cem@1: half of it"}, "Leek is 450 g"},
		{"and then the first", []string{"bo@1: 850g", "ana@1: 2 left"}, "Potato is about 426 g"},
		{"a bare number", []string{"bo@1: 850"}, "Leek is 850 g"},
		{"another room", []string{"bo@2: 850g"}, ""},
		{"a word of talk", []string{"bo@1: ok"}, ""},
		{"a word of talk, of who began it", []string{"bo@1: 850g", "ana@1: ok"}, "Red onion: 600 g by the record"},
		{"a wish", []string{"bo@1: 2 please"}, ""},
		{"who was asked something else", []string{"bo@1: used 2 onions in the stew", "bo@1: 850g"}, "Leek is 850 g"},
		{"who was asked something else, and answers that", []string{"bo@1: used 2 onions in the stew", "bo@1: 850g", "bo@1: red"}, "2 red onions"},
		{"who was asked how much", []string{"bo@1: used some leek in the stew", "bo@1: 250g"}, "Leek 250 g into the stew."},
		{"a decimal of kilograms", []string{"ana@1: 0.8"}, "Leek is 800 g"},
		{"half in a word", []string{"ana@1: half"}, "Leek is 450 g"},
		{"a number that is no weight", []string{"ana@1: same", "ana@1: same", "ana@1: 3"}, "Red onion is about"},
		{"most of it gone", []string{"ana@1: 250g"}, "250 g leek? The record has 900 g."},
		{"most of it gone, said twice", []string{"ana@1: 250g", "ana@1: 250g"}, "Leek is 250 g"},
		{"of nobody knows what", []string{"ana@1: 2 tubs"}, "Nobody has said what a tub of leek holds."},
		{"enough of nobody knows what", []string{"ana@1: 2 tubs", "ana@1: same"}, "Potato: 800 g by the record."},
		{"mended", []string{"ana@1: 0.8", "ana@1: make that 0.85"}, "Was leek 800 g counted. Now: Leek is 850 g, 50 g less than the record.\nPotato: 800 g"},
		{"somebody was asked since", []string{"bo@1: used 2 onions in the stew", "cem@1: 250g"}, ""},
		{"and has answered", []string{"bo@1: used 2 onions in the stew", "bo@1: red", "cem@1: 850g"}, "Leek is 850 g"},
		{"who was asked the scales, whoever was asked since", []string{"bo@1: used 2 onions in the stew", "ana@1: 850g"}, "Leek is 850 g"},
		{"an entry is no answer", []string{"bo@1: used 300g leek"}, "Leek 300 g used. 600 g left.\nLeek: 600 g by the record."},
		{"and the round goes on", []string{"bo@1: used 300g leek", "bo@1: 550g"}, "Leek is 550 g, 50 g less than the record."},
		{"a count in other words", []string{"bo@1: leeks weigh 700g"}, "Leek is 700 g, 200 g less than the record.\nPotato: 800 g by the record."},
		{"another line in other words", []string{"bo@1: potatoes weigh 700g", "ana@1: same"}, "Red onion: 600 g by the record."},
		{"said twice", []string{"ana@1: weigh back"}, "Leek: 900 g by the record. What do the scales say? (3 more;"},
		{"said twice by two", []string{"ana@1: same", "bo@1: weigh back"}, "Potato: 800 g by the record. What do the scales say? (2 more;"},
		{"said twice behind a question", []string{"ana@1: used 2 onions in the stew", "ana@1: weigh back"}, "Leek: 900 g by the record. What do the scales say? (3 more;"},
		{"far above the record", []string{"bo@1: 5kg"}, "5 kg leek? The record has 900 g."},
		{"far above, and sure", []string{"bo@1: 5kg", "bo@1: yes"}, "Leek is 5 kg"},
		{"not by weight", []string{"bo@1: 300ml"}, "Not written: 300ml is no weight."},
		{"undone", []string{"bo@1: 850g", "bo@1: undo"}, "Taken back: leek 850 g counted.\nLeft: leek 900 g.\nLeek: 900 g by the record. What do the scales say? (3 more;"},
		{"an entry undone", []string{"ana@1: used 300g leek", "ana@1: undo"}, "Taken back: leek 300 g used.\nLeft: leek 900 g.\nLeek: 900 g by the record. What do the scales say? (3 more;"},
		{"the round undone", []string{"ana@1: undo", "bo@1: 850g"}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, _ := said(t, append(begin[:len(begin):len(begin)], c.lines...)...)
			if !strings.HasPrefix(r.Text, c.want) || c.want == "" && r.Kind != bot.Silent {
				t.Errorf("[%s] %s", r.Kind, r.Text)
			}
		})
	}
}

// What is said of an answer later is of the same line, and what was logged a while after a wrap-up
// only moved its end: taken back, the account stays closed.
func TestScalesEdited(t *testing.T) {
	_, s := said(t, "ana: got 1kg leeks, 800g potatoes", "ana: used 100g leek in the soup", "ana: wrap up", "ana: weigh back", "ana: 850g", "bo: 700g")
	k := bot.New(s, bot.Options{})
	hear := func(m bot.Message) bot.Reply {
		m.Kitchen, m.At, m.Version = "k", time.Date(2026, 3, 3, 17, 30, 0, 0, time.UTC), m.Text
		r, err := k.Handle(context.Background(), m)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	if r := hear(bot.Message{ID: "4", Edit: true, Text: "860g"}); !strings.HasPrefix(r.Text, "Changed. Leek is 860 g, 40 g less than the record.\nThe account of the service") {
		t.Errorf("%s", r.Text)
	}
	if r := hear(bot.Message{ID: "4", Edit: true, Text: "about half"}); !strings.HasPrefix(r.Text, "Changed. Leek is about 450 g, 450 g less than the record.\n") {
		t.Errorf("%s", r.Text)
	}
	if r := hear(bot.Message{ID: "5", Edit: true, Text: "same"}); !strings.Contains(r.Text, "Potato stays as the record has it.") {
		t.Errorf("%s", r.Text)
	}
	if r := hear(bot.Message{ID: "5", Delete: true}); r.Kind != bot.Silent && r.Kind != bot.Log {
		t.Errorf("%+v", r)
	}
	wraps(t, s, "k", func(_ *bot.Records, list []*bot.Wrap) {
		if w := bot.Latest(list); w == nil || w.Until == nil || w.Crate.Variance.AP != 450 || w.Crate.Carried.AP != 1250 {
			t.Errorf("%+v", w)
		}
	})
}

// What left the house is told to whom, is no dish and no waste, and is not what there was to eat.
func TestGivenAway(t *testing.T) {
	r, s := said(t, "ana: got 1kg leeks £4, 800g potatoes", "ana: used 250g leek in the soup", "ana: gave 250g leek to next door", "bo: sold 100g potatoes to the cafe", "ana: wrap up", "ana: every line")
	for _, want := range []string{"given away 350 g", "£1.00 given away", "Given away: 250 g leek to next door and 100 g potato to the cafe.", "Dishes, as purchased: 1 soup, 250 g."} {
		if !strings.Contains(r.Text, want) {
			t.Errorf("no %q in %s", want, r.Text)
		}
	}
	wraps(t, s, "k", func(_ *bot.Records, list []*bot.Wrap) {
		w := bot.Latest(list)
		if len(w.Dishes) != 1 || len(w.GivenTo) != 2 || w.GivenTo[0].Name != "next door" || w.GivenTo[0].Grams != 250 || w.Crate.Given.AP != 350 || w.Crate.Binned.AP != 0 {
			t.Errorf("%+v", w)
		}
		edible := w.Crate.Came.EP - w.Crate.Given.EP - w.Crate.Kept.EP
		if got := w.Crate.Dishes.EP / edible; got-w.UsedShare > 1e-9 || w.UsedShare-got > 1e-9 {
			t.Errorf("used %g, not %g", w.UsedShare, got)
		}
	})
	k, err := s.View(context.Background(), "k")
	if err != nil || len(k.Dishes) != 1 {
		t.Errorf("%v: dishes %v", err, k.Dishes)
	}
}
