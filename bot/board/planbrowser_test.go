package board_test

import (
	"os"
	"testing"

	"github.com/chromedp/chromedp"
)

// The plan that is on: a picture on the wall, a list on a phone and for who listens; what runs counts
// down, in between as well. With SCULLION_SHOTS a folder, the pages are kept there to be looked at.
func TestPlanOnBoard(t *testing.T) {
	b := browser(t)
	w := hang(t, nil)
	for _, s := range []string{"got 2kg potatoes, 500g mushrooms, 400g cheddar, 300g spinach, 1kg carrots", "plan 3 dishes for 2 in 60 minutes, two cooks", "accept", "need 200ml cream for the tart", "binned 50g leeks", "timer 5 min for the tart"} {
		w.say("ana", s)
	}
	const seen = `getComputedStyle(document.querySelector('#table svg')).display !== 'none'`
	const listed = `document.querySelector('.lanes').getBoundingClientRect().height > 100`
	counts := `[...document.querySelectorAll('#alone [data-due], #hands [data-due]')].length > 0 && [...document.querySelectorAll('#alone [data-due], #hands [data-due]')].every(e => /^[0-9]+:[0-5][0-9]$/.test(e.textContent))`
	for name, size := range map[string][2]int64{"phone": {320, 800}, "wall": {1920, 1080}} {
		x := open(t, b, w.server.URL, size[0], size[1])
		x.until(counts)
		if name == "wall" {
			x.until(seen + ` && !(` + listed + `) && document.querySelector('#table svg').getBoundingClientRect().width > 900`)
			x.until(`[...document.querySelectorAll('#table svg text')].some(e => /^now [0-9]/.test(e.textContent))`)
			x.until(`getComputedStyle(document.querySelector('#table svg .k6')).fill === 'rgb(244, 230, 189)'`)
			x.prefers("dark")
			x.until(`getComputedStyle(document.querySelector('#table svg .k6')).fill === 'rgb(230, 214, 166)'`)
			x.prefers("light")
		} else {
			x.until(`!(` + seen + `) && ` + listed)
		}
		if _, err := chromedp.Run(x.ctx, chromedp.Evaluate[bool]("skew += 90 * 60000, tick(), true")); err != nil { // as if it were then
			t.Fatal(err)
		}
		x.until(`[...document.querySelectorAll('#alone [data-due]')].every(e => /^over /.test(e.textContent)) && document.querySelector('#alone li.due')`)
		if _, err := chromedp.Run(x.ctx, chromedp.Evaluate[bool]("skew -= 90 * 60000, tick(), true")); err != nil {
			t.Fatal(err)
		}
		if dir := os.Getenv("SCULLION_SHOTS"); dir != "" {
			x.do(chromedp.Navigate(w.server.URL))
			x.until(counts)
			shot, err := chromedp.Run(x.ctx, chromedp.FullScreenshot(100))
			if err == nil {
				err = os.WriteFile(dir+"/board-"+name+".png", shot, 0o644)
			}
			if err != nil {
				t.Fatal(err)
			}
		}
		x.fine(name)
	}
}
