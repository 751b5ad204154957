package picture

import (
	"math"
	"slices"
	"strings"
	"testing"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"pgregory.net/rapid"
)

// What a text takes is what another reader of the fonts says.
func TestMeasure(t *testing.T) {
	for heavy, ttf := range map[bool][]byte{false: goregular.TTF, true: gobold.TTF} {
		f, err := opentype.Parse(ttf)
		if err != nil {
			t.Fatal(err)
		}
		for _, size := range []float64{11, 12.5, 24} {
			face, err := opentype.NewFace(f, &opentype.FaceOptions{Size: size * 16, DPI: 72})
			if err != nil {
				t.Fatal(err)
			}
			for _, text := range []string{"", "slice (leek), 2 min", "ÀÉñ ½ … ›", "Ελληνικά кириллица", "iiiiWWWW 0123456789"} {
				want := float64(font.MeasureString(face, text)) / 64 / 16
				if got := measure(text, size, heavy); math.Abs(got-want) > 0.05 {
					t.Errorf("%q at %g: %g, not %g", text, size, got, want)
				}
			}
		}
	}
}

// The ascent and the descent that room is kept for are those of all the glyphs of usual words.
func TestAscent(t *testing.T) {
	c := newCanvas(&drawing{})
	for _, heavy := range []bool{false, true} {
		for char := '!'; char <= 'ÿ'; char++ {
			s := c.glyph(glyph{char, 100, heavy})
			if len(s.part) > 0 && (float64(s.at.Min.Y) < -100*density*ascent || float64(s.at.Max.Y) > 100*density*descent) {
				t.Errorf("%c reaches from %d to %d", char, s.at.Min.Y, s.at.Max.Y)
			}
		}
	}
}

func TestCut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, room, size := aText().Draw(t, "text"), rapid.Float64Range(0, 400).Draw(t, "room"), rapid.Float64Range(11, 30).Draw(t, "size")
		got := cut(text, room, size, false)
		switch head, whole := strings.CutSuffix(got, "…"); {
		case got == text && measure(text, size, false) <= room:
		case got == "" && room < measure("…", size, false):
		case !whole || !strings.HasPrefix(text, head) || measure(got, size, false) > room+1e-9:
			t.Fatalf("%q became %q, %g of %g", text, got, measure(got, size, false), room)
		}
	})
}

func TestWrap(t *testing.T) {
	wide := measure("leek tart with", 12, false)
	for text, want := range map[string][]string{
		"":                                     nil,
		"leek tart":                            {"leek tart"},
		"leek tart with cream":                 {"leek tart with", "cream"},
		"leek tart with cream and a good deal": {"leek tart with", "cream an…"},
		"cauliflowercauliflower leek":          {"cauliflowe…", "leek"},
	} {
		if got := wrap(text, wide, 12, false, 2); !slices.Equal(got, want) {
			t.Errorf("%q became %q, not %q", text, got, want)
		}
	}
}

func TestClean(t *testing.T) {
	for text, want := range map[string]string{"": "", " slice\n\t(leek) ": "slice (leek)", "a\x00b\x1b[31mc": "ab[31mc", "\xffleek\ufffe": "leek", "a\u202eb": "ab", "crème 韮": "crème 韮"} {
		if got := clean(text); got != want {
			t.Errorf("%q became %q, not %q", text, got, want)
		}
	}
}

// A character that the fonts do not have is a frame, not nothing; one that takes no room is nothing.
func TestUnknownCharacters(t *testing.T) {
	c := newCanvas(&drawing{})
	if s := c.glyph(glyph{'韮', 12, false}); len(s.part) == 0 {
		t.Error("nothing is painted for 韮")
	}
	for _, char := range " \u200d\u0301" {
		if s := c.glyph(glyph{char, 12, false}); len(s.part) > 0 && regular().advance(char) == 0 && !regular().has(string(char)) {
			t.Errorf("%U is painted", char)
		}
	}
	if got := measure("韮", 12, false); got != 12 {
		t.Errorf("韮 takes %g", got)
	}
}
