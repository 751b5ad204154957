package main

import (
	"image/png"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// starts runs the board as a program and waits until it says where it is.
func starts(t *testing.T, args ...string) (said *notes, address string) {
	t.Helper()
	c := program(t, append([]string{"board"}, args...)...)
	said = &notes{}
	c.Stderr = said
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		c.Process.Signal(os.Interrupt)
		if err := c.Wait(); err != nil {
			t.Errorf("%v: %s", err, said)
		}
	})
	where := regexp.MustCompile(`The board is at (\S+/)\.`)
	for late := time.Now().Add(20 * time.Second); ; time.Sleep(20 * time.Millisecond) {
		if m := where.FindStringSubmatch(said.String()); m != nil {
			return said, m[1]
		}
		if time.Now().After(late) {
			t.Fatalf("it never came up: %s", said)
		}
	}
}

func page(t *testing.T, address string) (int, string) {
	t.Helper()
	r, err := http.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	b, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	return r.StatusCode, string(b)
}

// The board shows what another program writes, has the wrap-up and the sheets, and an empty
// kitchen is no error.
func TestBoard(t *testing.T) {
	db := filepath.Join(t.TempDir(), "k.db")
	_, address := starts(t, "--db", db, "--http", "127.0.0.1:0")
	if status, body := page(t, address); status != http.StatusOK || !strings.Contains(body, "Nothing in the crate") {
		t.Fatalf("%d: %s", status, body)
	}
	must(t, "got 1kg leeks £3\nused 300g leeks in the tart\nbinned 100g leeks\nwrap up\n", "chat", "--db", db)
	for path, want := range map[string]string{"": `<span class="much">600 g</span>`, "wrap": "£3.00", "sheet/0": "Leek"} {
		if status, body := page(t, address+path); status != http.StatusOK || !strings.Contains(strings.ToLower(body), strings.ToLower(want)) {
			t.Errorf("%s: %d, no %q in %s", path, status, want, body)
		}
	}
	if status, body := page(t, address+"wrap"); status != http.StatusOK || !strings.Contains(body, `href="/sheet/0">tart`) || !strings.Contains(body, "100 g, 25%") {
		t.Errorf("%d: %s", status, body)
	}
}

// Elsewhere it needs a key, which is shown once and can be taken back.
func TestBoardKey(t *testing.T) {
	db := filepath.Join(t.TempDir(), "k.db")
	said, address := starts(t, "--db", db, "--http", "0.0.0.0:0")
	m := regexp.MustCompile(`http\S+/key/(\S+)`).FindStringSubmatch(said.String())
	if m == nil || strings.Contains(said.String(), "//0.0.0.0") || strings.Contains(said.String(), "//[::]") || strings.Contains(said.String(), "▀") {
		t.Fatalf("%s", said) // no phone finds 0.0.0.0; and a code is for a terminal
	}
	if c := code("http://192.168.1.20:8715/key/" + m[1]); !strings.Contains(c, "▀") || strings.Count(c, "\n") < 14 {
		t.Errorf("%s", c)
	}
	port := regexp.MustCompile(`:(\d+)/$`).FindStringSubmatch(address)[1]
	here := "http://127.0.0.1:" + port + "/"
	if status, _ := page(t, here); status != http.StatusUnauthorized {
		t.Errorf("without a key: %d", status)
	}
	r, err := http.NewRequest(http.MethodGet, here, nil)
	if err != nil {
		t.Fatal(err)
	}
	r.AddCookie(&http.Cookie{Name: "scullion_key", Value: m[1]})
	get := func() int {
		resp, err := http.DefaultClient.Do(r)
		if err != nil {
			t.Fatal(err)
		}
		resp.Body.Close()
		return resp.StatusCode
	}
	if status := get(); status != http.StatusOK {
		t.Errorf("with the key: %d", status)
	}
	if info, err := os.Stat(db + ".keys"); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("%v, %v", info, err)
	}
	again, _ := starts(t, "--db", db, "--http", "0.0.0.0:0")
	if strings.Contains(again.String(), "/key/") {
		t.Errorf("shown again: %s", again)
	}
	must(t, "", "board", "--db", db, "--revoke")
	if status := get(); status != http.StatusUnauthorized {
		t.Errorf("with a key that was taken back: %d", status)
	}
	for _, args := range [][]string{{"board", "--http", "here"}, {"serve", "--board", "0.0.0.0:80"}} {
		if r := try(t, "", args...); r.status != wrongUsage || strings.Count(r.err, "\n") != 1 {
			t.Errorf("%q: %+v", args, r)
		}
	}
}

// Pictures come beside what is printed.
func TestPictures(t *testing.T) {
	dir := t.TempDir()
	db := filepath.Join(dir, "k.db")
	must(t, "got 1kg leeks, 500g butter, 12 eggs, 600ml double cream, 1kg potatoes\nneed 200g leeks for the tart\n", "chat", "--db", db)
	for _, args := range [][]string{{"left"}, {"plan", "--dishes", "1", "--minutes", "60"}} {
		file := filepath.Join(dir, args[0]+".png")
		out := must(t, "", append(args, "--db", db, "--png", file)...)
		f, err := os.Open(file)
		if err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(f)
		f.Close()
		if err != nil || img.Bounds().Dx() != 1440 || img.Bounds().Dy() < 100 || out == "" {
			t.Errorf("%s: %v, %v", args[0], img, err)
		}
		if r := try(t, "", append(args, "--db", db, "--png", filepath.Join(dir, "none", "x.png"))...); r.status != failed || strings.Count(r.err, "\n") != 1 {
			t.Errorf("%+v", r)
		}
	}
}
