package bot_test

import (
	"bufio"
	"context"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"scullion/bot"
	"scullion/pantry/store"
)

// label is what a labelled message should bring about; see TestLabelled.
type label struct {
	ID    string
	Tag   string
	Turns []struct {
		ID, Cook, Text string
		Edit, Delete   bool
	}
	Expect []struct {
		Kind    any // a kind or a list of them
		Entries []wanted
	}
	Left []struct {
		Item    string
		OnHand  float64 `json:"on_hand"`
		Claimed *float64
	}
}

// wanted is an expected entry: by amount, by pieces, or within bounds.
type wanted struct {
	Kind, Item, Unit, Dish string
	Amount, Pieces         *float64
	Min, Max               *float64
	Trim                   bool
}

// TestLabelled holds conversations against labels: those made by others, of
// which at least 98 of 100 must be right, and our own, which must all be. Each
// starts from the same stock, which lies beside the project.
func TestLabelled(t *testing.T) {
	const dir = "../../shared/messages/"
	stock, err := os.ReadFile(dir + "stock.txt")
	if err != nil {
		t.Skip("the shared message samples are not here")
	}
	t.Run("others", func(t *testing.T) { labelled(t, dir+"sample.jsonl", string(stock), 98) })
	for _, name := range []string{"cases", "foods"} {
		t.Run(name, func(t *testing.T) { labelled(t, "../testdata/messages/"+name+".jsonl", string(stock), 100) })
	}
}

func labelled(t *testing.T, file, stock string, share int) {
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	s, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "kitchen.db"), store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	k := bot.New(s, bot.Options{})
	cases, right := 0, 0
	for sc := bufio.NewScanner(f); sc.Scan(); {
		var c label
		if err := json.Unmarshal(sc.Bytes(), &c); err != nil {
			t.Fatal(err)
		}
		cases++
		if wrong := judge(t, s, k, c, strings.Split(strings.TrimSpace(stock), "\n")); wrong != "" {
			t.Logf("%s [%s]: %s", c.ID, c.Tag, wrong)
		} else {
			right++
		}
	}
	if cases == 0 || right*100 < cases*share {
		t.Errorf("%d of %d right", right, cases)
	}
}

// judge plays a case in a kitchen of its own and says what is wrong.
func judge(t *testing.T, s *store.Store, k *bot.Bot, c label, stock []string) string {
	at := time.Date(2026, 3, 2, 16, 0, 0, 0, time.UTC)
	say := func(m bot.Message) bot.Reply {
		m.Kitchen, m.At, m.Version = c.ID, at, at.String()
		r, err := k.Handle(context.Background(), m)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	for _, text := range stock {
		say(bot.Message{ID: "seed " + text, Cook: "stores", Text: text})
	}
	for i, turn := range c.Turns {
		at = at.Add(time.Minute)
		if turn.Cook == "" {
			turn.Cook = "ana"
		}
		r := say(bot.Message{ID: turn.ID, Cook: turn.Cook, Text: turn.Text, Edit: turn.Edit, Delete: turn.Delete})
		want := c.Expect[i]
		if !isKind(want.Kind, string(r.Kind)) {
			return turn.Text + ": " + string(r.Kind) + ": " + r.Text
		}
		if !entriesFit(r.Entries, want.Entries) {
			return turn.Text + ": entries " + jsonOf(t, r.Entries)
		}
	}
	view, err := s.View(context.Background(), c.ID)
	if err != nil {
		t.Fatal(err)
	}
	list := bot.Left(view, "2026-03-02")
	for _, w := range c.Left {
		on, claimed := 0.0, 0.0
		if i := slices.IndexFunc(list, func(l bot.LeftLine) bool { return sameFood(l.Item, w.Item) }); i >= 0 {
			on, claimed = list[i].OnHand, list[i].Claimed
		}
		if !near(on, w.OnHand, 1) || w.Claimed != nil && !near(claimed, *w.Claimed, 1) {
			return "left of " + w.Item
		}
	}
	return ""
}

func isKind(want any, got string) bool {
	if list, ok := want.([]any); ok {
		return slices.Contains(list, any(got))
	}
	return want == got
}

func sameFood(a, b string) bool {
	norm := func(s string) string {
		return strings.TrimRight(strings.Map(func(r rune) rune {
			if r < 'a' || r > 'z' {
				return -1
			}
			return r
		}, strings.ToLower(s)), "s")
	}
	return norm(a) == norm(b)
}

func near(a, b, slack float64) bool { return math.Abs(a-b) <= max(0.01*math.Abs(b), slack) }

func entriesFit(got []bot.Entry, want []wanted) bool {
	got = slices.Clone(got)
	for _, w := range want {
		i := slices.IndexFunc(got, func(g bot.Entry) bool { return entryFits(g, w) })
		if i < 0 {
			return false
		}
		got = slices.Delete(got, i, i+1)
	}
	return len(got) == 0
}

func entryFits(g bot.Entry, w wanted) bool {
	switch {
	case g.Kind != w.Kind, !sameFood(g.Item, w.Item), w.Trim != g.Trim, w.Dish != "" && !sameFood(g.Dish, w.Dish):
		return false
	case w.Min != nil:
		return *w.Min <= g.Amount && g.Amount <= *w.Max
	case w.Pieces != nil:
		return g.Pieces != nil && near(*g.Pieces, *w.Pieces, 0.02)
	case w.Amount != nil:
		return near(g.Amount, *w.Amount, 0.6) && (w.Unit == "" || w.Unit == g.Unit)
	}
	return true
}
