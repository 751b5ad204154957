package board_test

import (
	"context"
	"net/http"
	"net/http/httptest"
	"os/exec"
	"slices"
	"testing"

	"github.com/chromedp/chromedp"
)

// BenchmarkFirstPaint is when a browser that has just been started paints the board for the first time,
// in ms after it was sent there, beside a page that has nothing in it, and the same in a browser that has
// been at work.
func BenchmarkFirstPaint(b *testing.B) {
	path, err := exec.LookPath("chromium")
	if err != nil {
		b.Skip("no Chromium here (apt-get install chromium)")
	}
	w := hang(b, nil)
	for _, s := range []string{"got 2kg potatoes, 500g mushrooms, 400g cheddar, 300g spinach", "plan 2 dishes for 2 in 60 minutes", "accept"} {
		w.say("ana", s)
	}
	empty := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		w.Write([]byte("<!doctype html><html lang=en><title>x</title><p>x"))
	}))
	defer empty.Close()
	const script = `(async () => { while (!performance.getEntriesByName('first-contentful-paint').length) await new Promise(r => setTimeout(r, 5));
		const n = performance.getEntriesByType('navigation')[0]; return [performance.getEntriesByName('first-contentful-paint')[0].startTime, n.responseStart, n.responseEnd, n.domInteractive] })()`
	look := func(ctx context.Context, address string) []float64 {
		if err := chromedp.Do(ctx, chromedp.Navigate(address)); err != nil {
			b.Fatal(err)
		}
		got, err := chromedp.Run(ctx, chromedp.Evaluate[[]float64](script, chromedp.EvalAwaitPromise))
		if err != nil {
			b.Fatal(err)
		}
		return got
	}
	for _, page := range []struct{ name, address string }{{"empty", empty.URL}, {"board", w.server.URL}} {
		b.Run(page.name, func(b *testing.B) {
			var cold, warm, first, parsed []float64
			for b.Loop() {
				o := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU)
				ctx, cancel := chromedp.NewExecAllocator(context.Background(), o...)
				ctx, end := chromedp.NewContext(ctx)
				c := look(ctx, page.address)
				h := look(ctx, page.address)
				cold, warm, first, parsed = append(cold, c[0]), append(warm, h[0]), append(first, c[1]), append(parsed, c[3])
				end()
				cancel()
			}
			middle := func(list []float64) float64 {
				slices.Sort(list)
				return list[len(list)/2]
			}
			b.ReportMetric(middle(cold), "ms/cold")
			b.ReportMetric(middle(warm), "ms/warm")
			b.ReportMetric(middle(first), "ms/answer")
			b.ReportMetric(middle(parsed), "ms/parsed")
		})
	}
}
