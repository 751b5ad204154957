package picture

import "slices"

// A timetable is laid out in two rounds: first where each strip goes (setting), which
// tells how tall the lanes are, then it is drawn.

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

// toldBeside says whether the page that the picture is in tells its title and its dishes.
func (s *setting) toldBeside() bool { return s.theme == classed && s.Title == "" }

// top writes the title and when all is ready; it gives where the ruler begins.
func (s *setting) top(y float64) float64 {
	if s.toldBeside() {
		return y
	}
	if s.Ends.IsZero() {
		return snap(s.heading(s.Title, y, s.right-s.left) + s.u*0.9)
	}
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
	w := s.hand(p.Step)
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
	if p.On {                   // between two pegs
		s.box(p.x0-2, end-tape+1, 2, tape+1, s.tick)
		s.box(x1, end-tape+1, 2, tape+1, s.tick)
	}
	s.strip(p.x0, x1, end-tape, tape, s.tape)
	s.mark(p.DishN, p.x0, x1, end)
	room := s.figureRoom(p.DishN)
	if p.before {
		if room > 0 {
			s.figure(p.DishN, p.x0-room, base)
		}
		s.writeEnd(p.words, p.x0-room-s.pad(), base, p.room-room+0.01, w)
		return
	}
	s.figure(p.DishN, p.at, base)
	s.write(p.words, p.at+room, base, p.room-room+0.01, w)
}

// carry carries the times of the ruler down, under the tapes.
func (s *setting) carry(under int, y0, y1 float64) {
	tapes := slices.Clone(s.shapes[under:])
	s.shapes = s.shapes[:under]
	for _, at := range s.ticks(s.labelled()) {
		s.box(s.x(at)-0.5, y0, 1, y1-y0, s.grid)
	}
	if end := s.minute(s.Ends); end >= s.first && end <= s.last {
		s.box(s.x(end)-2.5, y0, 1, y1-y0, s.dim)
		s.box(s.x(end)-0.5, y0, 1, y1-y0, s.dim)
	}
	s.shapes = append(s.shapes, tapes...)
	s.box(0, y1, s.w, 1, s.seam)
}
