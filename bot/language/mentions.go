package language

import (
	_ "embed"
	"slices"
	"strings"
	"sync"
)

//go:embed mentions.csv
var mentionsCSV string

// mentionWords are the words of mentions.csv by the first of each phrase, longest first, with their classes.
var mentionWords = sync.OnceValue(func() map[string][]mentionRow {
	rows := map[string][]mentionRow{}
	for _, line := range strings.Split(mentionsCSV, "\n") {
		class, list, ok := strings.Cut(strings.TrimSpace(line), ",")
		if !ok || strings.HasPrefix(line, "#") || class == "class" {
			continue
		}
		for _, said := range strings.Split(list, ";") {
			said, foods, _ := strings.Cut(said, "=")
			w := strings.Fields(said)
			rows[w[0]] = append(rows[w[0]], mentionRow{w, class, strings.FieldsFunc(foods, func(r rune) bool { return r == '+' })})
		}
	}
	for _, list := range rows {
		slices.SortStableFunc(list, func(a, b mentionRow) int { return len(b.words) - len(a.words) })
	}
	return rows
})

type mentionRow struct {
	words []string
	class string
	foods []string // of class holds
}

// The ways in which foods and dishes go together that a message names, by the classes of mentions.csv.
const (
	SaysIn    = "in"
	SaysTouch = "touch"
	SaysMend  = "mend"
	SaysTalk  = "talk"
	SaysCoat  = "coat"

	SaysCoatWith = "coatwith"
	SaysMedium   = "medium"
)

// PlainName is a name without what only tells it from another: "mayo" of "normal mayo".
func PlainName(name string) string {
	list := strings.Fields(name)
	for len(list) > 1 && slices.ContainsFunc(mentionWords()[list[0]], func(row mentionRow) bool { return row.class == "plain" && len(row.words) == 1 }) {
		list = list[1:]
	}
	return strings.Join(list, " ")
}

// Mention is a food, or a dish, that a message names.
type Mention struct {
	Name    string // as typed, in lower case
	Amount  Amount // right before it; Unsaid none
	Dish    bool   // one of those that were handed in
	Known   bool   // a food that is known, or an allergen
	Out     bool   // said not to be in it: "without butter"
	Implied bool   // not named, but what is done tells it: "egg washed"
	Talk    bool   // only spoken of: "the butter is low"
	Coats   bool   // what the food before it was fried, dipped or marinated in: no dish
	Clause  int    // in which of the message's clauses it stands: a new one tells of another act
	Joined  string // the preposition, or the word that joins it, right before it: "with", "in"; "" none
}

// Mentions is what a message names, in its order, and how it says that goes together.
type Mentions struct {
	List    []Mention
	Says    map[string]bool // by the classes of mentions.csv
	Strange int             // words that tell nothing of it
}

// SpeaksOf says whether a text has a word of one of some classes of mentions.csv in it.
func SpeaksOf(text string, classes ...string) bool {
	list := smallWords(text)
	for i, w := range list {
		for _, row := range mentionWords()[w] {
			if slices.Contains(classes, row.class) && i+len(row.words) <= len(list) && slices.Equal(list[i:i+len(row.words)], row.words) {
				return true
			}
		}
	}
	return false
}

// asides joins what stands in brackets to what it stands behind.
var asides = strings.NewReplacer("(", " with ", ")", ", ", "[", " with ", "]", ", ")

// Mentions reads what foods and dishes a message names. IsDish says whether words are what a dish is called.
func (r *Reader) Mentions(text string, isDish func(string) bool) (m Mentions) {
	m.Says = map[string]bool{}
	p := r.parser(goesInto(leaveOut(asides.Replace(text))))
	p.end = len(p.t)
	out, first := false, 0 // an "out" stands before what comes; the first mention of the clause
	talk, joined, clause := false, "", 0
	coats, with := false, false // a word of class coat, or coatwith, stands before what comes, in its clause
	closeClause := func() {
		for k := first; k < len(m.List); k++ {
			m.List[k].Talk = m.List[k].Talk || talk
		}
		first, talk, coats, with = len(m.List), false, false, false
	}
	add := func(x Mention) {
		x.Name, x.Out, x.Joined, x.Clause = strings.ToLower(x.Name), out, joined, clause
		x.Coats = x.Implied || with && (joined == "with" || joined == "w") || coats && (joined == "in" || joined == "with" || joined == "w" || joined == "and" && len(m.List) > first && m.List[len(m.List)-1].Coats)
		m.List = append(m.List, x)
		joined = ""
	}
	for i := 0; i < p.end; {
		if p.is(i, mark) {
			if p.mark(i, ",.;:!?-") {
				closeClause()
				out = out && p.mark(i, ",/")
				if !p.mark(i, ",-:") || p.newClause(i+1) {
					clause++
				}
			}
			if joined = ""; p.mark(i, "+&") {
				joined = "with"
			}
			i++
			continue
		}
		if n := p.amountBefore(i); n > 0 { // "cod 3kg battered": the amount is of the food before it
			i += n
			continue
		}
		row := p.mentionRow(i, 2)
		if row == nil {
			if n := p.dishNamed(i, isDish); n > 0 {
				add(Mention{Name: withoutIs(p.asSaid(i, n)), Dish: true})
				i, out = i+n, false
				continue
			}
			if x, n := p.mentioned(i); n > 0 {
				add(x)
				i += n
				if f := i; p.word(f, "free") { // "nut free"
					m.List[len(m.List)-1].Out = true
					i++
				} else if p.mark(f, "-") && p.word(f+1, "free") {
					m.List[len(m.List)-1].Out = true
					i += 2
				}
				if _, k := p.class(i, "join"); k == 0 && !p.mark(i, ",/") && !p.word(i, "or") {
					out = false
				}
				continue
			}
			row = p.mentionRow(i, 1)
		}
		if _, k := p.class(i, "prep"); k > 0 {
			joined = p.t[i].w
		} else if p.word(i, "with") || p.word(i, "plus") || p.word(i, "then") || p.word(i, "and") || p.word(i, "n") {
			if joined != "with" {
				joined = p.t[i].w
			}
			if !p.word(i, "with") && p.newClause(i+1) {
				closeClause()
				clause++
			}
		}
		if row == nil {
			_, k := p.longest(i, "pause", "i", "det", "of", "join", "but", "prep", "from", "ref", "stop", "some", "about", "place", "did", "going", "sofar", "done", "cooked", "cut", "dish")
			if k == 0 {
				k = 1
				if p.is(i, word) {
					m.Strange++
				}
			}
			i += k
			continue
		}
		for _, o := range mentionWords()[row.words[0]] {
			if len(o.words) == len(row.words) && p.spells(i, o.words) {
				m.Says[o.class] = true
				out = out || o.class == "out"
				talk = talk || o.class == "talk"
				coats, with = coats || o.class == SaysCoat, with || o.class == SaysCoatWith
				if last := o.words[len(o.words)-1]; o.class == SaysIn && (last == "in" || last == "with") && len(o.words) > 1 { // "fried in", "made with"
					joined = last
					coats = coats || slices.ContainsFunc(mentionWords()[o.words[0]], func(c mentionRow) bool { return c.class == SaysCoat && len(c.words) == 1 })
				}
			}
		}
		for _, name := range row.foods {
			add(Mention{Name: name, Known: true, Implied: true})
			m.Says[SaysIn] = true
		}
		i += len(row.words)
	}
	closeClause()
	return m
}

// amountBefore is how many tokens an amount takes at i that stands before what was done to the food it is of; 0 none.
func (p *parser) amountBefore(i int) int {
	if !p.startsAmount(i) {
		return 0
	}
	_, n := p.amount(i)
	if n == 0 {
		return 0
	}
	if row := p.mentionRow(i+n, 1); row == nil || len(row.foods) == 0 && row.class != SaysCoat {
		return 0
	}
	return n
}

// mentionRow is the longest row of mentions.csv at i, of so many words at least; nil none.
func (p *parser) mentionRow(i, least int) *mentionRow {
	if !p.is(i, word) {
		return nil
	}
	list := mentionWords()[p.t[i].w]
	for k := range list {
		if len(list[k].words) >= least && p.spells(i, list[k].words) {
			return &list[k]
		}
	}
	return nil
}

// dishNamed is how many words at i are what a dish is called; 0 none.
func (p *parser) dishNamed(i int, isDish func(string) bool) int {
	for n := min(6, p.end-i); n > 0; n-- {
		if !p.is(i, word) || slices.ContainsFunc(p.t[i:i+n], func(t token) bool { return t.sort != word }) {
			continue
		}
		if _, m := p.longest(i, "det", "prep"); m > 0 && !p.foodAt(i) {
			return 0
		}
		if isDish(strings.ToLower(withoutIs(p.asSaid(i, n)))) {
			return n
		}
	}
	return 0
}

// withoutIs is a name without the end of "posset's topped with ...".
func withoutIs(name string) string {
	return strings.TrimSuffix(strings.TrimSuffix(name, "'s"), "’s")
}

// mentioned reads a food at i, known, or of no table and with an amount that only food has.
func (p *parser) mentioned(i int) (m Mention, n int) {
	if p.startsAmount(i) {
		it, k := p.item(i)
		if k > 0 && it.Food != "" && !it.Ref {
			known := p.knownWords(it.Words)
			if known || it.Amount.How == Measured && !it.Amount.Vague() || it.Amount.How == Pieces && IsPack(it.Amount.Part) {
				return Mention{Name: it.Food, Amount: it.Amount, Known: known}, k
			}
		}
		if _, k := p.amount(i); k > 0 && k < 6 {
			if j := p.skip(i+k, "of"); p.foodAt(j) {
				a, _ := p.amount(i)
				l := p.knownLength(j)
				return Mention{Name: p.asSaid(j, l), Amount: a, Known: true}, j + l - i
			}
		}
	}
	k := p.knownLength(i)
	if _, a := p.class(i, "allergen"); a > k {
		k = a
	}
	if k == 0 && p.is(i, word) && slices.Contains(allergenWords, p.t[i].w) {
		k = 1
	}
	if k == 0 {
		return m, 0
	}
	return Mention{Name: p.asSaid(i, k), Known: true}, k
}

// allergenWords are of several of the 14 at once.
var allergenWords = []string{"shellfish", "seafood", "nuts"}
