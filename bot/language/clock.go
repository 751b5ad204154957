package language

import "fmt"

// clocked is a time of day as said.
type clocked struct {
	at     string // "18:30"
	either bool   // morning or evening was not said: at is below 12:00
}

// clock reads a time of day at i: "18:30", "6.30pm", "half six", "ten to six",
// "noon". sure says that the word before it lets no other reading: then "six" and
// "six thirty" are times as well. n is how many tokens it takes; 0 none.
func (p *parser) clock(i int, sure bool) (c clocked, n int) {
	if w, m := p.class(i, "clock"); m > 0 && len(w.value) == 5 { // "noon"
		return clocked{at: w.value}, m
	}
	h, min, n := p.hourMinute(i, sure)
	if n == 0 {
		h, min, n = p.pastOrTo(i)
	}
	whole := n == 0
	if whole {
		h, n = p.hour(i)
	}
	if n == 0 || h > 23 || min > 59 {
		return c, 0
	}
	half, m := p.class(i+n, "clock")
	if m > 0 && len(half.value) == 5 || m == 0 && whole && !sure || p.class1(i+n, "span") && m == 0 {
		return c, 0
	}
	if m == 0 && (whole || !p.is(i, word)) && p.otherCount(i+n) || (half.value != "" && (h == 0 || h > 12)) {
		return c, 0
	}
	either := half.value == "" && h >= 1 && h <= 12 && !(p.is(i, digit) && p.t[i].raw[0] == '0')
	switch {
	case half.value == "pm":
		h = h%12 + 12
	case half.value == "am" || either:
		h %= 12
	}
	return clocked{at: fmt.Sprintf("%02d:%02d", h, min), either: either}, n + m
}

// hour reads a bare hour: "6", "six".
func (p *parser) hour(i int) (h int64, n int) {
	if p.is(i, digit) && len(p.t[i].raw) <= 2 && p.t[i].val.Den == 1 {
		return p.t[i].val.Num, 1
	}
	if w, m := p.class(i, "number"); m == 1 && p.is(i, word) && w.ratio.Num >= 1 && w.ratio.Num <= 19 {
		return w.ratio.Num, 1
	}
	return 0, 0
}

// hourMinute reads both: "18:30", "18.30", "1830", "six thirty". Without sure,
// figures need a half of the day behind them: "6:30pm".
func (p *parser) hourMinute(i int, sure bool) (h, min int64, n int) {
	if !p.is(i, digit) {
		return p.spokenTime(i, sure)
	}
	raw := p.t[i].raw
	switch {
	case p.mark(i+1, ":") && p.is(i+2, digit) && p.t[i].to == p.t[i+1].from && p.t[i+1].to == p.t[i+2].from && !p.mark(i+3, ":"):
		raw, n = raw+"."+p.t[i+2].raw, 3
	case len(raw) == 4 && isDigits(raw):
		raw, n = raw[:2]+"."+raw[2:], 1
	default:
		n = 1
	}
	if _, m := p.class(i+n, "clock"); m == 0 && !sure {
		return 0, 0, 0
	}
	if k := len(raw) - 3; k < 1 || k > 2 || raw[k] != '.' || !isDigits(raw[:k]) || !isDigits(raw[k+1:]) {
		return 0, 0, 0
	}
	k := len(raw) - 3
	return whole(raw[:k]), whole(raw[k+1:]), n
}

// spokenTime reads "six thirty", "eighteen forty five".
func (p *parser) spokenTime(i int, sure bool) (h, min int64, n int) {
	h, n = p.hour(i)
	m, k := p.class(i+n, "number")
	if n == 0 || k != 1 || m.ratio.Num < 10 || !sure {
		return 0, 0, 0
	}
	min, n = m.ratio.Num, n+k
	if u, k := p.class(i+n, "number"); k == 1 && min >= 20 && u.ratio.Num < 10 && u.ratio.Num > 0 {
		min, n = min+u.ratio.Num, n+k
	}
	return h, min, n
}

// pastOrTo reads "half six", which is 6:30, "half past six", "ten to six", "quarter
// past 6".
func (p *parser) pastOrTo(i int) (h, min int64, n int) {
	j := p.skipWord(i, "a")
	if f, m := p.class(j, "fraction"); m > 0 && (f.ratio.Den == 2 || f.ratio.Den == 4) && f.ratio.Num == 1 {
		min, j = 60*f.ratio.Num/f.ratio.Den, j+m
	} else if v, m := p.number(j); m > 0 && v.Den == 1 && v.Num < 60 {
		min, j = v.Num, j+m
		if s, m := p.class(j, "span"); m > 0 && s.ratio.Num == 60 {
			j += m
		}
	} else {
		return 0, 0, 0
	}
	to := p.word(j, "to")
	if to || p.word(j, "past") {
		j++
	} else if min != 30 || !p.word(j-1, "half") {
		return 0, 0, 0
	}
	h, m := p.hour(j)
	if m == 0 || h < 1 || h > 12 || p.class1(j+m, "span") {
		return 0, 0, 0
	}
	if to {
		h, min = (h+11)%12, 60-min
		if h == 0 {
			h = 12
		}
	}
	return h, min, j + m - i
}
