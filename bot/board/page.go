package board

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"math"
	"net/http"
	"strconv"
	"strings"
	"time"

	"scullion/bot"
)

//go:embed page.html
var pageHTML string

//go:embed board.css
var cssText string

var css = cssText + places()

//go:embed board.js
var js string

var pages = template.Must(template.New("page.html").Funcs(template.FuncMap{
	"pct":   pct,
	"at":    func(t time.Time) int { return t.Hour()*3600 + t.Minute()*60 + t.Second() },
	"clock": func(t time.Time) string { return t.Format("15:04") },
	"unix":  func(t time.Time) int64 { return t.UnixMilli() },
}).Parse(pageHTML))

// places are the classes of widths and places, in hundredths, and of rows in a lane of the timetable.
func places() string {
	var b strings.Builder
	for n := range 101 {
		fmt.Fprintf(&b, ".x%d{left:%d%%}.w%d{width:%d%%}", n, n, n, n)
	}
	const row = 1.75 // rem
	for n := range mostRows {
		fmt.Fprintf(&b, ".r%d{top:%.2frem}.h%d{height:%.2frem}", n, 0.12+row*float64(n), n+1, 0.1+row*float64(n+1))
	}
	return b.String()
}

// mostRows is how many steps of a lane that overlap are drawn below one another; more lie on the
// last.
const mostRows = 9

// pct is a share as one of the 101 classes of widths and places in the style sheet: a strict
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
	Wrap    bool // there is a page of the account
}

// table is the timetable as it is laid out.
type table struct {
	Begun, Ready time.Time
	Minutes      int
	Now          float64 // where the string is, from 0 to 1
	On           bool    // the string is within the table
	Ticks        []tick
	Lanes        []lane
	Hands        []hand
	Alone        []hand // what runs by itself
}

// hand is what a cook is at and goes on to, or what a piece of kit is at; nil nothing.
type hand struct {
	Name      string
	Now, Next *tape
}

type tick struct {
	At   float64
	Name string
}

type lane struct {
	Name string
	Cook bool
	Rows int
	Tape []tape
}

// tape is a strip: a step where it lies.
type tape struct {
	At, Width float64
	Row       int
	When, End string // "16:03"
	Do, Dish  string
	DishN     int
	Minutes   int
	Alone     bool
	State     string // "done", "now" or "next"
}

// layTable lays a plan out along its minutes: steps of a lane that overlap lie in rows of their own.
func layTable(p *bot.PlanNow, now time.Time) *table {
	if p == nil {
		return nil
	}
	last := p.Ready
	for _, l := range p.Lanes {
		for _, s := range l.Steps {
			if end := p.Begun.Add(time.Duration(s.From+s.Minutes) * time.Minute); end.After(last) {
				last = end
			}
		}
	}
	t := &table{Begun: p.Begun, Ready: p.Ready, Minutes: max(1, int(math.Ceil(last.Sub(p.Begun).Minutes())))}
	share := func(minute float64) float64 { return minute / float64(t.Minutes) }
	t.Now = share(now.Sub(p.Begun).Minutes())
	t.On = t.Now >= 0 && t.Now <= 1
	every := 5
	for t.Minutes/every > 10 {
		every *= 2
	}
	for m := 0; 20*m <= 19*t.Minutes; m += every { // what stands at the very end is cut off
		t.Ticks = append(t.Ticks, tick{share(float64(m)), p.Begun.Add(time.Duration(m) * time.Minute).Format("15:04")})
	}
	for _, l := range p.Lanes {
		x := lane{Name: l.Name, Cook: l.Cook}
		h := hand{Name: l.Name}
		var ends []int // of each row
		for _, s := range l.Steps {
			row := 0
			for row < len(ends) && ends[row] > s.From {
				row++
			}
			if row == len(ends) {
				ends = append(ends, 0)
			}
			ends[row] = s.From + s.Minutes
			from := p.Begun.Add(time.Duration(s.From) * time.Minute)
			end := from.Add(time.Duration(s.Minutes) * time.Minute)
			state := "next"
			switch {
			case !now.Before(end):
				state = "done"
			case !now.Before(from):
				state = "now"
			}
			strip := tape{At: share(float64(s.From)), Width: share(float64(s.Minutes)), Row: min(row, mostRows-1), When: from.Format("15:04"), End: end.Format("15:04"),
				Do: s.Do, Dish: s.Dish, DishN: s.DishN, Minutes: s.Minutes, Alone: s.Alone, State: state}
			x.Tape = append(x.Tape, strip)
			switch {
			case state == "now" && s.Alone:
				t.Alone = append(t.Alone, hand{Name: l.Name, Now: &strip})
			case state == "now" && h.Now == nil:
				h.Now = &strip
			case state == "next" && h.Next == nil:
				h.Next = &strip
			}
		}
		if l.Cook {
			t.Hands = append(t.Hands, h)
		}
		x.Rows = min(len(ends), mostRows)
		t.Lanes = append(t.Lanes, x)
	}
	return t
}

// render writes a part of the page.
func render(name string, v any) ([]byte, error) {
	var b bytes.Buffer
	if err := pages.ExecuteTemplate(&b, name, v); err != nil {
		return nil, fmt.Errorf("board page: %w", err)
	}
	return b.Bytes(), nil
}

// Left is how long a timer has to go.
func (v *view) Left(t bot.TimerNow) string {
	d := t.Due.Sub(v.At)
	if d <= 0 {
		return "now"
	}
	return fmt.Sprintf("%d min", int(math.Ceil(d.Minutes())))
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
