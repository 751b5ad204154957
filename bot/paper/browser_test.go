package paper_test

import (
	"context"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"scullion/bot/paper"
	"scullion/pantry/account"
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
		t.Skip("no Chromium here (apt-get install chromium): pages are checked by parsing alone")
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

// pageSize is a page of a PDF, in points.
type pageSize struct{ width, height float64 }

// tab opens a document in a tab of its own. A document that asks for anything else fails the test.
func tab(t *testing.T, ctx context.Context, doc string) context.Context {
	t.Helper()
	file := filepath.Join(t.TempDir(), "page.html")
	if err := os.WriteFile(file, []byte(doc), 0o644); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := chromedp.NewContext(ctx)
	t.Cleanup(cancel)
	if err := chromedp.Do(ctx, chromedp.Navigate("file://"+file)); err != nil {
		t.Fatal(err)
	}
	asked, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](`performance.getEntriesByType('resource').map(r => r.name)`))
	if err != nil || len(asked) > 0 {
		t.Errorf("the page asks for %q: %v", asked, err)
	}
	return ctx
}

// prints has the browser print a tab to PDF, on paper of a size where the page names none, and
// gives its pages.
func prints(t *testing.T, tab context.Context, size pageSize) []pageSize {
	t.Helper()
	css := true
	result, err := chromedp.Run(tab, func(ctx context.Context, target *chromedp.Target) (page.PrintToPDFResult, error) {
		return cdp.Call(ctx, target, page.PrintToPDF, page.PrintToPDFParams{PreferCSSPageSize: &css, PaperWidth: size.width / 72, PaperHeight: size.height / 72})
	})
	if err != nil {
		t.Fatal(err)
	}
	return pages(string(result.Data))
}

var a4, letter = pageSize{595.28, 841.89}, pageSize{612, 792}

var mediaBox = regexp.MustCompile(`/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]`)

func pages(pdf string) (list []pageSize) {
	for _, m := range mediaBox.FindAllStringSubmatch(pdf, -1) {
		w, _ := strconv.ParseFloat(m[1], 64)
		h, _ := strconv.ParseFloat(m[2], 64)
		list = append(list, pageSize{w, h})
	}
	return list
}

// TestSheetsPrintOnAPage prints sheets on A4 and on Letter: one page each, and nothing from outside.
func TestSheetsPrintOnAPage(t *testing.T) {
	ctx := browser(t)
	long := tart(t)
	for i := range 14 {
		p := long.Parts[i%9]
		p.Item = fmt.Sprintf("something else, number %d", i)
		long.Parts = append(long.Parts, p)
		long.Steps = append(long.Steps, account.Step{At: evening, Do: "stir it, and look whether it catches", Minutes: 5})
	}
	for name, s := range map[string]*account.Sheet{"tart": tart(t), "long": long, "empty": {Dish: "nothing yet"}} {
		for size, p := range map[string]pageSize{"A4": a4, "Letter": letter} {
			t.Run(name+" on "+size, func(t *testing.T) {
				o := options()
				o.Portions = 10
				got := prints(t, tab(t, ctx, paper.HTML(s, o)), p)
				if len(got) != 1 || math.Abs(got[0].width-p.width) > 1 || math.Abs(got[0].height-p.height) > 1 {
					t.Errorf("printed on %v", got)
				}
			})
		}
	}
}

// misplaced names, in a page of labels, what stands outside its label, and labels outside their
// page or over one another. Names may be cut, nothing else.
const misplaced = `(() => {
	const bad = [], slack = 0.6;
	const inside = (a, b) => a.left >= b.left - slack && a.right <= b.right + slack && a.top >= b.top - slack && a.bottom <= b.bottom + slack;
	const cells = [...document.querySelectorAll('article')];
	for (const c of cells) {
		const box = c.getBoundingClientRect();
		if (!inside(box, c.parentElement.getBoundingClientRect())) bad.push('off the page: ' + c.innerText);
		for (const e of c.children) if (!inside(e.getBoundingClientRect(), box)) bad.push('off the label: <' + e.tagName + '> ' + e.innerText);
		for (const e of c.querySelectorAll('.date, .allergens')) if (e.scrollWidth > e.clientWidth + 1 || e.scrollHeight > e.clientHeight + 2) bad.push('cut: ' + e.innerText);
		if (c.querySelector('h2').getBoundingClientRect().height < 8) bad.push('no name: ' + c.innerText);
		for (const o of c.parentElement.children) if (o !== c) {
			const b = o.getBoundingClientRect();
			if (b.left < box.right - slack && box.left < b.right - slack && b.top < box.bottom - slack && box.top < b.bottom - slack) bad.push('over another: ' + c.innerText);
		}
	}
	return bad;
})()`

// TestLabelsPrint has a browser lay labels out that hardly fit, and print them.
func TestLabelsPrint(t *testing.T) {
	ctx := browser(t)
	for _, p := range paper.LabelPages() {
		t.Run(p.ID, func(t *testing.T) {
			n := 2*p.Columns*p.Rows + 5
			tab := tab(t, ctx, paper.Labels(many(n), p))
			got := prints(t, tab, a4)
			bad, err := chromedp.Run(tab, chromedp.Evaluate[[]string](misplaced))
			if err != nil {
				t.Fatal(err)
			}
			for _, b := range bad {
				t.Error(b)
			}
			a := p.Columns * p.Rows
			if len(got) != (n+a-1)/a {
				t.Errorf("%d labels on %d pages", n, len(got))
			}
			for _, g := range got {
				if math.Abs(g.width-p.PageWidth*72/25.4) > 1 || math.Abs(g.height-p.PageHeight*72/25.4) > 1 {
					t.Errorf("a page of %v points", g)
				}
			}
		})
	}
}
