package board

import (
	"crypto/rand"
	"encoding/json"
	"net/http"
	"net/url"
	"strings"

	"unicode"
	"unicode/utf8"

	"scullion/bot"
)

// nonce makes what is said once known where it is sent twice.
func nonce() string { return rand.Text()[:16] }

// cookOf is who has joined on this device; "" nobody.
func cookOf(r *http.Request) string {
	name, err := url.QueryUnescape(cookie(r, cookCookie))
	if err != nil {
		return ""
	}
	return cleanName(name)
}

// cleanName is a cook's name as it may be shown: one line, not too long.
func cleanName(name string) string {
	name = strings.Join(strings.FieldsFunc(strings.ToValidUTF8(name, ""), func(r rune) bool {
		return unicode.IsSpace(r) || unicode.IsControl(r) || unicode.In(r, unicode.Cf)
	}), " ")
	for utf8.RuneCountInString(name) > longestName {
		_, n := utf8.DecodeLastRuneInString(name)
		name = name[:len(name)-n]
	}
	return strings.TrimSpace(name)
}

func (b *Board) join(w http.ResponseWriter, r *http.Request) {
	if !b.talk.may(b.o.Now()) {
		http.Error(w, "Too fast. Wait a moment.", http.StatusTooManyRequests)
		return
	}
	name := cleanName(r.PostFormValue("name"))
	if name == "" {
		http.Error(w, "Say who you are: a name of up to 30 letters.", http.StatusBadRequest)
		return
	}
	trouble, err := b.mayBe(r, name, b.device(w, r))
	if err != nil {
		b.fail(w, r, err)
		return
	}
	if trouble != "" {
		v, err := b.view(r)
		if err != nil {
			b.fail(w, r, err)
			return
		}
		v.Cook, v.Trouble = "", trouble
		b.write(w, r, http.StatusConflict, "page.html", v)
		return
	}
	b.setCookie(w, r, cookCookie, url.QueryEscape(name))
	http.Redirect(w, r, "/", http.StatusSeeOther)
}

// say says something in the kitchen as the cook who joined on this device.
func (b *Board) say(w http.ResponseWriter, r *http.Request) {
	text, once, cook := strings.TrimSpace(r.PostFormValue("text")), r.PostFormValue("nonce"), cookOf(r)
	switch {
	case !b.talk.may(b.o.Now()):
		http.Error(w, "Too fast. Wait a moment.", http.StatusTooManyRequests)
		return
	case cook == "":
		http.Error(w, "Say who you are first.", http.StatusForbidden)
		return
	case text == "" || len(once) != 16:
		http.Error(w, "Nothing was said.", http.StatusBadRequest)
		return
	}
	trouble, err := b.mayBe(r, cook, b.device(w, r))
	if err != nil {
		b.fail(w, r, err)
		return
	}
	if trouble != "" {
		http.Error(w, trouble, http.StatusConflict)
		return
	}
	reply, err := b.o.Say(r.Context(), bot.Message{ID: boardID + once, Cook: cook, At: b.o.Now(), Text: text, Counts: true})
	if err != nil {
		b.fail(w, r, err)
		return
	}
	if r.Header.Get("Accept") != "application/json" {
		http.Redirect(w, r, "/", http.StatusSeeOther)
		return
	}
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Cache-Control", "no-store")
	json.NewEncoder(w).Encode(map[string]string{"text": reply.Text, "kind": string(reply.Kind), "nonce": nonce()})
}
