package picture

import (
	"fmt"
	"io"
	"math"
	"strings"
	"time"
)

// Timetable is what happens when, in lanes of cooks and kit.
type Timetable struct {
	Title  string
	Begins time.Time // minute 0
	Ends   time.Time // when all is ready
	Now    time.Time // zero: no string is drawn
	Lanes  []Lane
}

// Lane is what one cook, or one piece of kit, does.
type Lane struct {
	Name  string
	Steps []Step
}

// Step lies From minutes after the beginning. Steps of a lane may overlap: kit has room for several.
type Step struct {
	From, Minutes int
	Text          string // "slice (leek)"
	Dish          string
	DishN         int  // its dish's number, from 1; 0 none
	Alone         bool // it needs no hands
}

const (
	margin    = 10.0
	rowHigh   = 26.0
	stripHigh = 22.0
	letters   = 12.0 // px, of most words; nothing is smaller than 11
)

// SVG writes the timetable for a page.
func (t *Timetable) SVG(w io.Writer, o Options) error { return t.draw(o).svg(w, t.Title) }

// PNG writes it for a chat, at twice the size in pixels.
func (t *Timetable) PNG(w io.Writer, o Options) error { return t.draw(o).png(w) }

// Text tells the same in words.
func (t *Timetable) Text() string {
	lines := []string{fmt.Sprintf("%s, %s to %s.", t.Title, clock(t.Begins), clock(t.Ends))}
	for _, l := range t.Lanes {
		var steps []string
		for _, s := range l.Steps {
			text := fmt.Sprintf("%s %s, %d min", clock(t.at(s.From)), s.Text, s.Minutes)
			if s.Dish != "" {
				text += " (" + s.Dish + ")"
			}
			if s.Alone {
				text += ", by itself"
			}
			steps = append(steps, text)
		}
		lines = append(lines, l.Name+": "+strings.Join(steps, "; ")+".")
	}
	return strings.Join(lines, "\n")
}

func (t *Timetable) at(minute int) time.Time {
	return t.Begins.Add(time.Duration(minute) * time.Minute)
}

func clock(t time.Time) string { return t.Format("15:04") }

// minutes is how long the ruler is: until all is ready, and the last step over.
func (t *Timetable) minutes() float64 {
	last := t.Ends.Sub(t.Begins).Minutes()
	for _, l := range t.Lanes {
		for _, s := range l.Steps {
			last = max(last, float64(s.From+max(1, s.Minutes)))
		}
	}
	return max(1, last)
}

func (t *Timetable) draw(o Options) *drawing {
	d := &drawing{W: o.width(), Text: t.Text(), o: o}
	inner := d.W - 2*margin
	y := margin + 16
	d.write(margin, y, 16, true, onIt, t.Title, inner)
	y += 10
	names := 0.0
	for _, l := range t.Lanes {
		names = max(names, wide(l.Name, letters, true))
	}
	names = min(names, 0.25*inner) + 8
	left, long := margin+names, inner-names
	all := t.minutes()
	x := func(minute float64) float64 { return left + long*minute/all }

	every := 5.0
	for long*every/all < 44 { // room for a time
		every *= 2
	}
	top := y
	y += letters + 4
	for m := 0.0; m <= all && x(m)+30 < d.W; m += every {
		d.box(x(m), top+2, 1, letters+2, onIt)
		d.write(x(m)+3, top+letters+1, 11, false, onIt, clock(t.at(int(m))), d.W-margin-x(m)-3)
	}
	y += 4
	lanes := y
	for _, l := range t.Lanes {
		d.box(margin, y, inner, 1, edge)
		y += 3
		rows := t.strips(d, l, x, y)
		d.write(margin, y+15, letters, true, onIt, l.Name, names-6)
		y += float64(rows) * rowHigh
	}
	if !t.Now.IsZero() {
		if m := t.Now.Sub(t.Begins).Minutes(); m >= 0 && m <= all {
			for at := lanes; at < y; at += 7 {
				d.box(x(m)-1, at, 2, min(4, y-at), now)
			}
		}
	}
	y += 6
	for _, text := range t.dishes() {
		y += 17
		d.write(margin, y, letters, false, onIt, text, inner)
	}
	d.H = math.Ceil(y + margin)
	return d
}

// strips lays a lane's steps down, those that overlap in rows of their own, and gives how many
// rows that takes.
func (t *Timetable) strips(d *drawing, l Lane, x func(float64) float64, y float64) int {
	var ends []int
	for _, s := range l.Steps {
		row := 0
		for row < len(ends) && ends[row] > s.From {
			row++
		}
		if row == len(ends) {
			ends = append(ends, 0)
		}
		ends[row] = s.From + max(1, s.Minutes)
		at, wideAt, top := x(float64(s.From)), x(float64(ends[row]))-x(float64(s.From)), y+float64(row)*rowHigh
		d.box(at, top, wideAt-1, stripHigh, tape)
		if s.Alone { // perforated: nobody need stand there
			for p := at + 14; p < at+wideAt-3; p += 14 {
				d.box(p, top, 2, stripHigh, edge)
				d.box(p, top+4, 2, stripHigh-8, tape)
			}
		}
		d.box(at, top, 2, stripHigh, marker)
		room := wideAt - 1 - 5 - 3
		pen := at + 5
		if s.DishN > 0 {
			n := d.write(pen, top+15, 11, true, marker, fmt.Sprint(s.DishN), room)
			if n > 0 {
				pen, room = pen+n+4, room-n-4
			}
		}
		if room > 20 {
			d.write(pen, top+15, letters, false, marker, s.Text, room)
		}
	}
	return max(1, len(ends))
}

// dishes lists the dishes by their numbers: "1 leek tart".
func (t *Timetable) dishes() (list []string) {
	named := map[int]string{}
	most := 0
	for _, l := range t.Lanes {
		for _, s := range l.Steps {
			if s.DishN > 0 && s.Dish != "" {
				named[s.DishN], most = s.Dish, max(most, s.DishN)
			}
		}
	}
	for n := 1; n <= most; n++ {
		if named[n] != "" {
			list = append(list, fmt.Sprintf("%d  %s", n, named[n]))
		}
	}
	return append(list, "All ready "+clock(t.Ends)+". A perforated strip needs no hands.")
}
