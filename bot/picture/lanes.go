package picture

import (
	"fmt"
	"slices"
	"time"
)

// Work is a step of a plan: it holds its kit for all its minutes, and a cook for
// the first of them, hands-on.
type Work struct {
	From, Minutes, HandsOn int // minutes of the timetable
	Text, Dish             string
	DishN                  int      // from 1; 0 none
	Cook                   int      // from 1; 0 nobody's hands
	Kit                    []string // each in use for all the minutes
	Done, On               bool
	HandsDone              bool // hands are free of it, though it may go on
}

// Lanes sorts work into lanes: a cook each, as many as there are names or hands; then the
// kit, by who comes first; last, what stands by itself with no kit. A cook's lane has the
// minutes of hands, the others all the minutes.
func Lanes(cooks []string, work []Work) []Lane {
	most := len(cooks)
	for _, w := range work {
		most = max(most, w.Cook)
	}
	lanes := make([]Lane, most)
	for n := range lanes {
		lanes[n] = Lane{Name: fmt.Sprintf("cook %d", n+1), Cook: true}
		if n < len(cooks) && cooks[n] != "" {
			lanes[n].Name = cooks[n]
		}
	}
	work = slices.Clone(work)
	slices.SortStableFunc(work, func(a, b Work) int { return a.From - b.From })
	at := map[string]int{}
	var alone []Step
	for _, w := range work {
		step := Step{From: w.From, Minutes: w.Minutes, Text: w.Text, Dish: w.Dish, DishN: w.DishN, Done: w.Done, On: w.On}
		hands := step
		hands.Minutes = w.HandsOn
		hands.Done, hands.On = w.Done || w.HandsDone, w.On && !w.HandsDone
		if step.Alone = w.HandsOn < w.Minutes; step.Alone {
			hands.Text = fmt.Sprintf("%s (%d min in all)", w.Text, w.Minutes)
		}
		if w.Cook > 0 {
			lanes[w.Cook-1].Steps = append(lanes[w.Cook-1].Steps, hands)
		}
		for _, kit := range w.Kit {
			n, ok := at[kit]
			if !ok {
				n = len(lanes)
				at[kit] = n
				lanes = append(lanes, Lane{Name: kit})
			}
			step.Twin = w.Cook > 0 && !step.Alone
			lanes[n].Steps = append(lanes[n].Steps, step)
		}
		if len(w.Kit) == 0 && (step.Alone || w.Cook == 0) {
			alone = append(alone, step)
		}
	}
	if len(alone) > 0 {
		lanes = append(lanes, Lane{Name: "by itself", Steps: alone})
	}
	return lanes
}

// longest is how many minutes a timetable can tell of: some two months.
const longest = 100_000

// tidy gives a timetable with its words on one line each, its minutes within bounds, and
// each lane's steps in order, without those that are not shown.
func (t Timetable) tidy() Timetable {
	t.Title = clean(t.Title)
	part := !t.From.IsZero() || !t.To.IsZero()
	out := func(s Step) bool {
		from := t.Begins.Add(time.Duration(s.From) * time.Minute)
		end := from.Add(time.Duration(s.Minutes) * time.Minute)
		return !t.From.IsZero() && !end.After(t.From) || !t.To.IsZero() && !from.Before(t.To)
	}
	lanes := slices.Clone(t.Lanes)
	for i := range lanes {
		l := &lanes[i]
		l.Name = clean(l.Name)
		l.Steps = slices.Clone(l.Steps)
		for j := range l.Steps {
			s := &l.Steps[j]
			s.Text, s.Dish = clean(s.Text), clean(s.Dish)
			s.From = min(max(s.From, -longest), longest)
			s.Minutes = min(max(s.Minutes, 0), longest)
		}
		if part {
			l.Steps = slices.DeleteFunc(l.Steps, out)
		}
		slices.SortStableFunc(l.Steps, func(a, b Step) int { return a.From - b.From })
	}
	if part {
		lanes = slices.DeleteFunc(lanes, func(l Lane) bool { return !l.Cook && len(l.Steps) == 0 })
	}
	t.Lanes = lanes
	return t
}

// at is the time of a minute.
func (t *Timetable) at(minute int) string {
	return t.Begins.Add(time.Duration(minute) * time.Minute).Format("15:04")
}

// minute is the minute of a time.
func (t *Timetable) minute(at time.Time) float64 {
	return min(max(at.Sub(t.Begins).Minutes(), -longest), longest)
}
