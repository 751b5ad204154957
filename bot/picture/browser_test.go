package picture

import (
	"bytes"
	"context"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// browser starts a real one where the machine has it.
func browser(t *testing.T) context.Context {
	t.Helper()
	path := ""
	for _, name := range []string{"chromium", "chromium-browser"} {
		if p, err := exec.LookPath(name); err == nil {
			path = p
			break
		}
	}
	if path == "" {
		t.Skip("no Chromium here (apt-get install chromium): SVGs are checked by parsing and measuring alone")
	}
	o := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU)
	ctx, cancel := chromedp.NewExecAllocator(context.Background(), o...)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewContext(ctx)
	t.Cleanup(cancel)
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	return ctx
}

// In a browser that has other fonts, words stay in their room, and can be selected.
func TestSVGInBrowser(t *testing.T) {
	ctx := browser(t)
	for _, width := range []int{360, 960} {
		for name, x := range map[string]interface {
			SVG(w io.Writer, o Options) error
			drawing(Options) *drawing
		}{"timetable": sample(), "stock": shelfSample(), "8 dishes": eightDishes()} {
			o := Options{Width: width}
			var b bytes.Buffer
			if err := x.SVG(&b, o); err != nil {
				t.Fatal(err)
			}
			file := filepath.Join(t.TempDir(), "picture.svg")
			if err := os.WriteFile(file, b.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
			if err := chromedp.Do(ctx, chromedp.Navigate("file://"+file)); err != nil {
				t.Fatal(err)
			}
			wide, err := chromedp.Run(ctx, chromedp.Evaluate[[]float64](`[...document.querySelectorAll("text")].map(t => t.getBBox().width)`))
			if err != nil {
				t.Fatal(err)
			}
			selected, err := chromedp.Run(ctx, chromedp.Evaluate[string](`getSelection().selectAllChildren(document.documentElement), getSelection().toString()`))
			if err != nil {
				t.Fatal(err)
			}
			words := x.drawing(o).words
			if len(wide) != len(words) || len(words) == 0 {
				t.Fatalf("%s: %d of %d texts", name, len(wide), len(words))
			}
			for n, w := range words {
				if wide[n] > w.room+0.5 {
					t.Errorf("%s, %d px: %q takes %g of %g", name, width, w.text, wide[n], w.room)
				}
				if !strings.Contains(selected, w.text) {
					t.Errorf("%s: %q cannot be selected", name, w.text)
				}
			}
		}
	}
}
