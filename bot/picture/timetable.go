package picture

import (
	"fmt"
	"math"
	"slices"
	"time"
)

// A timetable is laid out in two rounds: first where each strip goes (setting), which
// tells how tall the lanes are, then it is drawn.

// setting is where everything of a timetable goes.
type setting struct {
	*sheet
	Timetable
	first, last float64 // the minutes at both ends of the ruler
	from, to    float64 // where these are, px
	rowHigh     float64
	tapeHigh    float64
	lanes       [][]strip
}

// strip is a step with its place: its minutes are tape from x0 to x1, its words have room
// somewhere between from and to, and nothing else of its row does.
type strip struct {
	Step
	x0, x1   float64
	from, to float64
	at, room float64 // where its words begin, and how far they may go
	words    string  // with its minutes, as far as there is room
	before   bool    // they end where the tape begins
	above    bool    // they stand above the tape
	row      int
}

// place works out where everything goes.
func (t Timetable) place(o Options) *setting {
	s := &setting{sheet: newSheet(o), Timetable: t.tidy()}
	s.tapeHigh = snap(s.u * 1.8)
	s.rowHigh = snap(s.u * 2.2)
	s.from, s.to = s.left, s.right
	if !s.narrow() {
		gutter := 0.0
		for _, l := range s.Lanes {
			gutter = max(gutter, s.thick(s.ink).wide(l.Name))
		}
		s.from += snap(min(gutter, s.w*0.2) + s.u*2.1)
	}
	s.last = max(1, s.minute(s.Ends))
	for _, l := range s.Lanes {
		for _, x := range l.Steps {
			s.first, s.last = min(s.first, float64(x.From)), max(s.last, float64(x.From+x.Minutes))
		}
	}
	for _, l := range s.Lanes {
		var lane []strip
		for _, x := range l.Steps {
			lane = append(lane, s.put(x, lane))
		}
		s.lanes = append(s.lanes, lane)
	}
	return s
}

// x is where a minute is.
func (s *setting) x(minute float64) float64 {
	return s.from + (minute-s.first)/(s.last-s.first)*(s.to-s.from)
}

// put finds the place of a step beside those before it: in the first row where all its
// words can be had on its tape, or to its right, or to its left.
func (s *setting) put(x Step, before []strip) strip {
	p := strip{Step: x}
	p.x0, p.x1 = snap(s.x(float64(x.From))), snap(s.x(float64(x.From+x.Minutes)))
	if p.x1 < p.x0+1.5 { // it still has to be seen
		p.x1 = p.x0 + 1.5
		if p.x1 > s.to {
			p.x0, p.x1 = s.to-1.5, s.to
		}
	}
	choices := s.choices(p)
	for row := 0; ; row++ {
		taken := slices.DeleteFunc(slices.Clone(before), func(b strip) bool { return b.row != row })
		for _, c := range choices {
			if !slices.ContainsFunc(taken, func(b strip) bool { return c.from < b.to && b.from < c.to }) {
				c.row, c.words = row, s.told(x, c.room-s.stubRoom(x.DishN))
				return c
			}
		}
	}
}

// pad is what is left free beside words.
func (s *setting) pad() float64 { return snap(s.u * 0.4) }

// choices are the places that have room for all the words of a step: for hands on the tape,
// to its right or to its left; else above it, where they may go from end to end.
func (s *setting) choices(p strip) []strip {
	pad := s.pad()
	need := s.labelWide(p) + 2*pad
	var fit []strip
	add := func(from, to, at, end float64) {
		if end-at < need && !p.above {
			return
		}
		c := p
		c.from, c.to, c.at, c.room, c.before = from, to, at+pad, end-at-2*pad, end == p.x0
		fit = append(fit, c)
	}
	if !p.Alone {
		right, left := min(snap(p.x1+need+0.5), s.to), max(snap(p.x0-need-0.5), s.from)
		add(p.x0, p.x1, p.x0, p.x1)
		add(p.x0, right, p.x1, right)
		add(left, p.x1, left, p.x0)
	}
	if fit == nil {
		p.above = true
		if end := snap(p.x0 + need + 0.5); end <= s.to {
			add(p.x0, max(p.x1, end), p.x0, max(p.x1, end))
		} else {
			begin := max(s.to-snap(need+0.5), s.from)
			add(min(p.x0, begin), s.to, begin, s.to)
		}
	}
	return fit
}

// labelWide is what the figure and the words of a step take.
func (s *setting) labelWide(p strip) float64 {
	return s.stubRoom(p.DishN) + s.plain(s.ink).wide(p.Text+lasts(p.Step))
}

func lasts(x Step) string { return fmt.Sprintf(", %d min", x.Minutes) }

// told are the words of a step, cut before their minutes.
func (s *setting) told(x Step, room float64) string {
	p, min := s.plain(s.ink), lasts(x)
	if room < 4*p.wide(min) && room < p.wide(x.Text+min) {
		return cut(x.Text, room, p.size, false)
	}
	return cut(x.Text, room-p.wide(min)+0.01, p.size, false) + min
}

// stubRoom is what the figure of a dish takes, with what is free beside it.
func (s *setting) stubRoom(n int) float64 {
	if n < 1 {
		return 0
	}
	return s.stubWide(n) + s.pad()
}

// drawing draws a timetable.
func (t Timetable) drawing(o Options) *drawing {
	s := t.place(o)
	y := s.top(s.u)
	ruler := y
	y = s.ruler(y) + snap(s.u*0.5)
	under := len(s.shapes)
	lanes := y
	for n := range s.Lanes {
		y = s.lane(n, y)
	}
	s.carry(under, lanes, y)
	s.string(ruler, y)
	return s.brushed(s.key(y+s.u*0.6) + s.u)
}

// top writes the title and when all is ready; it gives where the ruler begins.
func (s *setting) top(y float64) float64 {
	ready := "all ready " + s.Ends.In(s.Begins.Location()).Format("15:04")
	p := pen{size: snap(s.u * 1.3), heavy: true, fill: s.chalk}
	room := s.right - s.left
	beside := room - p.wide(ready) - s.u*1.5
	if s.Title == "" || p.wide(s.Title)+s.u*1.2 > beside && s.narrow() {
		y = s.heading(s.Title, y, room)
		s.write(ready, s.left, y+p.size*1.5, room, p)
		return snap(y + p.size*2.4)
	}
	s.writeEnd(ready, s.right, y+p.size*1.2, room, p)
	return snap(s.heading(s.Title, y, beside) + s.u*0.9)
}

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

// lane draws a lane; it gives where it ends.
func (s *setting) lane(n int, y float64) float64 {
	l := s.Lanes[n]
	s.box(0, y, s.w, 1, s.seam)
	y += snap(s.u * 0.4)
	if s.narrow() {
		s.name(l, s.left, y, s.right-s.left)
		y += s.tapeHigh + s.u*0.3
	} else {
		s.name(l, s.left, y, s.from-s.left-s.u)
	}
	y = snap(y)
	high := s.rowsHigh(s.lanes[n])
	for row, h := range high {
		for _, p := range s.lanes[n] {
			if p.row == row {
				s.step(p, y, h-(s.rowHigh-s.tapeHigh))
			}
		}
		y += h
	}
	return y
}

// rowsHigh is how tall the rows of a lane are: taller where words stand above hands.
func (s *setting) rowsHigh(lane []strip) []float64 {
	high := []float64{s.rowHigh}
	for _, p := range lane {
		for len(high) <= p.row {
			high = append(high, s.rowHigh)
		}
		if p.above && !p.Alone {
			high[p.row] = s.rowHigh + snap(s.u*0.7)
		}
	}
	return high
}

// name writes whose lane it is: a cook on tape, a piece of kit on a plate of steel.
func (s *setting) name(l Lane, x, y, room float64) {
	pad := s.u * 0.5
	p := s.thick(s.chalk)
	if l.Cook {
		p.fill = s.ink
	}
	text := cut(l.Name, room-2*pad, p.size, true)
	wide := snap(p.wide(text) + 2*pad)
	if l.Cook {
		s.strip(x, x+wide, y, s.tapeHigh, s.tape)
	} else {
		s.frame(x, y, wide, s.tapeHigh, s.dim)
	}
	s.write(text, x+pad, y+s.tapeHigh/2+s.u*0.36, p.wide(text), p)
}

// step sticks the tape of a step into its row and writes what it is: whole where hands are
// at it, thin where it cooks by itself. Its figure stands beside its tape.
func (s *setting) step(p strip, y, high float64) {
	w := s.plain(s.chalk)
	w.struck = p.Done
	end := y + high
	tape := s.tapeHigh
	base := end - tape/2 + s.u*0.3
	if p.above {
		if tape = snap(s.u * 1.25); p.Alone {
			tape = snap(s.u * 0.55)
		}
		base = end - tape - s.u*0.26
	} else if p.at > p.x0 && p.at < p.x1 { // on the tape
		w.fill = s.ink
		base -= s.u * 0.1
	}
	x1 := max(p.x1-1, p.x0+1.5) // two that follow each other are two
	s.strip(p.x0, x1, end-tape, tape, s.tape)
	s.mark(p.DishN, p.x0, x1, end)
	room := s.stubRoom(p.DishN)
	if p.before {
		if room > 0 {
			s.stub(p.DishN, p.x0-room, base)
		}
		s.writeEnd(p.words, p.x0-room-s.pad(), base, p.room-room+0.01, w)
		return
	}
	s.stub(p.DishN, p.at, base)
	s.write(p.words, p.at+room, base, p.room-room+0.01, w)
}

// carry carries the times of the ruler down, under the tapes.
func (s *setting) carry(under int, y0, y1 float64) {
	tapes := slices.Clone(s.shapes[under:])
	s.shapes = s.shapes[:under]
	for _, at := range s.ticks(s.labelled()) {
		s.box(s.x(at)-0.5, y0, 1, y1-y0, s.grid)
	}
	if end := s.minute(s.Ends); end >= s.first {
		s.box(s.x(end)-2.5, y0, 1, y1-y0, s.dim)
		s.box(s.x(end)-0.5, y0, 1, y1-y0, s.dim)
	}
	s.shapes = append(s.shapes, tapes...)
	s.box(0, y1, s.w, 1, s.seam)
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
	s.write(text, left+pad, y0+s.u*1.1, wide-2*pad, p)
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

// key tells which figure is which dish, and what the tapes mean; it gives where it ends.
func (s *setting) key(y float64) float64 {
	p := s.plain(s.chalk)
	sample := snap(s.u * 3.2)
	for _, d := range s.dishes() {
		lines := wrap(d.Dish, s.right-s.left-sample-s.u*0.8, p.size, false, 2)
		s.strip(s.left, s.left+sample, y, s.tapeHigh, s.tape)
		s.mark(d.DishN, s.left, s.left+sample, y+s.tapeHigh)
		s.stub(d.DishN, s.left+s.pad(), y+s.tapeHigh/2+s.u*0.24)
		for n, line := range lines {
			s.write(line, s.left+sample+s.u*0.8, y+s.tapeHigh/2+s.u*(0.3+1.3*float64(n)), s.right-s.left-sample-s.u*0.8, p)
		}
		y = snap(y + s.rowHigh + s.u*1.3*float64(max(0, len(lines)-1)))
	}
	return s.meanings(y)
}

// dishes are a step of each dish, by its number.
func (s *setting) dishes() (list []Step) {
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
	put := func(text string, high float64, struck bool) {
		wide := p.wide(text)
		if x+s.u*2+wide > s.right {
			x, base = s.left, base+s.u*1.7
		}
		p := p
		p.struck = struck
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
		put("hands at it", s.u*1.3, false)
		put("cooks by itself", s.u*0.55, false)
	}
	if any(func(x Step) bool { return x.Done }) {
		put("done", 0, true)
	}
	if x == s.left {
		return y
	}
	return base + s.u*0.3
}
