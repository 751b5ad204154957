package picture

import (
	"image"
	"math"
	"slices"
	"unicode"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

type sfntBuffer = sfnt.Buffer

// glyph is a character as it is painted.
type glyph struct {
	char  rune
	size  float64
	heavy bool
}

// words paints words, each character where the sum of those before it puts it.
func (c *canvas) words(w *words) {
	face, x := faceOf(w.heavy), w.x
	base := int(math.Round(w.y * density))
	for _, char := range w.text {
		c.stamp(c.glyph(glyph{char, w.size, w.heavy}), image.Pt(int(math.Round(x*density)), base), w.fill)
		x += face.advance(char) * w.size
	}
	if w.struck {
		y := snap(w.y - w.size*0.28)
		c.rect(w.x, y, x, y+snap(w.size/18), w.fill)
	}
}

// glyph gives the stencil of a character that stands on 0, 0.
func (c *canvas) glyph(g glyph) stencil {
	s, ok := c.glyphs[g]
	if !ok {
		s = c.cut(g)
		s.part = slices.Clone(s.part)
		c.glyphs[g] = s
	}
	return s
}

// cut makes the stencil of a character; one that the font does not have is a frame.
func (c *canvas) cut(g glyph) stencil {
	face := faceOf(g.heavy)
	index, err := face.font.GlyphIndex(&c.text, g.char)
	if err != nil || index == 0 && face.advance(g.char) == 0 || unicode.IsSpace(g.char) {
		return stencil{}
	}
	segments, err := face.font.LoadGlyph(&c.text, index, fixed.Int26_6(math.Round(g.size*density*64)), nil)
	if err != nil {
		return stencil{}
	}
	b := segments.Bounds()
	at := image.Pt(b.Min.X.Floor(), b.Min.Y.Floor())
	c.vector.Reset(b.Max.X.Ceil()-at.X, b.Max.Y.Ceil()-at.Y)
	put := func(p fixed.Point26_6) (x, y float32) {
		return float32(p.X)/64 - float32(at.X), float32(p.Y)/64 - float32(at.Y)
	}
	for _, s := range segments {
		x0, y0 := put(s.Args[0])
		x1, y1 := put(s.Args[1])
		x2, y2 := put(s.Args[2])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			c.vector.MoveTo(x0, y0)
		case sfnt.SegmentOpLineTo:
			c.vector.LineTo(x0, y0)
		case sfnt.SegmentOpQuadTo:
			c.vector.QuadTo(x0, y0, x1, y1)
		case sfnt.SegmentOpCubeTo:
			c.vector.CubeTo(x0, y0, x1, y1, x2, y2)
		}
	}
	c.vector.ClosePath()
	return c.cast(at)
}
