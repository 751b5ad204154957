package picture

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

var update = flag.Bool("update", false, "write the pictures as what is expected")

// pictures are what goldens are held of, by their names.
var pictures = map[string]func() *drawing{
	"timetable":       func() *drawing { return sample().drawing(Options{Width: 960}) },
	"timetable-phone": func() *drawing { return sample().drawing(Options{Width: 360, Dark: true}) },
	"stock":           func() *drawing { return shelfSample().drawing(Options{Width: 960, Dark: true}) },
	"timetable-chat":  func() *drawing { return sample().drawing(Options{Width: 440}) },
	"stock-phone":     func() *drawing { return shelfSample().drawing(Options{Width: 360}) },
}

func painted(t testing.TB, d *drawing) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := d.png(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// TestGoldens holds pictures against those that somebody has looked at. Where an edge falls
// may differ by a shade from one machine to another, so a few dots may; a word or a tape may not.
func TestGoldens(t *testing.T) {
	for name, draw := range pictures {
		file := filepath.Join("../../testdata/picture", name+".png")
		raw := painted(t, draw())
		if *update {
			if err := os.WriteFile(file, packed(t, raw), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if err := near(raw, want); err != nil {
			t.Errorf("%s: %v; look at it, and write it with: go test ./bot/picture -run Goldens -update", name, err)
		}
	}
}

// packed is a picture in fewer bytes, to be kept.
func packed(t testing.TB, raw []byte) []byte {
	t.Helper()
	img, err := png.Decode(bytes.NewReader(raw))
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	e := png.Encoder{CompressionLevel: png.BestCompression}
	if err := e.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// near says where two pictures differ by more than a dot in a thousand, or any dot by much.
func near(got, want []byte) error {
	a, err := png.Decode(bytes.NewReader(got))
	if err != nil {
		return err
	}
	b, err := png.Decode(bytes.NewReader(want))
	if err != nil {
		return err
	}
	if a.Bounds() != b.Bounds() {
		return fmt.Errorf("it is %v, not %v", a.Bounds().Max, b.Bounds().Max)
	}
	off := 0
	for y := range a.Bounds().Max.Y {
		for x := range a.Bounds().Max.X {
			switch d := apart(a, b, x, y); {
			case d > 64:
				return fmt.Errorf("at %d, %d it is %v, not %v", x, y, a.At(x, y), b.At(x, y))
			case d > 0:
				off++
			}
		}
	}
	if size := a.Bounds().Max; off > size.X*size.Y/1000 {
		return fmt.Errorf("%d dots differ", off)
	}
	return nil
}

// apart is how far a dot's colours are apart, of 255.
func apart(a, b image.Image, x, y int) int {
	r, g, bl, _ := a.At(x, y).RGBA()
	r2, g2, bl2, _ := b.At(x, y).RGBA()
	far := func(a, b uint32) int { return max(int(a>>8)-int(b>>8), int(b>>8)-int(a>>8)) }
	return max(far(r, r2), far(g, g2), far(bl, bl2))
}

// The tolerance of the goldens lets no change through that somebody would see.
func TestNear(t *testing.T) {
	raw := painted(t, sample().drawing(Options{Width: 360}))
	later := sample()
	later.Now = later.Now.Add(time.Minute)
	cut := sample()
	cut.Lanes[0].Steps[3].Text += "s"
	for n, x := range []Timetable{later, cut} {
		if near(painted(t, x.drawing(Options{Width: 360})), raw) == nil {
			t.Errorf("change %d is not seen", n)
		}
	}
	if err := near(raw, raw); err != nil {
		t.Error(err)
	}
}

func TestSameBytes(t *testing.T) {
	var want, said [2]bytes.Buffer
	for n, dark := range []bool{false, true} {
		if err := errors.Join(sample().PNG(&want[n], Options{Dark: dark}), sample().SVG(&said[n], Options{Dark: dark})); err != nil {
			t.Fatal(err)
		}
	}
	var all sync.WaitGroup
	for n := range 6 {
		all.Go(func() {
			o := Options{Dark: n%2 == 1}
			var a, b bytes.Buffer
			if err := errors.Join(sample().PNG(&a, o), sample().SVG(&b, o)); err != nil {
				t.Error(err)
			}
			if !bytes.Equal(a.Bytes(), want[n%2].Bytes()) || !bytes.Equal(b.Bytes(), said[n%2].Bytes()) {
				t.Error("the same values give other bytes")
			}
		})
	}
	all.Wait()
}

func TestWidths(t *testing.T) {
	for want, widths := range map[int][]int{320: {-5, 1, 320}, 360: {360}, 720: {0, 720}, 2400: {2400, 100000}} {
		for _, w := range widths {
			c, err := png.DecodeConfig(bytes.NewReader(painted(t, sample().drawing(Options{Width: w}))))
			if err != nil || c.Width != 2*want {
				t.Errorf("a width of %d gives %d dots: %v", w, c.Width, err)
			}
		}
	}
}

func TestTooTall(t *testing.T) {
	s := Stock{Lines: make([]StockLine, 2000)}
	if err := s.PNG(&bytes.Buffer{}, Options{}); !errors.Is(err, ErrTall) {
		t.Errorf("2000 foods: %v", err)
	}
	if err := (Stock{Lines: make([]StockLine, 100)}).PNG(&bytes.Buffer{}, Options{Width: 360}); err != nil {
		t.Errorf("100 foods: %v", err)
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("the disk is full") }

func TestWriterFails(t *testing.T) {
	for _, err := range []error{sample().PNG(full{}, Options{}), sample().SVG(full{}, Options{}), shelfSample().PNG(full{}, Options{}), shelfSample().SVG(full{}, Options{})} {
		if err == nil || !strings.Contains(err.Error(), "full") {
			t.Errorf("a full disk: %v", err)
		}
	}
}

func BenchmarkTimetablePNG(b *testing.B) {
	for _, w := range []int{360, 720, 1280} {
		b.Run(fmt.Sprint(w), func(b *testing.B) {
			for b.Loop() {
				if err := sample().PNG(&bytes.Buffer{}, Options{Width: w}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkTimetableSVG(b *testing.B) {
	for b.Loop() {
		if err := sample().SVG(&bytes.Buffer{}, Options{Width: 720}); err != nil {
			b.Fatal(err)
		}
	}
}
