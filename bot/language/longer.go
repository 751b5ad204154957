package language

// longer reads a wish to give a running timer more time at i, and gives where it
// ends; 0 where there is none. That it is more must be said. The forms:
//
//	["add"] time {"to" | "on"} [det] [name] timer     5 more min on the tart timer
//	["extend"] [det] [name] timer ["by"] time         tart timer another 5 min
func (p *parser) longer(i int, asked bool) (Timer, int) {
	t := Timer{Wish: TimerMore}
	verb, m := p.class(i, "longer")
	more := m > 0 && verb.value != "told"
	if m == 0 {
		_, m = p.class(i, "setting")
	}
	j := i + m
	sec, n, further := p.further(j)
	if n > 0 {
		j += n
		if !(p.word(j, "to") || p.word(j, "on")) {
			return t, 0
		}
		j = p.timerNamed(&t, p.skip(j+1, "det"), &phrase{}, true)
	} else {
		from := p.skip(j, "det")
		if j = p.timerNamed(&t, from, &phrase{}, m > 0 || from > j); j == 0 {
			return t, 0
		}
		if p.mark(j, "+") {
			j, further = j+1, true
		}
		j = p.skipWord(p.skipWord(j, "needs"), "by")
		var own bool
		sec, n, own = p.further(j)
		j, further = j+n, further || own
	}
	question := p.end < len(p.t) && p.t[p.end].w == "?"
	if j == 0 || n == 0 || !more && !further || question && !asked {
		return t, 0
	}
	t.Seconds = sec
	if n := p.stopsFor(&t, j); n > 0 {
		j += n
	}
	if j = p.timedOff(&setting{}, j); !p.bounds(j) {
		return t, 0
	}
	return t, j
}

// further reads a time at j, and says whether it is told to come on top: "another
// 5 min", "5 more minutes". It gives how many tokens it takes; 0 where none with a
// unit stands there.
func (p *parser) further(j int) (sec, n int, further bool) {
	k := p.skip(j, "further")
	further = k > j
	sec, m, unit := p.lasts(k)
	if v, d := p.number(k); (m == 0 || !unit) && d > 0 {
		_, f := p.class(k+d, "further")
		each, s, u := int64(60), (*phrase)(nil), 0
		if s, u = p.class(k+d+f, "span"); u > 0 {
			each = s.ratio.Num
		}
		if f == 0 || u == 0 && !p.bounds(k+d+f) { // "tart timer 5 more"
			return 0, 0, false
		}
		sec, m, further = seconds(v, each), d+f+u, true
	} else if !unit {
		return 0, 0, false
	}
	if sec < 1 || sec > longestTimer {
		return 0, 0, false
	}
	k += m
	if _, f := p.class(k, "further"); f > 0 {
		k, further = k+f, true
	}
	return sec, k - j, further
}
