package picture

import (
	"math"
	"slices"
)

// tidy gives a stock with its words on one line each and its shares within bounds.
func (s Stock) tidy() Stock {
	s.Title = clean(s.Title)
	s.Lines = slices.Clone(s.Lines)
	for i := range s.Lines {
		l := &s.Lines[i]
		l.Name, l.Left, l.Free, l.Claimed, l.Date = clean(l.Name), clean(l.Left), clean(l.Free), clean(l.Claimed), clean(l.Date)
		l.Share = share(l.Share, 1)
		l.ClaimedShare = share(l.ClaimedShare, l.Share)
	}
	return s
}

// share bounds a share; what is no number is none.
func share(x, most float64) float64 {
	if math.IsNaN(x) {
		return 0
	}
	return min(max(x, 0), most)
}

// drawing draws a stock.
func (s Stock) drawing(o Options) *drawing {
	p := &shelf{sheet: newSheet(o), Stock: s.tidy()}
	p.tapeHigh = snap(p.u * 1.9)
	y := p.top(p.u)
	if len(p.Lines) == 0 {
		p.write("nothing is left", p.left, y+p.u*1.2, p.right-p.left, p.plain(p.chalk))
		y += p.u * 1.6
	}
	for n := range p.Lines {
		y = p.line(&p.Lines[n], y)
	}
	return p.brushed(p.key(y) + p.u)
}

// shelf is a stock on its way to a drawing.
type shelf struct {
	*sheet
	Stock
	tapeHigh float64
}

// top writes the title and the time; it gives where the foods begin.
func (s *shelf) top(y float64) float64 {
	p := pen{size: snap(s.u * 1.3), heavy: true, fill: s.chalk}
	room := s.right - s.left
	wide := 0.0
	if !s.At.IsZero() {
		wide = s.writeEnd(s.At.Format("15:04"), s.right, y+p.size*1.2, room, p) + s.u
	}
	under := s.heading(s.Title, y, room-wide)
	if wide > 0 {
		under = max(under, y+p.size*1.7)
	}
	return snap(under + s.u*0.8)
}

// line sticks the tape of a food, as long as what is left of it, on the trace of what
// came; it gives where it ends.
func (s *shelf) line(l *StockLine, y float64) float64 {
	s.box(0, y, s.w, 1, s.seam)
	y = snap(y + s.u*0.5)
	x0, x1 := s.left, s.right
	if !s.narrow() {
		x1 = snap(s.left + (s.right-s.left)*0.5)
	}
	s.tapeOf(l, x0, x1, y)
	if s.narrow() {
		y = s.told(l, x0, x1, snap(y+s.tapeHigh+s.u*0.2))
		return snap(y + s.u*0.5)
	}
	under := s.told(l, x1+s.u*1.2, s.right, y-s.u*0.15)
	return snap(max(under, y+s.tapeHigh) + s.u*0.5)
}

// tapeOf sticks the tape: what is claimed is its hatched end, the name stands on it or beside it.
func (s *shelf) tapeOf(l *StockLine, x0, x1, y float64) {
	s.frame(x0, y, x1-x0, s.tapeHigh, s.seam)
	end := snap(x0 + (x1-x0)*l.Share)
	if l.Share > 0 {
		end = max(end, x0+1.5)
		s.strip(x0, end, y, s.tapeHigh, s.tape)
	}
	free := snap(end - (x1-x0)*l.ClaimedShare)
	if l.ClaimedShare > 0 {
		s.hatch(min(free, end-1.5), end, y, s.tapeHigh)
	}
	pad := s.u * 0.5
	p := s.thick(s.ink)
	base := y + s.tapeHigh/2 + s.u*0.36
	if wide := p.wide(l.Name) + 2*pad; wide > end-x0 && x1-end > end-x0 { // beside it
		p.fill = s.chalk
		s.write(l.Name, end+pad, base, x1-end-2*pad, p)
		return
	}
	wide := s.write(l.Name, x0+pad, base, end-x0-2*pad+0.01, p)
	if l.ClaimedShare > 0 && wide > 0 && free < x0+2*pad+wide { // the name is not hatched
		s.box(x0+pad/2, y+s.tapeHigh*0.16, wide+pad, s.tapeHigh*0.68, s.tape)
	}
}

// hatch draws slanting lines over the end of a tape, and one where that begins.
func (s *shelf) hatch(x0, x1, y, h float64) {
	var lines [][]point
	thick, every := s.u*0.14, s.u*0.55
	for x := x0 - h; x < x1; x += every {
		// from (x, y+h) up to (x+h, y), as far as it is between x0 and x1
		a, b := max(x, x0), min(x+h, x1-thick)
		if b > a {
			lines = append(lines, []point{{a, y + h - (a - x)}, {b, y + h - (b - x)}, {b + thick, y + h - (b - x)}, {a + thick, y + h - (a - x)}})
		}
	}
	if lines != nil {
		s.area(s.hatched, lines...)
	}
	s.box(x0, y, 1.5, h, s.ink)
}

// told writes what there is of a food, and by when; it gives where that ends.
func (s *shelf) told(l *StockLine, x0, x1, y float64) float64 {
	p := s.plain(s.chalk)
	high := s.u * 1.35
	base := y + s.u*1.05
	amounts := l.amounts()
	date := p.wide(l.Date)
	if l.Urgent {
		date += s.flagWide() + s.u*0.6
	}
	if beside := x1 - date; amounts == "" || x0+p.wide(amounts)+s.u*0.8 < beside {
		s.write(amounts, x0, base, beside-x0, p)
		s.date(l, max(x0, beside), x1, base)
	} else if s.write(amounts, x0, base, x1-x0, p); date > 0 {
		base += high
		s.date(l, x0, x1, base)
	}
	if l.Claimed != "" {
		base += high
		swatch := s.u * 1.6
		s.strip(x0, x0+swatch, snap(base-s.u*0.8), s.u, s.tape)
		s.hatch(x0, x0+swatch, snap(base-s.u*0.8), s.u)
		x0 += swatch + s.u*0.5
		for n, line := range wrap(said("claimed", l.Claimed), x1-x0, s.u, false, 2) {
			if n > 0 {
				base += high
			}
			s.write(line, x0, base, x1-x0, p)
		}
	}
	return base + s.u*0.4
}

// date writes by when a food has to go, and whether it goes first.
func (s *shelf) date(l *StockLine, x, right, base float64) {
	if l.Urgent {
		wide := s.flagWide()
		p := s.small(s.steel)
		p.heavy = true
		s.box(x, base-s.u*0.98, wide, s.u*1.3, s.chalk)
		s.write(first, x+s.u*0.35, base-s.u*0.04, p.wide(first), p)
		x += wide + s.u*0.6
	}
	s.write(l.Date, x, base, right-x+0.01, s.plain(s.chalk))
}

// first is what is said of food that is urgent.
const first = "goes first"

// flagWide is what that takes, with the dark ground that it stands on.
func (s *shelf) flagWide() float64 {
	p := s.small(s.steel)
	p.heavy = true
	return snap(p.wide(first) + s.u*0.7)
}

// key tells what the tapes mean; it gives where it ends.
func (s *shelf) key(y float64) float64 {
	if len(s.Lines) == 0 {
		return y
	}
	s.box(0, y, s.w, 1, s.seam)
	p := s.small(s.dim)
	lines := wrap("A tape is as long as what is left of what came; its hatched end is claimed.", s.right-s.left, p.size, false, 3)
	for _, line := range lines {
		y += s.u * 1.4
		s.write(line, s.left, y, s.right-s.left, p)
	}
	return y + s.u*0.3
}
