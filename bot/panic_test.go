package bot_test

import (
	"context"
	"testing"
	"time"

	"scullion/bot"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// brittle is a ledger that breaks when a line called wibble is made.
type brittle struct{ pantry.Ledger }

type brittleBook struct{ pantry.Book }

func (b brittleBook) AddLine(name, foodName string, unit measure.Kind, shelf food.Shelf) (*pantry.Line, error) {
	if name == "wibble" {
		panic("wibble\nwobble")
	}
	return b.Book.AddLine(name, foodName, unit, shelf)
}

func (l brittle) Do(ctx context.Context, k string, do func(pantry.Book) error) error {
	return l.Start(ctx, k, do)()
}

func (l brittle) Start(ctx context.Context, k string, do func(pantry.Book) error) func() error {
	return l.Ledger.Start(ctx, k, func(b pantry.Book) error { return do(brittleBook{b}) })
}

// A message that breaks the program writes nothing, is told of, and is done
// with: it is answered once and for all, and the next is read.
func TestPanic(t *testing.T) {
	s, _ := openKitchen(t)
	var told []string
	k := bot.New(brittle{s}, bot.Options{Fault: func(p *pantry.Panic) { told = append(told, p.Error()) }})
	say := func(m bot.Message) bot.Reply {
		m.Kitchen, m.Cook, m.At = "k", "stove", time.Date(2026, 3, 3, 17, 0, 0, 0, time.UTC)
		r, err := k.Handle(context.Background(), m)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	before := left(t, s)
	bad := bot.Message{ID: "b", Text: "got 2kg leeks, 1kg wibble"}
	for range 2 {
		if r := say(bad); r.Kind != bot.Error || r.To != "b" {
			t.Errorf("%+v", r)
		}
	}
	if r := say(bot.Message{ID: "seed0", Edit: true, Version: "1", Text: "got 1kg wibble"}); r.Kind != bot.Error {
		t.Errorf("%+v", r)
	}
	if after := left(t, s); after != before {
		t.Errorf("something was written:\n%s\n%s", before, after)
	}
	if len(told) != 2 || told[0] != "a fault in the program: wibble wobble" {
		t.Errorf("told %q", told)
	}
	if r := say(bot.Message{ID: "c", Text: "used 100g leek in the tart"}); r.Kind != bot.Log {
		t.Errorf("%+v", r)
	}
}
