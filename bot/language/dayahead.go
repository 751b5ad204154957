package language

import (
	"regexp"
	"strings"
)

// ofDay are days as they stand before what is on them: "saturday's wedding".
var ofDay = regexp.MustCompile(`(?i)\b((?:mon|tues|wednes|thurs|fri|satur|sun)day|tomorrow|tonight|today)['’]?s\b`)

// ForDay parts what is said from the day that it is for, which stands before or behind it: "sat: party of 12, 2
// coeliac", "table 4 nut allergy for the wedding on friday". Rest is what is said. It is not ok where no day stands there.
func (r *Reader) ForDay(text string) (d Day, rest string, ok bool) {
	if len(text) > mostTable {
		return d, text, false
	}
	p := r.asTyped(ofDay.ReplaceAllString(text, "$1"))
	p.end = len(p.t)
	for p.end > 0 && p.t[p.end-1].sort == mark {
		p.end--
	}
	if d, i := p.dayFirst(); i > 0 && i < p.end {
		return d, p.text[p.t[i].from:p.t[p.end-1].to], true
	}
	if d, i := p.dayLast(); i > 0 {
		return d, p.text[:p.t[i-1].to], true
	}
	return d, text, false
}

// dayFirst reads "for saturday:", "for the wedding on sat, we have"; i is where what is said begins, 0 where no day stands first.
func (p *parser) dayFirst() (d Day, i int) {
	i = p.occasions(p.skipWord(p.skipWord(0, "for"), "the"))
	i = p.skipWord(p.skipWord(i, "for"), "on")
	d, n := p.onDay(i)
	if n == 0 {
		return d, 0
	}
	i = p.occasions(i + n)
	for i < p.end && (p.mark(i, ":") || p.mark(i, ",") || p.mark(i, "-") || p.mark(i, ".") || p.word(i, "and")) {
		i++
	}
	return d, i + p.among("{wehave}", i)
}

// dayLast reads "on saturday", "for the wedding tomorrow night"; i is where what is said ends, 0 where no day stands last.
func (p *parser) dayLast() (d Day, i int) {
	for k := max(1, p.end-8); k < p.end; k++ {
		d, n := p.onDay(k)
		if n == 0 || p.occasions(k+n) != p.end {
			continue
		}
		if short := n == 1 && len(p.t[k].w) < 4; short && !p.word(k-1, "for") && !p.word(k-1, "on") && !p.mark(k-1, ",") { // "the vegan on table 3 sat"
			continue
		}
		for k > 1 && (p.word(k-1, "on") || p.word(k-1, "for") || p.word(k-1, "in") || p.word(k-1, "from") || p.mark(k-1, ",") || p.mark(k-1, "-")) {
			k--
		}
		for j := k - 1; j > 0 && k-j < 4; j-- { // "for the wedding on saturday"
			if p.word(j, "for") && p.occasions(p.skipWord(j+1, "the")) == k {
				return d, j
			}
		}
		return d, k
	}
	return d, 0
}

// onDay reads a day at i, tonight among them; n is how many tokens it takes.
func (p *parser) onDay(i int) (d Day, n int) {
	if p.word(i, "tonight") || p.word(i, "tonite") {
		return Day{Set: true}, 1
	}
	return p.dayAt(i)
}

// occasions skips what is on a day: "night", "wedding lunch"; "party of 12" says how many, and stays.
func (p *parser) occasions(i int) int {
	for {
		n := p.among("{occasion}", i)
		if n == 0 || p.word(i+n, "of") {
			return i
		}
		i += n
	}
}

// DayMoved reads that what is on a day is on another one now: "wedding moved to sunday", "sat's do is on friday instead".
// From is not set where it is not said.
func (r *Reader) DayMoved(text string) (from, to Day, ok bool) {
	if len(text) > mostTable || strings.Contains(text, "?") {
		return from, to, false
	}
	p := r.asTyped(ofDay.ReplaceAllString(text, "$1"))
	p.end = len(p.t)
	moved, named := false, false
	for i := 0; i < p.end; {
		if k := p.occasions(i); k > i {
			i, named = k, true
			continue
		}
		if n := p.among("{daymoved}", i); n > 0 {
			i, moved = i+n, true
			continue
		}
		if d, n := p.dayAt(i); n > 0 {
			d.Set = true
			switch {
			case p.word(i-1, "from") || p.word(i-1, "not"):
				from = d
			case to.Set:
				from, to = to, d
			default:
				to = d
			}
			i += n
			continue
		}
		n := p.among("{dayfill}", i)
		if n == 0 && p.t[i].sort == mark {
			n = 1
		}
		if n == 0 {
			return from, to, false
		}
		i += n
	}
	return from, to, to.Set && (named && moved || from.Set)
}
