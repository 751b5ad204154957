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
// which at least 98 of 100 must be right, and our own (testdata/messages), which
// must all be. Each starts from the same stock, which lies beside the project.
func TestLabelled(t *testing.T) {
	const dir = "../../shared/messages/"
	stock, err := os.ReadFile(dir + "stock.txt")
	if err != nil {
		t.Skip("the shared message samples are not here")
	}
	seed := stocked(t, strings.Split(strings.TrimSpace(string(stock)), "\n"))
	t.Run("others", func(t *testing.T) { t.Parallel(); labelled(t, dir+"sample.jsonl", seed, 98) })
	own, err := filepath.Glob("../testdata/messages/*.jsonl")
	if err != nil || len(own) == 0 {
		t.Fatal("no cases of our own ", err)
	}
	for _, file := range own {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".jsonl"), func(t *testing.T) { t.Parallel(); labelled(t, file, seed, 100) })
	}
}

// stocked gives a kitchen's file in which the stock has been taken in.
func stocked(t *testing.T, stock []string) []byte {
	t.Helper()
	file := filepath.Join(t.TempDir(), "seed.db")
	s, err := store.Open(context.Background(), file, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	k := bot.New(s, bot.Options{Think: time.Minute})
	for _, text := range stock {
		m := bot.Message{Kitchen: "k", ID: "seed " + text, Cook: "stores", At: start, Text: text}
		if r, err := k.Handle(context.Background(), m); err != nil || r.Kind != bot.Log {
			t.Fatal(text, r, err)
		}
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	raw, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return raw
}

// start is when each case begins.
var start = time.Date(2026, 3, 2, 16, 0, 0, 0, time.UTC)

// labelled plays the cases of a file; every eighth of our own where time is short.
func labelled(t *testing.T, file string, seed []byte, share int) {
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	seen, cases, right := 0, 0, 0
	sc := bufio.NewScanner(f)
	for sc.Buffer(nil, 1<<20); sc.Scan(); {
		var c label
		if err := json.Unmarshal(sc.Bytes(), &c); err != nil {
			t.Fatal(err)
		}
		if seen++; testing.Short() && share == 100 && seen%8 > 0 {
			continue
		}
		cases++
		if wrong := judge(t, seed, c); wrong != "" {
			t.Logf("%s [%s]: %s", c.ID, c.Tag, wrong)
		} else {
			right++
		}
	}
	if err := sc.Err(); err != nil {
		t.Fatal(err)
	}
	if cases == 0 || right*100 < cases*share {
		t.Errorf("%d of %d right", right, cases)
	}
}

// judge plays a case in a file of its own and says what is wrong.
func judge(t *testing.T, seed []byte, c label) string {
	file := filepath.Join(t.TempDir(), "kitchen.db")
	if err := os.WriteFile(file, seed, 0o600); err != nil {
		t.Fatal(err)
	}
	s, err := store.Open(context.Background(), file, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer func() {
		s.Close()
		os.Remove(file)
	}()
	k := bot.New(s, bot.Options{Think: time.Minute})
	at := start
	for i, turn := range c.Turns {
		at = at.Add(time.Minute)
		if turn.Cook == "" {
			turn.Cook = "ana"
		}
		r, err := k.Handle(context.Background(), bot.Message{Kitchen: "k", ID: turn.ID, Cook: turn.Cook, At: at, Text: turn.Text, Edit: turn.Edit, Delete: turn.Delete, Version: at.String()})
		if err != nil {
			t.Fatal(err)
		}
		want := c.Expect[i]
		if !isKind(want.Kind, string(r.Kind)) {
			return turn.Text + ": " + string(r.Kind) + ": " + r.Text
		}
		if !entriesFit(r.Entries, want.Entries) {
			return turn.Text + ": entries " + jsonOf(t, r.Entries)
		}
	}
	view, err := s.View(context.Background(), "k")
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
