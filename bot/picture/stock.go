package picture

import (
	"io"
	"math"
	"strings"
)

// Stock is what is left, most urgent first.
type Stock struct {
	Title string
	Lines []StockLine
}

// StockLine is one food, in words; Share is how much is left of what came in, and Held how much of
// that is claimed, from 0 to 1.
type StockLine struct {
	Name, Left, Who, When string
	Share, Held           float64
	First                 bool // it must go first
}

// SVG writes the stock for a page.
func (s *Stock) SVG(w io.Writer, o Options) error { return s.draw(o).svg(w, s.Title) }

// PNG writes it for a chat, at twice the size in pixels.
func (s *Stock) PNG(w io.Writer, o Options) error { return s.draw(o).png(w) }

// Text tells the same in words.
func (s *Stock) Text() string {
	lines := []string{s.Title + "."}
	for _, l := range s.Lines {
		text := l.Name + " " + l.Left
		for _, x := range []string{l.When, l.Who} {
			if x != "" {
				text += ", " + x
			}
		}
		if l.First {
			text += ", goes first"
		}
		lines = append(lines, text+".")
	}
	return strings.Join(lines, "\n")
}

func (s *Stock) draw(o Options) *drawing {
	d := &drawing{W: o.width(), Text: s.Text(), o: o}
	inner := d.W - 2*margin
	y := margin + 16
	d.write(margin, y, 16, true, onIt, s.Title, inner)
	y += 10
	for _, l := range s.Lines {
		high := 30.0
		if l.Who != "" {
			high = 45
		}
		d.box(margin, y, inner, high, tape)
		room, right := inner-20, 0.0
		if l.When != "" {
			right = min(wide(l.When, letters, l.First), 0.4*room)
			d.write(margin+inner-8-right, y+18, letters, l.First, marker, l.When, right+0.5)
		}
		d.write(margin+12, y+19, 15, true, marker, l.Left+"  "+l.Name, room-right-8)
		if l.Who != "" {
			d.write(margin+12, y+35, 11.5, false, marker, l.Who, room)
		}
		share, held := min(1, max(0, l.Share)), min(1, max(0, l.Held))
		foot := y + high - 5
		d.box(margin, foot, inner*share*(1-held), 5, edge)
		if held > 0 {
			d.Shapes = append(d.Shapes, shape{X: margin + inner*share*(1-held), Y: foot, W: inner * share * held, H: 5, Ink: tape, Hatched: true})
		}
		if l.First {
			d.box(margin, y, 6, high, marker)
		}
		y += high + 5
	}
	d.H = math.Ceil(y + margin)
	return d
}
