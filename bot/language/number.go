package language

import (
	"strings"

	"scullion/pantry/measure"
)

// number reads a number at i, in figures or words: 300, 1 1/2, two hundred and
// fifty, one point two, two and a half, a hundred. n is how many tokens it
// takes; 0 where there is none.
func (p *parser) number(i int) (v measure.Ratio, n int) {
	if p.is(i, digit) {
		v, n = p.t[i].val, 1
		if v.Den != 0 && v.Den == 1 && p.is(i+1, digit) && p.t[i+1].val.Den > 1 && p.t[i+1].val.Num < p.t[i+1].val.Den {
			v, _ = v.Plus(p.t[i+1].val)
			n = 2
		}
		if f, m := p.andFraction(i + n); m > 0 && v.Den == 1 {
			v, _ = v.Plus(f)
			n += m
		}
		return v, n
	}
	return p.spoken(i)
}

// spoken reads a number in words.
func (p *parser) spoken(i int) (v measure.Ratio, n int) {
	if p.word(i, "point") { // "point two kilos"
		if f, m := p.decimals(i + 1); m > 0 {
			return f, m + 1
		}
	}
	total, part, any := int64(0), int64(0), false
	j := i
	for {
		w, m := p.class(j, "number")
		if m == 0 && !any && (p.word(j, "a") || p.word(j, "an")) {
			if _, k := p.class(j+1, "times"); k > 0 {
				part, any, j = 1, true, j+1
				continue
			}
		}
		if m > 0 {
			x := w.ratio.Num
			if any && part > 0 && part < 10 && x >= 20 && x%10 == 0 && total == 0 { // "two fifty"
				part, j = part*100+x, j+m
				continue
			}
			if any && part%100 != 0 && (part%10 != 0 || x >= 10) || any && x == 0 {
				break
			}
			part, any, j = part+x, true, j+m
			continue
		}
		if w, m := p.class(j, "times"); m > 0 && any {
			if part == 0 || part > 999 {
				break
			}
			if w.ratio.Num == 1000 {
				total, part = total+part*1000, 0
			} else {
				part *= w.ratio.Num
			}
			j += m
			continue
		}
		if any && p.word(j, "and") && (part%100 == 0) {
			if _, m := p.class(j+1, "number"); m > 0 {
				j++
				continue
			}
		}
		break
	}
	if !any {
		return v, 0
	}
	v = measure.Whole(total + part)
	if p.word(j, "point") {
		if f, m := p.decimals(j + 1); m > 0 {
			v, _ = v.Plus(f)
			return v, j + 1 + m - i
		}
	}
	if f, m := p.class(j, "fraction"); m > 0 { // three quarters
		if q, ok := v.Times(f.ratio); ok && v.Num > 0 && q.Num <= q.Den {
			return q, j + m - i
		}
	}
	if f, m := p.andFraction(j); m > 0 {
		v, _ = v.Plus(f)
		j += m
	}
	return v, j - i
}

// decimals reads what comes after "point": "two", "two five", "twenty five".
func (p *parser) decimals(i int) (v measure.Ratio, n int) {
	v = measure.Ratio{Num: 0, Den: 1}
	for n < 4 {
		w, m := p.class(i+n, "number")
		switch x := w.ratio.Num; {
		case m != 1:
			return v, n
		case x < 10:
			v = measure.Ratio{Num: v.Num*10 + x, Den: v.Den * 10}
		default: // twenty, and perhaps five
			if u, k := p.class(i+n+1, "number"); k == 1 && x%10 == 0 && u.ratio.Num < 10 {
				x += u.ratio.Num
				n++
			}
			v = measure.Ratio{Num: v.Num*100 + x, Den: v.Den * 100}
		}
		n++
	}
	return v, n
}

// andFraction reads "and a half", "and three quarters".
func (p *parser) andFraction(i int) (v measure.Ratio, n int) {
	if !p.word(i, "and") {
		return v, 0
	}
	j := i + 1
	k := int64(1)
	if p.word(j, "a") || p.word(j, "one") {
		j++
	} else if w, m := p.class(j, "number"); m > 0 && w.ratio.Num < 10 {
		k, j = w.ratio.Num, j+m
	}
	f, m := p.class(j, "fraction")
	if m == 0 || f.ratio.Num*k >= f.ratio.Den {
		return v, 0
	}
	if _, m := p.class(j+m, "det"); m > 0 { // "and half the milk" is another item
		return v, 0
	}
	return measure.Ratio{Num: f.ratio.Num * k, Den: f.ratio.Den}, j + m - i
}

// rangeEnd reads the second half of 1-2, 2 to 3, 2 or 3.
func (p *parser) rangeEnd(i int) (v measure.Ratio, n int) {
	if i >= len(p.t) || !(p.t[i].w == "-" || p.word(i, "to") || p.word(i, "or") || p.word(i, "and") && p.between) {
		return v, 0
	}
	low := p.t[i-1].val
	v, m := p.number(i + 1)
	if low.Den == 0 && p.is(i-1, word) { // in words
		low, _ = p.number(i - 1)
	}
	if m == 0 || v.Den == 0 || low.Den > 0 && v.Num*low.Den < low.Num*v.Den { // "leeks - 5 - 1.1kg"
		return v, 0
	}
	return v, m + 1
}

// glued says that letters or signs run on from the number before i in a way
// that is no unit: 1e309, 300#x.
func (p *parser) glued(i int) bool {
	if i == 0 || i >= len(p.t) || p.t[i].from != p.t[i-1].to || p.t[i-1].sort != digit {
		return false
	}
	switch p.t[i].sort {
	case digit:
		return p.t[i].val.Den <= 1 // a vulgar fraction may follow
	case word:
		if u, _ := p.unit(i); u != nil || p.t[i].w == "x" {
			return false
		}
		return p.is(i+1, digit) && p.t[i+1].from == p.t[i].to || p.t[i].w == "e"
	case mark:
		return strings.Contains("^*/", p.t[i].w)
	}
	return false
}

// startsAmount says whether an amount begins at i, for where a food ends.
func (p *parser) startsAmount(i int) bool {
	i = p.skip(p.skipWord(i, "between"), "about")
	if p.word(i, "the") && p.word(i+1, "other") {
		i += 2
	}
	if p.is(i, digit) {
		return !p.dishFour(i)
	}
	if _, m := p.number(i); m > 0 {
		return true
	}
	if p.word(i, "a") || p.word(i, "an") {
		if _, m := p.class(i+1, "fraction"); m > 0 {
			return true
		}
		if _, m := p.class(i+1, "number"); m > 0 {
			return true
		}
		u, m := p.unit(p.skip(i+1, "size"))
		return m > 0 && (u.Sort != measure.Parts || p.word(p.skip(i+1, "size")+m, "of"))
	}
	if f, m := p.class(i, "fraction"); m > 0 && f.ratio.Den > 0 {
		return true
	}
	k := p.skip(i, "size") // "whole bunch of", "pint of"
	_, m := p.unit(k)
	return m > 0 && p.lexHas(k+m, k+m+1, "of")
}

// dishFour tells "4 the tart", which is a dish, from "4 eggs".
func (p *parser) dishFour(i int) bool {
	if i == p.start || !p.is(i, digit) || p.t[i].raw != "4" {
		return false
	}
	_, m := p.longest(i+1, "det", "dish")
	return m > 0 && !p.foodAt(i+1)
}
