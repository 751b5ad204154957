package picture

import (
	"image/color"
	"strconv"
)

// sheet is the surface that a picture is stuck on, and what its sizes are taken from.
type sheet struct {
	drawing
	*theme
	u           float64 // the size of plain words, px; never under 12
	left, right float64 // where there is room between
}

// newSheet is an empty surface. Words grow with its width, so that a wall can be read from further away.
func newSheet(o Options) *sheet {
	w := o.width()
	u := snap(12 + max(0, w-360)/160)
	return &sheet{drawing: drawing{w: w}, theme: o.theme(), u: u, left: u, right: w - u}
}

// narrow says that there is a phone's width only.
func (s *sheet) narrow() bool { return s.w < 560 }

func (s *sheet) plain(fill color.RGBA) pen { return pen{size: s.u, fill: fill} }
func (s *sheet) small(fill color.RGBA) pen { return pen{size: max(11, snap(s.u*0.88)), fill: fill} }
func (s *sheet) thick(fill color.RGBA) pen { return pen{size: s.u, heavy: true, fill: fill} }

// brushed puts the steel under what was drawn, now that its height is known.
func (s *sheet) brushed(h float64) *drawing {
	s.h = snap(h)
	d := drawing{w: s.w, h: s.h, size: s.u, fill: s.chalk}
	if s.steel.A == 0 { // of a page, which has a ground
		d.shapes, d.words = s.shapes, s.words
		return &d
	}
	d.box(0, 0, s.w, s.h, s.steel)
	d.downward(0, 0, s.w, s.h, s.grain, 0.5, 2, 0.5, 4.5, 0.5, 1.5, 0.5, 3.5, 1, 2.5)
	d.shapes = append(d.shapes, s.shapes...)
	d.words = s.words
	return &d
}

// torn is how far the torn end of a tape goes in, from top to bottom, of the most.
var torn = []float64{0.2, 1, 0.2, 0.9, 0}

// strip sticks a piece of tape, torn off at both ends; it never goes beyond them.
func (s *sheet) strip(x0, x1, y, h float64, fill color.RGBA) {
	deep := min(1.5, (x1-x0)/5)
	var poly []point
	for i := range torn {
		poly = append(poly, point{x0 + deep*torn[len(torn)-1-i], y + h*float64(i)/float64(len(torn)-1)})
	}
	for i := range torn {
		poly = append(poly, point{x1 - deep*torn[i], y + h*float64(len(torn)-1-i)/float64(len(torn)-1)})
	}
	s.box(x0+0.5, y+h-1, x1-x0-1, 2, s.shade)
	s.area(fill, poly)
}

// mark draws the line of a dish along the lower edge of its tape: each of six has a form of
// its own.
func (s *sheet) mark(n int, x0, x1, y float64) {
	if n < 1 {
		return
	}
	fill, t := s.markOf(n), snap(s.u/6)
	switch y -= t + 1; (n - 1) % 6 {
	case 0: // a line
		s.box(x0, y, x1-x0, t, fill)
	case 1: // dashes
		s.across(x0, y, x1-x0, t, fill, 3*t, 2*t)
	case 2: // two lines
		s.box(x0, y-t/2, x1-x0, t/2, fill)
		s.box(x0, y+t/2, x1-x0, t/2, fill)
	case 3: // dots
		s.across(x0, y, x1-x0, t, fill, t, t)
	case 4: // teeth
		var teeth [][]point
		for x := x0; x+2*t <= x1; x += 2 * t {
			teeth = append(teeth, []point{{x, y + t}, {x + t, y - t/2}, {x + 2*t, y + t}})
		}
		if teeth == nil {
			teeth = [][]point{{{x0, y + t}, {x0, y}, {x1, y + t}}}
		}
		s.area(fill, teeth...)
	case 5: // a line and a dot
		s.across(x0, y, x1-x0, t, fill, 4*t, 1.5*t, t, 1.5*t)
	}
}

func (s *sheet) markOf(n int) color.RGBA { return s.marks[(n-1)%len(s.marks)] }

// figureWide is what the figure of a dish takes; 0 where there is none.
func (s *sheet) figureWide(n int) float64 {
	if n < 1 {
		return 0
	}
	return max(s.u, s.small(s.tape).wide(strconv.Itoa(n))+s.u*0.5)
}

// figure writes the figure of a dish where it begins and stands; it gives what that takes.
func (s *sheet) figure(n int, x, y float64) float64 {
	wide := s.figureWide(n)
	if wide == 0 {
		return 0
	}
	p := s.small(s.tape)
	p.heavy = true
	s.box(x, y-s.u*0.93, wide, s.u*1.15, s.markOf(n))
	text := strconv.Itoa(n)
	s.write(text, x+(wide-p.wide(text))/2, y-s.u*0.02, wide, p)
	return wide
}

// heading writes a title on a tape, in two lines at most; it gives where that ends.
func (s *sheet) heading(title string, y, room float64) float64 {
	p := pen{size: snap(s.u * 1.3), heavy: true, fill: s.ink}
	lines := wrap(clean(title), room-s.u*1.2, p.size, true, 2)
	if len(lines) == 0 {
		return y
	}
	wide := 0.0
	for _, line := range lines {
		wide = max(wide, p.wide(line))
	}
	h := snap(p.size * (1.25*float64(len(lines)) + 0.45))
	s.strip(s.left, s.left+wide+s.u*1.2, y, h, s.tape)
	for n, line := range lines {
		s.write(line, s.left+s.u*0.6, y+p.size*(1.2+1.25*float64(n)), wide, p)
	}
	return y + h
}
