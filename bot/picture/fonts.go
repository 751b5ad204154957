package picture

import (
	"strings"
	"sync"
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// typeface is one of the Go fonts, with how far each of its characters moves on,
// in ems.
type typeface struct {
	font     *sfnt.Font
	units    int // an em
	advances map[rune]float64
}

var (
	regular = sync.OnceValue(func() *typeface { return loadFont(goregular.TTF) })
	bold    = sync.OnceValue(func() *typeface { return loadFont(gobold.TTF) })
)

func faceOf(heavy bool) *typeface {
	if heavy {
		return bold()
	}
	return regular()
}

// written are the ranges of characters that the Go fonts have glyphs in: Latin, Greek,
// Cyrillic, punctuation and signs.
var written = [][2]rune{{0x20, 0x24f}, {0x2b0, 0x52f}, {0x1e00, 0x22ff}, {0x2500, 0x25ff}}

// loadFont reads a font of the program's own: where it cannot be read, the program is broken.
func loadFont(ttf []byte) *typeface {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		panic(err)
	}
	t := &typeface{font: f, units: int(f.UnitsPerEm()), advances: map[rune]float64{}}
	var b sfnt.Buffer
	for _, r := range written {
		for c := r[0]; c <= r[1]; c++ {
			g, err := f.GlyphIndex(&b, c)
			if err != nil || g == 0 {
				continue
			}
			a, err := f.GlyphAdvance(&b, g, fixed.I(t.units), font.HintingNone)
			if err != nil {
				panic(err)
			}
			t.advances[c] = float64(a) / 64 / float64(t.units)
		}
	}
	return t
}

// advance is how far a character moves on, in ems. One that the font does not have gets
// a whole em: that is how wide most scripts are that it lacks.
func (t *typeface) advance(c rune) float64 {
	if a, ok := t.advances[c]; ok {
		return a
	}
	if unicode.In(c, unicode.Mn, unicode.Me, unicode.Cf) {
		return 0
	}
	return 1
}

// has says whether the font has all characters of a text.
func (t *typeface) has(text string) bool {
	for _, c := range text {
		if _, ok := t.advances[c]; !ok {
			return false
		}
	}
	return true
}

// measure is how wide a text is, in px.
func measure(text string, size float64, heavy bool) float64 {
	t, sum := faceOf(heavy), 0.0
	for _, c := range text {
		sum += t.advance(c)
	}
	return sum * size
}

// cut gives a text as far as there is room for it, in px, with an ellipsis where it is cut.
func cut(text string, room, size float64, heavy bool) string {
	if measure(text, size, heavy) <= room {
		return text
	}
	room -= measure("…", size, heavy)
	if room < 0 {
		return ""
	}
	t, sum, end := faceOf(heavy), 0.0, 0
	for i, c := range text {
		sum += t.advance(c) * size
		if sum > room {
			end = i
			break
		}
	}
	return strings.TrimRight(text[:end], " ,;.(") + "…"
}

// wrap breaks a text into lines that there is room for; the last of so many is cut.
func wrap(text string, room, size float64, heavy bool, most int) (lines []string) {
	words := strings.Fields(text)
	for len(words) > 0 {
		n := len(words)
		for len(lines) < most-1 && n > 1 && measure(strings.Join(words[:n], " "), size, heavy) > room {
			n--
		}
		lines = append(lines, cut(strings.Join(words[:n], " "), room, size, heavy))
		words = words[n:]
	}
	return lines
}

// clean gives a text as one line, without what XML cannot hold (XML 1.0, section 2.2) or nobody can see.
func clean(text string) string {
	text = strings.Map(func(c rune) rune {
		switch {
		case unicode.IsSpace(c):
			return ' '
		case c == unicode.ReplacementChar || c == 0xfffe || c == 0xffff || unicode.IsControl(c) || unicode.Is(unicode.Bidi_Control, c):
			return -1
		}
		return c
	}, text)
	return strings.Join(strings.Fields(text), " ")
}
