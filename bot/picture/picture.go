// Package picture draws what a board shows as pictures: a timetable, and what is left. Each is
// laid out once, as a list of shapes, and written as SVG for a page or PNG for a chat; the text
// alternative comes from the same values. The same values give the same bytes.
package picture

import (
	"image/color"
	"strings"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
)

// Options are how a picture is drawn.
type Options struct {
	Width int // px; 0: 720. Nothing is drawn narrower than 320
	Dark  bool
}

func (o Options) width() float64 {
	if o.Width == 0 {
		return 720
	}
	return float64(max(320, o.Width))
}

// ink is a colour by what it is for.
type ink int

const (
	steel  ink = iota // the table under all
	onIt              // what is written on that
	tape              // strips of masking tape
	marker            // what is written on tape
	edge              // of what is thin: rules, what is left
	now               // the string at the minute it is
)

// inks are the colours, light and dark: the board has the same.
var inks = [2][6]color.RGBA{
	{{0xcc, 0xd3, 0xd6, 255}, {0x1b, 0x18, 0x12, 255}, {0xf3, 0xe8, 0xcb, 255}, {0x1b, 0x18, 0x12, 255}, {0x8d, 0x7a, 0x45, 255}, {0x8a, 0x1f, 0x11, 255}},
	{{0x15, 0x19, 0x1b, 255}, {0xf4, 0xf0, 0xe4, 255}, {0xe9, 0xdc, 0xb6, 255}, {0x1b, 0x18, 0x12, 255}, {0xb3, 0x9d, 0x5c, 255}, {0xff, 0x8a, 0x75, 255}},
}

func (o Options) color(i ink) color.RGBA {
	if o.Dark {
		return inks[1][i]
	}
	return inks[0][i]
}

// shape is a box, or words. A box is filled, with slanted lines over it where it is Hatched; words
// begin at X, with their foot at Y.
type shape struct {
	X, Y, W, H float64
	Ink        ink
	Hatched    bool
	Words      string // "" it is a box
	Size       float64
	Bold       bool
}

// drawing is a picture laid out.
type drawing struct {
	W, H   float64
	Shapes []shape
	Text   string // the alternative
	o      Options
}

func (d *drawing) box(x, y, w, h float64, i ink) {
	d.Shapes = append(d.Shapes, shape{X: x, Y: y, W: w, H: h, Ink: i})
}

// write puts words down, cut to a width, and gives how wide they are.
func (d *drawing) write(x, y, size float64, bold bool, i ink, words string, width float64) float64 {
	words = fit(words, size, bold, width)
	if words == "" {
		return 0
	}
	w := wide(words, size, bold)
	d.Shapes = append(d.Shapes, shape{X: x, Y: y, W: w, H: size, Ink: i, Words: words, Size: size, Bold: bold})
	return w
}

var fonts = [2]*opentype.Font{parse(goregular.TTF), parse(gobold.TTF)}

func parse(ttf []byte) *opentype.Font {
	f, err := opentype.Parse(ttf)
	if err != nil {
		panic(err) // the fonts come with the module
	}
	return f
}

// face is a font at a size in px.
func face(size float64, bold bool) font.Face {
	f := fonts[0]
	if bold {
		f = fonts[1]
	}
	x, err := opentype.NewFace(f, &opentype.FaceOptions{Size: size, DPI: 72, Hinting: font.HintingNone})
	if err != nil {
		panic(err) // a size that is no size
	}
	return x
}

// measured are faces to measure with, at one size: widths grow with it.
var measured = [2]font.Face{face(64, false), face(64, true)}

// wide is how wide words are.
func wide(words string, size float64, bold bool) float64 {
	f := measured[0]
	if bold {
		f = measured[1]
	}
	return float64(font.MeasureString(f, words)) / 64 * size / 64
}

// fit cuts words to a width; "" where not even one letter and the dots have room.
func fit(words string, size float64, bold bool, width float64) string {
	words = strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(words, "?"))
	if wide(words, size, bold) <= width {
		return words
	}
	runes := []rune(words)
	for n := len(runes) - 1; n > 0; n-- {
		if cut := strings.TrimRight(string(runes[:n]), " ,;(") + "…"; wide(cut, size, bold) <= width {
			return cut
		}
	}
	return ""
}
