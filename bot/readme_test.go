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

// TestReadme holds the conversation in the README against what is said: its
// first block of "cook  text" lines, where "scullion" is the answer and a line
// without a name goes on. With -update it is written anew.
func TestReadme(t *testing.T) {
	raw, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, talk, ok := strings.Cut(string(raw), "## What it is like\n")
	if !ok {
		t.Fatal("the README has no conversation")
	}
	talk, _, _ = strings.Cut(talk, "![")
	type turn struct{ who, text string }
	var turns []turn
	for _, l := range strings.Split(talk, "\n") {
		l = strings.TrimPrefix(l, "    ")
		if l == "" {
			continue
		}
		who, text, _ := strings.Cut(l, " ")
		if who == "" {
			turns[len(turns)-1].text += " " + strings.TrimSpace(l)
			continue
		}
		turns = append(turns, turn{who, strings.TrimSpace(text)})
	}
	if len(turns) < 15 {
		t.Fatalf("only %d turns", len(turns))
	}
	s, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "kitchen.db"), store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	k := bot.New(s, bot.Options{Think: time.Minute})
	said := ""
	defer func() {
		if *update && !t.Failed() {
			writeTalk(t, string(raw), said)
		}
	}()
	for i := 0; i < len(turns); i++ {
		m := bot.Message{Kitchen: "k", ID: fmt.Sprint(i), Cook: turns[i].who, At: time.Date(2026, 3, 3, 17, i, 0, 0, time.UTC), Text: turns[i].text}
		r, err := k.Handle(context.Background(), m)
		if err != nil {
			t.Fatal(err)
		}
		want := ""
		if i+1 < len(turns) && turns[i+1].who == "scullion" {
			i++
			want = turns[i].text
		}
		said += talkLines(m.Cook, m.Text)
		if r.Text != "" {
			said += talkLines("scullion", r.Text)
		}
		if got := strings.Join(strings.Fields(r.Text), " "); got != want && !*update {
			t.Errorf("%s: %s\nsays  %s\nREADME %s", m.Cook, m.Text, got, want)
		}
	}
}

// talkLines writes what somebody says as the README has it.
func talkLines(who, text string) string {
	const indent, width = 14, 120
	var out strings.Builder
	for n, l := range strings.Split(text, "\n") {
		line := fmt.Sprintf("    %-10s", who)
		if n > 0 {
			line = strings.Repeat(" ", indent)
		}
		at, empty := indent, true
		for _, w := range strings.Fields(l) {
			if size := len([]rune(w)); !empty && at+1+size > width {
				out.WriteString(strings.TrimRight(line, " ") + "\n")
				line, at, empty = strings.Repeat(" ", indent), indent, true
			}
			if !empty {
				line += " "
				at++
			}
			line += w
			at += len([]rune(w))
			empty = false
		}
		out.WriteString(line + "\n")
	}
	return out.String()
}

// writeTalk puts a conversation into the README.
func writeTalk(t *testing.T, readme, talk string) {
	head, rest, _ := strings.Cut(readme, "## What it is like\n")
	block, tail, _ := strings.Cut(rest, "![")
	before, _, _ := strings.Cut(block, "    ")
	if err := os.WriteFile("../README.md", []byte(head+"## What it is like\n"+before+talk+"\n!["+tail), 0o644); err != nil {
		t.Fatal(err)
	}
}
