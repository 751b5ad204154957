package terminal

import (
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

func FuzzLines(f *testing.F) {
	f.Add("one\ntwo\r\nthree", 3)
	f.Add("\n\n\r\n", 1)
	f.Add(strings.Repeat("x", 70_000)+"\nshort", 1)
	f.Add(strings.Repeat("x", 300)+"\nshort\n", 5000)
	f.Fuzz(func(t *testing.T, text string, times int) {
		text = strings.Repeat(text, max(1, min(times, 4<<20/(len(text)+1))))
		want := strings.SplitAfter(text, "\n")
		if want[len(want)-1] == "" {
			want = want[:len(want)-1]
		}
		r := newLines(strings.NewReader(text))
		for i, w := range want {
			got, err := r.next()
			w = strings.TrimSuffix(strings.TrimSuffix(w, "\n"), "\r")
			if len(w) > longest && err != errTooLong || len(w) <= longest && (err != nil || got != w) {
				t.Fatalf("line %d of %d bytes: got %d bytes, %v", i, len(w), len(got), err)
			}
		}
		if _, err := r.next(); err != io.EOF {
			t.Fatalf("after the last line: %v", err)
		}
	})
}
