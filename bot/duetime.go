package bot

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
)

// byDay are the meals that are eaten by day: "lunch by 12:00" is noon, whatever comes sooner.
var byDay = []string{"lunch", "brunch", "breakfast"}

// earliest is the hour of the morning from which such a meal may be due. The program's own choice.
const earliest = 6

// dueBy is when what was wished for is to be ready, at the clock that was said. Not ok where that is no time.
func dueBy(from time.Time, w language.Plan) (time.Time, bool) {
	if w.NextDay {
		from = time.Date(from.Year(), from.Month(), from.Day()+1, 0, 0, 0, 0, from.Location()).Add(-time.Second)
	}
	due, ok := nextClock(from, w.Until, w.Either)
	if ok && w.Either && isByDay(w.Meal) && (due.Hour() < earliest || due.Hour() >= 12+earliest) { // at night: the same hour by day
		due = time.Date(due.Year(), due.Month(), due.Day(), (due.Hour()+12)%24, due.Minute(), 0, 0, due.Location())
		if !due.After(from) {
			due = due.AddDate(0, 0, 1)
		}
	}
	return due, ok
}

// isByDay says whether a service of that name is by day: "lunch", "wedding lunch".
func isByDay(name string) bool {
	return slices.ContainsFunc(strings.Fields(name), func(w string) bool { return slices.Contains(byDay, w) })
}

// sayDue says when that is, with the day where it is not today: "18:30", "12:00 on Wed 4 Mar, in 22 h".
func sayDue(due, now time.Time) string {
	due = due.In(now.Location())
	text := due.Format("15:04")
	if text == "00:00" {
		text += " (midnight)"
	}
	if day := pantry.DateOf(due); day != pantry.DateOf(now) {
		text += fmt.Sprintf(" on %s, in %s", sayDay(day), sayLong(due.Sub(now).Round(time.Minute)))
	}
	return text
}

// longAhead is how far ahead a time that was said without its day, and is not today, may be another than was meant.
const longAhead = 6 * time.Hour

// mayBeOther tells how to say another time, where half of the day was not said and one is as far ahead as that; ""
// where it is not.
func mayBeOther(w language.Plan, due, now time.Time, how string) string {
	if !w.Either || isByDay(w.Meal) || pantry.DateOf(due.In(now.Location())) == pantry.DateOf(now) || due.Sub(now) < longAhead {
		return ""
	}
	return fmt.Sprintf("\nIf another time is meant, say it with am or pm: %q.", how)
}
