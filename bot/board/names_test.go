package board_test

import (
	"context"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"strings"
	"testing"
	"time"

	"scullion/bot"
)

// A second device cannot join as one who is on the first, nor as one who speaks in the chat; who
// joined before the other came there is told when they speak.
func TestJoinAsAnother(t *testing.T) {
	w := hang(t, nil)
	first := w.client
	jar, _ := cookiejar.New(nil)
	second := &http.Client{Jar: jar, CheckRedirect: first.CheckRedirect, Timeout: 10 * time.Second}
	join := func(c *http.Client, name string, want int, said string) {
		t.Helper()
		w.client = c
		r, body := w.do("POST", "/join", url.Values{"name": {name}}.Encode())
		if r.StatusCode != want || !strings.Contains(body, said) {
			t.Errorf("join as %s: %s, %.200s", name, r.Status, body)
		}
	}
	chat := func(person, name string) {
		t.Helper()
		if _, err := w.talk.Handle(context.Background(), bot.Message{Kitchen: "k", ID: person + name, Person: person, Cook: name, Room: "r", At: time.Now(), Text: "used 10g leeks"}); err != nil {
			t.Fatal(err)
		}
	}
	say := func(c *http.Client, nonce string, want int) {
		t.Helper()
		w.client = c
		if r, body := w.do("POST", "/say", url.Values{"text": {"used 1g leeks"}, "nonce": {nonce}}.Encode()); r.StatusCode != want {
			t.Errorf("%s %s", r.Status, body)
		}
	}
	chat("7", "Cem")
	join(first, "dee", http.StatusSeeOther, "")
	join(first, "dee", http.StatusSeeOther, "")
	join(second, "Dee", http.StatusConflict, "is on another board now")
	join(second, "cem", http.StatusConflict, "Cem speaks in the chat")
	join(second, "bo", http.StatusSeeOther, "")
	say(first, "AAAAAAAAAAAAAAAA", http.StatusSeeOther)
	say(second, "BBBBBBBBBBBBBBBB", http.StatusSeeOther)
	if _, page := w.get("/"); !strings.Contains(page, "<b>dee</b> (board)") || strings.Contains(page, "<b>Cem</b> (board)") {
		t.Error("nothing tells who speaks on a board")
	}
	w.client = first
	if r, _ := w.do("POST", "/leave", "x=1"); r.StatusCode != http.StatusSeeOther {
		t.Error(r.Status)
	}
	if _, page := w.get("/"); !strings.Contains(page, "Your name") {
		t.Error("still joined")
	}
	join(second, "dee", http.StatusSeeOther, "")
	say(first, "CCCCCCCCCCCCCCCC", http.StatusForbidden)
	chat("8", "dee") // who has spoken on a board before: the chat's gets a number
	say(second, "DDDDDDDDDDDDDDDD", http.StatusSeeOther)
	chat("9", "flo")
	join(first, "flo (2)", http.StatusSeeOther, "")
	join(first, "FLO", http.StatusConflict, "flo speaks in the chat")
}
