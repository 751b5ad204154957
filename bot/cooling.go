package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
)

// Food that was cooked and is told to cool, with what a probe shows of it: "chili 135 at 8am cooling", "chili 85".

// isCooling is the state of a reading of food that cools.
const isCooling = "cooling"

// isAfter is that of a reading which does not say so, of food that was told to cool before.
const isAfter = "after"

// coolStage is what food that cools is to be at after a while.
type coolStage struct {
	degrees int // C
	within  time.Duration
}

// coolStages are those of a country. US: FDA Food Code 2022, 3-501.14. UK: cold within the 90 minutes that East Devon District
// Council and the guidelines on cook-chill have.
func (t *turn) coolStages() (list []coolStage, by string) {
	if t.country() == "US" {
		return []coolStage{{21, 2 * time.Hour}, {5, 6 * time.Hour}}, "US FDA Food Code 2022 3-501.14"
	}
	return []coolStage{{8, 90 * time.Minute}}, "guidance, East Devon District Council"
}

const (
	coolDegrees = `(\d{1,3})(?:\.\d)? ?(c|f|°c|°f|°|degrees(?: c| f)?)?`
	coolClock   = `(?:,? (?:at|@) (\d{1,2}(?:[:.]\d\d)? ?(?:am|pm)?))?`
	coolLinks   = `(?: (?:is|was|at|now|its|it's|still|only|hit|reads|from|to|down|and|started|starting|temp|probed|core|off))*[:,]?`
)

// coolBare is a reading of food that was told to cool before: "chili 85", "chili down to 60 at 10".
var coolBare = regexp.MustCompile(`(?i)^\s*(?:the |our )?([a-z][a-z' -]*?)` + coolLinks + ` ` + coolDegrees + `(?: now| again)?` + coolClock + `[\s.!]*$`)

// coolingSaid reads that food cools and is at so many degrees.
func (t *turn) coolingSaid(text string) *language.Question {
	return t.coolHeard(text)
}

// coolRead is a reading as a question; nil where it is of no food, or of no degrees that food has which cools.
func (t *turn) coolRead(said, n, unit, clock, text string) *language.Question {
	name := strings.ToLower(strings.TrimSpace(said))
	q := &language.Question{About: aboutReading, Food: name, State: isCooling}
	q.N, _ = strconv.Atoi(n)
	if strings.Contains(strings.ToLower(unit), "f") || t.country() == "US" && !strings.Contains(strings.ToLower(unit), "c") {
		q.N = inCelsius(q.N)
	}
	if clock != "" {
		if q.At = clockSaid(clock); q.At == "" {
			return nil
		}
		q.Plain = !strings.HasSuffix(strings.ToLower(clock), "m") && q.At < "12" // of both halves of the day the later
	}
	if q.N > mostBare || kitTold.MatchString(text) || isPronoun(name) || t.toldFood(name) == "" {
		return nil
	}
	return q
}

// coolHeard is a reading of food that cools as a question: Began and Since say since when, as far as that was told. Nil where none
// is told. Of several foods it is of the warmest, with the others.
func (t *turn) coolHeard(text string) (q *language.Question) {
	heats, _ := t.heard(text)
	for _, h := range heats {
		switch {
		case !h.cools || h.unknown:
			continue
		case h.n == noDegrees:
			return &language.Question{About: language.AboutStood, Food: h.food, At: h.began}
		case q == nil:
			q = &language.Question{About: aboutReading, Food: h.food, N: h.n, State: isCooling, At: h.at, Plain: h.at != "", Began: h.began, Since: h.since}
		case h.n > q.N:
			q.N, q.Food, q.Also = h.n, h.food, append(q.Also, q.Food)
		default:
			q.Also = append(q.Also, h.food)
		}
	}
	if q != nil && q.At != "" {
		q.Plain = q.At < "12" && !saysHalf.MatchString(text)
	}
	return q
}

// saysHalf is a time of day that says which half of it is meant.
var saysHalf = regexp.MustCompile(`(?i)\d ?[ap]\.?m\b|\b(?:0\d|1[3-9]|2[0-3])[:.]\d\d`)

// startOf is when the food of a reading began to cool, by what it tells itself.
func (t *turn) startOf(r reading) time.Time {
	at := t.readAt(r)
	switch {
	case r.why.Began != "":
		began := *r.why
		began.At, began.Plain = r.why.Began, r.why.Began < "12" && !saysHalf.MatchString(r.said.Text)
		return t.readAt(reading{r.said, &began})
	case r.why.Since > 0:
		return at.Add(-time.Duration(r.why.Since) * time.Minute)
	}
	return at
}

// clockSaid: "8am", "8.30pm" and "8" as "08:00", "20:30" and "08:00"; "" it is no time.
func clockSaid(s string) string {
	s = strings.ReplaceAll(strings.ToLower(strings.ReplaceAll(s, " ", "")), ".", ":")
	for _, form := range []string{"3pm", "3:04pm", "15:04", "15"} {
		if at, err := time.Parse(form, s); err == nil {
			return at.Format("15:04")
		}
	}
	return ""
}

// coolingOf is coolingSaid, and a bare reading of food that was told to cool before.
func (t *turn) coolingOf(text string) *language.Question {
	if q := t.coolingSaid(text); q != nil || asksThis.MatchString(text) {
		return q
	}
	m := coolBare.FindStringSubmatch(text)
	if m == nil {
		return nil
	}
	told, err := t.doubts()
	if err != nil || !slices.ContainsFunc(told, func(d pantry.Doubt) bool {
		q := t.coolingSaid(d.Told.Text)
		return q != nil && d.Told.N == d.Message.N && !d.Told.Gone && t.sameFood(q.Food, m[1]) && t.m.At.Sub(d.Told.At) < serviceLong
	}) {
		return nil
	}
	q := t.coolRead(m[1], m[2], m[3], m[4], text)
	if q != nil {
		q.State = isAfter
	}
	return q
}

// sameFood says whether words mean what other words do: "the chili" the beef chili.
func (t *turn) sameFood(a, b string) bool {
	a, b = strings.ToLower(strings.TrimSpace(a)), strings.ToLower(strings.TrimSpace(b))
	if a == b || fitsName(a, b) || fitsName(b, a) {
		return true
	}
	one, _ := t.heldLines(a)
	two, _ := t.heldLines(b)
	return slices.ContainsFunc(one, func(l *pantry.Line) bool { return slices.Contains(two, l) })
}

// readAt is when a reading was taken.
func (t *turn) readAt(r reading) time.Time {
	at, err := time.Parse("15:04", r.why.At)
	if r.why.At == "" || err != nil {
		return r.said.At
	}
	said := r.said.At.In(t.m.At.Location())
	on := time.Date(said.Year(), said.Month(), said.Day(), at.Hour(), at.Minute(), 0, 0, said.Location())
	if later := on.Add(12 * time.Hour); r.why.Plain && later.Before(said.Add(time.Minute)) {
		on = later
	}
	for !on.Before(said.Add(time.Minute)) {
		if r.why.Plain {
			on = on.Add(-12 * time.Hour)
			continue
		}
		on = on.Add(-24 * time.Hour)
	}
	return on
}

// ofCooling judges the readings of food that was told to cool, the newest first. Not ok where it was not; nil where it was
// cold in time.
func (t *turn) ofCooling(list []reading) (w *warm, ok bool) {
	stages, by := t.coolStages()
	var start time.Time
	var first, last reading
	var met []bool
	for _, r := range slices.Backward(list) {
		at := t.readAt(r)
		switch {
		case start.IsZero() && r.why.State != isCooling, r.why.State != isCooling && r.why.N >= t.limits().through: // heated again
			start = time.Time{}
			continue
		case start.IsZero():
			start, first, met = t.startOf(r), r, make([]bool, len(stages))
		}
		if end := len(stages) - 1; met[end] && r.why.N > stages[end].degrees { // it was cold, and got warm again
			return nil, false
		}
		last = r
		for i, s := range stages {
			took := at.Sub(start)
			switch {
			case r.why.N <= s.degrees && took <= s.within:
				met[i] = true
			case r.why.N > s.degrees && took >= s.within && !met[i]:
				since := fmt.Sprintf("It was %q at %s, %s before", first.said.Text, start.In(t.m.At.Location()).Format("15:04"), sayMinutes(int(at.Sub(start)/time.Minute)))
				if first.said == r.said {
					since = fmt.Sprintf("It cools since %s, %s", start.In(t.m.At.Location()).Format("15:04"), sayMinutes(int(at.Sub(start)/time.Minute)))
				}
				return &warm{said: r.said, by: r.said, why: r.why, over: true, cools: fmt.Sprintf("%s: it is to be at %d C within %s (%s). It is binned.", since, s.degrees, sayWithin(s.within), by)}, true
			}
		}
	}
	if start.IsZero() {
		return nil, false
	}
	if end := len(stages) - 1; met[end] && (end == 0 || met[0]) {
		return nil, true
	}
	says := "Nobody told that it got cold in time: "
	if !slices.ContainsFunc(stages, func(s coolStage) bool { return t.m.At.Sub(start) > s.within }) {
		switch says = "It cools since then: "; {
		case first.why.Began != "" || first.why.Since > 0:
			says = "It cools since " + start.In(t.m.At.Location()).Format("15:04") + ": "
		case first.why.N < t.limits().hot:
			says = "It cools since then at the latest: "
		}
	}
	return &warm{said: last.said, by: last.said, why: last.why, cools: says + t.sayStages(start) + "; else it is binned."}, true
}

// sayStages: "at 21 C by 10:00, at 5 C by 14:00 (US FDA Food Code 2022 3-501.14)".
func (t *turn) sayStages(start time.Time) string {
	stages, by := t.coolStages()
	var list []string
	for _, s := range stages {
		list = append(list, fmt.Sprintf("at %d C by %s", s.degrees, start.Add(s.within).In(t.m.At.Location()).Format("15:04")))
	}
	return strings.Join(list, ", ") + " (" + by + ")"
}

func sayWithin(d time.Duration) string {
	if d%time.Hour == 0 {
		return fmt.Sprintf("%d hours", d/time.Hour)
	}
	return fmt.Sprintf("%d minutes", d/time.Minute)
}

// coolTalk answers a reading of food that cools. Done is false where none is told.
func (t *turn) coolTalk() (r Reply, done bool, err error) {
	q := t.coolingOf(t.m.Text)
	if q == nil {
		return r, false, nil
	}
	if heats, _ := t.heard(t.m.Text); len(heats) > 0 && heats[0].counted && !t.minding { // what is counted is written first
		return r, false, nil
	}
	if q.About == language.AboutStood { // nobody said what it was at
		t.outSince(q, t.m.Text, t.said.At)
		return t.sayTold(q, t.m.Text)
	}
	told, err := t.doubts()
	if err != nil {
		return r, false, err
	}
	said := *t.said
	said.Text = t.m.Text
	list := []reading{{&said, q}}
	for _, d := range told {
		if d.Message.N != d.Told.N || d.Told.Gone || t.m.At.Sub(d.Told.At) > serviceLong {
			continue
		}
		if was, _ := t.hazardIn(d.Told.Text); was != nil && was.About == aboutReading && t.sameFood(was.Food, q.Food) {
			list = append(list, reading{d.Told, was})
		}
	}
	name := title(q.Food)
	at := t.readAt(list[0]).In(t.m.At.Location()).Format("15:04")
	w, ok := t.ofCooling(list)
	switch lines, _ := t.heldLines(q.Food); {
	case !ok && q.State == isAfter && q.N > t.limits().cold:
		r.Kind = Answer
		r.Text, err = t.sayDegrees(&degreesTold{n: q.N, food: q.Food, lines: lines})
		return r, true, err
	case !ok:
		return r, false, nil
	case w == nil:
		return Reply{Kind: Answer, Text: fmt.Sprintf("%s at %d C at %s: cold in time, as far as anybody told.%s", name, q.N, at, ownRules)}, true, nil
	case w.over:
		return Reply{Kind: Answer, Text: fmt.Sprintf("%s at %d C at %s: too slow. %s %s%s", name, q.N, at, w.cools, t.sayBin(q.Food, lines), ownRules)}, true, nil
	}
	return Reply{Kind: Answer, Text: fmt.Sprintf("%s at %d C at %s, cooling. %s%s", name, q.N, at, w.cools, ownRules)}, true, nil
}
