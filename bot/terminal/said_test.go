package terminal

import (
	"bufio"
	"encoding/json"
	"io"
	"strings"
	"testing"
	"time"
	"unicode/utf8"
)

func FuzzSaid(f *testing.F) {
	for _, l := range []string{
		`{"id":"m1","cook":"stove","at":"2026-03-02T17:00:00Z","text":"used 300g leek in the tart"}`,
		`{"id":"m1","edit":true,"text":"used 200g leek in the tart"}`,
		`{"id":"m1","delete":true}`,
		`{"id":"m1","id":"m2"}`, `{"id":NaN}`, `{"id":"\ud800"}`, `[[[[`, `{"a":{"a":{"a":1}}}`, "\xff", "",
	} {
		f.Add(l)
	}
	f.Fuzz(func(t *testing.T, l string) {
		s, err := readSaid(l)
		if err != nil {
			if err.Error() == "" || strings.Contains(err.Error(), "\n") {
				t.Fatalf("%q: error %q is not one line", l, err)
			}
			return
		}
		if !json.Valid([]byte(l)) || !utf8.ValidString(l) {
			t.Fatalf("%q was read, and is not JSON", l)
		}
		m, err := s.message("kitchen", func() time.Time { return time.Unix(0, 0) })
		if err != nil {
			return
		}
		if m.ID == "" || utf8.RuneCountInString(m.ID) > longestID || m.Edit && m.Delete || m.Cook == "" && !m.Edit && !m.Delete {
			t.Fatalf("%q became %+v", l, m)
		}
		if m.Cook != Name(m.Cook) {
			t.Fatalf("%q: cook %q can steer a terminal", l, m.Cook)
		}
		again, err := json.Marshal(map[string]any{"id": m.ID, "text": m.Text, "edit": m.Edit, "delete": m.Delete, "cook": m.Cook})
		if err != nil {
			t.Fatal(err)
		}
		s, err = readSaid(string(again))
		if err != nil || s.id != m.ID || s.text != m.Text || s.edit != m.Edit || s.gone != m.Delete || s.cook != m.Cook {
			t.Fatalf("%q became %+v, and that %+v, %v", l, m, s, err)
		}
	})
}

// A reader of short lines over a small buffer: every way to cross the one and
// the other is a few bytes away.
func FuzzLines(f *testing.F) {
	for _, text := range []string{
		"one\ntwo\r\nthree", "\n\n\r\n", "one\r\ntwo\rthree\n\r\n", "leek\r", "\x00\xff\n\xfe\r\n",
		strings.Repeat("x", 15) + "\r\n", strings.Repeat("x", 16) + "\n",
		strings.Repeat("x", 40) + "\r\n" + strings.Repeat("y", 41) + "\r\n" + strings.Repeat("z", 40) + "\r\r\n",
		strings.Repeat("x", 90) + "\nshort",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		const longest = 40
		checkLines(t, lines{bufio.NewReaderSize(strings.NewReader(text), 16), longest}, text, longest)
	})
}

func TestLinesOfAMebibyte(t *testing.T) {
	x := strings.Repeat("x", longestLine)
	for _, text := range []string{x, x + "\n", x + "\r\nshort", x + "x\nshort", x + x + "\r\n" + x, "\n" + x + "x"} {
		checkLines(t, newLines(strings.NewReader(text)), text, longestLine)
	}
}

func checkLines(t *testing.T, r lines, text string, longest int) {
	t.Helper()
	want := strings.SplitAfter(text, "\n")
	if want[len(want)-1] == "" {
		want = want[:len(want)-1]
	}
	for i, w := range want {
		got, err := r.next()
		w = trimmed(w)
		if len(w) > longest && err != errTooLong || len(w) <= longest && (err != nil || got != w) {
			t.Fatalf("line %d of %d bytes: got %d bytes, %v", i, len(w), len(got), err)
		}
	}
	if _, err := r.next(); err != io.EOF {
		t.Fatalf("after the last line: %v", err)
	}
}

func trimmed(line string) string { return strings.TrimSuffix(strings.TrimSuffix(line, "\n"), "\r") }
