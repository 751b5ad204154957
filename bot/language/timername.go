package language

import "strings"

// mostTimed is how many words may say what a timer is for.
const mostTimed = 12

// mostBare is how many may without a word before them that says so.
const mostBare = 4

// what reads what a timer is for at j, and gives how many tokens it takes: "for
// the tart", "to turn the leeks", "tart".
func (p *parser) what(s *setting, j int) int {
	k, free, most := j, false, mostTimed
	switch {
	case p.word(j, "to"), p.word(j, "that"):
		if s.strict {
			return 0
		}
		k, free = j+1, true
	case p.word(j, "in"): // "timer 12 min (tart)", which layout makes an "in"
		if k = p.skip(j+1, "det"); !p.namesFood(k, p.nameEnd(s, k, false)) {
			return 0
		}
	case p.word(j, "for"), p.word(j, "on"), p.word(j, "about"):
		k++
	case s.call && !(j > 0 && p.mark(j-1, ":-")):
		return 0
	default:
		most = mostBare
	}
	k = p.skip(k, "det")
	end := p.nameEnd(s, k, free)
	if end == k || end-k > most || most == mostBare && s.strict && !p.namesFood(k, end) || !free && p.is(k, digit) {
		return 0
	}
	if name := p.said(k, end); !IsNobody(name) {
		s.name(name)
	}
	return end - j
}

// nameEnd is where a name that begins at i ends; i where what stands there is
// none. A free one tells what to do, and may hold any words.
func (p *parser) nameEnd(s *setting, i int, free bool) int {
	k := i
	for ; k < p.end && k-i <= mostTimed; k++ {
		if p.is(k, mark) && !p.insideName(k, i) {
			break
		}
		if k > i && (p.bounds(k) && p.is(k, word) || p.closesName(s, k) || !s.timed && p.timeEnds(s, k)) {
			break
		}
		if !free && p.bars(k, i) {
			return i
		}
	}
	return k
}

// insideName says whether the mark at k stands within a name: "half-size", "leek
// & potato".
func (p *parser) insideName(k, i int) bool {
	if k == i || k+1 >= p.end || !p.is(k+1, word) && !p.is(k+1, digit) {
		return false
	}
	return p.t[k].w == "&" || strings.Contains("-/.'", p.t[k].w) && p.t[k-1].to == p.t[k].from && p.t[k].to == p.t[k+1].from
}

// closesName says whether only what tells nothing stands from k on, up to where a wish
// may end.
func (p *parser) closesName(s *setting, k int) bool {
	j := p.timedOff(s, k)
	return j > k && (p.bounds(j) || !s.timed && p.timeAt(j))
}

// timeEnds says whether a time stands at k, with its unit or a word before it, or
// at the end of what is said.
func (p *parser) timeEnds(s *setting, k int) bool {
	own := *s
	n := p.when(&own, k)
	if n == 0 {
		return false
	}
	return own.exact || own.At != "" && n > 0 || p.bounds(p.timedOff(s, k+n)) || !s.call && p.word(k+n, "for")
}

// bars says whether the word at k, of a name that begins at i, tells that it is
// none, but news or a question: "12 min left", "timer for the tart went off".
func (p *parser) bars(k, i int) bool {
	if p.foodAt(k) || k > i && p.class1(k, "within") {
		return false
	}
	if p.class1(k, "did") && !p.mend[k] && !p.dishWord(k) {
		return true
	}
	_, m := p.longest(k, "stop", "left", "going", "not", "if", "could", "ask", "habit", "none", "ref", "timer", "call", "when", "span", "amend")
	return m > 0
}

// barsBefore is bars for a name that stands before the word for a timer: "new lad
// set a timer".
func (p *parser) barsBefore(k, i int) bool {
	_, m := p.longest(k, "setting", "halt", "det", "request", "i", "pause", "when")
	return m > 0 && !p.foodAt(k) || p.bars(k, i)
}

// mayBeTimed says whether a timer that is asked about may be for the m words at i:
// a food or a dish, or any name where the word for a timer is there.
func (p *parser) mayBeTimed(i, m int, timer bool) bool {
	k := p.skip(i, "det")
	for j := k; j < i+m && timer; j++ {
		if p.barsBefore(j, k) || p.is(j, digit) {
			return false
		}
	}
	return timer || p.namesFood(k, i+m)
}

// namesFood says whether the words from i to j name a food or a dish.
func (p *parser) namesFood(i, j int) bool {
	if p.namesDish(i, j) {
		return true
	}
	for k := i; k < j; k++ {
		if p.foodAt(k) {
			return true
		}
	}
	return false
}

// said gives the words from i to j as they were typed, in lower case.
func (p *parser) said(i, j int) string {
	var list []string
	for k := i; k < j; k++ {
		switch t := p.t[k]; {
		case t.sort == mark && t.w != "&" && len(list) > 0 && k+1 < j: // "half-size"
			list[len(list)-1] += t.raw + strings.ToLower(p.t[k+1].raw)
			k++
		case p.mend[k] || t.sort != word:
			list = append(list, strings.ToLower(t.raw))
		default:
			list = append(list, t.shown())
		}
	}
	return strings.Join(list, " ")
}
