package picture

import (
	"image/color"
	"math"
)

// drawing is a picture as shapes, from the ground up: boxes and areas, and the
// words that stand on them.
type drawing struct {
	w, h   float64
	size   float64 // of most words
	fill   color.RGBA
	shapes []shape
	words  []words
}

// shape is a box or an area.
type shape interface{ isShape() }

// box is a rectangle. With dashes, a piece and a gap by turns, it is broken along x; or
// along y, which has it broken downwards.
type box struct {
	x, y, w, h float64
	dash       []float64
	down       bool
	fill       color.RGBA
}

// area is what is inside of polygons.
type area struct {
	polys [][]point
	fill  color.RGBA
}

type point struct{ x, y float64 }

func (box) isShape()  {}
func (area) isShape() {}

// words are a text: x is its left edge, y what it stands on, wide what it takes and room
// what it may take, in px.
type words struct {
	text       string
	x, y       float64
	wide, room float64
	size       float64
	heavy      bool
	struck     bool // through
	fill       color.RGBA
}

// The Go fonts' ascent and descent, in ems, rounded up.
const ascent, descent = 0.95, 0.22

// top and bottom are how far the glyphs of words can reach.
func (w *words) top() float64    { return w.y - w.size*ascent }
func (w *words) bottom() float64 { return w.y + w.size*descent }

// snap puts an edge on a dot of the PNG, which has two a px.
func snap(x float64) float64 { return math.Round(x*2) / 2 }

// box draws a rectangle.
func (d *drawing) box(x, y, w, h float64, fill color.RGBA) {
	d.put(box{x: x, y: y, w: w, h: h, fill: fill})
}

// across draws a rectangle that is broken along x, downward one that is broken along y.
func (d *drawing) across(x, y, w, h float64, fill color.RGBA, dash ...float64) {
	d.put(box{x, y, w, h, dash, false, fill})
}

func (d *drawing) downward(x, y, w, h float64, fill color.RGBA, dash ...float64) {
	d.put(box{x, y, w, h, dash, true, fill})
}

func (d *drawing) put(b box) {
	right, under := snap(b.x+b.w), snap(b.y+b.h)
	b.x, b.y = snap(b.x), snap(b.y)
	b.w, b.h = right-b.x, under-b.y
	if b.w > 0 && b.h > 0 {
		d.shapes = append(d.shapes, b)
	}
}

// frame draws a rectangle's edge, a px thick.
func (d *drawing) frame(x, y, w, h float64, fill color.RGBA) {
	d.box(x, y, w, 1, fill)
	d.box(x, y+h-1, w, 1, fill)
	d.box(x, y+1, 1, h-2, fill)
	d.box(x+w-1, y+1, 1, h-2, fill)
}

// area fills polygons.
func (d *drawing) area(fill color.RGBA, polys ...[]point) {
	d.shapes = append(d.shapes, area{polys, fill})
}

// pen is how words are written.
type pen struct {
	size   float64
	heavy  bool
	struck bool
	fill   color.RGBA
}

// wide is what a text takes.
func (p pen) wide(text string) float64 { return measure(text, p.size, p.heavy) }

// write puts a text where it begins, cut to its room; it gives how much of that it takes.
func (d *drawing) write(text string, x, y, room float64, p pen) float64 {
	text = cut(text, room, p.size, p.heavy)
	if text == "" {
		return 0
	}
	w := words{text: text, x: x, y: y, wide: p.wide(text), room: room, size: p.size, heavy: p.heavy, struck: p.struck, fill: p.fill}
	d.words = append(d.words, w)
	return w.wide
}

// writeEnd puts a text where it ends.
func (d *drawing) writeEnd(text string, x, y, room float64, p pen) float64 {
	text = cut(text, room, p.size, p.heavy)
	wide := p.wide(text)
	return d.write(text, x-wide, y, wide, p)
}
