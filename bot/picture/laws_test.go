package picture

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image/color"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// aText is anything that a text may be: usual words, long ones, other scripts, what XML cannot hold.
func aText() *rapid.Generator[string] {
	word := rapid.SampledFrom([]string{"slice", "leek", "(leek)", "in", "the", "cauliflower,", "turn the trays round half way", "crème", "½", "<b>", "&amp;", "\x00", "\u202e", "韮", "🧅", "\n", "e\u0301", strings.Repeat("w", 300), "\xff"})
	return rapid.Custom(func(t *rapid.T) string {
		return strings.Join(rapid.SliceOfN(word, 0, 9).Draw(t, "words"), " ")
	})
}

// aTimetable is any timetable: most of them of a kitchen, some of none.
func aTimetable() *rapid.Generator[Timetable] {
	minutes := rapid.OneOf(rapid.IntRange(0, 60), rapid.IntRange(0, 60), rapid.IntRange(-20, 400), rapid.Int())
	step := rapid.Custom(func(t *rapid.T) Step {
		return Step{From: minutes.Draw(t, "from"), Minutes: minutes.Draw(t, "minutes"), Text: aText().Draw(t, "text"), Dish: aText().Draw(t, "dish"),
			DishN: rapid.IntRange(-1, 120).Draw(t, "n"), Alone: rapid.Bool().Draw(t, "alone"), Done: rapid.Bool().Draw(t, "done"), Twin: rapid.IntRange(0, 3).Draw(t, "twin") == 0}
	})
	lane := rapid.Custom(func(t *rapid.T) Lane {
		return Lane{Name: aText().Draw(t, "name"), Cook: rapid.Bool().Draw(t, "cook"), Steps: rapid.SliceOfN(step, 0, 8).Draw(t, "steps")}
	})
	return rapid.Custom(func(t *rapid.T) Timetable {
		x := Timetable{Title: aText().Draw(t, "title"), Begins: begun.Add(time.Duration(rapid.IntRange(0, 7200).Draw(t, "begins")) * time.Second), Lanes: rapid.SliceOfN(lane, 0, 5).Draw(t, "lanes")}
		x.Ends = x.Begins.Add(time.Duration(rapid.IntRange(-30, 300).Draw(t, "ends")) * time.Minute)
		if rapid.IntRange(0, 9).Draw(t, "has no end") == 0 {
			x.Ends = time.Time{}
		}
		if rapid.Bool().Draw(t, "is now") {
			x.Now = x.Begins.Add(time.Duration(rapid.IntRange(-100, 500).Draw(t, "now")) * time.Minute)
		}
		if rapid.IntRange(0, 3).Draw(t, "is part") == 0 {
			x.From = x.Begins.Add(time.Duration(rapid.IntRange(-10, 60).Draw(t, "from")) * time.Minute)
			x.To = x.From.Add(time.Duration(rapid.IntRange(-5, 60).Draw(t, "to")) * time.Minute)
		}
		return x
	})
}

func aStock() *rapid.Generator[Stock] {
	part := rapid.OneOf(rapid.Float64Range(0, 1), rapid.Float64(), rapid.SampledFrom([]float64{0, 1, math.NaN(), math.Inf(1)}))
	line := rapid.Custom(func(t *rapid.T) StockLine {
		return StockLine{Name: aText().Draw(t, "name"), Left: aText().Draw(t, "left"), Free: aText().Draw(t, "free"), Claimed: aText().Draw(t, "claimed"), Date: aText().Draw(t, "date"),
			Share: part.Draw(t, "share"), ClaimedShare: part.Draw(t, "claimed share"), Urgent: rapid.Bool().Draw(t, "urgent")}
	})
	return rapid.Custom(func(t *rapid.T) Stock {
		s := Stock{Title: aText().Draw(t, "title"), Lines: rapid.SliceOfN(line, 0, 8).Draw(t, "lines")}
		if rapid.Bool().Draw(t, "is now") {
			s.At = begun
		}
		return s
	})
}

func someOptions() *rapid.Generator[Options] {
	return rapid.Custom(func(t *rapid.T) Options {
		return Options{Width: rapid.SampledFrom([]int{320, 360, 559, 560, 720, 1280, 2400}).Draw(t, "width"), Dark: rapid.Bool().Draw(t, "dark")}
	})
}

type rect struct{ x0, y0, x1, y1 float64 }

func (a rect) meets(b rect) bool {
	const little = 0.02
	return a.x0 < b.x1-little && b.x0 < a.x1-little && a.y0 < b.y1-little && b.y0 < a.y1-little
}

func (a rect) within(b rect) bool {
	const little = 0.02
	return a.x0 >= b.x0-little && a.x1 <= b.x1+little && a.y0 >= b.y0-little && a.y1 <= b.y1+little
}

func boxOf(w words) rect { return rect{w.x, w.top(), w.x + w.wide, w.bottom()} }

// tapes are the strips of tape that lie in a drawing.
func tapes(d *drawing, tape color.RGBA) (list []rect) {
	for _, s := range d.shapes {
		if a, ok := s.(area); ok && a.fill == tape {
			r := rect{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
			for _, p := range a.polys[0] {
				r = rect{min(r.x0, p.x), min(r.y0, p.y), max(r.x1, p.x), max(r.y1, p.y)}
			}
			list = append(list, r)
		}
	}
	return list
}

// checkDrawing holds what is true of all pictures: everything is inside, words are no wider
// than their room, nor smaller than can be read, and meet neither each other nor the end of a tape.
func checkDrawing(t *rapid.T, d *drawing, o Options) {
	all := rect{0, 0, d.w, d.h}
	if d.w != float64(o.Width) || d.h > 1e6 {
		t.Fatalf("it is %g by %g", d.w, d.h)
	}
	strips := tapes(d, o.theme().tape)
	for _, r := range strips {
		if !r.within(all) {
			t.Fatalf("a tape leaves the picture: %v", r)
		}
	}
	for n, w := range d.words {
		switch box := boxOf(w); {
		case w.size < 11:
			t.Fatalf("%q is of %g px", w.text, w.size)
		case w.wide > w.room+0.02 || math.Abs(w.wide-measure(w.text, w.size, w.heavy)) > 1e-6:
			t.Fatalf("%q takes %g of %g", w.text, w.wide, w.room)
		case !box.within(all):
			t.Fatalf("%q leaves the picture: %v", w.text, box)
		default:
			for _, other := range d.words[n+1:] {
				if box.meets(boxOf(other)) {
					t.Fatalf("%q and %q lie on each other: %v, %v", w.text, other.text, box, boxOf(other))
				}
			}
			for _, r := range strips {
				if box.meets(r) && !box.within(r) {
					t.Fatalf("%q lies across the edge of a tape: %v, %v", w.text, box, r)
				}
			}
		}
	}
}

// Tapes of a lane do not lie on each other, begin and end where their minutes do, and
// every step is told, in the picture and in its words.
func TestTimetableLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, o := aTimetable().Draw(t, "timetable"), someOptions().Draw(t, "options")
		d := x.drawing(o)
		checkDrawing(t, d, o)
		s := x.place(o)
		strips := tapes(d, s.tape)
		said := x.Text()
		if !x.From.IsZero() { // kit that is idle is not shown
			checkPart(t, &x, s)
			x.Lanes = s.Lanes
		}
		for n, lane := range s.lanes {
			if len(lane) != len(x.Lanes[n].Steps) {
				t.Fatalf("%d of %d steps are drawn", len(lane), len(x.Lanes[n].Steps))
			}
			for i, p := range lane {
				if p.x0 < p.from || p.x1 > p.to || p.from < s.from-0.01 || p.to > s.to+0.01 {
					t.Fatalf("a tape from %g to %g is given %g to %g of %g to %g", p.x0, p.x1, p.from, p.to, s.from, s.to)
				}
				for _, q := range lane[:i] {
					if p.row == q.row && p.from < q.to && q.from < p.to {
						t.Fatalf("%+v lies on %+v", p, q)
					}
				}
				minute := (s.to - s.from) / (s.last - s.first)
				from, end := min(max(float64(p.From), s.first), s.last), min(max(float64(p.From+p.Minutes), s.first), s.last)
				if want := s.from + (from-s.first)*minute; math.Abs(p.x0-want) > 2 {
					t.Fatalf("minute %d is at %g, not %g", p.From, p.x0, want)
				}
				if want := (end - from) * minute; math.Abs(p.x1-p.x0-want) > 2 {
					t.Fatalf("%d min are %g px long, not %g", p.Minutes, p.x1-p.x0, want)
				}
				if !slices.ContainsFunc(strips, func(r rect) bool { return math.Abs(r.x0-p.x0) < 2 && math.Abs(r.x1-p.x1) < 2 }) {
					t.Fatalf("no tape lies from %g to %g", p.x0, p.x1)
				}
				if p.Text != "" && !p.isFigure() && !slices.ContainsFunc(d.words, func(w words) bool {
					head, _, _ := strings.Cut(w.text, "…")
					return head != "" && strings.HasPrefix(p.Text+lasts(p.Step), head)
				}) {
					t.Fatalf("%q is not written", p.Text)
				}
				for _, want := range []string{p.Text, p.Dish, fmt.Sprintf("%d min", p.Minutes), s.at(p.From)} {
					if !strings.Contains(said, want) {
						t.Fatalf("%q is not in %q", want, said)
					}
				}
			}
		}
	})
}

// checkPart holds that a part of a timetable has the steps that go on in it, and no other.
func checkPart(t *rapid.T, x *Timetable, s *setting) {
	var want, got int
	for _, l := range x.Lanes {
		for _, p := range l.Steps {
			from := min(max(p.From, -longest), longest)
			begins := x.Begins.Add(time.Duration(from) * time.Minute)
			ends := begins.Add(time.Duration(min(max(p.Minutes, 0), longest)) * time.Minute)
			if ends.After(x.From) && begins.Before(x.To) {
				want++
			}
		}
	}
	for _, l := range s.lanes {
		got += len(l)
	}
	if got != want {
		t.Fatalf("%d steps, not %d, go on from %v to %v", got, want, x.From, x.To)
	}
}

func TestStockLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, o := aStock().Draw(t, "stock"), someOptions().Draw(t, "options")
		checkDrawing(t, x.drawing(o), o)
		said := strings.Split(x.Text(), "\n")
		if len(said) != max(1, 1+len(x.Lines)) {
			t.Fatalf("%d lines for %d foods: %q", len(said), len(x.Lines), said)
		}
		for n, l := range x.Lines {
			for _, want := range []string{l.Name, l.Left, l.Free, l.Claimed, l.Date} {
				if !strings.Contains(said[n+1], clean(want)) {
					t.Fatalf("%q is not in %q", want, said[n+1])
				}
			}
		}
	})
}

// doc is what is read of an SVG document.
type doc struct {
	XMLName xml.Name
	Role    string `xml:"role,attr"`
	Title   string `xml:"title"`
	Desc    string `xml:"desc"`
	Paths   []struct {
		D string `xml:"d,attr"`
	} `xml:"path"`
	Texts []struct {
		Text   string `xml:",chardata"`
		X      string `xml:"x,attr"`
		Y      string `xml:"y,attr"`
		Length string `xml:"textLength,attr"`
	} `xml:"text"`
}

// An SVG is one well-formed document with a title and a description, and its words are those that are painted.
func TestSVGLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := someOptions().Draw(t, "options")
		var d *drawing
		var title, said string
		if rapid.Bool().Draw(t, "a stock") {
			x := aStock().Draw(t, "stock")
			d, title, said = x.drawing(o), x.Title, x.Text()
		} else {
			x := aTimetable().Draw(t, "timetable")
			d, title, said = x.drawing(o), x.Title, x.Text()
		}
		var b bytes.Buffer
		if err := d.svg(&b, title, said); err != nil {
			t.Fatal(err)
		}
		if s := b.String(); strings.Contains(s, "NaN") || strings.Contains(s, "Inf") || strings.Contains(s, "style=") || strings.Contains(s, "id=") {
			t.Fatal("it has what it must not have")
		}
		var got doc
		r := xml.NewDecoder(bytes.NewReader(b.Bytes()))
		if err := r.Decode(&got); err != nil {
			t.Fatalf("%v: %s", err, b.String())
		}
		if end, err := r.Token(); err == nil && strings.TrimSpace(fmt.Sprintf("%s", end)) != "" || err != nil && err != io.EOF {
			t.Fatalf("after it: %v, %v", end, err)
		}
		if got.XMLName.Space != "http://www.w3.org/2000/svg" || got.Role != "img" || got.Title != clean(title) || got.Desc != said {
			t.Fatalf("%+v, %q, %q, %q", got.XMLName, got.Role, got.Title, got.Desc)
		}
		if len(got.Texts) != len(d.words) {
			t.Fatalf("%d of %d texts", len(got.Texts), len(d.words))
		}
		for n, w := range d.words {
			if got.Texts[n].Text != w.text {
				t.Fatalf("%q became %q", w.text, got.Texts[n].Text)
			}
			for _, x := range []string{got.Texts[n].X, got.Texts[n].Y} {
				if _, err := strconv.ParseFloat(x, 64); err != nil {
					t.Fatal(err)
				}
			}
			if w.room < w.wide*1.25 && got.Texts[n].Length == "" {
				t.Fatalf("%q may leave its room", w.text)
			}
		}
	})
}
