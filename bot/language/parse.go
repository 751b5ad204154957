package language

import (
	"slices"
	"strings"
)

// parser goes through one message.
type parser struct {
	strange  int  // words of a plan that say nothing of it
	whole    bool // as of the table of forms that is held against it
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
	asked    bool     // a claim of the sentence is asked for: "can you save me"
	sourced  bool     // what was got came from outside
	joining  bool     // items are read that go on from what was said before, which may have come in
	behindTo int      // a list whose amounts stand behind their foods is read up to here
	after    bool     // an amount is read that stands behind its food
	words    []string // room for known
	wished   [][2]int // tokens that wishes about timers take
	has      bits     // bits of the classes whose words the sentence has

	out  Reading
	open *Statement // an act whose list goes on: "for the stew I used:"
}

// Read reads a message.
func (r *Reader) Read(text string) Reading {
	p := r.parser(goesInto(leaveOut(r.inParts(text))))
	if p.teach() {
		return p.out
	}
	for i := 0; i < len(p.t); {
		if p.breaks(i) {
			i++
			continue
		}
		p.start, p.end = i, p.sentenceEnd(i)
		if p.onlyOpens(i) { // "typo!! 160g"
			for p.t[p.end].w = ","; p.end+1 < len(p.t) && p.breaks(p.end+1); p.end++ {
				p.t[p.end+1].w = ","
			}
			p.end = p.sentenceEnd(p.end + 1)
		}
		if p.classesOf(i, p.end); p.morning(i) { // "tell us at 9 what must go today"
		} else if p.has.has("timer", "call") {
			p.timers(i)
		} else {
			p.sentence(i)
		}
		i = p.end
	}
	p.asksTimers()
	p.out.Wrong, p.out.Unpriced, p.out.Unread = p.wrong, p.unpriced(), p.unread()
	if p.out.Timer == nil && len(p.out.Statements) == 0 && len(p.out.Questions) == 0 && p.out.Undo == 0 && p.out.Amend == nil && p.out.Again == nil {
		p.calls()
	}
	return p.out
}

func (r *Reader) parser(text string) *parser {
	p := r.asTyped(text)
	if p.begins("repair") && p.newFood() == 0 {
		p.repair()
	}
	return p
}

// asTyped is parser with what was taken back in the same breath still in it.
func (r *Reader) asTyped(text string) *parser {
	text = datesWritten(visible(text), r.Place)
	p := &parser{text: text, t: cans(layout(tokens(text))), place: r.Place, foods: r.Foods, cooks: r.Cooks}
	p.hear()
	p.tag()
	return p
}

// classesOf notes which classes the words from i to k are of.
func (p *parser) classesOf(i, k int) {
	p.has = bits{}
	for ; i < k; i++ {
		for _, ph := range p.lex[i] {
			p.has = p.has.with(ph.bit)
		}
	}
}

// onlyOpens says whether a sentence only opens a correction, and the next one is
// the amount that was meant.
func (p *parser) onlyOpens(i int) bool {
	_, m := p.class(i, "amend")
	if m == 0 || i+m != p.end || p.end >= len(p.t) || p.t[p.end].w != "." {
		return false
	}
	next := p.end
	for next < len(p.t) && p.breaks(next) {
		next++
	}
	end := p.end
	defer func() { p.end = end }()
	p.end = p.sentenceEnd(next)
	_, n := p.plain(next)
	return n > 0 && next+n == p.end
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
	if k := p.asksBehind(i); asked && k > 0 { // "that's 150g spinach in the curry - any left?"
		end := p.end
		p.end = k
		p.sentence(i)
		p.end, i = end, k+1
	}
	p.asked = false
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
		if p.asked && len(p.out.Statements) > said { // "would you mind saving me 2 lemons?"
			return
		}
		p.out.Statements = p.out.Statements[:said]
		p.open = nil
	}
}

// asksBehind is the mark behind which a question about stock follows something
// that was said; 0 where there is none.
func (p *parser) asksBehind(i int) int {
	for j := i + 1; j < p.end; j++ {
		if p.mark(j, ",-") && (p.word(j+1, "any") || p.word(j+1, "how") || p.word(j+1, "whats") || p.word(j+1, "what")) {
			return j
		}
	}
	return 0
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

// clause reads one clause at i and gives where the next may begin; p.end where
// the rest of the sentence is not for us.
func (p *parser) clause(i int) int {
	first, wrong := i == p.start, p.wrong
	if first {
		if j := p.stocktake(i); j > 0 {
			return j
		}
		if j := p.correction(i); j > 0 { // "sorry, 200g"
			return j
		}
	}
	asked := len(p.out.Questions)
	if j := p.question(i); j > 0 { // before a stocktake: "have we run out of butter"
		if _, m := p.class(p.idle(i), "share"); m < 3 || j >= p.end { // "what was left of the cream went in the posset"
			return j
		}
		p.out.Questions = p.out.Questions[:asked]
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
	if j := p.keeps(i); j > 0 { // "opened the cream"
		return j
	}
	if j := p.bothIn(i); j > 0 {
		return j
	}
	if j := p.count(i); j > 0 {
		return j
	}
	if first { // within a sentence it would mend what the sentence itself says
		if j := p.correction(i); j > 0 {
			return j
		}
	}
	if k := p.skip(i, "request"); k > i {
		if _, m := p.class(k, "claim"); m > 0 { // "can you save me 2 lemons" asks for them
			p.asked, i = true, k
		}
	}
	if ph, m := p.longest(i, "ask", "share", "prep"); m > 0 && ph.class == "ask" && !p.foodAt(i) {
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
		if k := p.skip(i, "i"); p.missed(k) {
			if j := p.verbless(k + 1); j > 0 {
				return j
			}
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

// newClause says whether a clause of its own begins at i: a subject, if any,
// and an act.
func (p *parser) newClause(i int) bool {
	i = p.idle(i)
	if p.toppedTailed(&Item{}, i) > 0 {
		return false
	}
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
	if v, m := p.class(i, "keep"); m > 0 && v.value != "in" && v.value != "out" && p.knownLength(i) <= m && (p.startsAmount(i+m) || p.foodAt(p.skip(i+m, "det")) || p.lexHas(i+m, i+m+1, "ref")) {
		return true // "froze 200g of it"
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
	if _, m := p.class(i, "spoilt"); m > 0 && p.over(i+m) { // "90g mushrooms, slimy", and the next line
		return i + m
	}
	line := i == p.start && p.is(i, word) && i > 0 && p.t[i-1].raw == "\n" // "carrots 700g", in a line of its own
	if !p.startsAmount(i) && !p.trimmed(i) && !((p.open.Act == "receive" || p.open.Act == "count") && p.foodAt(i)) && !(p.word(i, "a") || p.word(i, "an")) && !line {
		p.open = nil
		return p.nextClause(i)
	}
	s := *p.open
	s.Items = nil
	j := p.items(&s, i)
	for x := range s.Items {
		shareAlso(append(slices.Clone(p.open.Items), s.Items[:x]...), &s.Items[x])
	}
	if j == i || len(s.Items) == 0 || line && unsaid(s.Items) && !(s.Act == "receive" && p.foodAt(i)) {
		return p.nextClause(i)
	}
	if o := p.open.Items; len(o) == 1 && len(s.Items) == 1 && o[0].Amount.How == Unsaid && s.Items[0].Ref && s.Items[0].Amount.How != Unsaid { // "lemons showed up, 15 of them"
		s.Items[0].Food, s.Items[0].Words, s.Items[0].Ref = o[0].Food, o[0].Words, false
		p.open.Items = nil
		p.out.Statements = p.out.Statements[:len(p.out.Statements)-1]
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
		if p.word(i, "so") && p.newClause(i+1) { // "the parsley's gone yellow so I've chucked it out"
			return i
		}
	}
	return p.end
}
