package picture

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"fmt"
	"image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

var update = flag.Bool("update", false, "write what is drawn as what is expected")

var five = time.Date(2026, 3, 3, 17, 0, 0, 0, time.UTC)

// service is a timetable of three dishes, two cooks and four pieces of kit.
func service() *Timetable {
	step := func(from, minutes, dish int, text string, alone bool) Step {
		return Step{From: from, Minutes: minutes, Text: text, DishN: dish, Dish: []string{"", "leek tart", "potato soup", "cauliflower salad"}[dish], Alone: alone}
	}
	return &Timetable{Title: "Tuesday, 3 dishes for 4", Begins: five, Ends: five.Add(45 * time.Minute), Now: five.Add(17 * time.Minute), Lanes: []Lane{
		{Name: "larder", Steps: []Step{step(0, 6, 1, "slice the leeks", false), step(6, 10, 1, "sweat the leeks", false), step(18, 2, 1, "fill the tart", false), step(30, 9, 3, "dress the cauliflower", false)}},
		{Name: "stove", Steps: []Step{step(0, 5, 2, "peel and cut the potatoes", false), step(5, 2, 2, "bring to the boil", false), step(27, 4, 2, "blend", false)}},
		{Name: "oven", Steps: []Step{step(0, 18, 1, "heat the oven", true), step(20, 25, 1, "bake", true)}},
		{Name: "ring", Steps: []Step{step(5, 22, 2, "simmer", true), step(6, 10, 1, "sweat the leeks", false)}},
		{Name: "blender", Steps: []Step{step(27, 4, 2, "blend", false)}},
	}}
}

func stock() *Stock {
	return &Stock{Title: "What is left", Lines: []StockLine{
		{Name: "double cream", Left: "500 ml", Who: "60 ml free; dee 200 ml for the soup, ana 240 ml for the tart", When: "today", Share: 0.8, Held: 0.88, First: true},
		{Name: "leek", Left: "1.2 kg", When: "11 days", Share: 1},
		{Name: "cauliflower with a name that is far too long for any strip of tape on a phone", Left: "900 g", Share: 0.35, Held: 1, Who: "0 g free"},
	}}
}

// The pictures look as they did when somebody looked at them.
func TestGolden(t *testing.T) {
	for name, draw := range map[string]func(io.Writer, Options) error{"timetable": service().PNG, "stock": stock().PNG} {
		for _, o := range []Options{{Width: 360}, {Width: 900, Dark: true}} {
			file := filepath.Join("../../testdata/picture", fmt.Sprintf("%s-%d.png", name, o.Width))
			var b bytes.Buffer
			if err := draw(&b, o); err != nil {
				t.Fatal(err)
			}
			var again bytes.Buffer
			if draw(&again, o); !bytes.Equal(b.Bytes(), again.Bytes()) {
				t.Errorf("%s is drawn another way the second time", file)
			}
			if *update {
				if err := os.WriteFile(file, b.Bytes(), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			raw, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if far := apart(t, b.Bytes(), raw); far > 0.002 {
				t.Errorf("%s: %.2f%% of it is another; -update writes it, look at it then", file, 100*far)
			}
		}
	}
}

// apart is how much of two PNGs is not the same, from 0 to 1.
func apart(t *testing.T, a, b []byte) float64 {
	t.Helper()
	x, err := png.Decode(bytes.NewReader(a))
	y, err2 := png.Decode(bytes.NewReader(b))
	if err = errors.Join(err, err2); err != nil {
		t.Fatal(err)
	}
	if x.Bounds() != y.Bounds() {
		return 1
	}
	off := 0
	for j := range x.Bounds().Dy() {
		for i := range x.Bounds().Dx() {
			r, g, b, _ := x.At(i, j).RGBA()
			r2, g2, b2, _ := y.At(i, j).RGBA()
			if math.Abs(float64(r)-float64(r2))+math.Abs(float64(g)-float64(g2))+math.Abs(float64(b)-float64(b2)) > 0x6000 {
				off++
			}
		}
	}
	return float64(off) / float64(x.Bounds().Dx()*x.Bounds().Dy())
}

// Whatever the timetable: nothing lies outside the picture, words lie within their strip, strips of
// a lane do not overlap, the SVG is XML, and the text tells every step.
func TestLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.StringMatching(`[a-zé<&" ()]{1,40}|[\x00-\x20]{1,3}`)
		x := &Timetable{Title: words.Draw(t, "title"), Begins: five, Ends: five.Add(time.Duration(rapid.IntRange(1, 300).Draw(t, "ends")) * time.Minute), Now: five.Add(time.Duration(rapid.IntRange(-10, 400).Draw(t, "now")) * time.Minute)}
		for range rapid.IntRange(0, 8).Draw(t, "lanes") {
			l := Lane{Name: words.Draw(t, "lane")}
			from := 0
			for range rapid.IntRange(0, 12).Draw(t, "steps") {
				from += rapid.IntRange(0, 20).Draw(t, "gap")
				l.Steps = append(l.Steps, Step{From: from, Minutes: rapid.IntRange(0, 60).Draw(t, "minutes"), Text: words.Draw(t, "text"), Dish: words.Draw(t, "dish"), DishN: rapid.IntRange(0, 9).Draw(t, "n"), Alone: rapid.Bool().Draw(t, "alone")})
			}
			x.Lanes = append(x.Lanes, l)
		}
		o := Options{Width: rapid.IntRange(0, 2000).Draw(t, "width"), Dark: rapid.Bool().Draw(t, "dark")}
		d := x.draw(o)
		var strips []shape
		for _, s := range d.Shapes {
			top := s.Y
			if s.Words != "" {
				top -= s.Size
				if s.Size < 11 {
					t.Fatalf("%+v is too small to read", s)
				}
			}
			if s.X < 0 || top < 0 || s.X+s.W > d.W+0.01 || s.Y+s.H*b2f(s.Words == "") > d.H+0.01 {
				t.Fatalf("%+v lies outside %g x %g", s, d.W, d.H)
			}
			if s.Words == "" && s.Ink == tape && s.H == stripHigh {
				for _, o := range strips {
					if s.X < o.X+o.W-0.01 && o.X < s.X+s.W-0.01 && s.Y < o.Y+o.H && o.Y < s.Y+s.H {
						t.Fatalf("%+v lies over %+v", s, o)
					}
				}
				strips = append(strips, s)
			}
			if s.Words != "" && s.Ink == marker {
				in := false
				for _, o := range strips {
					in = in || s.X >= o.X && s.X+s.W <= o.X+o.W+0.01 && s.Y <= o.Y+o.H && s.Y-s.Size >= o.Y-2
				}
				if !in {
					t.Fatalf("%q is on no strip", s.Words)
				}
			}
		}
		var b bytes.Buffer
		if err := x.SVG(&b, o); err != nil {
			t.Fatal(err)
		}
		for p := xml.NewDecoder(&b); ; {
			if _, err := p.Token(); err == io.EOF {
				break
			} else if err != nil {
				t.Fatal(err)
			}
		}
		for _, l := range x.Lanes {
			for _, s := range l.Steps {
				if !strings.Contains(x.Text(), s.Text) {
					t.Fatalf("%q is not told", s.Text)
				}
			}
		}
	})
}

func b2f(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// Words can be read: WCAG 2.2, 1.4.3, asks for a contrast of 4.5 to 1 at least.
func TestContrast(t *testing.T) {
	light := func(o Options, i ink) float64 {
		c := o.color(i)
		lin := func(v uint8) float64 {
			x := float64(v) / 255
			if x <= 0.04045 {
				return x / 12.92
			}
			return math.Pow((x+0.055)/1.055, 2.4)
		}
		return 0.2126*lin(c.R) + 0.7152*lin(c.G) + 0.0722*lin(c.B)
	}
	for _, o := range []Options{{}, {Dark: true}} {
		for _, p := range [][2]ink{{onIt, steel}, {marker, tape}} {
			a, b := light(o, p[0]), light(o, p[1])
			if a < b {
				a, b = b, a
			}
			if got := (a + 0.05) / (b + 0.05); got < 4.5 {
				t.Errorf("dark %v, %v: %.1f to 1", o.Dark, p, got)
			}
		}
		a, b := light(o, now), light(o, steel) // of what is no text: 3 to 1 (1.4.11)
		if got := (max(a, b) + 0.05) / (min(a, b) + 0.05); got < 3 {
			t.Errorf("the string, dark %v: %.1f to 1", o.Dark, got)
		}
	}
}

func BenchmarkPNG(b *testing.B) {
	x := service()
	for b.Loop() {
		if err := x.PNG(io.Discard, Options{Width: 720}); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/1000/float64(b.N), "ms")
}
