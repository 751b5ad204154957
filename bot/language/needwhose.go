package language

import (
	"fmt"
	"slices"
	"strings"
)

// Whose a need is, as it is heard: a place, so many heads there, a person by name or by what they do, and when they come.

// oneMore reads "one more", "another", "2 extra" before a need.
func (h *needEar) oneMore(i int) int {
	p := h.p
	if n := p.among("{onemore}", i); n > 0 {
		h.cur.more, h.count = true, 1
		return n
	}
	if v, m := p.number(i); m > 0 && v.Den == 1 && v.Num > 0 && v.Num <= 500 && (p.word(i+m, "more") || p.word(i+m, "extra")) {
		h.cur.more, h.count = true, int(v.Num)
		return m + 1
	}
	return 0
}

// somewhere hears a place at i.
func (h *needEar) somewhere(i int) int {
	place, n := h.p.placeAt(i)
	if n == 0 {
		if place, n = h.p.spotAt(i); n > 0 && h.p.word(i+n, "of") {
			if _, m := h.p.number(i + n + 1); m > 0 { // "the birthday party of 10"
				return n
			}
		}
	}
	if n == 0 {
		place, n = h.tableAt(i)
	}
	if n == 0 && i == h.p.start && h.p.lettered(i) == 2 && h.p.t[i].val.Num < 14 && strings.Contains("abcdef", h.p.t[i+1].w) { // "5B halal x4"
		place, n = strings.ToLower(h.p.t[i].raw+h.p.t[i+1].raw), 2
	}
	if v, m := h.p.number(i); n == 0 && i == h.p.start && h.p.is(i, digit) && v.Den == 1 && v.Num > 0 && v.Num < 300 && (h.p.word(i+m, "has") || h.p.word(i+m, "is") || h.p.word(i+m, "s")) && h.needAhead(i+m+1) { // "15 has a coeliac"
		place, n = fmt.Sprint("table ", v.Num), m
	}
	if n == 0 {
		return 0
	}
	h.where = true
	if isSeat(place) && IsSpot(h.cur.place) && len(h.cur.needs) == 0 { // "head table seat 4"
		h.cur.place += " " + place
		return n
	}
	if isSeat(h.cur.place) && len(h.cur.needs) == 0 && strings.HasPrefix(place, "table ") { // "seat 2 on 5"
		h.cur.place = place + " " + h.cur.place
		return n
	}
	if !h.begun {
		h.begun, h.needFirst = true, false
	}
	if h.cur.place != "" && (h.needFirst || len(h.cur.needs) > 0) || !h.needFirst && len(h.cur.needs) > 0 {
		h.flush()
	}
	if h.cur.place != "" && h.cur.place != place { // two places and nothing said of the first
		h.bad = true
	}
	h.cur.place = place
	return n
}

// heads hears how many there are in all at i: "40 for lunch", "lunch now 42".
func (h *needEar) heads(i int) int {
	p := h.p
	v, n := p.number(i)
	if n == 0 || v.Den != 1 || v.Num < 2 || v.Num > 5000 || h.cur.heads > 0 || len(h.cur.needs) > 0 {
		return 0
	}
	of := i > 0 && (p.word(i-1, "of") || p.word(i-1, "is") || p.word(i-1, "for"))
	if h.cur.place != "" && !of && p.among("{covers}", i+n) == 0 && !p.mark(i+n, ":") {
		return 0
	}
	more := p.among("{headed}", i+n)
	if more == 0 && of {
		more = p.among("{covers}", i+n)
		if _, next := p.number(i + n + more); i+n+more < p.end && h.hour(i+n+more) == 0 && next == 0 {
			return 0
		}
		h.cur.heads = int(v.Num)
		return n + more
	}
	if i+n < p.end && more == 0 && !p.mark(i+n, ":") && p.among("{covers}", i+n) == 0 {
		return 0
	}
	h.cur.heads = int(v.Num)
	return n + more
}

// hour passes the time of day that something is booked for at i: "at 1pm", "at half two".
func (h *needEar) hour(i int) int {
	if h.p.word(i, "at") {
		if _, n := h.p.clock(i+1, true); n > 0 {
			return n + 1
		}
	}
	_, n := h.p.clock(i, false)
	return n
}

// onlySoMany says whether so few are told at i: "only 1", "just 2".
func (p *parser) onlySoMany(i int) bool {
	if !p.word(i, "only") && !p.word(i, "just") {
		return false
	}
	v, n := p.number(i + 1)
	return n > 0 && v.Den == 1 && v.Num > 0
}

// tableAt gives the table of a mere number behind "on", where somebody or a need was spoken of: "the lady on 4".
func (h *needEar) tableAt(i int) (place string, n int) {
	p := h.p
	if n = p.among("{on}", i); n == 0 || p.word(i, "for") || h.cur.whose == "" && len(h.cur.needs) == 0 && !isSeat(h.cur.place) && !h.somebodyAhead(i+n) {
		return "", 0
	}
	v, m := p.number(i + n)
	if m == 0 || v.Den != 1 || v.Num < 1 || v.Num > 300 || p.among("{covers}", i+n+m) > 0 || p.word(i+n+m, "pm") || p.word(i+n+m, "am") || p.mark(i+n+m, ":x%") {
		return "", 0
	}
	return fmt.Sprint("table ", v.Num), n + m
}

// somebodyAhead says whether a number at i has somebody behind it: "on 15 one of them is allergic to mustard".
func (h *needEar) somebodyAhead(i int) bool {
	_, m := h.p.number(i)
	k := h.p.skipMark(i+m, ",:")
	return m > 0 && (h.p.among("{somebody}", k) > 0 || h.p.among("{kin}", k) > 0)
}

// named gives how many tokens the name of a cook, or of a stranger, takes at i, of whom it is said right behind it what they
// cannot eat: "bo cant touch shellfish", "zoe no nuts".
func (h *needEar) named(i int) int {
	p := h.p
	if !p.is(i, word) || i > p.start && !p.word(i-1, "the") && !p.word(i-1, "new") && !p.word(i-1, "plus") && !p.word(i-1, "and") && p.t[i-1].sort != mark && !h.staffBefore(i) {
		return 0
	}
	if !slices.Contains(p.cooks, p.t[i].w) && !p.strangerAt(i, p.t[i].w) {
		return 0
	}
	if p.among("{cant}", i+1) > 0 || p.among("{no}", i+1) > 0 || p.among("{to}", i+1) > 0 || h.staffBefore(i) && p.among("{is}", i+1) > 0 {
		return 1
	}
	return 0
}

// staffBefore says whether one of the staff is named at i by what they do: "new kp zoe".
func (h *needEar) staffBefore(i int) bool {
	for n := 1; n <= 3 && i-n >= h.p.start; n++ {
		if h.p.among("{staff}", i-n) == n {
			return true
		}
	}
	return false
}

// someone hears a person at i: one with a title, or who it is by what they are to others.
func (h *needEar) someone(i int) int {
	p := h.p
	if n := p.among("{mister}", i); n > 0 && p.is(i+n, word) && p.among("{is}", i+n) == 0 && p.among("{heardfill}", i+n) == 0 {
		name := strings.ToLower(p.asSaid(i, n+1))
		if base := p.owner(i + n); base != "" {
			name = strings.ToLower(p.asSaid(i, n)) + " " + base
		}
		h.where = true
		if len(h.cur.needs) > 0 && !h.needFirst {
			place := h.cur.place
			if h.flush(); h.begun {
				h.cur.place = place
			}
		}
		h.cur.guest, h.cur.whose = name, name
		return n + 1
	}
	if n := p.among("{staff}", i); n > 0 {
		h.where = true
		return n
	}
	if n := h.named(i); n > 0 && h.cur.guest == "" && h.cur.place == "" && len(h.cur.needs) == 0 {
		h.cur.named = true
		if h.cur.guest = strings.TrimSpace(p.t[i].raw); p.owner(i) != "" {
			h.cur.guest = h.cur.guest[:len(p.owner(i))]
		}
		h.cur.whose = h.cur.guest
		return n
	}
	n := p.among("{guestrole}", i)
	h.cur.role = h.cur.role || n > 0
	if n == 0 {
		n = p.among("{kin}", i)
	}
	if n == 0 {
		return 0
	}
	if len(h.cur.needs) > 0 && h.cur.place != "" && !h.needFirst && h.cur.whose != "" { // "table 6: dad no gluten, kid nut allergy"
		place := h.cur.place
		h.flush()
		h.cur.place = place
	}
	if h.cur.whose == "" {
		h.cur.whose = strings.ToLower(p.asSaid(i, n))
	}
	return n
}

// placeAhead says whether a place is said behind i, in the same clause: "1 sesame at the wedding".
func (h *needEar) placeAhead(i int) bool {
	for k := i; k < h.p.end; k++ {
		if _, n := h.p.placeAt(k); n > 0 {
			return true
		}
		if _, n := h.p.spotAt(k); n > 0 && h.p.among("{on}", i) > 0 {
			return true
		}
	}
	return false
}
