package language

import "strings"

// is says whether the token at i is of the sort and within the sentence.
func (p *parser) is(i int, s sort) bool { return i >= 0 && i < p.end && p.t[i].sort == s }

func (p *parser) word(i int, w string) bool { return p.is(i, word) && p.t[i].w == w }

func (p *parser) mark(i int, marks string) bool {
	return p.is(i, mark) && strings.Contains(marks, p.t[i].w)
}

// noPhrase stands for a row where there is none.
var noPhrase = &phrase{}

// class gives the longest row of that class that the words from i spell, and
// how many tokens it takes.
func (p *parser) class(i int, c class) (*phrase, int) {
	if i < 0 || i >= p.end {
		return noPhrase, 0
	}
	for _, ph := range p.lex[i] {
		if ph.class == c && i+len(ph.words) <= p.end {
			return ph, len(ph.words)
		}
	}
	return noPhrase, 0
}

// longest gives the longest row of any of the classes.
func (p *parser) longest(i int, cs ...class) (*phrase, int) {
	if i < 0 || i >= p.end {
		return noPhrase, 0
	}
	for _, ph := range p.lex[i] { // longest first
		if i+len(ph.words) > p.end {
			continue
		}
		for _, c := range cs {
			if ph.class == c {
				return ph, len(ph.words)
			}
		}
	}
	return noPhrase, 0
}

// look leaves of the rows that a token begins those that the words from there
// spell.
func (p *parser) look() {
	p.end = len(p.t)
	n := 0
	for _, rows := range p.lex {
		n += len(rows)
	}
	room := make([]*phrase, 0, n)
	for i, rows := range p.lex {
		from := len(room)
		for _, ph := range rows {
			if p.spells(i, ph.words) {
				room = append(room, ph)
			}
		}
		p.lex[i] = room[from:len(room):len(room)]
	}
}

// relook looks the words from i to j up again, which have changed.
func (p *parser) relook(i, j int) {
	for end := p.end; i < j; i++ {
		if p.lex[i] = nil; p.t[i].sort == word {
			p.lex[i] = words().first[p.t[i].w]
		}
		p.look()
		p.end = end
	}
}

// unheard says whether no row of words.csv begins with the word at i.
func (p *parser) unheard(i int) bool { return p.is(i, word) && len(words().first[p.t[i].w]) == 0 }

// begins says whether a row of the class begins anywhere in the message.
func (p *parser) begins(c class) bool {
	for _, rows := range p.lex {
		for _, ph := range rows {
			if ph.class == c {
				return true
			}
		}
	}
	return false
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
	if len(p.long) != len(p.t) {
		p.long = make([]int8, len(p.t))
	}
	if n := int(p.long[i]) - 1; n >= 0 && i+n <= p.end {
		return n
	}
	end := p.end
	if p.long[i] == 0 {
		end = len(p.t)
	}
	n := min(p.foods.MaxWords(), 6, end-i)
	for n > 0 && !p.known(i, n) {
		n--
	}
	if end == len(p.t) {
		p.long[i] = int8(n + 1)
	}
	if i+n > p.end {
		return p.knownLength(i)
	}
	return n
}
