package bot_test

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"scullion/bot"
	"scullion/pantry/store"
)

// TestLaws says random things in a kitchen, edits, deletes and repeats them,
// and checks after each that every line's account closes, that nothing is
// below none, that what is free is on hand less what is claimed, that balances
// are the fold of their entries, and that a message heard again is answered
// the same and changes nothing.
func TestLaws(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	files := 0
	rapid.Check(t, func(t *rapid.T) {
		files++
		s, err := store.Open(context.Background(), filepath.Join(dir, fmt.Sprint(files)), store.Options{})
		if err != nil {
			t.Fatal(err)
		}
		defer s.Close()
		k := &kitchen{T: t, s: s, k: bot.New(s, bot.Options{}), at: time.Date(2026, 3, 3, 17, 0, 0, 0, time.UTC), heard: map[string]string{}}
		k.say("larder", "got 900g leeks, 2kg carrots, 4 red onions, 6 brown onions, 500ml cream")
		for range rapid.IntRange(1, 25).Draw(t, "turns") {
			k.turn()
			k.check()
		}
	})
}

type kitchen struct {
	*rapid.T
	s     *store.Store
	k     *bot.Bot
	at    time.Time
	ids   []string
	said  []bot.Message
	heard map[string]string
}

var (
	foods  = []string{"leek", "carrots", "red onion", "onions", "cream", "spinach", "wibble"}
	dishes = []string{"", " in the tart", " for the soup", " in the soup"}
	cooks  = []string{"larder", "stove", "pastry"}
)

func (k *kitchen) text() string {
	one := func(name string, of []string) string { return rapid.SampledFrom(of).Draw(k.T, name) }
	food, dish := one("food", foods), one("dish", dishes)
	amount := one("amount", []string{"100g", "350 g", "2", "half the", "the rest of the", "a handful of", "some", "the", "1.2kg", "200ml", "0g", "5 kg"})
	return one("form", []string{
		"used " + amount + " " + food + dish,
		"used " + amount + " " + food + dish,
		"got " + amount + " " + food,
		"binned " + amount + " " + food,
		"composted " + amount + " " + food + " peelings",
		"need " + amount + " " + food + dish,
		"don't need the " + food,
		"put back " + amount + " " + food,
		food + " weigh 300g",
		"86 " + food,
		"made 400ml stock from " + amount + " " + food,
		"undo", "make that " + amount, "no, 150", "I meant " + food, "that was for the soup",
		"another 40g", "and " + amount + " " + food + " in it", "same again for the soup", "for the salad", "half that", "kg not g",
		"I mean I binned it", "the leek should be 90g", "scrap that, used 50g " + food, "one of each", "used the rest of it in the pie",
		"200g of the soup left over", "half the pie is left", "made 300g soup", "used 100g soup" + dish, "the soup came out at 900g", "2 portions of the pie left", "the pie was for 4",
		"red", "yes", "2", "all of it", "neither", "150g",
		"what's left?", "ideas?", "more", "who has the " + food + "?", "morning all",
	})
}

func (k *kitchen) say(cook, text string) {
	id := fmt.Sprint("m", len(k.ids))
	k.ids = append(k.ids, id)
	k.send(bot.Message{ID: id, Cook: cook, Text: text})
}

func (k *kitchen) send(m bot.Message) {
	k.at = k.at.Add(time.Minute)
	m.Kitchen, m.At, m.Version = "k", k.at, fmt.Sprint(len(k.said))
	k.said = append(k.said, m)
	k.hear(m)
}

// hear sends a message, and holds the answer to one that was heard before
// against the first.
func (k *kitchen) hear(m bot.Message) {
	r, err := k.k.Handle(context.Background(), m)
	if err != nil {
		k.Fatalf("%+v: %v", m, err)
	}
	if strings.Contains(r.Text, "fault in the program") {
		k.Fatalf("%+v: %s", m, r.Text)
	}
	key := fmt.Sprint(m.ID, m.Edit, m.Delete, m.Version)
	said := fmt.Sprintf("%+v", r.Text)
	if before, ok := k.heard[key]; ok && before != said {
		k.Fatalf("%+v again: %q, first %q", m, said, before)
	}
	k.heard[key] = said
}

func (k *kitchen) turn() {
	switch n := rapid.IntRange(0, 9).Draw(k.T, "turn"); {
	case n == 0:
		k.send(bot.Message{ID: rapid.SampledFrom(k.ids).Draw(k.T, "edited"), Edit: true, Text: k.text()})
	case n == 1 && len(k.ids) > 1:
		k.send(bot.Message{ID: rapid.SampledFrom(k.ids).Draw(k.T, "deleted"), Delete: true})
	case n == 2:
		k.hear(rapid.SampledFrom(k.said).Draw(k.T, "again"))
	default:
		k.say(rapid.SampledFrom(cooks).Draw(k.T, "cook"), k.text())
	}
}

func (k *kitchen) check() {
	view, err := k.s.View(context.Background(), "k")
	if err != nil {
		k.Fatal(err)
	}
	for _, l := range view.Lines {
		if !l.Balanced() || l.OnHand() < 0 || l.Claimed() < 0 || l.Free() != l.OnHand()-l.Claimed()+l.Short() || l.Received < 0 || l.Binned < 0 {
			k.Fatalf("%+v", l)
		}
	}
	if r, err := k.s.Check(context.Background()); err != nil || len(r.Wrong) > 0 {
		k.Fatal(r.Wrong, err)
	}
}
