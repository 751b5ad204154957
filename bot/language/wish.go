package language

import (
	"strings"

	"scullion/pantry/measure"
)

// setting is a wish for a timer as it is being read.
type setting struct {
	Timer
	ordered bool // by words for it: "set a timer"
	call    bool // "remind me": the time has an "in" or an "at", what it is for a "to" or a "for"
	many    bool // "timers:" heads a list
	alarm   bool // "set an alarm for 18:30" is a clock time
	timed   bool
	named   bool
	strict  bool // a name without a word before it is a food's or a dish's
	exact   bool // the time had its unit
}

// sets reads a wish for a timer at i and gives where it ends; 0 where there is
// none. asked says that it was asked for politely. The forms:
//
//	["set" det] [time] [name] timer {time | name}    12 min timer for the tart
//	"put" time "on" [det] timer [name]                stick 10 min on the timer
//	[time] call {time | name}                         remind me in 10 min to turn the tart
func (p *parser) sets(i int, asked bool) (setting, int) {
	s := setting{ordered: asked}
	end := p.called(&s, i)
	if end == 0 {
		s = setting{ordered: asked}
		end = p.timerSet(&s, i)
	}
	question := p.end < len(p.t) && p.t[p.end].w == "?"
	if end == 0 || !s.timed || question && end == p.end && !s.ordered && !s.call { // "12 min timer for the tart?"
		return s, 0
	}
	s.Wish = TimerSet
	return s, end
}

// timerSet reads the forms with a word for a timer.
func (p *parser) timerSet(s *setting, i int) int {
	j := i
	if w, m := p.class(j, "setting"); m > 0 && (s.ordered || w.value != "asked") {
		s.ordered, j = true, p.skipWord(p.skipWord(j+m, "me"), "us")
	}
	det := j
	for p.word(j, "a") && p.class1(j+1, "number") || p.isDet(j) || p.word(j, "new") {
		if sec, _, unit := p.lasts(j); sec > 0 && unit { // "an hour"
			break
		}
		if !s.ordered && !p.word(j, "a") && !p.word(j, "an") && !p.word(j, "another") && !p.word(j, "new") { // "my timer": there is one
			return 0
		}
		j++
	}
	if sec, n, unit := p.lasts(j); unit {
		s.time(sec)
		if j += n; j == det+n && s.ordered && p.word(j, "on") { // "put 12 min on the timer"
			j = p.skip(j+1, "det")
		}
	}
	if j = p.timerHead(s, j); j == 0 {
		return 0
	}
	return p.timeAndName(s, j)
}

func (p *parser) class1(i int, c class) bool { _, m := p.class(i, c); return m > 0 }

// timerHead reads the word for a timer, with what it is for before it: "timer",
// "tart timer". It gives where it ends; 0 where there is none.
func (p *parser) timerHead(s *setting, i int) int {
	if p.out.Timer != nil && s.ordered && (p.word(i, "one") || p.word(i-1, "another")) { // "and set one for 10 min"
		return p.skipWord(i, "one")
	}
	j := i
	for j-i < mostNameWords && p.is(j, word) && !p.class1(j, "timer") {
		if p.barsBefore(j, i) {
			return 0
		}
		j++
	}
	h, m := p.class(j, "timer")
	if m == 0 || p.owner(j) != "" || j > i && (h.value != "" || !s.ordered && !p.namesFood(i, j)) { // "the timer's gone", "fire alarm"
		return 0
	}
	if j > i {
		s.name(p.said(i, j))
	}
	s.many, s.alarm = h.value == "many", h.value == "asked"
	if j += m; h.value == "asked" && !s.ordered && !p.word(j, "in") && !p.word(j, "at") { // "alarm's off"
		return 0
	}
	return j
}

// called reads the forms that ask to be called: "in 10 min remind me to turn the
// tart".
func (p *parser) called(s *setting, i int) int {
	s.call = true
	j := i
	if n := p.when(s, j); n > 0 {
		j = p.skipMark(j+n, ",")
	}
	_, m := p.class(j, "call")
	if m == 0 {
		return 0
	}
	return p.timeAndName(s, j+m)
}

// timeAndName reads the time and what it is for, in any order, and gives where the wish
// ends; 0 where something else is said, or no time.
func (p *parser) timeAndName(s *setting, j int) int {
	for {
		j = p.timedOff(s, j)
		if s.timed && p.bounds(j) {
			if k := p.nameBehind(s, j); k > j {
				j = p.timedOff(s, k)
				continue
			}
			return j
		}
		if !s.timed && p.mark(j, ",:-") {
			j++
			continue
		}
		n := 0
		if !s.timed {
			n = p.when(s, j)
		}
		if n == 0 && !s.named {
			n = p.what(s, j)
		}
		if n == 0 {
			return 0
		}
		j += n
	}
}

// nameBehind reads a name behind a comma: "12 min, tart". It gives j where there
// is none.
func (p *parser) nameBehind(s *setting, j int) int {
	if s.named || !p.mark(j, ",:-") {
		return j
	}
	own := *s
	own.strict = true
	n := p.what(&own, j+1)
	if n == 0 || own.call && !p.mark(j, ":-") || !p.bounds(p.timedOff(s, j+1+n)) {
		return j
	}
	*s = own
	return j + 1 + n
}

func (s *setting) time(sec int) { s.Seconds, s.timed = sec, true }

func (s *setting) name(words string) { s.For, s.named = words, true }

// when reads the time at j, with the word before it, and gives how many tokens it
// takes. Minutes are what a bare number counts.
func (p *parser) when(s *setting, j int) int {
	k, prep := j, ""
	if n := p.whenPast(s, j); n > 0 {
		return n
	}
	if p.mark(j, "@") {
		k, prep = j+1, "at"
	} else if p.class1(j, "when") {
		k, prep = j+1, p.t[j].w
	}
	sure := prep == "at" || strings.HasPrefix(prep, "til") || prep == "until" || s.alarm && prep == "for" && p.mark(k+1, ":")
	if s.call && prep != "in" && !sure {
		return 0
	}
	if c, n := p.clock(k, sure); n > 0 && prep != "in" && prep != "of" {
		s.At, s.Either, s.timed = c.at, c.either, true
		return k + n - j
	}
	sec, n, unit := p.lasts(k)
	if prep == "of" && !s.ordered { // "I reckon a timer of 12 min"
		return 0
	}
	if n == 0 || sec < 1 || sec > longestTimer || !unit && sure {
		return 0
	}
	if rest := k + n; !unit && prep != "in" && !p.bounds(rest) && !p.is(rest, word) {
		return 0
	}
	s.time(sec)
	s.exact = unit
	return k + n - j
}

// whenPast reads "when 10 min is up" behind a word that asks to be called, and
// gives how many tokens it takes; 0 where that does not stand there.
func (p *parser) whenPast(s *setting, j int) int {
	if !s.call || !p.word(j, "when") && !p.word(j, "after") && !p.word(j, "once") {
		return 0
	}
	sec, n, unit := p.lasts(j + 1)
	if !unit {
		return 0
	}
	k := j + 1 + n
	_, m := p.class(k, "past")
	if m == 0 && !(p.word(j, "after") && p.bounds(k)) {
		return 0
	}
	s.time(sec)
	s.exact = true
	return k + m - j
}

// otherCount says whether what stands behind a number says that it counts no
// minutes: "300 g", "4 covers", "160 degrees".
func (p *parser) otherCount(j int) bool {
	if _, m := p.class(j, "notfood"); m > 0 || p.is(j, digit) || p.is(j, money) {
		return true
	}
	if p.is(j, mark) && j > 0 && p.t[j].from == p.t[j-1].to && strings.Contains("%°/^*x#", p.t[j].w) {
		return true
	}
	u, m := p.unit(j)
	return m > 0 && (u.Sort == measure.Mass || u.Sort == measure.Volume) && p.t[j].from == p.t[j-1].to
}
