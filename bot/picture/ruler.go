package picture

import (
	"math"
	"slices"
	"time"
)

// steps are the minutes that a ruler may be marked by.
var steps = []float64{1, 5, 10, 15, 30, 60, 120, 180, 240, 360, 720, 1440}

// every gives the smallest of the steps that takes so many px.
func (s *setting) every(px float64) float64 {
	a := (s.to - s.from) / (s.last - s.first)
	for _, m := range steps {
		if m*a >= px {
			return m
		}
	}
	m := steps[len(steps)-1]
	for m*a < px {
		m *= 2
	}
	return m
}

// ticks are the minutes at which the clock shows a multiple of so many.
func (s *setting) ticks(every float64) (list []float64) {
	h, m, sec := s.Begins.Clock()
	clock := float64(h*60+m) + float64(sec)/60
	for at := math.Ceil((clock+s.first)/every)*every - clock; at <= s.last; at += every {
		list = append(list, at)
	}
	return list
}

// ruler draws the ruler, with room for the time above it; it gives where it ends.
func (s *setting) ruler(y float64) float64 {
	p := s.small(s.tick)
	if !s.Now.IsZero() {
		y += snap(s.u * 1.7)
	}
	high := snap(s.u * 2.1)
	s.box(s.from-s.u*0.5, y+1, s.to-s.from+s.u, high, s.shade)
	s.box(s.from-s.u*0.5, y, s.to-s.from+s.u, high, s.rule)
	if ticks := s.ticks(s.every(3.5)); len(ticks) > 0 {
		from, gap := s.x(ticks[0])-0.5, s.x(s.every(3.5))-s.x(0)
		s.across(from, y+high-s.u*0.4, s.to+1-from, s.u*0.4, s.tick, 1, gap-1)
	}
	named := s.ticks(s.labelled())
	for _, at := range named {
		x := s.x(at)
		s.box(x-0.5, y+high-s.u*0.75, 1.5, s.u*0.75, s.tick)
		text := s.Begins.Add(time.Duration(math.Round(at*60)) * time.Second).Format("15:04")
		wide := p.wide(text)
		s.write(text, min(max(x-wide/2, 2), s.w-2-wide), y+s.u*1.1, wide, p)
	}
	return y + high
}

// labelled is how many minutes there are between the times on the ruler.
func (s *setting) labelled() float64 {
	m := s.every(s.small(s.tick).wide("00:00") + s.u*0.6)
	if m == 1 {
		return 5
	}
	return m
}

// string hangs a string at what is now, behind all words, with the time on top.
func (s *setting) string(y0, y1 float64) {
	if s.Now.IsZero() {
		return
	}
	now := s.minute(s.Now)
	text := "now " + s.Now.In(s.Begins.Location()).Format("15:04")
	switch {
	case now > s.last:
		text += " ›"
	case now < s.first:
		text = "‹ " + text
	}
	p := s.thick(s.ink)
	x := snap(s.x(min(max(now, s.first), s.last)))
	pad := s.u * 0.4
	wide := p.wide(text) + 2*pad
	left := snap(min(max(x-wide/2, s.left), s.right-wide))
	high := snap(s.u * 1.5)
	if now >= s.first && now <= s.last {
		at := y0 + high
		for _, gap := range s.behind(x-2, x+2, at, y1) {
			s.box(x-1, at, 2, gap.y0-at, s.twine)
			s.downward(x-1, at, 1, gap.y0-at, s.strand, 1.5, 2.5)
			at = max(at, gap.y1)
		}
	}
	s.strip(left, left+wide, y0, high, s.tape)
	s.write(text, left+pad, y0+s.u*1.1, wide-2*pad+0.01, p)
}

type gap struct{ y0, y1 float64 }

// behind are the words that a string at x goes behind, from top to bottom, and its end.
func (s *setting) behind(x0, x1, y0, y1 float64) []gap {
	var list []gap
	for _, w := range s.words {
		if w.x < x1 && x0 < w.x+w.wide && w.bottom() > y0 && w.top() < y1 {
			list = append(list, gap{max(y0, snap(w.top())-0.5), min(y1, snap(w.bottom())+0.5)})
		}
	}
	slices.SortFunc(list, func(a, b gap) int { return int(math.Copysign(1, a.y0-b.y0)) })
	return append(list, gap{y1, y1})
}
