package board_test

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"regexp"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"scullion/bot/board"
)

// The page tells how things stand, joins a cook and takes what they say, once.
func TestPage(t *testing.T) {
	w := hang(t, nil)
	w.say("dee", "need 200ml cream for the tart")
	w.say("bo", "used 400g leeks in the soup")
	w.say("bo", "binned 50g leeks")
	_, page := w.get("/")
	for _, want := range []string{`<span class="what">leek</span> <span class="much">550 g</span> <span class="of">of 1 kg</span>`, "400 ml free; dee 200 ml for the tart", "came today", "<b>soup</b>", "400 g leek", "binned 50 g", "Into dishes 400 g", "binned 50g leeks", "Cupboard:</b> flour 1 kg", "Your name", "len w55"} {
		if !strings.Contains(page, want) {
			t.Errorf("no %q in\n%s", want, page)
		}
	}
	if r, _ := w.do("POST", "/say", "text=used+100g+leeks&nonce=ABCDEFGHIJKLMNOP"); r.StatusCode != http.StatusForbidden {
		t.Errorf("said without having joined: %s", r.Status)
	}
	if r, _ := w.do("POST", "/join", "name="+url.QueryEscape("  Zoë \n<b>\u202e ")); r.StatusCode != http.StatusSeeOther {
		t.Fatal(r.Status)
	}
	_, page = w.get("/")
	once := regexp.MustCompile(`name="nonce" value="([^"]+)"`).FindStringSubmatch(page)
	if !strings.Contains(page, "Zoë &lt;b&gt; says") || once == nil {
		t.Fatalf("%s", page)
	}
	said := url.Values{"text": {"used 100g leeks in the <script>alert(1)</script>"}, "nonce": {once[1]}}.Encode()
	accept := func(r *http.Request) { r.Header.Set("Accept", "application/json") }
	for range 2 { // the second is the same message
		r, body := w.do("POST", "/say", said, accept)
		var reply struct{ Text, Nonce string }
		if err := json.Unmarshal([]byte(body), &reply); err != nil || r.StatusCode != http.StatusOK || !strings.Contains(reply.Text, "Leek 100 g") || reply.Nonce == once[1] {
			t.Fatalf("%s: %s, %v", r.Status, body, err)
		}
	}
	_, page = w.get("/")
	if !strings.Contains(page, `<span class="much">450 g</span>`) || strings.Contains(page, "<script>alert") {
		t.Errorf("%s", page)
	}
	w.say(`<i onclick="x">eve</i>`, `got 1kg <img src=x onerror=alert(1)>, 1kg "quince's"`)
	w.say(`<i onclick="x">eve</i>`, "need 100g leeks for the <u>pie</u>")
	if _, page = w.get("/"); !strings.Contains(page, "&lt;i onclick=") || strings.Contains(page, "<i onclick") || strings.Contains(page, "<img") || strings.Contains(page, "<u>") {
		t.Errorf("%s", page)
	}
	if r, _ := w.do("POST", "/say", said); r.StatusCode != http.StatusSeeOther { // without the script
		t.Error(r.Status)
	}
}

// Who cannot eat what stands on the board until it is over, and what is written there is plain text.
func TestNeeds(t *testing.T) {
	w := hang(t, nil)
	if _, page := w.get("/"); strings.Contains(page, "Who cannot eat what") {
		t.Error("needs are told where nobody said any")
	}
	w.say("ana", "tables 4 and 5: nut allergy, bed 3: no dairy")
	w.say("dee", "dee is allergic to mustard")
	_, page := w.get("/")
	for _, want := range []string{"Who cannot eat what", "nut allergy (tree nuts, peanuts) at table 4", "at table 5", "no dairy (milk) in bed 3", "Dee: mustard allergy", "Labels go first"} {
		if !strings.Contains(page, want) {
			t.Errorf("no %q in\n%s", want, page)
		}
	}
	w.say("ana", "table 4: none")
	if _, page := w.get("/"); strings.Contains(page, `at table 4</li>`) || !strings.Contains(page, "at table 5</li>") {
		t.Errorf("%s", page)
	}
	for n := range 20 {
		w.say("ana", fmt.Sprintf("bed %d: egg allergy", n+10))
	}
	_, page = w.get("/")
	_, mind, _ := strings.Cut(page, `id="mind"`)
	mind, _, _ = strings.Cut(mind, "</section>")
	if n := strings.Count(mind, `<li class="strip">`); n != 12 || !strings.Contains(mind, "23 needs in all") {
		t.Errorf("%d needs in\n%s", n, mind)
	}
}

// In all, what a board loads is under 60 kB, with a plan of three dishes on.
func TestSize(t *testing.T) {
	w := hang(t, nil)
	for _, s := range []string{"got 2kg potatoes, 500g mushrooms, 400g cheddar, 300g spinach, 1kg carrots", "plan 3 dishes for 2 in 60 minutes, two cooks", "accept"} {
		w.say("ana", s)
	}
	for range 8 {
		w.say("bo", "used 10g leeks in the soup")
	}
	sum := 0
	_, page := w.get("/")
	if sum += len(page); !strings.Contains(page, "<svg") {
		t.Error("no timetable")
	}
	for _, m := range regexp.MustCompile(`(?:href|src)="(/board\.[^"]+)"`).FindAllStringSubmatch(page, -1) {
		r, body := w.get(m[1])
		if r.StatusCode != http.StatusOK || len(body) == 0 || !strings.Contains(r.Header.Get("Cache-Control"), "immutable") {
			t.Errorf("%s: %s", m[1], r.Status)
		}
		sum += len(body)
	}
	if t.Logf("%d bytes", sum); sum > 60_000 {
		t.Error("that is more than 60 kB")
	}
}

// Nobody comes in from another site, by another name of this machine or without a key, and no
// page may do more than it needs.
func TestDoors(t *testing.T) {
	w := hang(t, nil)
	r, _ := w.get("/")
	for name, want := range map[string]string{"Content-Security-Policy": "default-src 'none'", "X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer"} {
		if !strings.Contains(r.Header.Get(name), want) {
			t.Errorf("%s: %q", name, r.Header.Get(name))
		}
	}
	if strings.Contains(r.Header.Get("Content-Security-Policy"), "unsafe") {
		t.Error(r.Header)
	}
	if r, _ := w.get("/", func(r *http.Request) { r.Host = "kitchen.example" }); r.StatusCode != http.StatusMisdirectedRequest {
		t.Errorf("by another name: %s", r.Status)
	}
	for _, from := range []func(*http.Request){
		func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "cross-site") },
		func(r *http.Request) { r.Header.Set("Origin", "http://kitchen.example") },
	} {
		if r, _ := w.do("POST", "/join", "name=bo", from); r.StatusCode != http.StatusForbidden {
			t.Errorf("from elsewhere: %s", r.Status)
		}
	}
	for path, want := range map[string]int{"/": http.StatusOK, "/now": http.StatusForbidden, "/events": http.StatusForbidden, "/wrap": http.StatusOK} {
		mode := map[bool][2]string{true: {"navigate", "document"}, false: {"cors", "empty"}}[want == http.StatusOK]
		if r, _ := w.get(path, func(r *http.Request) {
			r.Header.Set("Sec-Fetch-Site", "cross-site")
			r.Header.Set("Sec-Fetch-Mode", mode[0])
			r.Header.Set("Sec-Fetch-Dest", mode[1])
		}); r.StatusCode != want {
			t.Errorf("%s from another site's page, to %s: %s", path, mode[0], r.Status)
		}
	}
	w.do("POST", "/join", "name=bo")
	if r, _ := w.do("POST", "/say", "nonce=ABCDEFGHIJKLMNOP&text="+strings.Repeat("a", 20_000)); r.StatusCode != http.StatusBadRequest {
		t.Errorf("too long: %s", r.Status)
	}
	for _, path := range []string{"/nothing", "/sheet/1", "/sheet/-1", "/sheet/x", "/..%2f", "/key/x"} {
		if r, _ := w.get(path); r.StatusCode != http.StatusNotFound {
			t.Errorf("%s: %s", path, r.Status)
		}
	}
	if r, _ := w.do("PUT", "/say", "x"); r.StatusCode != http.StatusMethodNotAllowed {
		t.Error(r.Status)
	}
	slow := 0
	for range 60 {
		if r, _ := w.do("POST", "/say", "nonce=ABCDEFGHIJKLMNOP&text=hm"); r.StatusCode == http.StatusTooManyRequests {
			slow++
		}
	}
	if slow < 10 {
		t.Errorf("only %d of 60 at once were too fast", slow)
	}
}

// With keys nothing is shown to who has none; a key opens, and opens no more once it is taken back.
func TestKeys(t *testing.T) {
	keys := &board.Keys{File: filepath.Join(t.TempDir(), "keys")}
	w := hang(t, func(o *board.Options) { o.Keys = keys })
	closed := func(why string) {
		t.Helper()
		for _, path := range []string{"/", "/now", "/events", "/wrap", "/board.js", "/key/", "/key/AAAAAAAAAAAAAAAAAAAAAA"} {
			if r, body := w.get(path); r.StatusCode != http.StatusUnauthorized || strings.Contains(body, "leek") {
				t.Errorf("%s, %s: %s", why, path, r.Status)
			}
		}
	}
	closed("no key was made")
	key, err := keys.New()
	if err != nil || len(key) < 22 {
		t.Fatal(key, err)
	}
	closed("no key was shown")
	r, body := w.get("/key/"+key, func(r *http.Request) { // from a link in a mail
		r.Header.Set("Sec-Fetch-Site", "cross-site")
		r.Header.Set("Sec-Fetch-Mode", "navigate")
		r.Header.Set("Sec-Fetch-Dest", "document")
	})
	c := r.Cookies()
	if r.StatusCode != http.StatusOK || !strings.Contains(body, `content="0;url=/"`) || len(c) != 1 || !c[0].HttpOnly || c[0].SameSite != http.SameSiteStrictMode {
		t.Fatal(r.Status, c)
	}
	if r, body := w.get("/"); r.StatusCode != http.StatusOK || !strings.Contains(body, "leek") {
		t.Errorf("%s", r.Status)
	}
	resp, err := w.client.Get(w.server.URL + "/events")
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	open := bufio.NewReader(resp.Body)
	if _, err := open.ReadString('}'); err != nil {
		t.Fatal(err)
	}
	if err := keys.Revoke(); err != nil {
		t.Fatal(err)
	}
	closed("it was taken back")
	w.say("bo", "used 300g leeks in the soup")
	rest, err := io.ReadAll(open)
	if err != nil || strings.Contains(string(rest), "700 g") {
		t.Errorf("a board that was open is told on after its key was taken back: %v, %s", err, rest)
	}
	slow := 0
	for range 30 {
		if r, _ := w.get("/key/AAAAAAAAAAAAAAAAAAAAAA"); r.StatusCode == http.StatusTooManyRequests {
			slow++
		}
	}
	if slow < 5 {
		t.Errorf("only %d of 30 wrong keys at once were too many", slow)
	}
	if key, err = keys.New(); err != nil {
		t.Fatal(err)
	}
	if r, _ := w.get("/key/" + key); r.StatusCode != http.StatusOK {
		t.Errorf("a key that fits, among many that do not: %s", r.Status)
	}
}

// An open board hears of what is said in another room.
func TestEvents(t *testing.T) {
	w := hang(t, nil)
	resp, err := http.Get(w.server.URL + "/events")
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	events := make(chan string, 10)
	go func() {
		for s := bufio.NewScanner(resp.Body); s.Scan(); {
			if data, ok := strings.CutPrefix(s.Text(), "data: "); ok {
				events <- data
			}
		}
		close(events)
	}()
	wait := func(want string) {
		t.Helper()
		for late := time.After(10 * time.Second); ; {
			select {
			case e := <-events:
				var d struct{ HTML string }
				if json.Unmarshal([]byte(e), &d) == nil && strings.Contains(d.HTML, want) {
					return
				}
			case <-late:
				t.Fatalf("%q never came", want)
			}
		}
	}
	wait(`<span class="much">1 kg</span>`)
	w.say("bo", "used 300g leeks in the soup")
	wait(`<span class="much">700 g</span>`)
	w.say("bo", "undo")
	wait(`<span class="much">1 kg</span>`)
}

// The account and the sheets have pages of their own.
func TestAccount(t *testing.T) {
	w := hang(t, nil)
	_, page := w.get("/wrap")
	for _, want := range []string{"Wrap-up &lt;1&gt;", `href="/sheet/0"`, "200 g, 20%", "binned bar w100", "part used w60", "into dishes <b>3 kg</b>, 60%"} {
		if !strings.Contains(page, want) {
			t.Errorf("no %q in\n%s", want, page)
		}
	}
	r, page := w.get("/sheet/0")
	if policy := r.Header.Get("Content-Security-Policy"); r.StatusCode != http.StatusOK || !strings.Contains(page, "tart") || strings.Contains(policy, "unsafe") || strings.Count(policy, "'sha256-") != 2 {
		t.Errorf("%s, %s", r.Status, policy)
	}
}

// FuzzRequest sends anything to any page: none may break, and none shows what it must not.
func FuzzRequest(f *testing.F) {
	keys := &board.Keys{File: filepath.Join(f.TempDir(), "keys")}
	var seconds atomic.Int64
	slowly := func(o *board.Options) { // or the limits would answer most
		o.Now = func() time.Time { return time.Unix(1_800_000_000+seconds.Add(1), 0) }
	}
	w := hang(f, slowly)
	locked := hang(f, func(o *board.Options) { slowly(o); o.Keys = keys })
	for _, s := range [][4]string{{"GET", "/", "", ""}, {"POST", "/say", "text=used+1kg+leeks&nonce=ABCDEFGHIJKLMNOP", "scullion_cook=bo"}, {"POST", "/join", "name=%00%ff", ""}, {"GET", "/sheet/99999999999999999999", "", ""},
		{"POST", "/say", "text=timer+3+min&nonce=ABCDEFGHIJKLMNOQ", "scullion_cook=%3Cb%3E"}, {"GET", "/now", "", "scullion_cook=" + strings.Repeat("%E2%80%AE", 40)}, {"GET", "/sheet/0", "", ""},
		{"GET", "/key/..%2f", "", "scullion_key=x"}, {"PROPFIND", "/wrap?a=%zz", "x", "scullion_cook=%%%"}} {
		f.Add(s[0], s[1], s[2], s[3])
	}
	f.Fuzz(func(t *testing.T, method, path, body, cookies string) {
		for _, x := range []*wall{w, locked} {
			r, err := http.NewRequest(method, "http://127.0.0.1/", strings.NewReader(body))
			if err != nil {
				return
			}
			if u, err := url.ParseRequestURI(path); err == nil {
				r.URL = u
			}
			if r.URL.Path == "/events" { // that one stays open
				return
			}
			r.Host = "127.0.0.1"
			r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
			r.Header.Set("Cookie", cookies)
			out := httptest.NewRecorder()
			x.board.ServeHTTP(out, r)
			if out.Code >= 500 || x == locked && (out.Code != http.StatusUnauthorized || strings.Contains(out.Body.String(), "leek")) {
				t.Fatalf("%s %s: %d %s", method, path, out.Code, out.Body)
			}
		}
	})
}

// BenchmarkSeen is how long it takes from a commit until the last of 50 open boards has it.
func BenchmarkSeen(b *testing.B) {
	w := hang(b, nil)
	const boards = 50
	seen := make(chan struct{}, boards*4)
	for range boards {
		resp, err := http.Get(w.server.URL + "/events")
		if err != nil {
			b.Fatal(err)
		}
		defer resp.Body.Close()
		lines := bufio.NewReader(resp.Body)
		ready := make(chan struct{})
		go func() {
			first := true
			for {
				line, err := lines.ReadString('\n')
				if err != nil {
					return
				}
				if strings.HasPrefix(line, "data: {") {
					if first {
						close(ready)
						first = false
						continue
					}
					seen <- struct{}{}
				}
			}
		}()
		<-ready
	}
	var spent time.Duration
	for b.Loop() {
		w.say("bo", "used 1g leeks in the soup")
		start := time.Now()
		for range boards {
			<-seen
		}
		spent += time.Since(start)
		time.Sleep(60 * time.Millisecond) // what came twice
		for len(seen) > 0 {
			<-seen
		}
	}
	b.ReportMetric(float64(spent.Milliseconds())/float64(b.N), "ms/seen")
}
