// Package drawn says what of a kitchen is drawn how: it puts what the bot knows of a plan and of
// the stock into the values of package picture, for every adapter that shows them.
package drawn

import (
	"fmt"
	"io"
	"time"

	"scullion/bot"
	"scullion/bot/picture"
)

// Picture is what can be drawn and told.
type Picture interface {
	PNG(io.Writer, picture.Options) error
	SVG(io.Writer, picture.Options) error
	Text() string
}

// Look is what a picture beside a reply shows.
func Look(l *bot.Look) Picture {
	if l.Plan != nil {
		return Plan(l.Plan, l.At)
	}
	return Stock(l.Crate, l.At)
}

// Plan is a plan by the clock: of one that is on what is over and what runs at a moment is marked,
// and a line says when that is.
func Plan(p *bot.PlanNow, now time.Time) picture.Timetable {
	dishes := 0
	for _, name := range p.Dishes {
		if name != "" {
			dishes++
		}
	}
	t := picture.Timetable{Title: counted(dishes, "dish", "dishes"), Begins: p.Begun, Ends: p.Ready}
	if p.Portions > 0 {
		t.Title += fmt.Sprintf(" for %d", p.Portions)
	}
	if p.On {
		t.Now = now
	}
	if p.Late > 0 {
		t.Title += fmt.Sprintf(", %d min late", p.Late)
	}
	minute := now.Sub(p.Begun).Minutes()
	var work []picture.Work
	for _, s := range p.Work {
		text := s.Do
		if s.Temp > 0 {
			text += fmt.Sprintf(", %d C", s.Temp)
		}
		if s.More > 0 {
			text += fmt.Sprintf(" (%d min more)", s.More)
		}
		w := picture.Work{From: s.From, Minutes: s.Minutes, HandsOn: s.HandsOn, Text: text, Dish: p.Dishes[s.DishN-1], DishN: s.DishN, Cook: s.Cook, Kit: s.Kit}
		if p.On {
			w.Done = s.Said || float64(s.From+s.Minutes) <= minute
			w.On = !w.Done && float64(s.From) <= minute
			w.HandsDone = float64(s.From+s.HandsOn) <= minute
		}
		work = append(work, w)
	}
	t.Lanes = picture.Lanes(p.Cooks, work)
	return t
}

// The days in which food must go to be marked, and the most lines that are drawn.
const (
	soon      = 1
	mostLines = 40
)

// Stock is what is left, what must go first on top.
func Stock(lines []bot.StockLine, at time.Time) picture.Stock {
	s := picture.Stock{Title: "What is left", At: at}
	if len(lines) > mostLines {
		s.Title = fmt.Sprintf("The first %d of %d", mostLines, len(lines))
		lines = lines[:mostLines]
	}
	for _, l := range lines {
		s.Lines = append(s.Lines, picture.StockLine{Name: l.Item, Left: l.Left, Free: l.Free, Claimed: l.Holders, Date: l.When, Share: l.Share, ClaimedShare: l.Share * l.Held, Urgent: l.Days <= soon})
	}
	return s
}

func counted(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}
