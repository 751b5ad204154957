package terminal_test

import (
	"bytes"
	"context"
	"errors"
	"io"
	"reflect"
	"strings"
	"testing"
	"time"

	"scullion/bot"
	"scullion/bot/terminal"
	"scullion/pantry"
	"scullion/pantry/store"
)

// enter runs a room that nobody looks on at, with typed as what is typed.
func enter(t *testing.T, ledger pantry.Ledger, typed string) (string, error) {
	t.Helper()
	var out bytes.Buffer
	room := terminal.Room{
		Bot: bot.New(ledger, bot.Options{}), Kitchen: "kitchen", Cook: "larder",
		Now:    func() time.Time { return evening },
		Words:  func() []string { return nil },
		Cooks:  func() []string { return []string{"stove", "head chef"} },
		Screen: terminal.NewScreen(strings.NewReader(""), &out, func(string) string { return "" }),
	}
	room.Open(strings.NewReader(typed))
	defer room.Close()
	err := room.Run(t.Context())
	return out.String(), err
}

// cooks lists who has spoken.
func cooks(t *testing.T, s *store.Store) []string {
	t.Helper()
	k, err := s.View(t.Context(), "kitchen")
	if err != nil {
		t.Fatal(err)
	}
	return k.Cooks
}

func TestRoomWhoSpeaks(t *testing.T) {
	const said = "got 1kg leeks"
	for _, c := range []struct {
		name, typed string
		cook        string // "" where nothing is for the bot
	}{
		{"Own", said, "larder"},
		{"Prefix", "stove: " + said, "stove"},
		{"PrefixAnyCase", "Head Chef: " + said, "head chef"},
		{"UnknownPrefix", "note: " + said, "larder"},
		{"IAmUnknown", "I am back\n" + said, "larder"},
		{"IAmTwice", "I am pastry\nI am pastry\n" + said, "pastry"},
		{"IAmKnown", "i am HEAD CHEF\n" + said, "head chef"},
		{"IAmOnlyNames", "I am using 1kg leeks today\n" + said, "larder"},
		{"ThenPrefix", "I am pastry\nI am pastry\nstove: " + said, "stove"},
		{"Empty", "\n   \n", ""},
		{"Quit", "quit\n" + said, ""},
		{"QuitAnyCase", "  Quit \n" + said, ""},
		{"Help", "help", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := mustStore(t)
			if _, err := enter(t, s, c.typed); err != nil {
				t.Fatal(err)
			}
			if c.cook == "" {
				if _, err := s.View(t.Context(), "kitchen"); !errors.Is(err, store.ErrNoKitchen) {
					t.Errorf("the bot was spoken to: %v", err)
				}
				return
			}
			if got := cooks(t, s); got[0] != c.cook && !reflect.DeepEqual(got, []string{"larder", c.cook}) {
				t.Errorf("cooks %q, want %q", got, c.cook)
			}
		})
	}
}

func TestRoomPlainOutput(t *testing.T) {
	out, err := enter(t, mustStore(t), "got 1kg leeks\nthe radio is too loud\n")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(strings.ToLower(out), "leek") || strings.Contains(out, "larder  ") || strings.ContainsAny(out, "\x1b\r") {
		t.Errorf("%q", out)
	}
	help, err := enter(t, mustStore(t), "help")
	if err != nil || !strings.Contains(help, "what's left") {
		t.Errorf("help: %q, %v", help, err)
	}
	for l := range strings.Lines(help) {
		if len([]rune(l)) > 70 { // and ten for the name beside it
			t.Errorf("help is too wide: %q", l)
		}
	}
}

func TestRoomBadInput(t *testing.T) {
	typed := strings.Repeat("x", 10<<20) + "\n\xff\xfe\x00\x1b[2J\ngot 1kg leeks\n"
	out, err := enter(t, mustStore(t), typed)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(out, "longer than 1 MiB") || !strings.Contains(strings.ToLower(out), "leek") {
		t.Errorf("%.200q", out)
	}
}

func TestRoomLedgerFails(t *testing.T) {
	_, err := enter(t, &failing{Ledger: mustStore(t), left: 1}, "got 1kg leeks\ngot 2kg leeks\ngot 3kg leeks\n")
	if !errors.Is(err, errFull) {
		t.Errorf("ended with %v", err)
	}
}

func TestRoomEndsWithContext(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	in, _ := io.Pipe() // nothing will ever come
	var out bytes.Buffer
	room := terminal.Room{
		Bot: bot.New(mustStore(t), bot.Options{}), Kitchen: "kitchen", Cook: "larder", Now: time.Now,
		Words: func() []string { return nil }, Cooks: func() []string { return nil },
		Screen: terminal.NewScreen(in, &out, func(string) string { return "" }),
	}
	room.Open(in)
	ended := make(chan error, 1)
	go func() { ended <- room.Run(ctx) }()
	cancel()
	if err := <-ended; err != nil {
		t.Error(err)
	}
}
