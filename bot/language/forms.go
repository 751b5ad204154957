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
)

// form is one row of questions.csv.
type form struct {
	about About
	steps []step
	asked bool // only with a question mark
	told  bool // only behind "tell me" and its like
	timer bool // says the word "timer"
	limit bool // may begin with a limit: "vegan ideas"
	ill   bool // begins with an allergy
	calls bool // has {called}
}

// step is a word of a form, or a slot.
type step struct {
	slot string     // {food}, {amount}, {unit}, {allergen}, {number}, *; "" words
	any  [][]string // one of these, the longest first
	opt  bool       // may be left out
	here bool       // asks what there is: "left", "have we got"
}

// asking is questions.csv, ready for use.
type asking struct {
	forms map[string][]form   // by their first word; "{food}" and "{amount}" stand under ""
	words map[string]step     // the slots that the table itself fills: "{we}"
	known map[string]bool     // every single word in it
	quick map[string][]string // what a text is searched for, as it stands in the table, with its spaces
	whole bool                // nothing but manners stands behind its forms: "is the pie safe for dee" is not "is the pie safe"
}

//go:embed questions.csv
var questionsCSV []byte

var questions = sync.OnceValue(func() *asking { return formsOf("questions.csv", questionsCSV) })

// formsOf reads a table that is part of the program.
func formsOf(name string, table []byte) *asking {
	f, err := readQuestions(name, bytes.NewReader(table))
	if err != nil {
		panic(err) // the embedded tables are checked by a test
	}
	return f
}

// readers are the slots that are read, each by a case of its own in match.
var readers = []string{"{food}", "{amount}", "{unit}", "{allergen}", "{number}", "{nth}", "{limit}", "{size}", "{clock}", "{day}", "{price}", "{dish}", "{who}", "{whois}", "{kit}", "{called}", "{cannot}", "{persons}", "{barred}", "{illness}", "{textures}", "{counted}", "{place}", "{inside}", "{guest}", "{guestis}", "{taker}", "{mealname}", "*"}

// searched are the slots whose words no form has: a text is searched for them.
var searched = []string{"{alarm}", "{seated}", "{wardly}", "{abed}", "{own}", "{short}", "{slip}", "{lead}", "{trail}"}

func readQuestions(name string, r io.Reader) (*asking, error) {
	c := csv.NewReader(r)
	c.Comment, c.FieldsPerRecord = '#', 2
	rows, err := c.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	all := &asking{forms: map[string][]form{}, words: map[string]step{}, known: map[string]bool{}, quick: map[string][]string{}}
	seen := map[string]bool{}
	for i, row := range rows {
		switch {
		case i == 0:
			continue
		case seen[row[1]]:
			return nil, fmt.Errorf("%s: row %d: %q stands twice", name, i+1, row[1])
		case strings.TrimSpace(row[1]) == "":
			return nil, fmt.Errorf("%s: row %d: no words", name, i+1)
		}
		seen[row[1]] = true
		if slices.Contains(readers, row[0]) {
			return nil, fmt.Errorf("%s: row %d: the reader itself fills %s", name, i+1, row[0])
		}
		if slices.Contains(searched, row[0]) {
			all.quick[row[0]] = strings.Split(row[1], ";")
		} else if strings.HasPrefix(row[0], "{") {
			all.words[row[0]] = wordsOf(row[1])
			all.learn(all.words[row[0]])
		} else if err := all.add(About(row[0]), strings.Fields(row[1])); err != nil {
			return nil, fmt.Errorf("%s: row %d: %w", name, i+1, err)
		}
	}
	return all, nil
}

// wordsOf reads "have we; do we have", the longest first.
func wordsOf(list string) (s step) {
	for w := range strings.SplitSeq(list, ";") {
		if w == "" {
			continue
		}
		s.any = append(s.any, strings.Fields(w))
	}
	slices.SortStableFunc(s.any, func(a, b []string) int { return len(b) - len(a) })
	return s
}

func (all *asking) add(about About, words []string) error {
	f := form{about: about}
	for n, w := range words {
		s := step{}
		if strings.HasPrefix(w, "[") != strings.HasSuffix(w, "]") {
			return fmt.Errorf("%q: each word that may be left out stands in brackets of its own", w)
		}
		switch bare := strings.Trim(w, "[]"); {
		case w == "?" && n == len(words)-1:
			f.asked = true
			continue
		case w == "{tell}" && n == 0:
			f.told = true
			continue
		case slices.Contains(readers, bare):
			s.slot = bare
			if bare == "{place}" {
				s.any = slices.Concat(all.words["{seat}"].any, all.words["{seats}"].any)
			}
			if bare == "{mealname}" {
				s.any = all.words["{meals}"].any
			}
		case strings.HasPrefix(bare, "{"):
			named, ok := all.words[bare]
			if bare == "{spot}" { // in other tables, what table.csv has
				ok = true
			}
			if !ok {
				return fmt.Errorf("no slot %s above", bare)
			}
			if bare == "{spot}" {
				s.slot = bare
			}
			s.any, s.here = named.any, bare == "{left}" || bare == "{got}"
		default:
			s.any = [][]string{{bare}}
		}
		s.opt = strings.HasPrefix(w, "[")
		f.limit = f.limit || s.slot == "{limit}" && s.opt
		f.calls = f.calls || s.slot == "{called}"
		f.ill = f.ill || n == 0 && s.slot == "{illness}"
		f.timer = f.timer || strings.HasPrefix(w, "timer")
		all.learn(s)
		f.steps = append(f.steps, s)
	}
	for first := range firstWords(f.steps) {
		all.forms[first] = append(all.forms[first], f)
	}
	return nil
}

// learn notes the words of a step.
func (all *asking) learn(s step) {
	for _, list := range s.any {
		for _, w := range list {
			all.known[w] = true
		}
	}
}

// firstWords are the words that a form may begin with; "" for an amount or a food.
func firstWords(steps []step) map[string]bool {
	first := map[string]bool{}
	for _, s := range steps {
		if s.slot != "" && s.any == nil || s.slot == "{place}" { // "2B" begins with no word
			first[""] = true
		}
		for _, w := range s.any {
			first[w[0]] = true
		}
		if !s.opt {
			break
		}
	}
	return first
}

// slot gives how many tokens the words of a slot of the table take at i.
func (p *parser) slot(name string, i int) int { return p.spelt(questions().words[name], i) }

// spelt gives how many tokens the step's words take at i; 0 where none of them
// stands there.
func (p *parser) spelt(s step, i int) int {
	if i >= p.end || p.t[i].sort == mark {
		return 0
	}
	first := p.t[i].w
	if p.t[i].sort == digit { // 86, and 4 for "for"
		first = p.t[i].raw
	}
	for _, w := range s.any {
		if first == w[0] && p.spells(i, w) {
			return len(w)
		}
	}
	return 0
}
