package picture

import (
	"errors"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"

	"golang.org/x/image/vector"
)

// ErrTall is returned for a picture that is too tall to be painted.
var ErrTall = errors.New("too many lines for a picture: draw fewer of them, or make it wider")

const (
	density = 2     // dots a px
	tallest = 16000 // px
)

// png paints a drawing and writes it as PNG.
func (d *drawing) png(w io.Writer) error {
	if d.h > tallest {
		return ErrTall
	}
	c := newCanvas(d)
	for _, s := range d.shapes {
		c.shape(s)
	}
	for i := range d.words {
		c.words(&d.words[i])
	}
	e := png.Encoder{CompressionLevel: png.BestSpeed} // in half the time, a third more bytes
	return e.Encode(w, c.img)
}

// canvas is what is painted on. It knows few colours, each by a number: a byte a dot is
// painted and packed in a third of the time that three or four take. Where an edge covers
// a part of a dot, it does so by fifteenths.
type canvas struct {
	img    *image.Paletted
	number map[color.RGBA]uint8
	mixes  map[uint8]*[256 * parts]int16 // by what is painted: of what is there and how much of it is covered, the colour + 1
	glyphs map[glyph]stencil
	vector vector.Rasterizer
	mask   []uint8
	text   sfntBuffer
}

const parts = 16

// newCanvas makes one for a drawing, with all its colours; what is mixed of them comes after.
func newCanvas(d *drawing) *canvas {
	size := image.Rect(0, 0, int(math.Ceil(d.w*density)), int(math.Ceil(d.h*density)))
	c := &canvas{img: image.NewPaletted(size, nil), number: map[color.RGBA]uint8{}, mixes: map[uint8]*[256 * parts]int16{}, glyphs: map[glyph]stencil{}}
	for _, s := range d.shapes {
		switch s := s.(type) {
		case box:
			c.paint(s.fill)
		case area:
			c.paint(s.fill)
		}
	}
	for _, w := range d.words {
		c.paint(w.fill)
	}
	return c
}

// paint gives the number of a colour. Where all numbers are given out it is the nearest of
// them; eight dishes with all that there is take some 200.
func (c *canvas) paint(x color.RGBA) uint8 {
	if n, ok := c.number[x]; ok {
		return n
	}
	if len(c.img.Palette) == 256 {
		return uint8(c.img.Palette.Index(x))
	}
	n := uint8(len(c.img.Palette))
	c.img.Palette = append(c.img.Palette, x)
	c.number[x] = n
	return n
}

// cover paints over a dot: part of the whole, of 15.
func (c *canvas) cover(at int, paint, part uint8, mixes *[256 * parts]int16) {
	under := c.img.Pix[at]
	slot := &mixes[int(under)*parts+int(part)]
	if *slot == 0 {
		a, b := c.img.Palette[under].(color.RGBA), c.img.Palette[paint].(color.RGBA)
		mix := func(a, b uint8) uint8 { // to a multiple of 8, as near as can be: so there are few of them
			return uint8(min(255, ((int(a)*int(parts-1-part)+int(b)*int(part)+(parts-1)/2)/(parts-1)+4)&^7))
		}
		*slot = int16(c.paint(color.RGBA{mix(a.R, b.R), mix(a.G, b.G), mix(a.B, b.B), 0xff})) + 1
	}
	c.img.Pix[at] = uint8(*slot - 1)
}

func (c *canvas) mixesOf(paint uint8) *[256 * parts]int16 {
	m := c.mixes[paint]
	if m == nil {
		m = new([256 * parts]int16)
		c.mixes[paint] = m
	}
	return m
}

func (c *canvas) shape(s shape) {
	switch s := s.(type) {
	case box:
		c.box(s)
	case area:
		c.area(s.polys, s.fill)
	}
}

// box paints a rectangle; its edges fall on dots.
func (c *canvas) box(s box) {
	if s.dash == nil {
		c.rect(s.x, s.y, s.x+s.w, s.y+s.h, s.fill)
		return
	}
	long := s.w
	if s.down {
		long = s.h
	}
	for at, n := 0.0, 0; at < long; n++ {
		end := min(at+s.dash[n%len(s.dash)], long)
		switch {
		case n%2 == 1: // a gap
		case s.down:
			c.rect(s.x, s.y+at, s.x+s.w, s.y+end, s.fill)
		default:
			c.rect(s.x+at, s.y, s.x+end, s.y+s.h, s.fill)
		}
		at = end
	}
}

func (c *canvas) rect(x0, y0, x1, y1 float64, fill color.RGBA) {
	dot := func(x float64) int { return int(math.Round(x * density)) }
	r := image.Rect(dot(x0), dot(y0), dot(x1), dot(y1)).Intersect(c.img.Rect)
	paint := c.paint(fill)
	for y := r.Min.Y; y < r.Max.Y; y++ {
		row := c.img.Pix[c.img.PixOffset(r.Min.X, y):c.img.PixOffset(r.Max.X, y)]
		for i := range row {
			row[i] = paint
		}
	}
}

// area paints what is inside of polygons.
func (c *canvas) area(polys [][]point, fill color.RGBA) {
	lo, hi := point{math.Inf(1), math.Inf(1)}, point{math.Inf(-1), math.Inf(-1)}
	for _, poly := range polys {
		for _, p := range poly {
			lo.x, lo.y = min(lo.x, p.x), min(lo.y, p.y)
			hi.x, hi.y = max(hi.x, p.x), max(hi.y, p.y)
		}
	}
	at := image.Pt(int(math.Floor(lo.x*density)), int(math.Floor(lo.y*density)))
	c.vector.Reset(int(math.Ceil(hi.x*density))-at.X, int(math.Ceil(hi.y*density))-at.Y)
	put := func(p point) (x, y float32) {
		return float32(p.x*density - float64(at.X)), float32(p.y*density - float64(at.Y))
	}
	for _, poly := range polys {
		c.vector.MoveTo(put(poly[0]))
		for _, p := range poly[1:] {
			c.vector.LineTo(put(p))
		}
		c.vector.ClosePath()
	}
	c.stamp(c.cast(at), image.Point{}, fill)
}

// stencil is what is covered of a rectangle of dots, each by fifteenths.
type stencil struct {
	at   image.Rectangle
	part []uint8
}

// cast takes what was put into the rasteriser; it is good until the next is taken.
func (c *canvas) cast(at image.Point) stencil {
	size := c.vector.Size()
	if n := size.X * size.Y; cap(c.mask) < n {
		c.mask = make([]uint8, n)
	}
	mask := &image.Alpha{Pix: c.mask[:size.X*size.Y], Stride: size.X, Rect: image.Rectangle{Max: size}}
	clear(mask.Pix)
	c.vector.Draw(mask, mask.Rect, image.Opaque, image.Point{})
	for i, a := range mask.Pix {
		mask.Pix[i] = uint8((int(a)*(parts-1) + 127) / 255)
	}
	return stencil{mask.Rect.Add(at), mask.Pix}
}

// stamp paints through a stencil, moved by so many dots.
func (c *canvas) stamp(s stencil, by image.Point, fill color.RGBA) {
	paint := c.paint(fill)
	mixes := c.mixesOf(paint)
	at := s.at.Add(by)
	in := at.Intersect(c.img.Rect)
	for y := in.Min.Y; y < in.Max.Y; y++ {
		from := (y-at.Min.Y)*at.Dx() + in.Min.X - at.Min.X
		to := c.img.PixOffset(in.Min.X, y)
		for i, part := range s.part[from : from+in.Dx()] {
			switch part {
			case 0:
			case parts - 1:
				c.img.Pix[to+i] = paint
			default:
				c.cover(to+i, paint, part, mixes)
			}
		}
	}
}
