package language

// stops reads a wish to stop timers at i and gives where it ends; 0 where there
// is none: "cancel the tart timer", "turn the timer off", "tart timer off". asked
// says that it was asked for politely.
func (p *parser) stops(i int, asked bool) (Timer, int) {
	t := Timer{Wish: TimerStop}
	h, m := p.class(i, "halt")
	off := h.value == "off" || m == 0
	j := p.allOf(&t, i+m)
	if sec, n, unit := p.lasts(j); unit && m > 0 { // "cancel the 12 min timer"
		t.Seconds, j = sec, j+n
	}
	j = p.timerNamed(&t, j, h, m > 0)
	if j == 0 {
		return t, 0
	}
	if off {
		if !p.word(j, "off") && !(m == 0 && p.class1(j, "halt") && p.bounds(j+1)) {
			return t, 0
		}
		j++
	}
	if question := p.end < len(p.t) && p.t[p.end].w == "?"; question && !asked { // "stop the timer?"
		return t, 0
	}
	if n := p.stopsFor(&t, j); n > 0 {
		j += n
	}
	if j = p.timedOff(&setting{}, j); !p.bounds(j) && !p.class1(j, "reason") {
		return t, 0
	}
	return t, j
}

// allOf passes "all of the", "both", "the".
func (p *parser) allOf(t *Timer, j int) int {
	for {
		if p.word(j, "all") || p.word(j, "every") || p.word(j, "both") {
			t.All = true
		} else if !p.isDet(j) && !p.word(j, "that") && !(t.All && p.word(j, "of")) {
			return j
		}
		j++
	}
}

// timerNamed reads the word for a timer with what it is for before it, and gives
// where that ends; 0 where there is none. told says that a word to stop stands
// before it, h.
func (p *parser) timerNamed(t *Timer, i int, h *phrase, told bool) int {
	j := i
	for j-i < mostNameWords && p.is(j, word) && !p.class1(j, "timer") {
		if p.barsBefore(j, i) {
			return 0
		}
		j++
	}
	w, m := p.class(j, "timer")
	if m == 0 || p.owner(j) != "" || !told && (j > i && !p.namesFood(i, j) || i > p.start && p.isDet(i-1)) {
		return 0
	}
	if w.value == "asked" && (j > i || h.value != "back") { // "turn the fire alarm off"
		return 0
	}
	if j > i {
		t.For = p.said(i, j)
	}
	t.All = t.All || w.value == "many" && j == i
	return j + m
}

// stopsFor reads what the timer is for, behind the word: "for the tart", "tart".
func (p *parser) stopsFor(t *Timer, j int) int {
	s := setting{strict: true, timed: true, named: t.For != ""}
	if s.named || p.word(j, "to") {
		return 0
	}
	n := p.what(&s, j)
	if n > 0 {
		t.For = s.For
	}
	return n
}
