package food

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync"
)

// Three small tables help to find a food: plurals.csv (what the pluralising
// library gets wrong or might), words.csv (which words beside a food's name
// matter) and soundalikes.csv (what voice typing makes of a name).

//go:embed plurals.csv
var pluralsCSV string

//go:embed words.csv
var wordsCSV string

//go:embed soundalikes.csv
var soundalikesCSV string

type wordTables struct {
	singular map[string]string   // plain plural -> singular
	plurals  map[string][]string // singular -> what the table lists for it
	idle     map[string]bool     // words that do not tell foods apart
	product  map[string]bool     // a last word that makes another thing of a food: "stock", "oil"
	bare     map[string]bool     // such a word that says nothing by itself: "leaf"
	compound [][]string          // folded words that are one thing only together: "sweet potato"
	sound    map[string][]string // heard words, plain and joined by a space -> foods' folded words
	heard    int                 // most words in one key of sound
}

var tables = sync.OnceValue(func() *wordTables {
	t, _ := readTables() // the tables are embedded; a test reads them and names any fault
	return t
})

// readTables reads the embedded tables. What was read before a fault is kept.
func readTables() (*wordTables, error) {
	t := &wordTables{
		singular: map[string]string{}, plurals: map[string][]string{},
		idle: map[string]bool{}, product: map[string]bool{}, bare: map[string]bool{}, sound: map[string][]string{},
	}
	for _, step := range []struct {
		name, text string
		header     []string
		row        func([]string) error
	}{
		{"plurals.csv", pluralsCSV, []string{"plural", "singular"}, t.addPlural},
		{"words.csv", wordsCSV, []string{"word", "what"}, t.addWord},
		{"soundalikes.csv", soundalikesCSV, []string{"heard", "food"}, t.addSound},
	} {
		if err := eachRow(step.name, strings.NewReader(step.text), step.header, step.row); err != nil {
			return t, err
		}
	}
	return t, nil
}

// eachRow reads a CSV with exactly this header, and no space around a field.
// An error names file, line and reason.
func eachRow(name string, r io.Reader, header []string, row func([]string) error) error {
	in := csv.NewReader(r)
	in.FieldsPerRecord = len(header)
	in.ReuseRecord = true
	for first := true; ; first = false {
		rec, err := in.Read()
		if err == io.EOF && !first {
			return nil
		}
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		line, _ := in.FieldPos(0)
		if err = tidy(rec); err == nil && first && !slices.Equal(rec, header) {
			err = fmt.Errorf("the header must be %q", strings.Join(header, ","))
		} else if err == nil && !first {
			err = row(rec)
		}
		if err != nil {
			return fmt.Errorf("%s:%d: %w", name, line, err)
		}
	}
}

func tidy(rec []string) error {
	for _, f := range rec {
		if f != strings.TrimSpace(f) {
			return fmt.Errorf("space around %q", f)
		}
	}
	return nil
}

func (t *wordTables) addPlural(rec []string) error {
	p, s := plain(rec[0]), plain(rec[1])
	if p == "" || s == "" || t.singular[p] != "" {
		return fmt.Errorf("%q is empty or there twice", rec[0])
	}
	t.singular[p] = s
	t.plurals[s] = append(t.plurals[s], p)
	return nil
}

// addWord runs after every plural has been read, but while tables() is being
// made, so it may not call Fold.
func (t *wordTables) addWord(rec []string) error {
	words := strings.Fields(plain(rec[0]))
	switch {
	case len(words) == 0:
		return fmt.Errorf("no word")
	case rec[1] == "compound" && len(words) > 1:
		t.compound = append(t.compound, words)
	case rec[1] == "idle" && len(words) == 1 && !t.idle[words[0]]:
		t.idle[words[0]] = true
	case rec[1] == "bare" && len(words) == 1 && !t.product[words[0]]:
		t.product[words[0]], t.bare[words[0]] = true, true
	case rec[1] == "product" && len(words) == 1 && !t.product[words[0]]:
		t.product[words[0]] = true
	default:
		return fmt.Errorf("%q cannot be %q, or is there twice", rec[0], rec[1])
	}
	return nil
}

func (t *wordTables) addSound(rec []string) error {
	heard, meant := plain(rec[0]), plain(rec[1])
	if heard == "" || meant == "" || heard == meant || t.sound[heard] != nil {
		return fmt.Errorf("%q is empty, itself, or there twice", rec[0])
	}
	t.sound[heard] = strings.Fields(meant)
	t.heard = max(t.heard, len(strings.Fields(heard)))
	return nil
}
