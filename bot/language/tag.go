package language

import (
	"slices"

	"scullion/pantry/measure"
)

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
		if !l.known[t.w] && !p.known(i, 1) && !p.isCook(i) && measure.DefaultUnits().Find(t.w, p.place) == nil {
			if m := l.typo(t.w); m != "" {
				t.w = m
			} else if m := l.mend(t.w); m != "" {
				t.w, p.mend[i] = m, true
			} else if m := l.unswapped(t.w); m != "" {
				t.w = m
			}
		}
		p.lex[i] = l.first[t.w]
	}
	p.look()
	p.stockInto()
	p.long = nil
	p.spokenMarks()
	p.quotes()
}

// stockInto takes "stock in" behind a word for that of "500ml veal stock in the jus", and for no delivery.
func (p *parser) stockInto() {
	for i := 1; i < len(p.t); i++ {
		if p.t[i].w == "stock" && p.t[i-1].sort == word && i+1 < len(p.t) && p.isDet(i+2) {
			p.lex[i] = slices.DeleteFunc(p.lex[i], func(ph *phrase) bool { return ph.class == "did" && len(ph.words) == 2 && ph.words[1] == "in" })
		}
	}
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
