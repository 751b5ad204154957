package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
)

// startsCount begins a list of needs, and saysNeeds is a word of one.
var (
	startsCount = regexp.MustCompile(`(?i)^\s*(?:table\b|\d{1,3} (?:coeliacs?|celiacs?|vegans?|veggies?|vegetarians?|halal|kosher|[a-z]+ (?:allerg\w*|intoleran\w*|free))(?: for| on|,| and|\s*$))`)
	saysNeeds   = regexp.MustCompile(`(?i)\b(?:allerg\w*|coeliacs?|celiacs?|intoleran\w*|vegans?|veggies?|vegetarians?|halal|kosher|[a-z]+[ -]free|gf|df|nf|none|no needs|no)\b`)
)

// withoutDay takes the day that needs are for out of a text that says some, and gives that day; the text itself
// where it says none.
func (t *turn) withoutDay(text string) (less string, on pantry.Date) {
	if !saysNeeds.MatchString(text) {
		return text, ""
	}
	if asked, ok := strings.CutSuffix(strings.TrimSpace(text), "?"); ok {
		return t.askedForDay(text, asked)
	}
	d, less, ok := t.reader().ForDay(text)
	if !ok {
		return text, ""
	}
	when, ok := day(d, t.m.At)
	if on = pantry.DateOf(when); !ok || on < t.day() {
		return text, ""
	}
	for _, as := range []string{less, "table: " + less} { // "2 coeliac for sunday"
		if list, rest := t.reader().Table(as); len(list) > 0 && rest == "" {
			return as, on
		}
	}
	if list, left, _ := t.reader().NeedsHeard(less); len(list) > 0 && left == "" { // "tomorrow mr hale, dairy free and severe mustard allergy"
		return less, on
	}
	return text, ""
}

// askedForDay is withoutDay of a question, which stands in words without its mark: "any allergies sunday".
func (t *turn) askedForDay(text, words string) (less string, on pantry.Date) {
	d, less, ok := t.reader().ForDay(words)
	if on = dateOf(d, t.m.At); !ok || on < t.day() {
		return text, ""
	}
	if list, rest := t.reader().Table(less + "?"); len(list) == 0 || rest != "" {
		return text, ""
	}
	return less + "?", on
}

// forLater says whether a text seems to tell needs for a day.
func (t *turn) forLater(text string) bool {
	_, less, ok := t.reader().ForDay(text)
	return ok && startsCount.MatchString(less) && saysNeeds.MatchString(less)
}

// setDays completes what is to be kept: for which day it is, and whether it stays. What is said of a place or the
// table of which something was said for today is for today as well, and does not lapse before.
func (t *turn) setDays(keep []pantry.Need) {
	known := t.needs()
	for i := range keep {
		n := &keep[i]
		if n.Lasting {
			continue
		}
		n.Stays = stays(n.Who)
		if n.Kind == pantry.NeedOver {
			continue
		}
		if n.Day = t.needsFor; n.Day == "" && !n.Stays {
			if at := slices.IndexFunc(known, func(o pantry.Need) bool { return !o.Lasting && o.Day != "" && o.Who == n.Who }); at >= 0 {
				n.Day = known[at].Day
			}
		}
	}
}

// needsOn gives what is known of who cannot eat what on a day; "" now.
func (t *turn) needsOn(on pantry.Date) []pantry.Need {
	if on == "" || on <= t.day() {
		return t.needs()
	}
	return standing(t.k.Needs, func(n pantry.Need) bool { return !n.Lasting && n.Day == on })
}

// daysOf lists the days that needs are for, each once.
func daysOf(list []pantry.Need) (days []pantry.Date) {
	for _, n := range list {
		days = appendOnce(days, n.Day)
	}
	return days
}

// ahead tells what was said for days to come, a line each.
func (t *turn) ahead() (lines []string) {
	var days []pantry.Date
	for _, n := range t.k.Needs {
		if n.Day > t.day() {
			days = appendOnce(days, n.Day)
		}
	}
	slices.Sort(days)
	for _, on := range days {
		if list := t.needsOn(on); len(list) > 0 {
			lines = append(lines, sayDay(on)+": "+sayList(list)+".")
		}
	}
	return lines
}

// sayAskedFor tells what is known for a day to come, which was asked about.
func (t *turn) sayAskedFor(on pantry.Date) string {
	if list := t.needsOn(on); len(list) > 0 {
		return sayDay(on) + ": " + sayList(list) + ". Labels go first."
	}
	lines := []string{sayDay(on) + ": no needs are kept for that day. That is no clearance: ask who took the booking."}
	return strings.Join(append(lines, t.ahead()...), "\n")
}

// occasionMoves moves what was said for a day to come to another: "the wedding moved to sunday".
func (t *turn) occasionMoves() (keep []pantry.Need, said string, ok bool) {
	from, to, ok := t.reader().DayMoved(t.m.Text)
	when, known := day(to, t.m.At)
	if !ok || !known {
		return nil, "", false
	}
	var days []pantry.Date
	for _, n := range t.k.Needs {
		if n.Day > t.day() && len(t.needsOn(n.Day)) > 0 && (!from.Set || n.Day == dateOf(from, t.m.At)) {
			days = appendOnce(days, n.Day)
		}
	}
	on := pantry.DateOf(when)
	switch {
	case len(days) == 0 || on < t.day() || len(days) == 1 && days[0] == on:
		return nil, "", false
	case !from.Set: // which of what is booked it is, nobody can tell by its name
		return nil, fmt.Sprintf("Not moved. If it is of what is kept for a day, say from which: \"moved from %s to %s\".\n", weekdayOf(days[0]), weekdayOf(on)) + strings.Join(t.ahead(), "\n"), true
	}
	list := t.needsOn(days[0])
	for _, n := range list {
		keep = append(keep, pantry.Need{Kind: pantry.NeedOver, Who: n.Who, Day: n.Day, Said: "no needs"})
	}
	t.needsFor = on
	return append(keep, list...), "", true
}

// weekdayOf is the day of the week of a date, as cooks write it: "saturday".
func weekdayOf(d pantry.Date) string {
	at, err := time.Parse(time.DateOnly, string(d))
	if err != nil {
		return string(d)
	}
	return strings.ToLower(at.Weekday().String())
}

// dateOf is the date of a day that was said; "" of none.
func dateOf(d language.Day, at time.Time) pantry.Date {
	when, ok := day(d, at)
	if !ok {
		return ""
	}
	return pantry.DateOf(when)
}

// sayKeptAhead tells what is kept now for a day to come.
func (t *turn) sayKeptAhead(on pantry.Date) string {
	list := t.needsOn(on)
	if len(list) == 0 {
		return sayDay(on) + ": no needs are kept for that day. \"undo\" takes that back."
	}
	until := "on that day"
	if slices.ContainsFunc(list, func(n pantry.Need) bool { return n.Stays }) {
		until = "from then on"
	}
	return fmt.Sprintf("Kept for %s: %s. Until then nothing is held to it; %s uses, ideas and plans are. Food for it that is got ready before is not checked: tell who cooks it, and check every label.", sayDay(on), sayList(list), until)
}

// sayOfToday tells in the morning what was said ahead for today; "" nothing.
func sayOfToday(now []pantry.Need, today pantry.Date) string {
	list := slices.DeleteFunc(slices.Clone(now), func(n pantry.Need) bool { return n.Lasting || n.Day != today })
	if len(list) == 0 {
		return ""
	}
	return "The table today: " + sayList(list) + "."
}
