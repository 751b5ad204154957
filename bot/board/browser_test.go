package board_test

import (
	"context"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"scullion/bot/board"
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
		t.Skip("no Chromium here (apt-get install chromium): the board is checked without a browser alone")
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

// tab is a page in a browser. What its script does wrong, and what the content policy forbids it,
// is noted from the beginning.
type tab struct {
	*testing.T
	ctx context.Context
}

func open(t *testing.T, browser context.Context, address string, width, height int64) *tab {
	t.Helper()
	ctx, cancel := chromedp.NewContext(browser)
	t.Cleanup(cancel)
	x := &tab{t, ctx}
	watch := `window.wrong = []; addEventListener('error', e => wrong.push(String(e.message))); addEventListener('unhandledrejection', e => wrong.push(String(e.reason)));
		addEventListener('securitypolicyviolation', e => wrong.push(e.violatedDirective + ' ' + e.blockedURI));`
	if _, err := chromedp.Run(ctx, func(ctx context.Context, target *chromedp.Target) (page.AddScriptToEvaluateOnNewDocumentResult, error) {
		return cdp.Call(ctx, target, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: watch})
	}); err != nil {
		t.Fatal(err)
	}
	x.do(chromedp.EmulateViewport(width, height), chromedp.Navigate(address))
	return x
}

func (x *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	x.Helper()
	if err := chromedp.Do(x.ctx, steps...); err != nil {
		x.Fatal(err)
	}
}

// until waits for something to be true on the page.
func (x *tab) until(script string) {
	x.Helper()
	for late := time.Now().Add(20 * time.Second); ; time.Sleep(20 * time.Millisecond) {
		is, err := chromedp.Run(x.ctx, chromedp.Evaluate[bool]("Boolean("+script+")"))
		if err == nil && is {
			return
		}
		if time.Now().After(late) {
			text, _ := chromedp.Run(x.ctx, chromedp.Evaluate[string]("document.body.innerText"))
			x.Fatalf("never: %s (%v)\n%s", script, err, text)
		}
	}
}

// tab goes from one thing to the next by the keyboard until it is at the one of that id; each must
// show that it is.
func (x *tab) tab(id string) {
	x.Helper()
	for range 20 {
		x.do(chromedp.KeyEvent("\t"))
		at, err := chromedp.Run(x.ctx, chromedp.Evaluate[[]string](`[document.activeElement.id, getComputedStyle(document.activeElement).outlineStyle]`))
		if err != nil {
			x.Fatal(err)
		}
		if at[1] != "solid" {
			x.Errorf("nothing shows that %q is chosen", at[0])
		}
		if at[0] == id {
			return
		}
	}
	x.Fatalf("the keyboard does not get to %q", id)
}

// fine says that nothing went wrong on the page and that nothing runs over its edge.
func (x *tab) fine(what string) {
	x.Helper()
	wrong, err := chromedp.Run(x.ctx, chromedp.Evaluate[[]string]("window.wrong"))
	if err != nil || len(wrong) > 0 {
		x.Errorf("%s: %q, %v", what, wrong, err)
	}
	over, err := chromedp.Run(x.ctx, chromedp.Evaluate[float64]("document.documentElement.scrollWidth - document.documentElement.clientWidth"))
	if err != nil || over > 0 {
		x.Errorf("%s: %g px over the edge, %v", what, over, err)
	}
}

// prefers has the page drawn light or dark.
func (x *tab) prefers(scheme string) {
	x.Helper()
	if _, err := chromedp.Run(x.ctx, func(ctx context.Context, target *chromedp.Target) (chromedp.Void, error) {
		_, err := cdp.Call(ctx, target, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
		return chromedp.Void{}, err
	}); err != nil {
		x.Fatal(err)
	}
}

const leeks = `[...document.querySelectorAll('#stock li')].some(l => l.innerText.includes('leek') && l.innerText.includes('%s'))`

// Two devices: one joins and speaks by the keyboard alone, the other sees it; on a phone and on a
// wall, light and dark.
func TestTwoDevices(t *testing.T) {
	b := browser(t)
	w := hang(t, nil)
	w.say("ana", "need 200g leeks for the tart")
	phone, wall := open(t, b, w.server.URL, 320, 640), open(t, b, w.server.URL, 1920, 1080)
	phone.tab("name")
	phone.do(chromedp.KeyEvent("dee\r"))
	phone.until(`document.querySelector('label[for=text]')?.innerText === 'dee says'`)
	phone.tab("text")
	phone.do(chromedp.KeyEvent("used 300g leeks in the soup\r"))
	phone.until(`document.getElementById('reply').innerText.includes('Leek 300 g into the soup')`)
	begun := time.Now()
	wall.until(fmt.Sprintf(leeks, "700 g"))
	t.Logf("seen on the second page %v after the first had its answer", time.Since(begun).Round(time.Millisecond))
	wall.until(`document.querySelector('#said li').innerText.includes('used 300g leeks in the soup')`)
	wall.until(`document.querySelector('#dishes').innerText.includes('300 g leek')`)
	wall.until(`document.getElementById('heard').innerText.includes('Leek 300 g into the soup')`) // for who cannot see it
	phone.until(`document.activeElement.id === 'text' && document.activeElement.value === ''`)
	phone.do(chromedp.KeyEvent("timer 2 min for the tart\r"))
	wall.until(`/^[12]:[0-5][0-9] tart/.test(document.querySelector('#timers li').innerText)`)
	if _, err := chromedp.Run(wall.ctx, chromedp.Evaluate[bool]("skew += 120000, tick(), true")); err != nil { // as if it were then
		t.Fatal(err)
	}
	wall.until(`/^(now|over 0:[0-5][0-9]) tart/.test(document.querySelector('#timers li.due').innerText) && document.getElementById('heard').innerText === 'Time: tart'`)
	phone.fine("phone")
	wall.fine("wall")
}

// A server that goes away and comes back: the page says that it is old, and catches up by itself.
func TestComesBack(t *testing.T) {
	b := browser(t)
	w := hang(t, nil)
	at := ""
	serve := func() (stop func()) {
		address := at
		if address == "" {
			address = "127.0.0.1:0"
		}
		var l net.Listener
		for late := time.Now().Add(10 * time.Second); ; time.Sleep(50 * time.Millisecond) {
			var err error
			if l, err = net.Listen("tcp", address); err == nil {
				break
			}
			if time.Now().After(late) {
				t.Fatal(err)
			}
		}
		at = l.Addr().String()
		x := board.New(options(w.s, w.talk))
		ctx, cancel := context.WithCancel(context.Background())
		ran := make(chan struct{})
		go func() { x.Run(ctx); close(ran) }()
		s := &http.Server{Handler: x}
		go s.Serve(l)
		return func() { s.Close(); cancel(); <-ran }
	}
	stop := serve()
	x := open(t, b, "http://"+at, 800, 600)
	x.until(fmt.Sprintf(leeks, "1 kg"))
	stop()
	w.say("bo", "used 250g leeks in the soup")
	if _, err := chromedp.Run(x.ctx, chromedp.Evaluate[bool]("heard -= 60000, tick(), true")); err != nil { // as if a minute had passed
		t.Fatal(err)
	}
	x.until(`document.body.classList.contains('stale') && document.getElementById('news').innerText.startsWith('No news for')`)
	defer serve()()
	x.until(fmt.Sprintf(leeks, "750 g"))
	live := `!document.body.classList.contains('stale') && document.getElementById('news').innerText === 'Live.'`
	x.until(live)
	// A connection that is dead, though nobody said so.
	if _, err := chromedp.Run(x.ctx, chromedp.Evaluate[bool]("source.close(), heard -= 60000, tried = 0, tick(), document.body.classList.contains('stale')")); err != nil {
		t.Fatal(err)
	}
	w.say("bo", "used 50g leeks in the soup")
	x.until(fmt.Sprintf(leeks, "700 g"))
	x.until(live)
	x.fine("come back")
}

// TestAxe has axe-core (Deque's accessibility rules, WCAG 2.2 A and AA) look at the pages.
func TestAxe(t *testing.T) {
	source := ""
	for _, dir := range filepath.SplitList(os.Getenv("NODE_PATH")) {
		if raw, err := os.ReadFile(filepath.Join(dir, "axe-core", "axe.min.js")); err == nil {
			source = string(raw)
		}
	}
	if source == "" {
		t.Skip("axe-core is not in NODE_PATH (npm install it there)")
	}
	b := browser(t)
	w := hang(t, nil)
	w.say("ana", "need 200g leeks for the tart")
	w.say("ana", "used 100g leeks in the soup")
	w.say("ana", "plan 1 dish for 2 in 45 minutes")
	w.say("ana", "accept")
	look := func(x *tab) []string {
		if _, err := chromedp.Run(x.ctx, chromedp.Evaluate[bool](source+"; true")); err != nil {
			t.Fatal(err)
		}
		found, err := chromedp.Run(x.ctx, chromedp.Evaluate[[]string](`axe.run().then(r => r.violations.map(v => v.id + ': ' + v.help + ' ' + v.nodes.map(n => n.html).slice(0, 2).join(' ')))`, chromedp.EvalAwaitPromise))
		if err != nil {
			t.Fatal(err)
		}
		return found
	}
	for _, path := range []string{"/", "/wrap", "/sheet/0"} {
		for _, size := range [][2]int64{{320, 640}, {1920, 1080}} {
			for _, scheme := range []string{"light", "dark"} {
				x := open(t, b, w.server.URL+path, size[0], size[1])
				x.prefers(scheme)
				if found := look(x); len(found) > 0 {
					t.Errorf("%s at %v, %s: %s", path, size, scheme, strings.Join(found, "\n"))
				}
				x.fine(path)
			}
		}
	}
	x := open(t, b, w.server.URL, 800, 600)
	x.until(`document.body.append(document.createElement('input')) || true`)
	if found := look(x); !slices.ContainsFunc(found, func(s string) bool { return strings.HasPrefix(s, "label:") }) {
		t.Errorf("an input without a label: %q", found)
	}
}
