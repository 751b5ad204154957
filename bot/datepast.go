package bot

import (
	"regexp"
	"strings"

	"scullion/bot/language"
)

// Food that is told to be past its date: "the chicken is past its date", "the ham went out of date on sunday".

var (
	pastSaid = regexp.MustCompile(`(?i)^\s*(?:the |our |that |all )*([a-z][a-z' -]*?)(?:'s| is| are| was| were| has| have| had)?(?: (?:just|now|already|all|gone|went|go|run|ran|been|well|way|a|one|two|three|few|days?|week|its|it's))* (?:past|out of|over|beyond|passed|outside)(?: (?:its|it's|their|the))? ?(date|use[- ]?by|ub|sell[- ]?by|best[- ]?before|bb|expiry)(?: date)?(?: (?:on|since|from|last))*(?: (yesterday|today|the other day|(?:mon|tues|wednes|thurs|fri|satur|sun)day))?[.! ]*$`)
	expired  = regexp.MustCompile(`(?i)^\s*(?:the |our |that |all )*([a-z][a-z' -]*?)(?: has| have| is| are|'s)?(?: (?:just|already|all))* (expired)(?: (?:on|since|last))*(?: (yesterday|today|the other day|(?:mon|tues|wednes|thurs|fri|satur|sun)day))?[.! ]*$`)
)

// pastDate reads food that is past its date as the date that it had: the day that was said, the last of that name, else
// yesterday. nil where none is told so.
func (t *turn) pastDate(text string) *language.Question {
	m := pastSaid.FindStringSubmatch(text)
	if m == nil {
		m = expired.FindStringSubmatch(text)
	}
	if m == nil || strings.Contains(text, "?") || asksThis.MatchString(text) {
		return nil
	}
	yesterday := t.said.At.In(t.m.At.Location()).AddDate(0, 0, -1)
	on := yesterday
	for range 6 { // the last day of the name that was said
		if strings.EqualFold(on.Weekday().String(), m[3]) {
			break
		}
		on = on.AddDate(0, 0, -1)
	}
	if !strings.EqualFold(on.Weekday().String(), m[3]) { // none was
		on = yesterday
	}
	by := " use by "
	if strings.HasPrefix(strings.ToLower(m[2]), "b") {
		by = " best before "
	}
	return t.reader().DateTalk(m[1] + by + on.Format("2 ") + strings.ToLower(on.Month().String()[:3]))
}
