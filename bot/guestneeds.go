package bot

import (
	"fmt"
	"regexp"
	"strings"

	"scullion/bot/language"
)

// dayAhead is a day that needs are said to be for: "2 coeliac for sunday", "table for sunday: 1 nut allergy". startsCount begins such a list.
var (
	dayAhead    = regexp.MustCompile(`(?i)[, ]+(?:for|on) (?:this |next )?(mon|tue|tues|wed|weds|thu|thur|thurs|fri|sat|sun|monday|tuesday|wednesday|thursday|friday|saturday|sunday|tomorrow|tmrw|tmw|tomoz)(\s*:|\s*[.!]*$)`)
	startsCount = regexp.MustCompile(`(?i)^\s*(?:table\b|\d{1,3} (?:coeliacs?|celiacs?|vegans?|veggies?|vegetarians?|halal|kosher|[a-z]+ (?:allerg\w*|intoleran\w*|free))(?: for| on|,| and))`)
	saysNeeds   = regexp.MustCompile(`(?i)\b(?:allerg\w*|coeliacs?|celiacs?|intoleran\w*|vegans?|veggies?|vegetarians?|halal|kosher|[a-z]+[ -]free)\b`)
)

// guestsNeeds reads needs of guests who are called by who they are, all of a text or none of it.
func (t *turn) guestsNeeds(text string) (list []language.TableTalk, ok bool) {
	for _, g := range language.GuestNeeds(text) {
		one, rest := t.reader().Table(g.Read)
		if len(one) != 1 || rest != "" || len(one[0].Needs) != 1 || one[0].About == language.AboutWho {
			return nil, false
		}
		one[0].Whose = g.Whose
		list = append(list, one...)
	}
	return list, len(list) > 0
}

// withoutDay takes the day that needs are for out of a text that says some, and gives the day where it is not today;
// the text itself where it says none.
func (t *turn) withoutDay(text string) (less, day string) {
	m := dayAhead.FindStringSubmatch(text)
	if m == nil || !saysNeeds.MatchString(text) || strings.Contains(text, "?") {
		return text, ""
	}
	less = dayAhead.ReplaceAllString(text, "$2")
	if list, rest := t.reader().Table(less); len(list) == 0 || rest != "" {
		all := "table: " + less
		if list, rest := t.reader().Table(all); less[0] < '0' || less[0] > '9' || len(list) == 0 || rest != "" {
			return text, ""
		}
		less = all
	}
	day = strings.ToLower(m[1])
	if strings.HasPrefix(strings.ToLower(t.m.At.Weekday().String()), day[:min(3, len(day))]) {
		day = ""
	}
	return less, day
}

// lapses tells that needs said for a day ahead are kept for this service only.
func lapses(day string) string {
	if !strings.HasPrefix(day, "tom") && !strings.HasPrefix(day, "tm") {
		day = "on " + title(day)
	}
	return fmt.Sprintf("Mind: these are kept for this service only, and lapse with it, in %d hours at the latest. Say them again %s.", int(serviceLong.Hours()), day)
}
