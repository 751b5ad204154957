package board

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/hex"
	"fmt"
	"html/template"
	"math"
	"net/http"
	"strconv"
	"strings"
	"time"

	"scullion/bot"
	"scullion/bot/picture"
)

//go:embed page.html
var pageHTML string

//go:embed board.css
var cssText string

// css is the style of all pages. It stands in each: what a page is painted by comes in one answer.
var css = cssText + picture.Style() + widths()

// styleHash is by what the content policy knows it.
var styleHash = styles("<style>" + css + "</style>")

//go:embed board.js
var js string

var pages = template.Must(template.New("page.html").Funcs(template.FuncMap{
	"pct":   pct,
	"at":    func(t time.Time) int { return t.Hour()*3600 + t.Minute()*60 + t.Second() },
	"clock": func(t time.Time) string { return t.Format("15:04") },
	"style": func() template.CSS { return template.CSS(css) },
	"unix":  func(t time.Time) int64 { return t.UnixMilli() },
}).Parse(pageHTML))

// widths are the classes of widths, in hundredths.
func widths() string {
	var b strings.Builder
	for n := range 101 {
		fmt.Fprintf(&b, ".w%d{width:%d%%}", n, n)
	}
	return b.String()
}

// pct is a share as one of the 101 classes of widths in the style: a strict
// content policy allows no styles in the page itself.
func pct(share float64) string {
	return strconv.Itoa(int(math.Round(100 * min(1, max(0, share)))))
}

// view is what the page is made of.
type view struct {
	*bot.State
	Cook    string // who has joined; ""  nobody yet
	Nonce   string // makes what is said once known twice
	Table   *table
	Version string
	Wrap    bool          // there is a page of the account
	Body    template.HTML // the part of it that changes
	Sum     string        // of that
	Trouble string        // why a name could not be had
}

// render writes a part of the page.
func render(name string, v any) ([]byte, error) {
	var b bytes.Buffer
	if err := pages.ExecuteTemplate(&b, name, v); err != nil {
		return nil, fmt.Errorf("board page: %w", err)
	}
	return b.Bytes(), nil
}

// fill renders the part of the page that changes.
func (v *view) fill() error {
	html, err := render("now", v)
	sum := sha256.Sum256(html)
	v.Body, v.Sum = template.HTML(html), hex.EncodeToString(sum[:8]) // it was escaped as it was made
	return err
}

// Left is how long a timer has to go.
func (v *view) Left(t bot.TimerNow) string { return leftUntil(t.Due, v.At) }

// leftUntil puts the time until something in words: "4 min", "now", "over 2 min".
func leftUntil(due, now time.Time) string {
	switch d := due.Sub(now); {
	case d > 0:
		return fmt.Sprintf("%d min", int(math.Ceil(d.Minutes())))
	case d > -time.Minute:
		return "now"
	default:
		return fmt.Sprintf("over %d min", int(-d.Minutes()))
	}
}

// OnBoard says whether something was said on a board, in a kitchen where others speak in a chat.
func (v *view) OnBoard(s bot.SaidNow) bool {
	return len(v.Chat) > 0 && strings.HasPrefix(s.ID, boardID)
}

func (b *Board) write(w http.ResponseWriter, r *http.Request, status int, name string, v any) {
	body, err := render(name, v)
	if err != nil {
		b.fail(w, r, err)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	w.Write(body)
}

// fail tells that something went wrong here, and logs what.
func (b *Board) fail(w http.ResponseWriter, r *http.Request, err error) {
	if r.Context().Err() != nil {
		return
	}
	b.o.Log.Error("a board page failed", "path", r.URL.Path, "error", err)
	http.Error(w, "The kitchen could not be read just now. Try again; if it stays so, \"scullion check\" tells more.", http.StatusInternalServerError)
}
