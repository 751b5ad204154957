package tables

import (
	"bufio"
	"encoding/csv"
	"encoding/json"
	"io"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

func TestColumns(t *testing.T) {
	kinds := []Kind{Text, Number, Amount, Sum, Reads, Flag, Time, Milli, Micro, Date, Unit, Shelf, Act, Message, Perhaps, Line, Kept}
	rows, err := csv.NewReader(strings.NewReader(columnsCSV)).ReadAll()
	if err != nil || len(rows) < 60 || !slices.Equal(rows[0], []string{"table", "column", "kind", "key", "says"}) {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	for _, r := range rows[1:] {
		if !slices.Contains(kinds, Kind(r[2])) || r[3] != "" && r[3] != "key" || r[4] == "" {
			t.Errorf("%q", r)
		}
	}
	seen := map[string]bool{}
	for _, table := range All {
		if seen[table.Name] {
			t.Errorf("%s stands in two places", table.Name)
		}
		seen[table.Name] = true
		keys := 0
		for i, c := range table.Columns {
			if c.Key {
				keys++
			}
			if c.Kind == Reads && table.Columns[i-1].Kind.is() != isNumber {
				t.Errorf("%s reads what is no amount", table.Name)
			}
			if table.at(c.Name) != i {
				t.Errorf("%s has %s twice", table.Name, c.Name)
			}
		}
		if keys == 0 {
			t.Errorf("%s has no key", table.Name)
		}
	}
}

func TestSay(t *testing.T) {
	for _, c := range []struct {
		amount int64
		says   string
	}{{0, "0 g"}, {1, "0.001 g"}, {1500, "1.5 g"}, {300_000, "300 g"}, {100_010, "100.01 g"}, {most, "2000000000 g"}} {
		if got := Say(c.amount, "g"); got != c.says {
			t.Errorf("%d reads %q, want %q", c.amount, got, c.says)
		}
	}
}

// texts are words with what CSV, spreadsheets and JSON make something of.
var texts = rapid.StringOfN(rapid.SampledFrom([]rune("a,\"'=+-@\t\r\n\\ é\u2028\x00{}")), 0, 8, -1)

// Whatever a cell holds comes back, and no cell is a formula.
func TestAnyCell(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := texts.Draw(t, "text")
		g := guarded(s)
		if g != "" && strings.ContainsRune("=+-@\t\r", rune(g[0])) || plain(g) != s {
			t.Fatalf("%q is kept as %q, and read as %q", s, g, plain(g))
		}
	})
}

// Records come back as they went in, and the library's reader sees the same but that it takes
// one \r away before every \n within a cell.
func TestAnyRecords(t *testing.T) {
	check := func(t rapid.TB, records [][]string) {
		var b strings.Builder
		w := &csvWriter{out: bufio.NewWriter(&b)}
		for _, r := range records {
			w.record(r)
		}
		w.out.Flush()
		in := &csvReader{in: bufio.NewReader(strings.NewReader(b.String()))}
		library, err := csv.NewReader(strings.NewReader(b.String())).ReadAll()
		if err != nil || len(library) != len(records) {
			t.Fatalf("%q: %v, %v", b.String(), library, err)
		}
		line := 1
		for i, want := range records {
			got, err := in.record()
			if err != nil || !slices.Equal(got, want) || in.first != line {
				t.Fatalf("%q, %v on line %d; want %q on line %d", got, err, in.first, want, line)
			}
			line += 1 + strings.Count(strings.Join(want, ""), "\n")
			for n, cell := range want {
				if library[i][n] != strings.ReplaceAll(cell, "\r\n", "\n") {
					t.Fatalf("the library reads %q for %q", library[i][n], cell)
				}
			}
		}
		if _, err := in.record(); err != io.EOF {
			t.Fatal(err)
		}
	}
	check(t, [][]string{{"\r\r\n"}, {"\r"}, {"\n\r\n"}, {"\r\n\r"}})
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.IntRange(1, 4).Draw(t, "cells")
		check(t, rapid.SliceOfN(rapid.SliceOfN(texts, width, width), 1, 4).Draw(t, "records"))
	})
}

// Halves of surrogate pairs are found wherever they stand, and whole pairs are left alone.
func TestLonely(t *testing.T) {
	for text, want := range map[string]bool{
		`"\ud83d\ude00"`: false, `"\uD83D\uDE00"`: false, `"\ud83d"`: true, `"\ude00"`: true, `"\ud83dx"`: true, `"\ud83d\n"`: true,
		`"\\ud83d"`: false, `"\\\ud83d"`: true, `"\ud83d\ud83d"`: true, `"\u00e9"`: false, `""`: false,
	} {
		if !json.Valid([]byte(text)) || lonely([]byte(text)) != want {
			t.Errorf("%s: want %v", text, want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.String().Draw(t, "text")
		raw, _ := json.Marshal(s)
		if utf8.ValidString(s) && lonely(raw) {
			t.Fatalf("%s", raw)
		}
	})
}
