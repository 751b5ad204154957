package language

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"fmt"
	"io"
	"strings"
	"sync"

	"scullion/pantry/measure"
)

// form is one row of questions.csv.
type form struct {
	about About
	words []string
	asked bool // only with a question mark
}

//go:embed questions.csv
var questionsCSV []byte

// forms are the rows by their first word; "{food}" rows stand under "".
var forms = sync.OnceValue(func() map[string][]form {
	f, err := readQuestions("questions.csv", bytes.NewReader(questionsCSV))
	if err != nil {
		panic(err) // the embedded table is checked by a test
	}
	return f
})

func readQuestions(name string, r io.Reader) (map[string][]form, error) {
	c := csv.NewReader(r)
	c.Comment, c.FieldsPerRecord = '#', 2
	rows, err := c.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	all := map[string][]form{}
	seen := map[string]bool{}
	for i, row := range rows {
		f := form{about: About(row[0]), words: strings.Fields(row[1])}
		switch {
		case i == 0:
			continue
		case seen[row[1]]:
			return nil, fmt.Errorf("%s: row %d: %q stands twice", name, i+1, row[1])
		case len(f.words) == 0:
			return nil, fmt.Errorf("%s: row %d: no words", name, i+1)
		}
		seen[row[1]] = true
		if last := len(f.words) - 1; f.words[last] == "?" {
			f.asked, f.words = true, f.words[:last]
		}
		first := f.words[0]
		if first == "{food}" || first == "{amount}" {
			first = ""
		}
		all[first] = append(all[first], f)
	}
	return all, nil
}

// question reads a question at i; 0 where there is none.
func (p *parser) question(i int) int {
	if !p.is(i, word) && !p.is(i, digit) {
		return 0
	}
	asked := p.end < len(p.t) && p.t[p.end].w == "?"
	for _, f := range forms()[p.t[i].w] {
		if p.is(i, digit) { // the forms that begin with an amount come below
			break
		}
		if (f.about == AboutHelp || f.about == AboutMore) && (p.start > 0 || p.end < len(p.t)-1) {
			continue // "Help! I'm trapped"
		}
		if q := p.match(f, i, asked); q != nil {
			return p.asks(q)
		}
	}
	if asked {
		for _, f := range forms()[""] {
			if q := p.match(f, i, asked); q != nil {
				return p.asks(q)
			}
		}
	}
	return 0
}

func (p *parser) asks(q *Question) int {
	q.Minutes = p.minutes()
	q.Without = p.without()
	p.out.Question = q
	return p.end
}

// match holds a form against the words from i.
func (p *parser) match(f form, i int, asked bool) *Question {
	if f.asked && !asked {
		return nil
	}
	q := &Question{About: f.about, Plain: f.words[0] == "{food}"}
	j := i
	for n, w := range f.words {
		j = p.polite(j, w)
		switch {
		case w == "*":
			if p.word(j, "once") && p.isState(j+1) {
				q.State, j = p.t[j+1].w, j+2
			}
			if !p.trails(j) {
				return nil
			}
			return q
		case w == "{food}":
			it := Item{}
			k := j
			if a, m := p.amount(j); m > 0 {
				q.Amount, k = a, j+m
			}
			k = p.skip(p.skip(k, "some"), "det")
			if p.word(k, "any") || p.word(k, "still") {
				k++
			}
			if p.isState(k) && !p.foodAt(k) {
				q.State, k = p.t[k].w, k+1
			} else if _, m := p.class(k, "did"); m > 0 && !p.foodAt(k) { // "roasted beetroot"
				q.State, k = p.t[k].w, k+m
			} else if p.is(k, word) && p.dishWord(k) {
				k++
			}
			e := p.foodUpTo(&it, k, next(f.words, n))
			if e == k || it.Food == "" {
				return nil
			}
			q.Food, q.Words, q.Off, j = it.Food, it.Words, it.Off, e
			if p.isState(e-1) && len(it.Words) > 1 { // "cassava raw"
				q.State, q.Words = p.t[e-1].w, it.Words[:len(it.Words)-1]
				q.Food = strings.Join(q.Words, " ")
			}
		case w == "{amount}":
			a, m := p.amount(j)
			if m == 0 || a.How != Measured || a.Vague() {
				return nil
			}
			q.Amount, j = a, j+m
		case w == "{unit}":
			u, m := p.unit(j)
			if m == 0 || u.Sort != measure.Mass && u.Sort != measure.Volume {
				return nil
			}
			q.To, j = u, j+m
		case w == "{allergen}":
			_, m := p.class(j, "allergen")
			if m == 0 {
				return nil
			}
			j += m
		case !p.word(j, w):
			return nil
		default:
			j++
		}
	}
	if f.about == AboutConvert && (q.Amount.How != Measured && q.Amount.How != Pieces || q.Amount.Article && q.To == nil && q.Amount.Part == "") {
		return nil // "how much is the salmon?" asks the price
	}
	for j < p.end {
		if p.isState(j) && q.Food != "" { // "can you eat kidney beans raw"
			q.State, j = p.t[j].w, j+1
		} else if p.word(j, "once") && p.isState(j+1) {
			q.State, j = p.t[j+1].w, j+2
		} else if p.mark(j, ",") || p.word(j, "left") || p.word(j, "free") || p.word(j, "there") || p.word(j, "now") || p.word(j, "today") || p.word(j, "got") {
			j++
		} else if _, m := p.class(j, "pause"); m > 0 {
			j += m
		} else if _, m := p.class(j, "stop"); m > 0 && !q.Plain && q.Food != "" && f.about != AboutHelp {
			j += m
		} else if _, m := p.dish(j); m > 0 && q.Food != "" && j+m == p.end { // "left for the garnish"
			j += m
		} else {
			return nil
		}
	}
	return q
}

// isState says whether the word tells in what state a food is.
func (p *parser) isState(i int) bool {
	if !p.is(i, word) {
		return false
	}
	switch p.t[i].w {
	case "raw", "uncooked", "cooked", "boiled", "fried", "roasted", "baked", "leftover", "opened", "open", "reheated":
		return true
	}
	return false
}

// trails says whether the rest of the sentence is only time, kit and manners.
func (p *parser) trails(j int) bool {
	for j < p.end {
		if p.t[j].sort == mark {
			j++
			continue
		}
		if _, n := p.number(j); n > 0 {
			j += n
			continue
		}
		_, m := p.longest(j, "trail", "pause", "notfood", "stop")
		if m == 0 {
			return false
		}
		j += m
	}
	return true
}

func next(words []string, n int) string {
	if n+1 < len(words) {
		return words[n+1]
	}
	return ""
}

// foodUpTo reads a food phrase that ends before the word stop.
func (p *parser) foodUpTo(it *Item, i int, stop string) int {
	end := p.end
	for k := i + 1; stop != "" && stop != "*" && k < p.end; k++ {
		if p.word(k, stop) {
			p.end = k
			break
		}
	}
	e := p.food(it, i)
	p.end = end
	return e
}

func (p *parser) polite(i int, before string) int {
	for {
		if p.word(i, before) {
			return i
		}
		if _, m := p.class(i, "pause"); m > 0 && !p.foodAt(i) {
			i += m
		} else if p.mark(i, ",:") {
			i++
		} else {
			return i
		}
	}
}

// minutes finds "twenty minutes", "10 min" anywhere in the message; 0 none.
func (p *parser) minutes() int {
	end := p.end
	p.end = len(p.t)
	defer func() { p.end = end }()
	for i := range p.t {
		v, n := p.number(i)
		if n == 0 || v.Den == 0 {
			continue
		}
		j := i + n
		scale := int64(0)
		switch {
		case p.word(j, "min") || p.word(j, "mins") || p.word(j, "minutes") || p.word(j, "minute") || p.word(j, "m"):
			scale = 1
		case p.word(j, "h") || p.word(j, "hr") || p.word(j, "hrs") || p.word(j, "hour") || p.word(j, "hours"):
			scale = 60
		}
		if m := v.Num * scale / v.Den; scale > 0 && m > 0 && m <= 24*60 {
			return int(m)
		}
	}
	return 0
}

// without finds "no oven", "without the oven": kit that is not at hand.
func (p *parser) without() (kit []string) {
	end := p.end
	p.end = len(p.t)
	defer func() { p.end = end }()
	for i := range p.t {
		if !p.word(i, "no") && !p.word(i, "without") {
			continue
		}
		switch j := p.skip(i+1, "det"); {
		case p.word(j, "oven"), p.word(j, "grill"), p.word(j, "microwave"), p.word(j, "kettle"), p.word(j, "blender"):
			kit = append(kit, p.t[j].w)
		case p.word(j, "hob"), p.word(j, "hobs"), p.word(j, "ring"), p.word(j, "rings"), p.word(j, "stove"):
			kit = append(kit, "ring")
		}
	}
	return kit
}
