package language

import "scullion/pantry/measure"

// Size is how big a piece is cut.
type Size struct {
	Mm  float64 // 0 not said
	Cut string  // "cube", "slice", "stick", "whole"; "" not said
}

// cutSize reads one at i, "2 cm cubes", "slices of 5 mm", "an inch thick", "10mm dice", and
// gives how many tokens it takes; 0 where none stands there.
func (p *parser) cutSize(i int, s *Size) int {
	if s == nil {
		s = &Size{}
	}
	j := p.skip(p.skipWord(p.skipWord(i, "cut"), "in"), "det")
	if c, m := p.class(j, "cut"); m > 0 && c.value != "" { // "slices of 5 mm"
		k := p.skipWord(j+m, "of")
		if mm, n := p.length(k); n > 0 {
			s.Mm, s.Cut = mm, c.value
			return k + n - i
		}
		return 0
	}
	mm, n := p.length(j)
	if n == 0 {
		return 0
	}
	j += n
	s.Mm = mm
	if c, m := p.class(p.hyphen(j), "cut"); m > 0 {
		s.Cut = c.value
		j = p.skipWord(p.hyphen(j)+m, "of")
	}
	return j - i
}

// length reads "2 cm", "5mm", "half an inch" at i, in millimetres.
func (p *parser) length(i int) (mm float64, n int) {
	v, m := p.howMany(i)
	if m == 0 && p.word(i, "inch") { // "inch thick"
		v = measure.Whole(1)
	} else if m == 0 || v.Den == 0 {
		return 0, 0
	}
	k := p.hyphen(i + m)
	u, w := p.class(k, "length")
	if w == 0 {
		return 0, 0
	}
	mm = float64(v.Num) / float64(v.Den) * float64(u.ratio.Num) / float64(u.ratio.Den)
	if mm < 0.5 || mm > 500 {
		return 0, 0
	}
	return mm, k + w - i
}

// sizeSaid finds a size anywhere in the message.
func (p *parser) sizeSaid() (s Size) {
	end := p.end
	p.end = len(p.t)
	defer func() { p.end = end }()
	for i := range p.t {
		if p.cutSize(i, &s) > 0 && s.Mm > 0 {
			break
		}
	}
	if s.Cut == "" {
		for i := range p.t {
			if c, m := p.class(i, "cut"); m > 0 {
				s.Cut = c.value
			}
		}
	}
	return s
}

// method finds how it is to be cooked, anywhere in the message; "" not said.
func (p *parser) method() string {
	end := p.end
	p.end = len(p.t)
	defer func() { p.end = end }()
	for i := range p.t {
		if m, n := p.class(i, "method"); n > 0 {
			return m.value
		}
	}
	return ""
}
