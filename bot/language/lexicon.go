package language

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync"

	"scullion/pantry/measure"
)

// class is what a word does; words.csv lists them.
type class string

var classes = []class{
	"did", "do", "going", "claim", "release", "unused", "weigh", "none", "there", "left", "allgone", "undo", "amend",
	"not", "if", "could", "ask", "i", "noname", "pause", "det", "of", "join", "but", "prep", "from", "ref", "stop",
	"number", "times", "fraction", "share", "about", "size", "some", "prepared", "trim", "mark", "slip",
	"habit", "after", "notfood", "place", "lack", "trail", "swap", "paper", "cooked", "yes", "no", "nth", "label", "day", "weekday", "month", "coin", "allergen", "lesser", "packed", "outer", "be", "bid", "um", "to", "bare", "dish", "done", "pron", "sofar", "spoilt", "repair", "sound", "juice", "again", "nodish", "later", "mistyped", "whose", "elsewhere", "state", "todo", "form", "holder", "often", "bins", "course", "source", "request",
	"closing", "timer", "call", "setting", "halt", "longer", "further", "past", "span", "clock", "when", "timed", "within", "reason",
	"keep", "came", "back", "cost", "sum", "taker", "serve", "diet", "heads", "length", "cut", "method", "haste", "stockpot",
	"keyslip", "planning", "planof", "planhow", "planuse", "planway",
}

// bits is a set of classes.
type bits [2]uint64

func (b bits) has(cs ...class) bool {
	for _, c := range cs {
		if n := classNumber[c]; b[n/64]&(1<<(n%64)) != 0 {
			return true
		}
	}
	return false
}

func (b bits) with(o bits) bits { return bits{b[0] | o[0], b[1] | o[1]} }

func bitOf(c class) (b bits) {
	n := classNumber[c]
	b[n/64] = 1 << (n % 64)
	return b
}

var classNumber = func() map[class]int {
	n := map[class]int{}
	for i, c := range classes {
		n[c] = i
	}
	return n
}()

// phrase is one row of words.csv.
type phrase struct {
	words []string
	class class
	value string
	ratio measure.Ratio // value, where it is a number
	bit   bits          // of the class
}

// lexicon is words.csv, ready for look-up.
type lexicon struct {
	first    map[string][]*phrase // by first word, longest first
	slips    map[string]string
	keyslips map[string]string   // slips in a command of few words
	mistyped map[string]string   // units as a thumb misses them
	sounds   map[string]string   // words that numbers are heard as
	pasts    map[string]string   // irregular verbs -> their past: "throw" -> "threw"
	swaps    map[string]string   // a word with two letters swapped -> that word
	near     map[string][]string // a word less one letter -> words that tell of an act
	known    map[string]bool     // every single word in it
	single   map[string]bits     // the classes of a phrase
	often    []string            // words whose slips are all known, the short ones as well
	typos    map[string]string   // a slip of one of those -> that word; "" where it may be of two
	amends   []string            // words of corrections that slips are mended of
}

//go:embed words.csv
var wordsCSV []byte

var words = sync.OnceValue(func() *lexicon {
	l, err := readWords("words.csv", bytes.NewReader(wordsCSV))
	if err != nil {
		panic(err) // the embedded table is checked by a test
	}
	for w := range questions().known { // "taken" is no slip of "baked"
		l.known[w] = true
	}
	return l
})

func readWords(name string, r io.Reader) (*lexicon, error) {
	c := csv.NewReader(r)
	c.Comment, c.FieldsPerRecord = '#', 3
	rows, err := c.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	l := &lexicon{first: map[string][]*phrase{}, slips: map[string]string{}, keyslips: map[string]string{}, mistyped: map[string]string{}, sounds: map[string]string{}, pasts: map[string]string{}, swaps: map[string]string{}, near: map[string][]string{}, known: map[string]bool{}, single: map[string]bits{}}
	seen := map[string]bool{}
	for i, row := range rows {
		if i == 0 {
			continue
		}
		p := &phrase{words: strings.Fields(row[1]), class: class(row[0]), value: row[2], bit: bitOf(class(row[0]))}
		if !slices.Contains(classes, p.class) || len(p.words) == 0 {
			return nil, fmt.Errorf("%s: row %d: no class %q, or no word", name, i+1, row[0])
		}
		if seen[row[0]+row[1]] {
			return nil, fmt.Errorf("%s: row %d: %s %q stands twice", name, i+1, row[0], row[1])
		}
		seen[row[0]+row[1]] = true
		if err := l.add(p); err != nil {
			return nil, fmt.Errorf("%s: row %d: %w", name, i+1, err)
		}
	}
	for _, list := range l.first {
		slices.SortStableFunc(list, func(a, b *phrase) int { return len(b.words) - len(a.words) })
	}
	l.addTypos()
	return l, nil
}

func (l *lexicon) add(p *phrase) error {
	switch p.class {
	case "slip":
		l.slips[p.words[0]] = p.value
		return nil
	case "keyslip":
		l.keyslips[p.words[0]] = p.value
		return nil
	case "mistyped":
		l.mistyped[p.words[0]] = p.value
		return nil
	case "sound":
		l.sounds[p.words[0]] = p.value
		return nil
	case "form":
		l.pasts[p.words[0]] = p.value
		return nil
	case "often":
		l.often = append(l.often, p.words[0])
		return nil
	case "number", "times", "fraction", "share", "nth", "day", "weekday", "month", "coin", "span", "length":
		if err := p.number(); err != nil {
			return err
		}
	case "undo", "amend":
		for _, w := range p.words {
			if len(w) >= 4 && !slices.Contains(l.amends, w) {
				l.amends = append(l.amends, w)
			}
		}
		if strings.Contains(p.value, "/") { // "half that"
			if err := p.number(); err != nil {
				return err
			}
		}
	case "did", "going", "claim", "release", "unused", "there", "left", "none":
		if w := p.words[0]; len(p.words) == 1 && len(w) >= 4 {
			l.addNear(w)
		}
	}
	for _, w := range p.words {
		if !l.known[w] {
			l.known[w] = true
			l.addSwaps(w)
		}
	}
	whole := strings.Join(p.words, " ")
	l.single[whole] = l.single[whole].with(p.bit)
	l.first[p.words[0]] = append(l.first[p.words[0]], p)
	return nil
}

// number reads the value of a row as a number, where it has one.
func (p *phrase) number() error {
	if p.value == "" || p.value == "but" { // of "most of", and of "all but"
		return nil
	}
	if _, err := fmt.Sscanf(p.value+"/1", "%d/%d", &p.ratio.Num, &p.ratio.Den); err != nil || p.ratio.Den == 0 {
		return fmt.Errorf("%q is not a number", p.value)
	}
	return nil
}

// is says whether exactly this phrase has a row of the class.
func (l *lexicon) is(phrase string, c class) bool { return l.single[phrase].has(c) }
