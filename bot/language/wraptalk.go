package language

import (
	_ "embed"
	"regexp"
	"strings"
	"sync"
)

//go:embed wraptalk.csv
var wrapTalkCSV []byte

var wrapTalk = sync.OnceValue(func() *asking { return formsOf("wraptalk.csv", wrapTalkCSV) })

// What may be said at the end of a service.
const (
	AboutWrapUp       About = "wrapup"       // the service is over
	AboutUnwrap       About = "unwrap"       // it is not over after all
	AboutWeigh        About = "weigh"        // go through the lines with the scales
	AboutLines        About = "lines"        // the account line by line
	AboutAsPlanned    About = "asplanned"    // what the plan kept went in, said or not
	AboutSheets       About = "sheets"       // which dishes were made
	AboutSheet        About = "sheet"        // the sheet of dish N, or of the one that Food names
	AboutPortions     About = "portions"     // for N the dish was that Food names; "" the one there is
	AboutLabels       About = "labels"       // what is to be labelled
	AboutKeptFor      About = "keptfor"      // what of the stock is kept for the dish that Food names
	AboutServices     About = "services"     // how past services went
	AboutGave         About = "given"        // what was given away in this service
	AboutBin          About = "bin"          // what was thrown away in this service
	AboutBinToday     About = "bintoday"     // the same of all of today
	AboutBinWeek      About = "binweek"      // and of the last week
	AboutBinYesterday About = "binyesterday" // and of the day before
	AboutWaste        About = "waste"        // what is wasted most
	AboutRecook       About = "recook"       // a dish that was made, again, for N
)

// WrapTalk reads a message that is about the end of a service; nil where it is not.
func (r *Reader) WrapTalk(text string) *Question {
	return r.talked(strings.NewReplacer("wrap-up", "wrap up", "Wrap-up", "wrap up").Replace(text), wrapTalk())
}

// talked finds the form of a table that the whole message has; nil none.
func (r *Reader) talked(text string, a *asking) *Question {
	p := r.parser(text)
	if len(p.t) == 0 {
		return nil
	}
	p.end = len(p.t)
	for p.end > 0 && p.t[p.end-1].sort == mark {
		p.end--
	}
	p.classesOf(0, p.end)
	p.whole = a.whole
	if q := p.form(a, p.idle(0)); q != nil || a != answerTalk() && a != moneyTalk() {
		return q
	}
	return p.form(a, 0) // "log it", "and the topside?"
}

// form finds the form of a table that all has from at on; nil none.
func (p *parser) form(a *asking, at int) *Question {
	for _, first := range []string{p.firstAt(at), ""} {
		for _, f := range a.forms[first] {
			if f.asked && !(p.end < len(p.t) && p.t[p.end].w == "?") {
				continue
			}
			if q, end := p.match(f, at); q != nil && end >= p.end {
				out := *q
				return &out
			}
		}
	}
	return nil
}

// Start reads a message that begins a service without a plan: "start: 3 dishes for 2 by 18:30".
// Ok says that it does.
func (r *Reader) Start(text string) (a Plan, ok bool) {
	nextDay := ofTomorrow.MatchString(text)
	text = ofTomorrow.ReplaceAllString(text, " ")
	if a, ok = r.startOf(text); !ok {
		name, rest := startNamed(text)
		if name == "" {
			return a, false
		}
		if a, ok = r.startOf(rest); ok {
			a.Meal = name
		}
	}
	if a.NextDay = nextDay; nextDay && a.Until == "" {
		return a, false
	}
	return a, ok
}

// startName is what a service is called, of up to four words before the comma or the guests: "start: wedding buffet, ...".
var (
	startName  = regexp.MustCompile(`(?i)^(\s*(?:start|begin)(?: the)?(?: service)?\s*:\s*)((?:[a-z][a-z'’-]*)(?: [a-z][a-z'’-]*){0,3}?)(?: service)?(?:\s*[,:-]\s*| for )(\d.*)$`)
	ofTomorrow = regexp.MustCompile(`(?i)\s+tomorrow(?: morning| lunchtime| lunch| afternoon| evening| night)?\b|\s+(?:tmrw|tmw|tomoz)\b`)
)

// startNamed takes the name off.
func startNamed(text string) (name, rest string) {
	m := startName.FindStringSubmatch(text)
	if m == nil {
		return "", text
	}
	join := ""
	if strings.HasSuffix(strings.TrimSpace(text[:len(text)-len(m[3])]), "for") {
		join = "for "
	}
	name = strings.ToLower(m[2])
	if name == "for" {
		return "", text
	}
	return name, m[1] + join + m[3]
}

// startOf is Start of what has neither a name of its own nor a day.
func (r *Reader) startOf(text string) (a Plan, ok bool) {
	p := r.parser(text)
	if len(p.t) == 0 {
		return a, false
	}
	p.end = len(p.t)
	p.classesOf(0, p.end)
	at := p.idle(0)
	if !p.word(at, "start") && !p.word(at, "begin") {
		return a, false
	}
	at = p.skipWord(p.skipWord(at+1, "the"), "service")
	if p.is(at, mark) {
		at++
	}
	meal, at := p.mealAt(at)
	a = p.planned(at)
	a.Meal = meal
	return a, p.strange == 0 && (a.Dishes > 0 || a.Portions > 0 || a.Until != "" || a.Minutes > 0)
}
