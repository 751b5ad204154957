package language

import (
	_ "embed"
	"regexp"
	"slices"
	"strings"
	"sync"
)

//go:embed nofigures.csv
var noFiguresCSV string

// noFigures are the words of nofigures.csv.
var noFigures = sync.OnceValue(func() map[string]bool {
	known := map[string]bool{}
	for _, row := range strings.Split(noFiguresCSV, "\n") {
		if row = strings.TrimSpace(row); row != "" && row[0] != '#' {
			known[row] = true
		}
	}
	return known
})

// mostStrange is how many words a line of figures may have that tell nothing of them.
const mostStrange = 6

// notThat is a correction: "200 walnuts not 150".
var notThat = regexp.MustCompile(`(?i)\bnot\b`)

// Figures reads a line that is little more than amounts of known food and says of no act what became of them: "6
// sourdough for toast", "salmon 5kg poached whole for the buffet". It gives them as a use that is in doubt, with the
// dish where one is named; elsewhere says that one may be named which was not read. nil where it is a question, a wish,
// a story or talk.
func (r *Reader) Figures(text string) (s *Statement, elsewhere bool) {
	if strings.ContainsAny(text, "?<>") || notThat.MatchString(text) {
		return nil, false
	}
	p := r.parser(goesInto(leaveOut(text)))
	p.start, p.end = 0, len(p.t)
	if _, m := p.class(0, "todo"); m > 0 || p.headsPaper() {
		return nil, false
	}
	s = &Statement{Act: "use", Doubt: true}
	measured, strange, opens := 0, 0, true
	for i := 0; i < p.end; {
		if it, n := p.figure(i); n > 0 {
			if it.Amount.How == Measured && !it.Amount.Vague() {
				measured++
			}
			s.Items = append(s.Items, it)
			i += n
			continue
		}
		if dish, n := p.dish(i); n > 0 && len(s.Items) > 0 && s.Dish == "" && !IsPlace(dish) && !IsNobody(dish) && !noDish(dish) && p.isNamed(i, i+n) {
			s.Dish = dish
			i += n
			continue
		} else if n > 0 && len(s.Items) > 0 && !p.lexHas(i, i+1, "sofar") && !p.lexHas(i, i+1, "of") { // some other dish
			elsewhere = true
		}
		if d, m := p.class(i, "dish"); m > 0 && d.value != "" && s.Dish == "" { // "staff lunch: ..."
			s.Dish, i = strings.Join(d.words, " "), i+m
			continue
		}
		if m := mealIn(p.t[i : i+1]); m != "" && s.Dish == "" && p.is(i, word) {
			s.Dish, i = p.t[i].w, i+1
			continue
		}
		elsewhere = elsewhere || p.mark(i, ":")
		n := p.says(i)
		if n < 0 {
			return nil, false
		}
		if n == 0 {
			strange, n, elsewhere = strange+1, 1, true
			opens = opens && len(s.Items) > 0
		}
		i += n
	}
	switch {
	case len(s.Items) == 0 || strange > mostStrange || measured < 2 && !opens:
		return nil, false
	case measured == 0 && (strange > 0 || len(s.Items) > 1 && !strings.Contains(text, ",")), len(s.Items) == 1 && p.prices(0), measured == 1 && len(s.Items) == 1 && strange > 1:
		return nil, false
	}
	return s, elsewhere
}

// figure reads an amount in figures of a food that is known to the letter, with the amount before it or behind.
func (p *parser) figure(i int) (it Item, n int) {
	if !p.is(p.skip(i, "about"), digit) && !p.foodAt(i) || p.word(p.skip(i, "about")+1, "th") {
		return it, 0
	}
	it, n = p.item(i)
	if m := p.knownLength(i); (n == 0 || it.Amount.How == Unsaid) && m > 0 { // "brie 2kg stilton 1kg"
		if a, k := p.amount(i + m); k > 0 && a.How == Measured {
			words := strings.Fields(p.asSaid(i, m))
			it, n = Item{Amount: a, Food: strings.Join(words, " "), Words: words}, m+k
		}
	}
	if a, k := p.amount(i); k > 0 && a.How == Measured && !p.knownWords(it.Words) { // "1kg butter shortcrust"
		if m := p.knownLength(i + k); m > 0 {
			words := strings.Fields(p.asSaid(i+k, m))
			it, n = Item{Amount: a, Food: strings.Join(words, " "), Words: words}, k+m
		}
	}
	if n == 0 || it.Food == "" || it.Trim || it.Amount.How != Measured && it.Amount.How != Pieces || !p.knownWords(it.Words) || !slices.ContainsFunc(p.t[i:i+n], func(t token) bool { return t.sort == digit }) {
		return Item{}, 0
	}
	return it, n
}

// isNamed says whether the words from i to k, of a preposition and a dish, are of a kind of dish or of a meal.
func (p *parser) isNamed(i, k int) bool { return p.namesDish(i, k) || mealIn(p.t[i:k]) != "" }

// says is how many tokens at i go with a line of figures; 0 where they tell nothing of it, and less where the line
// is no such.
func (p *parser) says(i int) int {
	if p.is(i, mark) {
		return 1
	}
	if p.is(i, money) {
		return 1
	}
	if p.is(i, digit) {
		if a, m := p.amount(i); m > 0 && a.How == Measured {
			return m
		}
		if _, m := p.class(i+1, "notfood"); m > 0 {
			return 1 + m
		}
		return 0
	}
	if _, m := p.longest(i, "bid", "could", "not", "if", "habit", "claim", "release", "request", "undo", "timer", "call", "paper", "todo", "lack", "taker"); m > 0 && !p.foodAt(i) {
		return -1
	}
	if noFigures()[strings.ToLower(p.t[i].raw)] || noFigures()[p.t[i].w] {
		return -1
	}
	if m := p.knownLength(i); m > 0 {
		return m
	}
	if _, m := p.class(i, "ask"); m > 0 && i == 0 || slices.Contains(p.cooks, p.t[i].w) && i == 0 {
		return -1
	}
	if _, m := p.longest(i, "pause", "join", "det", "prep", "sofar", "done", "again", "of", "about", "dish", "cooked", "cut", "stop", "i", "notfood"); m > 0 {
		return m
	}
	return 0
}

// headsPaper says whether the line is headed by what it was ordered for: "monday: 2kg rice".
func (p *parser) headsPaper() bool {
	for j := 0; j < p.end && j < 5; j++ {
		if p.mark(j, ":-") {
			return j > 0 && slices.ContainsFunc(p.t[:j], func(t token) bool {
				return weekday(t.w) || words().is(t.w, "later") || words().is(t.w, "todo") || words().is(t.w, "paper")
			})
		}
	}
	return false
}
