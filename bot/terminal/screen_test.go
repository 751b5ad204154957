package terminal

import (
	"bytes"
	"reflect"
	"strings"
	"testing"

	"github.com/mattn/go-runewidth"
	"pgregory.net/rapid"
)

func TestSay(t *testing.T) {
	const reply = "Leek 300 g into the tart. 600 g left, 400 g free.\nFree leek: char it in wedges, mustard dressing, side for 4, 12 min, one ring. \"more\" for others.\n"
	for _, c := range []struct {
		name   string
		screen Screen
		want   string
	}{
		{"Plain", Screen{Width: 80}, reply},
		{"Live", Screen{Width: 80, Named: true}, `scullion  Leek 300 g into the tart. 600 g left, 400 g free.
          Free leek: char it in wedges, mustard dressing, side for 4, 12 min,
          one ring. "more" for others.
`},
		{"Colour", Screen{Width: 80, Named: true, Colour: true}, "\x1b[2mscullion  \x1b[0m" + `Leek 300 g into the tart. 600 g left, 400 g free.
          Free leek: char it in wedges, mustard dressing, side for 4, 12 min,
          one ring. "more" for others.
`},
		{"Narrow", Screen{Width: 40, Named: true}, `scullion  Leek 300 g into the tart. 600
          g left, 400 g free.
          Free leek: char it in wedges,
          mustard dressing, side for 4,
          12 min, one ring. "more" for
          others.
`},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out bytes.Buffer
			c.screen.Out = &out
			if err := c.screen.say("scullion", reply); err != nil {
				t.Fatal(err)
			}
			if out.String() != c.want {
				t.Errorf("got\n%s\nwant\n%s", &out, c.want)
			}
		})
	}
}

func TestSayCannotSteer(t *testing.T) {
	var out bytes.Buffer
	s := Screen{Out: &out, Width: 80, Named: true}
	if err := s.say("st\x1b[2Jove", "\x1b]0;title\x07le\u202eek\r\n\u2028one\ttwo"); err != nil {
		t.Fatal(err)
	}
	if got := out.String(); strings.ContainsAny(got, "\x1b\x07\r\u202e\u2028\t") || !strings.Contains(got, "leek") {
		t.Errorf("%q", got)
	}
}

// Whatever is wrapped fits the page, loses nothing but spaces, and adds none
// but the indent.
func TestWrap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := Plain(rapid.StringOf(rapid.SampledFrom([]rune("aé–葱🥕  \nlong"))).Draw(t, "text"))
		width := rapid.IntRange(12, 100).Draw(t, "width")
		lines := wrap(text, width)
		for _, l := range lines {
			if w := runewidth.StringWidth(l); w > width {
				t.Fatalf("%q is %d columns, over %d", l, w, width)
			}
		}
		squeeze := func(s string) string { return strings.Join(strings.Fields(s), "") }
		if got := squeeze(strings.Join(lines, "\n")); got != squeeze(text) {
			t.Fatalf("%q became %q", text, got)
		}
		if len(lines) < strings.Count(text, "\n")+1 {
			t.Fatalf("%q has lost line ends", text)
		}
	})
}

func TestNewScreen(t *testing.T) {
	none := func(string) string { return "" }
	if s := NewScreen(strings.NewReader(""), &bytes.Buffer{}, none); s.Live || s.Colour || s.Width != 80 {
		t.Errorf("a buffer became %+v", s)
	}
}

func TestComplete(t *testing.T) {
	words := []string{"leek", "lemon", "brown onion", "red onion", "Onion tart", "crème fraîche"}
	for _, c := range []struct {
		name, line string
		pos        int
		head, tail string
		offers     []string
	}{
		{"OneWord", "used 300g le", 12, "used 300g ", "", []string{"leek", "lemon"}},
		{"TwoWords", "used 2 brown on", 15, "used 2 ", "", []string{"brown onion"}},
		{"AnyCase", "used 2 leeks in the ONION", 25, "used 2 leeks in the ", "", []string{"Onion tart"}},
		{"InTheMiddle", "used lee in the tart", 8, "used ", " in the tart", []string{"leek"}},
		{"Accents", "got crème f", 11, "got ", "", []string{"crème fraîche"}},
		{"NothingBegun", "used ", 5, "used ", "", nil},
		{"Empty", "", 0, "", "", nil},
		{"Unknown", "used zz", 7, "used zz", "", nil},
		{"AfterComma", "got leeks,le", 12, "got leeks,", "", []string{"leek", "lemon"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			head, offers, tail := complete(c.line, c.pos, words)
			if head != c.head || tail != c.tail || !reflect.DeepEqual(offers, c.offers) {
				t.Errorf("got %q %q %q, want %q %q %q", head, offers, tail, c.head, c.offers, c.tail)
			}
		})
	}
}
