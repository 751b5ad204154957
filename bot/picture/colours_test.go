package picture

import (
	"fmt"
	"image/color"
	"math"
	"testing"
	"time"
)

// luminance and contrast are those of WCAG 2.2, section 1.4.3.
func luminance(c color.RGBA) float64 {
	part := func(x uint8) float64 {
		s := float64(x) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*part(c.R) + 0.7152*part(c.G) + 0.0722*part(c.B)
}

func contrast(a, b color.RGBA) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

func TestContrastItself(t *testing.T) {
	for _, x := range []struct {
		a, b uint32
		want float64
	}{{0xffffff, 0, 21}, {0x777777, 0xffffff, 4.48}, {0xff0000, 0xffffff, 4.0}, {0x123456, 0x123456, 1}} {
		if got := contrast(hex(x.a), hex(x.b)); math.Abs(got-x.want) > 0.01 {
			t.Errorf("%06x on %06x: %g, not %g", x.a, x.b, got, x.want)
		}
	}
}

// eightDishes has every marker at work, and everything else that there is in a timetable.
func eightDishes() Timetable {
	x := Timetable{Title: "8 dishes", Begins: begun, Ends: begun.Add(30 * time.Minute), Now: begun.Add(9 * time.Minute)}
	for n := range 8 {
		x.Lanes = append(x.Lanes, Lane{Name: fmt.Sprint("lane ", n), Cook: n%2 == 0, Steps: []Step{
			{From: n, Minutes: 20, Text: "cook", Dish: "dish", DishN: n + 1, Alone: n%3 == 0, Done: n == 0},
			{From: n + 20, Minutes: 2, Text: "serve", Dish: "dish", DishN: n + 1, Done: n < 4},
		}})
	}
	return x
}

// Every word can be read: on all that is painted under it, its contrast is 4.5 or more. And it
// is painted in its own colour, not the next best one that the picture has.
func TestContrast(t *testing.T) {
	least := 21.0
	for _, dark := range []bool{false, true} {
		for _, width := range []int{360, 960} {
			o := Options{Width: width, Dark: dark}
			for n, d := range []*drawing{sample().drawing(o), shelfSample().drawing(o), eightDishes().drawing(o), (Stock{}).drawing(o)} {
				c := newCanvas(d)
				for _, s := range d.shapes {
					c.shape(s)
				}
				under := *c.img
				under.Pix = append([]uint8(nil), c.img.Pix...)
				for _, w := range d.words {
					c.words(&w)
					if _, ok := c.number[w.fill]; !ok {
						t.Errorf("%d, %+v: no colour was left for %q", n, o, w.text)
					}
					seen := map[uint8]bool{}
					for y := int(w.top() * density); y < int(w.bottom()*density); y++ {
						for x := int(w.x * density); x < int((w.x+w.wide)*density); x++ {
							seen[under.ColorIndexAt(x, y)] = true
						}
					}
					for i := range seen {
						got := contrast(w.fill, under.Palette[i].(color.RGBA))
						least = min(least, got)
						if got < 4.5 {
							t.Errorf("%d, %+v: %q has %.2f on %v", n, o, w.text, got, under.Palette[i])
						}
					}
				}
				if got := len(c.img.Palette); got > 224 {
					t.Errorf("%d, %+v: %d colours of 256 are given out", n, o, got)
				}
			}
		}
	}
	t.Logf("the least contrast is %.2f", least)
}
