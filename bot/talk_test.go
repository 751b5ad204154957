package bot_test

import (
	"bufio"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"
	"time"

	"scullion/bot"
	"scullion/pantry/store"
)

var update = flag.Bool("update", false, "write the answers given as the answers expected")

// TestTalk plays the conversations of testdata/talk and holds the answers
// against the .want beside each. A line is "cook: text", "@edit N text" or
// "@delete N" of the Nth message said in the file, or "@at N"
// to let N minutes pass. Ideas have tests of their own, and stand as "..." here.
// At the end, everything is sent again: nothing may change.
func TestTalk(t *testing.T) {
	files, err := filepath.Glob("../testdata/talk/*.txt")
	if err != nil || len(files) < 4 {
		t.Fatalf("only %d conversations: %v", len(files), err)
	}
	for _, f := range files {
		t.Run(filepath.Base(f), func(t *testing.T) { t.Parallel(); play(t, f) })
	}
}

func play(t *testing.T, file string) {
	s, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "kitchen.db"), store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	k := bot.New(s, bot.Options{Think: time.Minute})
	var b strings.Builder
	messages := conversation(t, file)
	var replies []bot.Reply
	for _, m := range messages {
		r, err := k.Handle(context.Background(), m)
		if err != nil || strings.Contains(r.Text, "fault in the program") {
			t.Fatalf("%q: %v %s", m.Text, err, r.Text)
		}
		replies = append(replies, r)
		fmt.Fprintf(&b, "%s: %s\n  [%s] %s\n", m.Cook, show(m), r.Kind, strings.ReplaceAll(ideas.ReplaceAllString(r.Text, "$1..."), "\n", "\n  "))
	}
	before := left(t, s)
	for i, m := range messages {
		if r, err := k.Handle(context.Background(), m); err != nil || !reflect.DeepEqual(jsonOf(t, r), jsonOf(t, replies[i])) {
			t.Errorf("again %q: %v %v, first %v", m.Text, r, err, replies[i])
		}
	}
	if after := left(t, s); after != before {
		t.Errorf("sent again, the stock changed:\n%s\n%s", before, after)
	}
	golden(t, strings.TrimSuffix(file, ".txt")+".want", b.String())
}

var ideas = regexp.MustCompile(`(?m)^(Free [^:]*: |\d )[^\n]*(?:min|"more" for others\.)[^\n]*$`)

func show(m bot.Message) string {
	switch {
	case m.Edit:
		return "@edit " + m.ID + " " + m.Text
	case m.Delete:
		return "@delete " + m.ID
	}
	return m.Text
}

func conversation(t *testing.T, file string) (list []bot.Message) {
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	at := time.Date(2026, 3, 3, 17, 0, 0, 0, time.UTC)
	said := 0
	for s := bufio.NewScanner(f); s.Scan(); {
		line := s.Text()
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		at = at.Add(20 * time.Second)
		m := bot.Message{Kitchen: "k", At: at, Version: at.String()}
		var n int
		switch {
		case strings.HasPrefix(line, "@at "):
			fmt.Sscanf(line, "@at %d", &n)
			at = at.Add(time.Duration(n) * time.Minute)
			continue
		case strings.HasPrefix(line, "@edit "):
			fmt.Sscanf(line, "@edit %d", &n)
			m.ID, m.Edit, m.Text = fmt.Sprint(n), true, strings.SplitN(line, " ", 3)[2]
		case strings.HasPrefix(line, "@delete "):
			fmt.Sscanf(line, "@delete %d", &n)
			m.ID, m.Delete = fmt.Sprint(n), true
		default:
			cook, text, ok := strings.Cut(line, ": ")
			if !ok {
				t.Fatalf("%s: %q is not \"cook: text\"", file, line)
			}
			said++
			m.ID, m.Cook, m.Text = fmt.Sprint(said), cook, text
		}
		list = append(list, m)
	}
	if len(list) == 0 {
		t.Fatalf("%s is empty", file)
	}
	return list
}

func golden(t *testing.T, file, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if g, w := strings.Split(got, "\n"), strings.Split(string(want), "\n"); got != string(want) {
		for i := range max(len(g), len(w)) {
			if i >= len(g) || i >= len(w) || g[i] != w[i] {
				t.Fatalf("%s:%d:\ngot  %s\nwant %s", file, i+1, g[min(i, len(g)-1)], w[min(i, len(w)-1)])
			}
		}
	}
}

// left is the stock as the file has it, after a check of the whole ledger.
func left(t *testing.T, s *store.Store) string {
	t.Helper()
	if r, err := s.Check(context.Background()); err != nil || len(r.Wrong) > 0 {
		t.Fatalf("check: %v %v", r.Wrong, err)
	}
	k, err := s.View(context.Background(), "k")
	if err != nil {
		t.Fatal(err)
	}
	return jsonOf(t, bot.Left(k, "2026-03-03"))
}

func jsonOf(t failer, v any) string {
	t.Helper()
	raw, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(raw)
}
