package picture

import (
	"fmt"
	"slices"
)

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
	if !s.To.IsZero() { // what goes on beyond goes on at the edge
		s.last = s.minute(s.To)
	}
	if !s.From.IsZero() {
		s.first = s.minute(s.From)
	}
	s.last = max(s.last, s.first+1)
	for _, l := range s.Lanes {
		var lane []strip
		for _, x := range l.Steps {
			lane = append(lane, s.put(x, lane))
		}
		s.lanes = append(s.lanes, lane)
	}
	return s
}

// within gives a minute, or the end of the ruler that it is beyond.
func (s *setting) within(minute int) float64 { return min(max(float64(minute), s.first), s.last) }

// x is where a minute is.
func (s *setting) x(minute float64) float64 {
	return s.from + (minute-s.first)/(s.last-s.first)*(s.to-s.from)
}

// put finds the place of a step beside those before it: in the first row where all its
// words can be had on its tape, or to its right, or to its left.
func (s *setting) put(x Step, before []strip) strip {
	p := strip{Step: x}
	p.x0, p.x1 = snap(s.x(s.within(x.From))), snap(s.x(s.within(x.From+x.Minutes)))
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
				c.row, c.words = row, s.told(x, c.room-s.figureRoom(x.DishN))
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
	if p.isFigure() {
		return s.figureRoom(p.DishN) - s.pad()
	}
	return s.figureRoom(p.DishN) + s.hand(p.Step).wide(p.Text+lasts(p.Step))
}

// isFigure says whether a step has no words here, but the figure of its dish.
func (x Step) isFigure() bool { return x.Twin && x.DishN > 0 }

func lasts(x Step) string { return fmt.Sprintf(", %d min", x.Minutes) }

// told are the words of a step, cut before their minutes.
func (s *setting) told(x Step, room float64) string {
	if x.isFigure() {
		return ""
	}
	p, min := s.hand(x), lasts(x)
	if room < 4*p.wide(min) && room < p.wide(x.Text+min) {
		return cut(x.Text, room, p.size, p.heavy)
	}
	return cut(x.Text, room-p.wide(min)+0.01, p.size, p.heavy) + min
}

// hand is how the words of a step are written: what runs now heavily, what is done struck through.
func (s *setting) hand(x Step) pen {
	return pen{size: s.u, heavy: x.On, struck: x.Done, fill: s.chalk}
}

// figureRoom is what the figure of a dish takes, with what is free beside it.
func (s *setting) figureRoom(n int) float64 {
	if n < 1 {
		return 0
	}
	return s.figureWide(n) + s.pad()
}
