package language

import (
	"strings"

	"scullion/pantry/measure"
)

// calls reads a name taught, the whole message of it: "celery root is
// celeriac", "jerseys means new potatoes", "we call rocket roquette".
func (p *parser) calls() bool {
	if !p.joins() {
		return false
	}
	p.start, p.end = 0, len(p.t)
	for p.end > 0 && p.t[p.end-1].sort == mark {
		if p.t[p.end-1].w == "?" {
			return false
		}
		p.end--
	}
	i := p.article(p.idle(0))
	if i >= p.end || p.end-i > 2*mostNameWords+2 {
		return false
	}
	if p.weCall(i) || p.partIs(p.idle(0)) {
		return true
	}
	at, n, sure := p.copula(i)
	if n == 0 || at == i || at+n >= p.end || at-i > mostNameWords {
		return false
	}
	if p.knownLength(at+n) != p.end-at-n { // it must stand for a food, and no more than that
		return false
	}
	for k := i; k < at; k++ {
		if p.t[k].sort != word {
			return false
		}
		if !sure && !p.unheard(k) && !p.foodAt(k) { // "dinner is leeks"
			return false
		}
	}
	p.out.Teaching = &Teaching{Name: p.text[p.t[i].from:p.t[at-1].to], Means: p.text[p.t[at+n].from:p.t[p.end-1].to], Sure: sure}
	return true
}

// partIs reads "a clove of garlic is 5 g", "a handful of spinach weighs 40 g":
// how much a part of a food is in this kitchen.
func (p *parser) partIs(i int) bool {
	if !p.word(i, "a") && !p.word(i, "an") && !p.word(i, "one") {
		return false
	}
	u, m := p.unit(i + 1)
	if m == 0 || u.Sort != measure.Parts && u.Sort != measure.Vague || !p.word(i+1+m, "of") {
		return false
	}
	at := i + 2 + m
	n := p.knownLength(at)
	is := at + n
	if n == 0 || !p.isWeigh(is) {
		return false
	}
	a, k := p.plain(p.skip(is+1, "about"))
	end := p.skip(is+1, "about") + k
	for end < p.end && (p.word(end, "here") || p.word(end, "now")) {
		end++
	}
	if k == 0 || a.Kind != measure.Gram || end != p.end {
		return false
	}
	name := p.text[p.t[at].from:p.t[at+n-1].to]
	p.out.Teaching = &Teaching{Name: name, Cells: map[string]string{"name": strings.ToLower(name), "parts": u.Name + "=" + grams(a.Base)}}
	return true
}

// joins says whether a word in the message may join a name and its meaning.
func (p *parser) joins() bool {
	for i := range p.t {
		if p.t[i].w == "=" {
			return true
		}
		for _, ph := range p.lex[i] {
			if ph.class == "be" || ph.class == "weigh" {
				return true
			}
		}
	}
	return false
}

// weCall reads "we call celeriac knobbly root".
func (p *parser) weCall(i int) bool {
	i = p.skip(i, "i")
	if !p.word(i, "call") {
		return false
	}
	i = p.skip(i+1, "det")
	n := p.knownLength(i)
	name, j := p.phrase(p.article(i+n), mostNameWords)
	if n == 0 || name == "" || j != p.end {
		return false
	}
	p.out.Teaching = &Teaching{Name: name, Means: p.text[p.t[i].from:p.t[i+n-1].to], Sure: true}
	return true
}

// copula finds what joins a name and its meaning.
func (p *parser) copula(i int) (at, n int, sure bool) {
	for k := i + 1; k < p.end; k++ {
		switch {
		case p.word(k, "means") || p.word(k, "aka") || p.mark(k, "="):
			return k, 1, true
		case p.word(k, "is") || p.word(k, "are"):
			for _, w := range [][]string{{"another", "name", "for"}, {"another", "word", "for"}, {"the", "same", "as"}, {"what", "we", "call"}, {"our", "name", "for"}, {"our", "word", "for"}, {"short", "for"}, {"just"}} {
				if p.spells(k, append([]string{""}, w...)) {
					return k, len(w) + 1, len(w) > 1
				}
			}
			return k, 1, false
		}
	}
	return 0, 0, false
}
