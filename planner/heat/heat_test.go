package heat

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func anyFood(t *rapid.T) *Food {
	names := []string{"potato", "carrot", "swede", "beetroot", "cod", "chicken breast", "butternut squash"}
	return Of(rapid.SampledFrom(names).Draw(t, "food"))
}

func anyMethod(t *rapid.T) *Method {
	return By(rapid.SampledFrom([]string{"boil", "steam", "roast"}).Draw(t, "method"))
}

// A larger piece takes longer, more faces take less, and how small to cut is the
// other way round of how long it takes.
func TestSizes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, m := anyFood(t), anyMethod(t)
		size := rapid.Float64Range(0.004, 0.06).Draw(t, "size")
		slice, stick, cube := HowLong(f, m, AsSlice, size, 0), HowLong(f, m, AsStick, size, 0), HowLong(f, m, AsCube, size, 0)
		if !(cube <= stick+0.01 && stick <= slice+0.01) {
			t.Fatalf("cube %g, stick %g, slice %g", cube, stick, slice)
		}
		if more := HowLong(f, m, AsCube, size*1.2, 0); more <= cube {
			t.Fatalf("%g mm take %g min, a fifth more %g", size*1000, cube, more)
		}
		if back := HowSmall(f, m, AsCube, cube, 0); math.Abs(back-size) > 0.0006 {
			t.Fatalf("%g mm take %g min, but in that time %g mm are done", size*1000, cube, back*1000)
		}
	})
}

// Poultry is held at what safety asks for: after the minutes given, the middle has
// been at 74 C or more for 2 min.
func TestPoultryIsHeld(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, m := Of("chicken breast"), By("roast")
		size := rapid.Float64Range(0.01, 0.06).Draw(t, "thick")
		oven := rapid.Float64Range(150, 230).Draw(t, "oven")
		min := HowLong(f, m, AsSlice, size, oven)
		h := Heat(Slice(size), f.Stuff, f.From, m.medium(f, oven))
		for _, at := range []float64{min - 2, min - 1, min} {
			if got := h.Middle(at * 60); got < 73.99 {
				t.Fatalf("%.0f mm at %.0f C: after %.1f of %.1f min the middle is at %.1f", size*1000, oven, at, min, got)
			}
		}
	})
}

// In water of 80 C nothing that needs the boil ever gets soft in a service, and
// nothing gets hotter than what it is in.
func TestNeverThere(t *testing.T) {
	if got := HowLong(Of("beetroot"), By("poach"), AsCube, 0.02, 0); got < 60 {
		t.Errorf("beetroot poached soft in %g min", got)
	}
	h := Heat(Cube(0.02), Of("cod").Stuff, 5, Medium{60, 600})
	if got := h.Until(63); !math.IsInf(got, 1) {
		t.Errorf("63 C in water of 60 after %g s", got)
	}
	if got := HowSmall(Of("beetroot"), By("boil"), AsCube, 5, 0); got != 0 {
		t.Errorf("beetroot soft in 5 min at %g m", got)
	}
}

// Microwave times of a maker's guide, which does not name the watts; 900 are taken.
// Source: the reference of cooking times, microwave rows.
func TestMicrowave(t *testing.T) {
	for _, c := range []struct {
		food        string
		grams       float64
		least, most float64
	}{
		{"carrot", 480, 5, 7}, {"potato", 200, 3.5, 6}, {"potato", 400, 6, 8}, {"potato", 800, 8, 11},
	} {
		if got := Microwave(Of(c.food), c.grams, 900); got < c.least*0.75 || got > c.most*1.25 {
			t.Errorf("%s, %g g: %.1f min, the guide has %g to %g", c.food, c.grams, got, c.least, c.most)
		}
	}
	if Microwave(Of("potato"), 400, 600) <= Microwave(Of("potato"), 400, 900) {
		t.Error("less power is no slower")
	}
}

func TestBadRows(t *testing.T) {
	const head = "food,k,alpha,from,soft,core,hold,cuts,source\n"
	for row, want := range map[string]string{
		"leek,0.6,1.5e-7,15,4,,,cube,x\nleek,6,1.5e-7,15,4,,,cube,x": `line 3: k "6"`,
		"leek,0.6,1.5e-7,15,4,70,,cube,x":                            "line 2: either soft or core",
		"leek,0.6,1.5e-7,15,4,,,wedge,x":                             `line 2: "wedge" is no cut`,
		"leek,0.6,1.5e-7,15,4,,,cube,":                               "line 2: a food and a source",
		"leek,0.6,fast,15,4,,,cube,x":                                `line 2: alpha "fast"`,
	} {
		if _, err := readFoods("foods.csv", strings.NewReader(head+row+"\n")); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", row, err, want)
		}
	}
	if _, err := readMethods("methods.csv", strings.NewReader("method\nboil\n")); err == nil {
		t.Error("a table with one column is read")
	}
}

func BenchmarkHowSmall(b *testing.B) {
	f, m := Of("potato"), By("boil")
	for b.Loop() {
		HowSmall(f, m, AsCube, 12, 0)
	}
}
