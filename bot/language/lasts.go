package language

import "scullion/pantry/measure"

// lasts reads how long at i, in whole seconds: "12 min", "an hour and a half",
// "1h 20", "90s", "1:30", or a bare number of minutes, which has no unit. n is how
// many tokens it takes; 0 where there is none.
//
// "1:30" is a minute and a half and "1:30:00" an hour and a half, as a timer shows
// them: who means an hour and a half by two figures hears it in the reply. Of "10-12
// min" it is the lower one: what was looked at too soon can go back in.
func (p *parser) lasts(i int) (sec, n int, unit bool) {
	if sec, n = p.figures(i); n > 0 {
		return sec, n, true
	}
	j := p.skip(i, "about")
	v, m := p.howMany(j)
	k := p.hyphen(j + m)
	if m > 0 {
		if _, r := p.rangeEnd(k); r > 0 && p.class1(p.hyphen(k+r), "span") {
			k = p.hyphen(k + r)
		}
	}
	s, u := p.class(k, "span")
	switch {
	case m == 0 && !p.halfBehind(k, u), v.Den == 0 && m > 0:
		return 0, 0, false
	case u == 0:
		sec = seconds(v, 60)
		if v.Den != 0 && !p.otherCount(j+m) && !p.glued(j+m) && !(p.is(j, word) && v.Num > 99*v.Den) && sec > 0 { // "one twenty" is 1:20 or 120
			return sec, j + m - i, false
		}
		return 0, 0, false
	case m == 0: // "hour and a half"
		v = measure.Whole(1)
	}
	k += u
	if f, h := p.andFraction(k); h > 0 {
		v, _ = v.Plus(f)
		k += h
	}
	sec = seconds(v, s.ratio.Num)
	if sec < 1 || sec > longestTimer {
		return 0, 0, false
	}
	more, m := p.andSmaller(k, s.ratio.Num)
	return sec + more, k + m - i, true
}

// seconds is v times so many seconds, to the nearest; 0 where that is no number a
// timer could have.
func seconds(v measure.Ratio, each int64) int {
	if v.Den <= 0 || v.Num < 0 || v.Num/v.Den > longestTimer || v.Num > 1e12 {
		return 0
	}
	return int((v.Num*each + v.Den/2) / v.Den)
}

// howMany reads the number before a unit of time: "12", "two and a half", "half
// an", "a quarter of an", "a".
func (p *parser) howMany(i int) (v measure.Ratio, n int) {
	if p.word(i, "both") || p.word(i, "few") || p.word(i, "a") && p.word(i+1, "few") { // nobody can say how many those are
		return v, 0
	}
	j := i
	v, n = p.number(j)
	if n == 0 {
		if p.word(j, "a") || p.word(j, "an") {
			j, v = j+1, measure.Whole(1)
		}
		if f, m := p.class(j, "fraction"); m > 0 {
			j, v = j+m, f.ratio
		}
		if n = j - i; n == 0 {
			return v, 0
		}
	}
	j = i + n
	if v.Num < v.Den { // "half an hour"
		j = p.skipWord(j, "of")
		j = p.skipWord(p.skipWord(j, "a"), "an")
	}
	if _, m := p.longest(p.hyphen(j), "span", "length"); m == 0 && (j > i+n || !p.class1(i, "number") && !p.is(i, digit)) {
		return measure.Ratio{}, 0
	}
	return v, j - i
}

// hyphen passes the stroke of "12-minute".
func (p *parser) hyphen(j int) int {
	if p.mark(j, "-") && j > 0 && j+1 < p.end && p.t[j-1].to == p.t[j].from && p.t[j].to == p.t[j+1].from && p.is(j+1, word) {
		return j + 1
	}
	return j
}

// halfBehind says whether "hour and a half" stands at k, where a unit of u tokens
// does.
func (p *parser) halfBehind(k, u int) bool {
	_, h := p.andFraction(k + u)
	return u > 0 && h > 0
}

// andSmaller reads what a smaller unit adds: "20 min" of "1 hour and 20 min", "20"
// of "1h 20". big is the larger unit's seconds.
func (p *parser) andSmaller(i int, big int64) (sec, n int) {
	j := p.skipWord(p.skipMark(i, ","), "and")
	v, m := p.number(j)
	if m == 0 || v.Den == 0 || big == 1 {
		return 0, 0
	}
	k := j + m
	if s, u := p.class(k, "span"); u > 0 {
		if s.ratio.Num >= big || seconds(v, s.ratio.Num) >= int(big) {
			return 0, 0
		}
		more, x := p.andSmaller(k+u, s.ratio.Num)
		return seconds(v, s.ratio.Num) + more, k + u + x - i
	}
	bare := p.is(j, digit) && len(p.t[j].raw) == 2 || p.is(j, word) && v.Num >= 10
	if !bare || j > i && !p.word(j-1, "and") || v.Den != 1 || v.Num >= 60 || p.otherCount(k) || big == 60 && p.foodAt(k) { // "20 min 12 eggs"
		return 0, 0
	}
	return seconds(v, big/60), k - i
}

// figures reads "1:30", minutes and seconds, and "1:30:00".
func (p *parser) figures(i int) (sec, n int) {
	parts := []int64{}
	for j := i; p.is(j, digit) && p.t[j].val.Den == 1; j += 2 {
		if len(parts) > 0 && (len(p.t[j].raw) != 2 || p.t[j].val.Num > 59) || p.t[j].val.Num > longestTimer {
			return 0, 0
		}
		parts = append(parts, p.t[j].val.Num)
		if !p.mark(j+1, ":") || p.t[j].to != p.t[j+1].from || !p.is(j+2, digit) || p.t[j+1].to != p.t[j+2].from {
			break
		}
	}
	if len(parts) != 2 && len(parts) != 3 {
		return 0, 0
	}
	for _, v := range parts {
		sec = sec*60 + int(v)
	}
	n = 2*len(parts) - 1
	if sec < 1 || sec > longestTimer || p.class1(i+n, "clock") {
		return 0, 0
	}
	return sec, n
}
