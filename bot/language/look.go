package language

import "strings"

// is says whether the token at i is of the sort and within the sentence.
func (p *parser) is(i int, s sort) bool { return i >= 0 && i < p.end && p.t[i].sort == s }

func (p *parser) word(i int, w string) bool { return p.is(i, word) && p.t[i].w == w }

func (p *parser) mark(i int, marks string) bool {
	return p.is(i, mark) && strings.Contains(marks, p.t[i].w)
}

// class gives the longest row of that class that the words from i spell, and
// how many tokens it takes.
func (p *parser) class(i int, c class) (phrase, int) {
	if i < 0 || i >= p.end {
		return phrase{}, 0
	}
	for _, ph := range p.lex[i] {
		if ph.class == c && p.spells(i, ph.words) {
			return ph, len(ph.words)
		}
	}
	return phrase{}, 0
}

// longest gives the longest row of any of the classes.
func (p *parser) longest(i int, cs ...class) (best phrase, n int) {
	if i < 0 || i >= p.end {
		return best, 0
	}
	for _, ph := range p.lex[i] {
		if len(ph.words) <= n || !p.spells(i, ph.words) {
			continue
		}
		for _, c := range cs {
			if ph.class == c {
				best, n = ph, len(ph.words)
				break
			}
		}
	}
	return best, n
}

func (p *parser) spells(i int, words []string) bool {
	if i+len(words) > p.end {
		return false
	}
	for k := 1; k < len(words); k++ {
		if t := &p.t[i+k]; !(t.sort == word && t.w == words[k] || t.sort == digit && t.raw == words[k]) {
			return false
		}
	}
	return true
}

// skip passes words of a class.
func (p *parser) skip(i int, c class) int {
	for {
		_, m := p.class(i, c)
		if m == 0 {
			return i
		}
		i += m
	}
}

func (p *parser) skipWord(i int, w string) int {
	if p.word(i, w) {
		return i + 1
	}
	return i
}

func (p *parser) skipMark(i int, marks string) int {
	if p.mark(i, marks) {
		return i + 1
	}
	return i
}

// known says whether exactly the n words at i are a food's name.
func (p *parser) known(i, n int) bool {
	if p.foods == nil || n <= 0 || n > p.foods.MaxWords() || i+n > len(p.t) {
		return false
	}
	p.words = p.words[:0]
	for k := i; k < i+n; k++ {
		if p.t[k].sort != word {
			return false
		}
		p.words = append(p.words, p.t[k].raw)
	}
	return len(p.foods.Exact(p.words)) > 0
}

func (p *parser) knownWords(words []string) bool {
	return p.foods != nil && len(words) > 0 && len(p.foods.Exact(words)) > 0
}

// foodEnds says whether a food's name ends at i.
func (p *parser) foodEnds(i int) bool {
	for n := 1; n <= 3 && n <= i; n++ {
		if p.known(i-n, n) {
			return true
		}
	}
	return false
}

// foodAt says whether a food's name begins at i.
func (p *parser) foodAt(i int) bool { return p.knownLength(i) > 0 }

// knownLength is the length of the longest food name at i; 0 none.
func (p *parser) knownLength(i int) int {
	if !p.is(i, word) || p.foods == nil {
		return 0
	}
	for n := min(p.foods.MaxWords(), 6, p.end-i); n > 0; n-- {
		if p.known(i, n) {
			return n
		}
	}
	return 0
}
