// Package board shows a kitchen on a wall: pages that are rendered here and kept up to date by
// server-sent events, and a line to say something as a cook who joined. How a kitchen stands it is
// handed; it keeps nothing itself.
package board

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"log/slog"
	"net/http"
	"regexp"
	"strconv"
	"strings"
	"time"

	"scullion/bot"
)

// Options are what a board is made of. State, Watch and Say must be there.
type Options struct {
	State   func(context.Context) (*bot.State, error)
	Account func(context.Context) (*Account, error)               // of the service; nil: there is no such page
	Sheet   func(ctx context.Context, n int) (string, error)      // the sheet of the n-th dish of the account as HTML; "" there is none
	Watch   func(ctx context.Context, changed func()) error       // calls back after each change, until ctx ends
	Say     func(context.Context, bot.Message) (bot.Reply, error) // says something in the kitchen
	Keys    *Keys                                                 // who may come in; nil: anybody on this machine, and nobody else
	Now     func() time.Time
	Log     *slog.Logger
}

// Account is what the page of the wrap-up shows, in words.
type Account struct {
	Kitchen string
	Parts   []Part
	Text    []string // the account in all
	Lines   []string // by line
	Dishes  []string // each has a sheet
	Past    []Past   // services, the latest first
}

// Part is where some of the crate went.
type Part struct {
	Kind         string // how it is drawn: "used", "given", "trim", "binned" or "kept"
	Name, Amount string
	Share        float64 // of all that there was, from 0 to 1
}

// Past is a service of before: what was binned of what left the shelf.
type Past struct {
	Name, Binned string
	Share        float64 // from 0 to 1
	Bar          float64 // Share by the largest of all, from 0 to 1; the page sees to it
}

// The most that is read of anybody and held for anybody: the program's own choices.
const (
	mostBody    = 8 << 10
	mostStreams = 200
	longestName = 30
)

// Board serves the pages of one kitchen. It is an http.Handler.
type Board struct {
	o       Options
	hub     hub
	names   names
	handler http.Handler
	version string // of its pages, style and script
	talk    limit  // on what is said
	looks   limit  // on pages
	knocks  limit  // on keys that do not fit
}

// New makes a board. Run keeps it up to date.
func New(o Options) *Board {
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.Log == nil {
		o.Log = slog.New(slog.DiscardHandler)
	}
	sum := sha256.Sum256([]byte(pageHTML + css + js))
	b := &Board{o: o, version: hex.EncodeToString(sum[:6]), talk: limit{perSecond: 5, atOnce: 20}, looks: limit{perSecond: 50, atOnce: 2 * mostStreams}, knocks: limit{perSecond: 1, atOnce: 20}}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", b.look(b.page))
	mux.HandleFunc("GET /now", b.look(b.now))
	mux.HandleFunc("GET /events", b.look(b.events))
	mux.HandleFunc("POST /join", b.join)
	mux.HandleFunc("POST /leave", b.leave)
	mux.HandleFunc("POST /say", b.say)
	mux.HandleFunc("GET /board.js", asset("text/javascript; charset=utf-8", js))
	if o.Account != nil {
		mux.HandleFunc("GET /wrap", b.look(b.account))
		mux.HandleFunc("GET /sheet/{n}", b.look(b.sheet))
	}
	b.handler = b.doors(mux)
	return b
}

func (b *Board) ServeHTTP(w http.ResponseWriter, r *http.Request) { b.handler.ServeHTTP(w, r) }

// look is a page that reads the kitchen: no more of them than the machine can bear.
func (b *Board) look(page http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		if !b.looks.may(b.o.Now()) {
			w.Header().Set("Retry-After", "3")
			http.Error(w, "Too many look at once. Wait a moment.", http.StatusTooManyRequests)
			return
		}
		page(w, r)
	}
}

// asset serves a file of the page; its address changes with it.
func asset(kind, text string) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", kind)
		w.Header().Set("Cache-Control", "public, max-age=31536000, immutable")
		w.Write([]byte(text))
	}
}

// view reads how things stand, for somebody.
func (b *Board) view(r *http.Request) (*view, error) {
	s, err := b.o.State(r.Context())
	if err != nil {
		return nil, err
	}
	v := &view{State: s, Cook: cookOf(r), Nonce: nonce(), Table: layTable(s.Plan, s.At), Version: b.version, Wrap: b.o.Account != nil}
	return v, v.fill()
}

func (b *Board) page(w http.ResponseWriter, r *http.Request) {
	v, err := b.view(r)
	if err != nil {
		b.fail(w, r, err)
		return
	}
	b.write(w, r, http.StatusOK, "page.html", v)
}

// now gives the part of the page that changes.
func (b *Board) now(w http.ResponseWriter, r *http.Request) {
	v, err := b.view(r)
	if err != nil {
		b.fail(w, r, err)
		return
	}
	h := w.Header()
	h.Set("Content-Type", "text/html; charset=utf-8")
	h.Set("Cache-Control", "no-store")
	w.Write([]byte(v.Body))
}

func (b *Board) account(w http.ResponseWriter, r *http.Request) {
	a, err := b.o.Account(r.Context())
	if err != nil {
		b.fail(w, r, err)
		return
	}
	most := 0.0
	for _, p := range a.Past {
		most = max(most, p.Share)
	}
	for i := range a.Past {
		if most > 0 {
			a.Past[i].Bar = a.Past[i].Share / most
		}
	}
	b.write(w, r, http.StatusOK, "account", map[string]any{"Kitchen": a.Kitchen, "Version": b.version, "Account": a})
}

func (b *Board) sheet(w http.ResponseWriter, r *http.Request) {
	n, err := strconv.Atoi(r.PathValue("n"))
	if err != nil || n < 0 {
		http.NotFound(w, r)
		return
	}
	page, err := b.o.Sheet(r.Context(), n)
	switch {
	case err != nil:
		b.fail(w, r, err)
	case page == "":
		http.NotFound(w, r)
	default:
		h := w.Header()
		h.Set("Content-Type", "text/html; charset=utf-8")
		h.Set("Cache-Control", "no-store")
		page = strings.Replace(page, "<body>", `<body><style>@media print{nav{display:none}}</style><nav aria-label="Pages"><a href="/wrap">Wrap-up</a></nav>`, 1)
		h.Set("Content-Security-Policy", "default-src 'none'; style-src"+styles(page)+"; frame-ancestors 'none'; base-uri 'none'; form-action 'none'")
		w.Write([]byte(page))
	}
}

var styleIn = regexp.MustCompile(`(?s)<style>(.*?)</style>`)

// styles are the hashes of the styles in a page, which has no others then.
func styles(page string) (list string) {
	for _, m := range styleIn.FindAllStringSubmatch(page, -1) {
		sum := sha256.Sum256([]byte(m[1]))
		list += " 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
	}
	return cmp.Or(list, " 'none'")
}
