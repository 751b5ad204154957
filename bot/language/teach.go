package language

import (
	"strings"
)

// Teaching is a lesson: a new food, or a name for one.
type Teaching struct {
	Name  string            // the new food's, or the name taught, as typed
	Means string            // of a name: what it stands for; "" for a new food
	Sure  bool              // of a name: said in so many words, not by a mere "is"
	Cells map[string]string // of a new food: what is said of it, by the columns of a food table
	Wrong string            // what of it cannot be read; "" nothing
}

// teach reads "new food: samphire, 100 g a handful", which may hold commas and
// stops and so takes the whole message.
func (p *parser) teach() bool {
	i := p.newFood()
	if i == 0 {
		return false
	}
	colon := p.mark(i, ":-")
	if colon {
		i++
	}
	i = p.article(i)
	name, j := p.phrase(i, mostNameWords)
	if name == "" || !colon && j == p.end { // "new food today"
		return false
	}
	c := Teaching{Name: name, Cells: map[string]string{"name": strings.ToLower(name)}}
	for j < p.end && c.Wrong == "" {
		if p.t[j].sort == mark {
			j++
			continue
		}
		end := p.factEnd(j)
		if !p.fact(&c, j, end) {
			c.Wrong = p.text[p.t[j].from:p.t[end-1].to]
		}
		j = end
	}
	if c.Wrong != "" && !colon { // "new food order goes in at 5"
		return false
	}
	p.out.Teaching = &c
	return true
}

// newFood is where a lesson goes on behind "new food"; 0 where there is none.
func (p *parser) newFood() int {
	p.start, p.end = 0, len(p.t)
	i := p.idle(0)
	if !(p.word(i, "new") && (p.word(i+1, "food") || p.word(i+1, "ingredient"))) {
		return 0
	}
	return i + 2
}

// article passes what stands before a name and is no part of it: "my", "the".
func (p *parser) article(i int) int {
	for p.word(i, "my") || p.word(i, "our") || p.word(i, "the") || p.word(i, "a") || p.word(i, "an") || p.word(i, "some") {
		i++
	}
	return i
}

const mostNameWords = 4

// phrase gives the words from i up to a mark, a number or an amount; "" where
// there are none, or too many for a name.
func (p *parser) phrase(i, most int) (string, int) {
	j := i
	for j < p.end && p.t[j].sort == word && !(j > i && p.startsAmount(j)) {
		j++
	}
	if j == i || j-i > most {
		return "", i
	}
	return p.text[p.t[i].from:p.t[j-1].to], j
}

// factEnd gives where the fact at i ends: at a comma, a stop or a line's end.
func (p *parser) factEnd(i int) int {
	for i < p.end && !(p.t[i].sort == mark && strings.Contains(",;.", p.t[i].w)) {
		i++
	}
	return i
}

// fact reads one thing said of a new food, from i to end.
func (p *parser) fact(c *Teaching, i, end int) bool {
	all := p.end
	p.end = end
	defer func() { p.end = all }()
	for _, read := range []func(*Teaching, int) bool{
		p.weighsFact, p.amountFact, p.keepsFact, p.likeFact, p.allergenFact, p.dietFact, p.shelfFact, p.percentFact, p.namesFact,
	} {
		if read(c, i) {
			return true
		}
	}
	return false
}
