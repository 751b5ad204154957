// Package picture draws what happens when, and what is left: strips of masking
// tape on steel. A picture is made once from its values as a list of shapes,
// and that list is written as SVG for a page or painted as PNG for a chat; Text
// tells the same values in words, for whoever cannot look.
//
// Start with Timetable or Stock, and Lanes where work has to be sorted into
// lanes first. Sizes are in px of a page; a PNG has two dots a px. Nothing here
// reads a clock or keeps anything, so any number of goroutines may draw, and
// the same values always give the same bytes.
package picture

import (
	"io"
	"time"
)

// Timetable is what happens when: lanes of cooks and kit.
type Timetable struct {
	Title  string
	Begins time.Time // minute 0
	Ends   time.Time // when all is ready; zero: not told
	Now    time.Time // zero: no now-line
	Lanes  []Lane

	From, To time.Time // only what goes on between them is shown, kit that is idle then is not; zero: all
}

// Lane is a cook, or a piece of kit, with what it is at.
type Lane struct {
	Name  string
	Cook  bool
	Steps []Step
}

// Step is a strip of tape in a lane.
type Step struct {
	From, Minutes int    // minutes of the timetable
	Text, Dish    string // "slice (leek)", "leek tart"
	DishN         int    // the number of its dish, from 1; 0 none
	Alone         bool   // needs no hands: cooks by itself
	Done          bool
	On            bool // runs now
	Twin          bool // a cook is at it all the time, in whose lane its words stand: here, its figure will do
}

// Stock is what is left, most urgent first.
type Stock struct {
	Title string
	Lines []StockLine
	At    time.Time // when that was so; zero: not told
}

// StockLine is one food. Its words are as they are to be read, and may be empty:
// Left and Free are amounts ("700 g"), Claimed an amount and whose ("400 g tart
// (pastry)"), Date a date and what it means ("use by 28 Nov").
type StockLine struct {
	Name, Left, Free, Claimed, Date string

	Share, ClaimedShare float64 // of what came, 0 to 1: what is left, and what of it is claimed
	Urgent              bool    // must go first
}

// Options say how a picture is drawn.
type Options struct {
	Width int  // px, from 320 to 2400; 0 is 720. The height is what it takes
	Dark  bool // on dark steel

	// Inline is for an SVG inside a page that tells the same in words and has the rules of Style: it
	// is hidden from who listens, has no ground of its own, and its colours are classes. A timetable
	// without a title has its dishes and when all is ready told by the page too.
	Inline bool
}

// SVG writes a timetable as an SVG 1.1 document. Its errors are w's.
func (t Timetable) SVG(w io.Writer, o Options) error {
	return t.drawing(o).svg(w, t.Title, t.Text())
}

// High is how high a timetable is drawn, in px.
func (t Timetable) High(o Options) int { return int(t.drawing(o).h) }

// PNG writes a timetable as a picture twice as wide as the options say. Its
// errors are w's, and ErrTall.
func (t Timetable) PNG(w io.Writer, o Options) error { return t.drawing(o).png(w) }

// SVG writes a stock as an SVG 1.1 document. Its errors are w's.
func (s Stock) SVG(w io.Writer, o Options) error { return s.drawing(o).svg(w, s.Title, s.Text()) }

// PNG writes a stock as a picture twice as wide as the options say. Its errors
// are w's, and ErrTall.
func (s Stock) PNG(w io.Writer, o Options) error { return s.drawing(o).png(w) }

// width is how wide a picture is to be, in px.
func (o Options) width() float64 {
	if o.Width == 0 {
		return 720
	}
	return float64(min(max(o.Width, 320), 2400))
}
