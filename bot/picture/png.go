package picture

import (
	"image"
	"image/color"
	"image/png"
	"io"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/math/fixed"
)

// density is how many pixels of a PNG a px of the drawing is: phones show it at half its size.
const density = 2

// png paints a drawing, in the few colours that it has and what lies between them.
func (d *drawing) png(w io.Writer) error {
	img := image.NewRGBA(image.Rect(0, 0, int(math.Ceil(d.W*density)), int(math.Ceil(d.H*density))))
	fill(img, img.Rect, d.o.color(steel))
	faces := map[shape]font.Face{}
	for _, s := range d.Shapes {
		if s.Words == "" {
			r := image.Rect(round(s.X), round(s.Y), round(s.X+s.W), round(s.Y+s.H)).Intersect(img.Rect)
			fill(img, r, d.o.color(s.Ink))
			if s.Hatched {
				hatch(img, r, d.o.color(marker))
			}
			continue
		}
		key := shape{Size: s.Size, Bold: s.Bold}
		f := faces[key]
		if f == nil {
			f = face(s.Size*density, s.Bold)
			faces[key] = f
		}
		pen := font.Drawer{Dst: img, Src: image.NewUniform(d.o.color(s.Ink)), Face: f, Dot: fixed.Point26_6{X: fixed.Int26_6(s.X * density * 64), Y: fixed.Int26_6(s.Y * density * 64)}}
		pen.DrawString(s.Words)
	}
	return (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(w, img)
}

func round(f float64) int { return int(math.Round(f * density)) }

func fill(img *image.RGBA, r image.Rectangle, c color.RGBA) {
	if r.Empty() {
		return
	}
	row := img.Pix[img.PixOffset(r.Min.X, r.Min.Y) : img.PixOffset(r.Max.X-1, r.Min.Y)+4]
	for i := 0; i < len(row); i += 4 {
		row[i], row[i+1], row[i+2], row[i+3] = c.R, c.G, c.B, c.A
	}
	for y := r.Min.Y + 1; y < r.Max.Y; y++ {
		copy(img.Pix[img.PixOffset(r.Min.X, y):], row)
	}
}

// hatch lays slanted lines over a box.
func hatch(img *image.RGBA, r image.Rectangle, c color.RGBA) {
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			if (x+y)%14 < 5 {
				img.SetRGBA(x, y, c)
			}
		}
	}
}
