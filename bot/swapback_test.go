package bot_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"scullion/bot"
	"scullion/pantry/store"
)

// A dish that was a little short before it was swapped is told to be so again as that is taken
// back: it keeps what is there now.
func TestShortDishBack(t *testing.T) {
	at := time.Date(2026, 3, 3, 17, 0, 0, 0, time.UTC)
	raw, back := begunFile(t, at), 0
	for n := range 3 {
		file := filepath.Join(t.TempDir(), "k.db")
		if err := os.WriteFile(file, raw, 0o600); err != nil {
			t.Fatal(err)
		}
		s, err := store.Open(context.Background(), file, store.Options{})
		if err != nil {
			t.Fatal(err)
		}
		b, id := bot.New(s, bot.Options{Think: time.Minute}), 0
		say := func(text string) string {
			at, id = at.Add(time.Second), id+1
			r, err := b.Handle(context.Background(), bot.Message{Kitchen: "k", ID: fmt.Sprint("s", id), Cook: "bo", At: at, Text: text})
			if err != nil {
				t.Fatal(err)
			}
			return r.Text
		}
		on := checkKept(t, s, 0)
		u := on.Plan.Dishes[n].Uses[1] // not what it is named by
		k, err := s.View(context.Background(), "k")
		if err != nil {
			t.Fatal(err)
		}
		bin := k.Named(u.Item).Free().Units() + u.Amount/30
		say(fmt.Sprintf("binned %.0fg %s", bin, u.Item))
		if now := checkKept(t, s, 0); len(now.Short) == 0 {
			t.Fatalf("%g g of the %s gone, and nothing is short", bin, u.Item)
		}
		say(fmt.Sprint("swap ", n+1))
		checkKept(t, s, 0)
		if text := say("undo"); strings.Contains(text, "is on again") {
			back++
			if now := checkKept(t, s, 0); len(now.Short) == 0 || !strings.Contains(text, " instead of ") {
				t.Errorf("%s\n%v", text, now.Short)
			}
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
	if back == 0 {
		t.Error("no dish was taken back")
	}
}
