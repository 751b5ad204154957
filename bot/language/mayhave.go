package language

import (
	"regexp"
	"strings"
)

// What a question whether somebody may have a dish is heard by. mayAsk begins one, mayOK ends one that has no mark.
// Common kitchen talk, no source.
var (
	mayAsk = regexp.MustCompile(`(?i)^\s*(?:(?:and|so|but|right|chef|hi|hey|sorry|quick one|ok) *,? )*(?:can|could|may|might|would|will|should|shall|is|are|do|does|did|what about|how about|whats? the|any chance|am i ok)\b`)
	mayOK  = regexp.MustCompile(`(?i)\b(?:ok|okay|safe|fine|alright|all right|good|suitable|allowed)\b[ ,]*(?:for|with|to)?\b[^?]*\??\s*$`)
)

// MayHaveHeard reads by evidence, in any order of words, a question whether a dish may go to a place or to somebody with a need:
// "can i serve table 3 the cake", "t3 cake ok". Every word must be of these or add nothing. Dish says whether words call a
// dish or food. Plain says that it is a question by its mark or by how it begins. Nil where it is none.
func (r *Reader) MayHaveHeard(text string, dish func(string) bool) (q *Question, plain bool) {
	plain = strings.Contains(text, "?") || mayAsk.MatchString(text)
	if len(text) > mostHeld || strings.Contains(text, "://") || !plain && !mayOK.MatchString(text) {
		return nil, false
	}
	p := r.asTyped(apartHyphens.Replace(shortWritten(text)))
	p.end = len(p.t)
	q = &Question{About: AboutEats}
	fine := mayOK.MatchString(text)
	for i := 0; i < p.end; {
		n := p.whomAsked(i, q, fine)
		if n == 0 {
			n = p.dishAsked(i, q, dish)
		}
		if n == 0 {
			n = p.among("{mayfill}", i)
		}
		if n == 0 && p.t[i].sort == mark {
			n = 1
		}
		if n == 0 {
			return nil, false
		}
		i += n
	}
	if q.Food == "" || q.Place == "" && len(q.Needs) == 0 && q.N == 0 {
		return nil, false
	}
	return q, plain
}

// whomAsked reads for whom it is asked, at i: a place, a mere number behind "can" or "for", or who has a need.
func (p *parser) whomAsked(i int, q *Question, fine bool) int {
	place, n := p.placeAt(i)
	if n == 0 {
		place, n = p.spotAt(i)
	}
	if _, m := p.placeAt(i + 1); n == 0 && m > 0 && p.is(i, digit) && p.t[i].raw == "4" && i > 0 { // "cake 4 t3?"
		return 1
	}
	if n == 0 && p.lettered(i) == 2 {
		place, n = strings.ToLower(p.t[i].raw+p.t[i+1].raw), 2
	}
	if n > 0 {
		if q.Place != "" {
			place = q.Place + placeMark + place
		}
		q.Place = place
		return n
	}
	if v, m := p.number(i); m > 0 && i > 0 && v.Den == 1 && v.Num > 0 && v.Num < 1000 && q.N == 0 && (p.among("{asks}", i-1) > 0 || p.word(i-1, "for") && fine || p.word(i-1, "on") || p.word(i-1, "at")) && !p.mark(i+m, ":%x") {
		if after := p.among("{mayfill}", i+m); i+m >= p.end || after > 0 || p.t[i+m].sort == mark {
			q.N = int(v.Num)
			return m
		}
	}
	of := Question{}
	n = p.needList(i, &of, ofPersons)
	if n == 0 {
		if m := p.needList(i, &of, anyNeed); m > 0 && p.word(i+m-1, "free") {
			n = m
		}
	}
	if n == 0 {
		x := TableNeed{}
		if m := p.notEaten(i, &x); m > 0 && x.Allergy != "" && p.among("{mayfolk}", i+m) > 0 {
			x.Said += " allergy"
			of.Needs, n = []TableNeed{x}, m
		}
	}
	if n == 0 || p.is(i+n, word) && p.among("{mayfolk}", i+n) == 0 && p.among("{mayfill}", i+n) == 0 { // "vegan pie"
		return 0
	}
	q.Needs = append(q.Needs, of.Needs...)
	return n + p.among("{mayfolk}", i+n)
}

// mostDishWords is how many words the name of a dish may have here.
const mostDishWords = 5

// dishAsked reads a dish at i, by the most words that call one.
func (p *parser) dishAsked(i int, q *Question, dish func(string) bool) int {
	n := 0
	if p.among("{mayfill}", i) > 0 {
		return 0
	}
	for n < mostDishWords && p.is(i+n, word) && (p.among("{mayfill}", i+n) == 0 || p.among("{mayjoin}", i+n) > 0) {
		n++
	}
	for ; n > 0; n-- {
		said := strings.ToLower(p.asSaid(i, n))
		if !dish(said) {
			continue
		}
		if q.Food != "" {
			said = q.Food + " and " + said
		}
		q.Food = said
		return n
	}
	return 0
}
