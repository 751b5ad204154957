package board

import (
	"bytes"
	"html/template"
	"slices"
	"sort"
	"strconv"
	"time"

	"scullion/bot"
	"scullion/bot/drawn"
	"scullion/bot/picture"
)

// table is the plan that is on as the page shows it: who is at what, what runs by itself, what is
// over and not taken off, and the timetable as a picture and as lists.
type table struct {
	Ready   time.Time
	Late    int // minutes
	Picture template.HTML
	Until   time.Time // how far the picture goes; zero: to the end
	Lanes   []lane
	Hands   []hand
	Alone   []step // what runs by itself, the first to end first
	Over    []step // what has run out, and nobody has said that it is done
}

// hand is what a cook is at and goes on to; nil nothing.
type hand struct {
	Name      string
	Now, Next *step
}

type lane struct {
	Name  string
	Steps []step
}

// step is a step of the plan, in a lane.
type step struct {
	Lane      string
	When, End string // "16:03"
	Due       time.Time
	Left      string // until then, in words
	Do, Dish  string
	DishN     int
	Minutes   int
	Alone     bool
	State     string // "done", "now" or "next"
}

// stillOver is for how long what has run out is shown so: as long as it may be given more time.
const stillOver = 10 * time.Minute

// A wall is not scrolled: its picture goes no further back than shownBack, and as far ahead as is at
// most high px tall, but leastAhead at least. Lists have the rest.
const (
	shownBack  = 5 * time.Minute
	leastAhead = 15 * time.Minute
	high       = 400
)

// wide is how wide the picture is drawn, px; the page gives it all the width of its column.
const wide = 940

// forWall gives the part of a timetable that a wall has room for.
func forWall(t picture.Timetable, p *bot.PlanNow, now time.Time) picture.Timetable {
	t.Title = "" // the page has it
	t.From, t.To = p.Begun, p.Ready
	if p.On && now.Add(-shownBack).After(p.Begun) {
		t.From = now.Add(-shownBack)
	}
	least := now.Add(leastAhead)
	steps := int(t.To.Sub(least) / shownBack)
	if steps <= 0 {
		return t
	}
	t.To = least
	over := sort.Search(steps, func(n int) bool { // so many steps further ahead, it is too tall
		t := t
		t.To = least.Add(time.Duration(n+1) * shownBack)
		return t.High(picture.Options{Width: wide, Inline: true}) > high
	})
	if t.To = least.Add(time.Duration(over) * shownBack); over == steps {
		t.To = p.Ready
	}
	return t
}

// layTable puts a plan into what the page shows of it.
func layTable(p *bot.PlanNow, now time.Time) *table {
	if p == nil {
		return nil
	}
	t := &table{Ready: p.Ready, Late: p.Late}
	var b bytes.Buffer
	minute := now.Truncate(time.Minute) // so that the picture stays what it is until the next
	if minute.Before(p.Begun) {
		minute = p.Begun
	}
	picked := forWall(drawn.Plan(p, minute), p, minute)
	if picked.To.Before(p.Ready) {
		t.Until = picked.To
	}
	if err := picked.SVG(&b, picture.Options{Width: wide, Inline: true}); err == nil {
		t.Picture = template.HTML(b.String()) // all words in it are escaped by package picture
	}
	over := map[string]bool{} // by what it is: it may be in two lanes
	for _, l := range p.Lanes {
		x := lane{Name: l.Name}
		h := hand{Name: l.Name}
		for _, s := range l.Steps {
			from := p.Begun.Add(time.Duration(s.From) * time.Minute)
			end := from.Add(time.Duration(s.Minutes) * time.Minute)
			state := "next"
			switch {
			case !now.Before(end) || s.Said:
				state = "done"
			case !now.Before(from):
				state = "now"
			}
			y := step{Lane: l.Name, When: from.Format("15:04"), End: end.Format("15:04"), Due: end, Left: leftUntil(end, now), Do: s.Do, Dish: s.Dish, DishN: s.DishN, Minutes: s.Minutes, Alone: s.Alone, State: state}
			x.Steps = append(x.Steps, y)
			key := s.Do + " " + y.When + " " + strconv.Itoa(s.DishN)
			switch {
			case state == "now" && s.Alone:
				t.Alone = append(t.Alone, y)
			case state == "now" && h.Now == nil:
				h.Now = &y
			case state == "next" && h.Next == nil:
				h.Next = &y
			case s.Rings && !s.Said && !now.Before(end) && now.Before(end.Add(stillOver)) && !over[key] && !wentOn(p, s, now):
				over[key] = true
				t.Over = append(t.Over, y)
			}
		}
		if l.Cook {
			t.Hands = append(t.Hands, h)
		}
		t.Lanes = append(t.Lanes, x)
	}
	soonest := func(a, b step) int { return a.Due.Compare(b.Due) }
	slices.SortStableFunc(t.Alone, soonest)
	slices.SortStableFunc(t.Over, soonest)
	return t
}

// wentOn says whether the next step of a step's dish has begun since: it was taken on then.
func wentOn(p *bot.PlanNow, s bot.LaneStep, now time.Time) bool {
	return slices.ContainsFunc(p.Work, func(w bot.StepNow) bool {
		return w.DishN == s.DishN && w.From >= s.From+s.Minutes && !now.Before(p.Begun.Add(time.Duration(w.From)*time.Minute))
	})
}
