package language

import (
	"slices"
	"strings"

	"scullion/pantry/measure"
)

// parser goes through one message.
type parser struct {
	text  string
	t     []token
	lex   [][]phrase // what words.csv has for each token, longest first
	mend  []bool     // the token may be a slip of a word for an act, and is read as that
	start int        // of the sentence being read
	end   int        // tokens of the sentence being read end here
	place string
	foods Foods
	cooks []string
	wrong string
	after bool     // an amount is read that stands behind its food
	words []string // room for known
	has   uint64   // bits of the classes whose words the sentence has

	out  Reading
	open *Statement // an act whose list goes on: "for the stew I used:"
}

// Read reads a message.
func (r *Reader) Read(text string) Reading {
	p := r.parser(text)
	if p.teach() {
		return p.out
	}
	for i := 0; i < len(p.t); {
		if p.breaks(i) {
			i++
			continue
		}
		p.start, p.end = i, p.sentenceEnd(i)
		p.has = 0
		for k := i; k < p.end; k++ {
			for _, ph := range p.lex[k] {
				p.has |= ph.bit
			}
		}
		p.sentence(i)
		i = p.end
	}
	p.out.Wrong = p.wrong
	if len(p.out.Statements) == 0 && p.out.Question == nil && p.out.Undo == 0 && p.out.Amend == nil && p.out.Again == nil {
		p.calls()
	}
	return p.out
}

func (r *Reader) parser(text string) *parser {
	text = visible(text)
	p := &parser{text: text, t: layout(tokens(text)), place: r.Place, foods: r.Foods, cooks: r.Cooks}
	p.tag()
	return p
}

// tag looks every word up, mending slips and spoken marks.
func (p *parser) tag() {
	l := words()
	p.lex = make([][]phrase, len(p.t))
	p.mend = make([]bool, len(p.t))
	p.end = len(p.t)
	for i := range p.t {
		t := &p.t[i]
		if t.sort == digit { // 86, and 4 for "for"
			p.lex[i] = l.first[t.raw]
		}
		if t.sort != word {
			continue
		}
		if s, ok := l.slips[t.w]; ok {
			t.w = s
		}
		if !l.known[t.w] && !p.known(i, 1) && measure.DefaultUnits().Find(t.w, p.place) == nil {
			if m := l.mend(t.w); m != "" {
				t.w, p.mend[i] = m, true
			}
		}
		p.lex[i] = l.first[t.w]
	}
	for i := range p.t {
		if w, m := p.class(i, "mark"); m > 0 {
			p.t[i].sort, p.t[i].w = mark, w.value
			for k := 1; k < m; k++ {
				p.t[i+k].sort, p.t[i+k].w = mark, w.value
			}
		}
	}
	p.quotes()
}

// quotes makes what stands in quotation marks one unreadable mark: it is
// somebody else's words.
func (p *parser) quotes() {
	open := -1
	for i := range p.t {
		if p.t[i].sort != mark || p.t[i].w != `"` {
			continue
		}
		if open < 0 {
			open = i
			continue
		}
		for k := open; k <= i; k++ {
			p.t[k].sort, p.t[k].w, p.lex[k] = mark, `"`, nil
		}
		open = -1
	}
}

// breaks says whether the token ends a sentence.
func (p *parser) breaks(i int) bool {
	return p.t[i].sort == mark && strings.Contains(".?;", p.t[i].w) && p.t[i].w != ""
}

func (p *parser) sentenceEnd(i int) int {
	for i < len(p.t) && !p.breaks(i) {
		i++
	}
	return i
}

// mostClauses bounds the work on one sentence.
const mostClauses = 60

// sentence reads the clauses of one sentence.
func (p *parser) sentence(i int) {
	asked := p.end < len(p.t) && p.t[p.end].w == "?"
	if p.has&bitOf("habit") != 0 && p.anywhere(i, "habit") {
		return
	}
	said := len(p.out.Statements)
	for n := 0; i < p.end; n++ {
		if asked && p.asksOn(i) {
			break // "used 200g butter, is that ok?"
		}
		if _, m := p.class(p.idle(i), "ask"); m == 0 {
			said = len(p.out.Statements)
		}
		if n == mostClauses {
			p.out.Statements, p.wrong = nil, "that is too much in one sentence"
			return
		}
		next := p.clause(i)
		if next <= i {
			break
		}
		i = next
	}
	if asked && p.out.Question == nil { // "cem used the cream?" is not news
		p.out.Statements = p.out.Statements[:said]
		p.open = nil
	}
}

// asksOn says whether what is left of the sentence is a question to people,
// behind something that was said.
func (p *parser) asksOn(i int) bool {
	j := p.idle(i)
	if _, m := p.class(j, "ask"); m == 0 || j == 0 || !p.mark(j-1, ",") {
		return false
	}
	return p.question(j) == 0
}

func (p *parser) anywhere(i int, c class) bool {
	for ; i < p.end; i++ {
		if _, m := p.class(i, "share"); m > 1 { // "every last bit of"
			i += m - 1
			continue
		}
		if ph, m := p.class(i, c); m > 0 && !(len(ph.words) == 1 && p.known(i, 1)) {
			return true
		}
	}
	return false
}

// clause reads one clause at i and gives where the next may begin; p.end where
// the rest of the sentence is not for us.
func (p *parser) clause(i int) int {
	first, wrong := i == p.start, p.wrong
	if first {
		if j := p.correction(i); j > 0 { // "sorry, 200g"
			return j
		}
	}
	if first {
		if j := p.again(i); j > 0 { // "another 40g"
			return j
		}
	}
	i = p.idle(i)
	if i >= p.end {
		return p.end
	}
	if j := p.count(i); j > 0 {
		return j
	}
	if first { // within a sentence it would mend what the sentence itself says
		if j := p.correction(i); j > 0 {
			return j
		}
	}
	if j := p.question(i); j > 0 {
		return j
	}
	if _, m := p.class(i, "ask"); m > 0 && !p.foodAt(i) {
		return p.end
	}
	if p.open == nil {
		if j := p.verbless(i); j > 0 {
			return j
		}
	}
	p.wrong = wrong // a number is only wrong where an act speaks of it
	v, k, n := p.verb(i)
	if n == 0 {
		return p.list(i)
	}
	p.out.Acted = true
	return p.act(i, k, n, v)
}

// idle passes pauses, joins and commas before a clause.
func (p *parser) idle(i int) int {
	for i < p.end {
		if p.mark(i, ",:-") {
			i++
		} else if ph, m := p.longest(i, "pause", "join", "but"); m > 0 && ph.words[0] != "with" && !p.foodAt(i) {
			i += m
		} else {
			return i
		}
	}
	return i
}

// verb finds the word for an act in the clause at i: its row, where it stands
// and how long it is. A longer row that says that it did not happen hides it.
func (p *parser) verb(i int) (v phrase, at, n int) {
	for k := i; k < p.end; k++ {
		if k > i && p.mark(k, ",") && p.newClause(k+1) {
			return v, 0, 0
		}
		v, n := p.longest(k, "did", "claim", "release", "unused", "going", "do", "not", "if", "could", "about", "share")
		if n == 0 && k > i && (p.word(k, "is") || p.word(k, "are")) {
			if p.word(k+1, "in") || p.word(k+1, "into") { // "the last of the walnuts are in the brownies"
				return phrase{words: []string{"went"}, class: "going", value: stands}, k, 1
			}
		}
		if n == 0 {
			continue
		}
		if k > i && v.class == "did" && (p.prepares(k) || p.mend[k] && p.foodBefore(i, k)) {
			continue
		}
		switch v.class {
		case "do":
			if k != i && !p.hadTo(k) {
				continue
			}
			return v, k, n
		case "did", "claim", "release", "unused", "going":
			if p.knownLength(k) > n {
				continue
			}
			return v, k, n
		case "not", "if", "could":
			if _, m := p.class(k, "unused"); m > 0 {
				continue
			}
			return v, k, n
		default:
			k += n - 1
		}
	}
	return v, 0, 0
}

// foodBefore says whether a food's name begins between i and k: then a word
// that is no act as it stands, such as "juice", most likely goes with it.
func (p *parser) foodBefore(i, k int) bool {
	for ; i < k; i++ {
		if p.foodAt(i) {
			return true
		}
	}
	return false
}

// prepares says whether a word such as "trimmed" at k tells of the food behind
// an amount: "200g trimmed leeks".
func (p *parser) prepares(k int) bool {
	if p.t[k-1].sort == digit {
		return true
	}
	u, _ := p.unit(k - 1)
	return u != nil
}

// newClause says whether a clause of its own begins at i: a subject, if any,
// and an act.
func (p *parser) newClause(i int) bool {
	i = p.idle(i)
	for {
		if _, m := p.longest(i, "i", "pause"); m > 0 {
			if _, v := p.longest(i, "claim", "release", "unused", "none"); v > m {
				return true
			}
			i += m
			continue
		}
		break
	}
	if _, m := p.longest(i, "did", "claim", "release", "unused", "none", "undo"); m > 0 && p.knownLength(i) <= m {
		return true
	}
	if _, m := p.class(i, "ask"); m > 0 {
		return true
	}
	if _, m := p.longest(i+1, "did", "claim", "release"); m > 0 && p.is(i, word) && !p.foodAt(i) && p.lex[i] == nil { // a name
		return true
	}
	return false
}

// list reads items without an act: they go on with the act before.
func (p *parser) list(i int) int {
	if p.open == nil {
		return p.nextClause(i)
	}
	if !p.startsAmount(i) && !(p.open.Act == "receive" && p.foodAt(i)) && !(p.word(i, "a") || p.word(i, "an")) {
		p.open = nil
		return p.nextClause(i)
	}
	s := *p.open
	s.Items = nil
	j := p.items(&s, i)
	if j == i || len(s.Items) == 0 {
		return p.nextClause(i)
	}
	s.Items = append(slices.Clone(p.open.Items), s.Items...)
	if n := len(p.out.Statements); n > 0 && len(p.open.Items) > 0 {
		p.out.Statements[n-1] = s
	} else {
		p.out.Statements = append(p.out.Statements, s)
	}
	p.open = &s
	return j
}

// verbless reads a use without a word for it: "200g leek in the tart", and nothing
// else in the sentence. What is "for" a dish may be a wish, what is in "a" dish
// is talk. 0 where it is no such thing.
func (p *parser) verbless(i int) int {
	if p.end < len(p.t) && p.t[p.end].w == "?" {
		return 0
	}
	wrong := p.wrong
	s := Statement{Act: "use"}
	j := p.items(&s, i)
	p.wrong = wrong
	rest := p.skip(p.skip(p.tooBehind(j), "pause"), "share")
	if len(s.Items) == 0 || s.Dish == "" || rest < p.end || p.vaguely(i, j) {
		return 0
	}
	for _, it := range s.Items {
		if it.Food == "" || it.Amount.How == Unsaid {
			return 0
		}
	}
	if u := measure.DefaultUnits().Find(s.Dish, p.place); len(s.Items) == 1 && u != nil && (u.Sort == measure.Mass || u.Sort == measure.Volume) {
		it := s.Items[0] // "100g butter in tbsp"
		p.out.Question = &Question{About: AboutConvert, Food: it.Food, Words: it.Words, Amount: it.Amount, To: u}
		return p.end
	}
	switch {
	case binned(s.Dish):
		s.Act, s.Dish = "bin", ""
		clearDishes(s.Items)
	case IsPlace(s.Dish):
		return 0
	}
	p.say(s)
	return p.end
}

// vaguely says whether the dish between i and j is no dish of ours: "a" dish,
// or one that the food is only for.
func (p *parser) vaguely(i, j int) bool {
	for k := i + 1; k < j; k++ {
		w, m := p.class(k, "prep")
		if m == 0 || p.startsAmount(k+m) {
			continue
		}
		return p.word(k+m, "a") || p.word(k+m, "an") || p.word(k+m, "every") || p.word(k+m, "each") || p.word(k+m, "one") || w.words[0] == "for" || w.words[0] == "to" || w.words[0] == "through"
	}
	return true
}

// nextClause passes what cannot be read, to the next comma or turn.
func (p *parser) nextClause(i int) int {
	for i++; i < p.end; i++ {
		if p.mark(i, ",:-") {
			return i + 1
		}
		if _, m := p.longest(i, "join", "but"); m > 0 && p.newClause(i+m) {
			return i
		}
	}
	return p.end
}
