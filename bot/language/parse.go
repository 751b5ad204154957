package language

import (
	"slices"
	"strings"

	"scullion/pantry/measure"
)

// parser goes through one message.
type parser struct {
	text     string
	t        []token
	lex      [][]*phrase // what words.csv has for each token, longest first
	mend     []bool      // the token may be a slip of a word for an act, and is read as that
	start    int         // of the sentence being read
	from     int         // of the clause being read
	end      int         // tokens of the sentence being read end here
	place    string
	foods    Foods
	cooks    []string
	wrong    string
	between  bool     // "between 80 and 100"
	asking   Question // room for match
	amending Amend    // room for correction
	long     []int8   // of each token, one more than the length of the food's name there; 0 not looked up yet
	after    bool     // an amount is read that stands behind its food
	words    []string // room for known
	has      bits     // bits of the classes whose words the sentence has

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
		p.has = bits{}
		for k := i; k < p.end; k++ {
			for _, ph := range p.lex[k] {
				p.has = p.has.with(ph.bit)
			}
		}
		p.sentence(i)
		i = p.end
	}
	p.out.Wrong = p.wrong
	if len(p.out.Statements) == 0 && len(p.out.Questions) == 0 && p.out.Undo == 0 && p.out.Amend == nil && p.out.Again == nil {
		p.calls()
	}
	return p.out
}

func (r *Reader) parser(text string) *parser {
	text = visible(text)
	p := &parser{text: text, t: layout(tokens(text)), place: r.Place, foods: r.Foods, cooks: r.Cooks}
	p.hear()
	p.tag()
	if p.begins("repair") {
		p.repair()
	}
	return p
}

// tag looks every word up, mending slips of the words for acts, and spoken marks.
func (p *parser) tag() {
	l := words()
	p.lex = make([][]*phrase, len(p.t))
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
		if !l.known[t.w] && !p.known(i, 1) && measure.DefaultUnits().Find(t.w, p.place) == nil {
			if m := l.mend(t.w); m != "" {
				t.w, p.mend[i] = m, true
			} else if m := l.unswapped(t.w); m != "" {
				t.w = m
			}
		}
		p.lex[i] = l.first[t.w]
	}
	p.look()
	p.long = nil
	p.spokenMarks()
	p.quotes()
}

// spokenMarks makes marks of "comma", "full stop".
func (p *parser) spokenMarks() {
	for i := range p.t {
		w, m := p.class(i, "mark")
		for k := i; k < i+m; k++ {
			p.t[k].sort, p.t[k].w, p.lex[k] = mark, w.value, nil
		}
	}
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
	if i = p.habits(i); i >= p.end || p.toDo(i) {
		return
	}
	said, asks := len(p.out.Statements), len(p.out.Questions)
	for n := 0; i < p.end; n++ {
		if asked && p.asksOn(i) { // "used 200g butter, is that ok?"
			said = len(p.out.Statements)
			break
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
	if asked && len(p.out.Questions) == asks { // "cem used the cream?" is not news
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
	before := len(p.out.Questions)
	n := p.question(j)
	p.out.Questions = p.out.Questions[:before]
	return n == 0
}

// habits passes what is a story of other days and not of now: it gives where a
// clause of today begins ("usually it's 2 but I put 3"), p.end where none does.
// Where it only tells what somebody said ("recipe says 250g, I used 300g"), the
// part up to the comma is passed.
func (p *parser) habits(i int) int {
	if !p.has.has("habit", "prep") {
		return i
	}
	for j := i; j < p.end; j++ {
		if ph, m := p.longest(j, "share", "pause"); m > 1 && ph.class != "habit" { // "every last bit of"
			j += m - 1
			continue
		}
		if p.word(j, "in") && p.isYear(j+1) { // "in 2019 we used 4kg butter"
			return p.end
		}
		ph, m := p.class(j, "habit")
		if m == 0 || len(ph.words) == 1 && p.known(j, 1) {
			continue
		}
		if j > i && p.lexHas(j-1, j, "spoilt") { // "expired yesterday"
			continue
		}
		from := j
		for ; j < p.end; j++ {
			_, but := p.class(j, "but")
			if but > 0 && !p.word(j, "then") || ph.value == "part" && p.mark(j, ",-") {
				break
			}
		}
		if j < p.end && p.newClause(j+1) {
			return p.habits(j + 1)
		}
		if ph.value == "part" && from > i && p.partBefore(i, from) {
			p.end = from
			return i
		}
		return p.end
	}
	return i
}

// toDo says whether a sentence is a list of what is still to be done, or of what
// was ordered: "prep list: 2kg leeks peeled, 1kg carrots diced".
func (p *parser) toDo(i int) bool {
	if !p.has.has("todo") {
		return false
	}
	head := false
	for j := i; j < min(p.end, i+6) && !p.startsAmount(j); j++ {
		if _, m := p.class(j, "did"); m > 0 { // "order's in: 2kg leeks"
			return false
		}
		if _, m := p.class(j, "todo"); m > 0 {
			head = true
		}
		if p.mark(j, ":-") {
			p.open = nil
			return head
		}
	}
	return false
}

func (p *parser) isYear(i int) bool {
	return p.is(i, digit) && len(p.t[i].raw) == 4 && p.t[i].val.Den == 1 && p.t[i].val.Num >= 1900 && p.t[i].val.Num < 2100 && p.bare(i+1)
}

// partBefore says whether a comma stands between i and k: what comes before it
// is a part of its own.
func (p *parser) partBefore(i, k int) bool {
	for ; i < k; i++ {
		if p.mark(i, ",-") {
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
	if j := p.question(i); j > 0 { // before a stocktake: "have we run out of butter"
		return j
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
	if _, m := p.class(i, "ask"); m > 0 && !p.foodAt(i) {
		if _, c := p.longest(i, "claim", "release"); c <= m { // "can you save me 2 lemons" asks for them
			return p.anew(i + m)
		}
	}
	if p.open == nil || p.heading(&Statement{}, i) > i || i == p.start && p.mark(i+p.knownLength(i), ":") {
		if j := p.verbless(i); j > 0 {
			return j
		}
		if j := p.title(i); j > 0 {
			return j
		}
	}
	p.wrong = wrong // a number is only wrong where an act speaks of it
	v, k, n := p.verb(i)
	if n == 0 {
		return p.list(i)
	}
	p.out.Acted, p.from = true, i
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
func (p *parser) verb(i int) (v *phrase, at, n int) {
	for k := i; k < p.end; k++ {
		if k > i && p.mark(k, ",") && p.newClause(k+1) && !p.bareVerb(k+1) {
			return v, 0, 0
		}
		v, n := p.longest(k, "did", "claim", "release", "unused", "going", "do", "not", "if", "could", "about", "share")
		if n == 0 && k > i && (p.word(k, "is") || p.word(k, "are")) {
			if p.word(k+1, "in") || p.word(k+1, "into") { // "the last of the walnuts are in the brownies"
				return standing, k, 1
			}
		}
		if n == 0 {
			continue
		}
		if _, m := p.class(k, "pause"); m > n { // "can't believe I"
			k += m - 1
			continue
		}
		if k > i && v.class == "did" && (p.prepares(k) && !p.endsItem(k+n) || p.mend[k] && p.foodBefore(i, k)) {
			continue
		}
		if u, m := p.class(k+n, "did"); k > i && m > 0 && (p.word(k, "got") || p.word(k, "was") || p.word(k, "were")) && u.value == "use" { // "got roasted"
			return &phrase{words: u.words, class: "going", value: "use"}, k, n + m
		}
		if v.value == had && !p.ownsAt(k) || v.value == "use said" && !p.startsAmount(p.lead(k+n)) {
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

// bareVerb says whether a clause at i has no food of its own: "60g cheddar,
// binned", "200g mushrooms, fried for the toasts".
func (p *parser) bareVerb(i int) bool {
	i = p.skip(p.idle(i), "i")
	_, m := p.class(i, "did")
	if m == 0 {
		return false
	}
	_, prep := p.class(i+m, "prep")
	return prep > 0 || p.over(i+m)
}

// had is the value of "had", which is an act only behind a cook or a dish.
const had = "use had"

// ownsAt says whether "had" at k is an act: "dee's had 4 eggs", "the pie's had
// 650g of the thighs".
func (p *parser) ownsAt(k int) bool {
	if k == 0 || k == p.start || !p.startsAmount(k+1) && !p.isShare(k+1) {
		return false
	}
	_, dish := p.class(k-1, "dish")
	return dish > 0 || p.isCook(k-1) || p.owner(k-1) != ""
}

// owner is the cook or dish of "dee's", without the s; "" where there is none.
func (p *parser) owner(i int) string {
	if !p.is(i, word) || !strings.HasSuffix(p.t[i].w, "s") || !strings.ContainsAny(p.t[i].raw, "'’‘`") {
		return ""
	}
	return strings.TrimSuffix(p.t[i].w, "s")
}

// standing is the row of "is" and "are" before a dish.
var standing = &phrase{words: []string{"went"}, class: "going", value: stands}

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
	if _, m := p.longest(i+1, "did", "claim", "release"); m > 0 && p.unheard(i) && !p.foodAt(i) { // a name
		return true
	}
	return false
}

// list reads items without an act: they go on with the act before.
func (p *parser) list(i int) int {
	if p.open == nil {
		return p.nextClause(i)
	}
	line := i == p.start && p.is(i, word) && i > 0 && p.t[i-1].raw == "\n" // "carrots 700g", in a line of its own
	if !p.startsAmount(i) && !(p.open.Act == "receive" && p.foodAt(i)) && !(p.word(i, "a") || p.word(i, "an")) && !line {
		p.open = nil
		return p.nextClause(i)
	}
	s := *p.open
	s.Items = nil
	j := p.items(&s, i)
	if j == i || len(s.Items) == 0 || line && unsaid(s.Items) && !(s.Act == "receive" && p.foodAt(i)) {
		return p.nextClause(i)
	}
	if s.Act == "bin" && hasDish(s.Items) { // "60g spinach binned, 100g in the omelette"
		s.Act, s.Verb = "use", ""
		p.say(s)
		return j
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
