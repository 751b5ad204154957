package picture

import (
	"slices"
)

// key tells which figure is which dish, and what the tapes mean; it gives where it ends.
func (s *setting) key(y float64) float64 {
	p := s.plain(s.chalk)
	sample := snap(s.u * 3.2)
	dishes := s.dishes()
	if s.toldBeside() {
		dishes = nil
	}
	for _, d := range dishes {
		lines := wrap(d.Dish, s.right-s.left-sample-s.u*0.8, p.size, false, 2)
		s.strip(s.left, s.left+sample, y, s.tapeHigh, s.tape)
		s.mark(d.DishN, s.left, s.left+sample, y+s.tapeHigh)
		s.figure(d.DishN, s.left+s.pad(), y+s.tapeHigh/2+s.u*0.24)
		for n, line := range lines {
			s.write(line, s.left+sample+s.u*0.8, y+s.tapeHigh/2+s.u*(0.3+1.3*float64(n)), s.right-s.left-sample-s.u*0.8, p)
		}
		y = snap(y + s.rowHigh + s.u*1.3*float64(max(0, len(lines)-1)))
	}
	return s.meanings(y)
}

// dishes are a step of each dish, by its number.
func (s *Timetable) dishes() (list []Step) {
	for _, l := range s.Lanes {
		for _, x := range l.Steps {
			if x.DishN > 0 && !slices.ContainsFunc(list, func(y Step) bool { return x.DishN == y.DishN }) {
				list = append(list, x)
			}
		}
	}
	slices.SortFunc(list, func(a, b Step) int { return a.DishN - b.DishN })
	return list
}

// meanings tells what whole, thin and struck tapes are, as far as there are any.
func (s *setting) meanings(y float64) float64 {
	p := s.small(s.dim)
	x, base := s.left, y+s.u*1.1
	put := func(text string, high float64, struck, heavy bool) {
		p := p
		p.struck, p.heavy = struck, heavy
		wide := p.wide(text)
		if x+s.u*2+wide > s.right {
			x, base = s.left, base+s.u*1.7
		}
		if high > 0 {
			s.strip(x, x+s.u*1.6, snap(base-s.u*0.36-high/2), snap(high), s.tape)
			x += s.u * 2
		}
		x += s.write(text, x, base, wide+1, p) + s.u*1.4
	}
	any := func(is func(Step) bool) bool {
		return slices.ContainsFunc(s.Lanes, func(l Lane) bool { return slices.ContainsFunc(l.Steps, is) })
	}
	if any(func(x Step) bool { return x.Alone }) {
		put("hands at it", s.u*1.3, false, false)
		put("cooks by itself", s.u*0.55, false, false)
	}
	if any(func(x Step) bool { return x.Done }) {
		put("done", 0, true, false)
	}
	if any(func(x Step) bool { return x.On }) {
		put("on now", 0, false, true)
	}
	if x == s.left {
		return y
	}
	return base + s.u*0.3
}
