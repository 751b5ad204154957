package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// A fridge or freezer that was told to be warm, and is told to be cold again; and what was told to be in it.

var (
	// inItSaid is that food was in a fridge: "the cream and the chicken were in fridge 2".
	inItSaid = regexp.MustCompile(`(?i)^\s*(?:and |btw |fyi |ok )*(?:the |all the |only the |just the )?([a-z][a-z' ,&-]*?) (?:was|were|is|are|lives?|sat|been|has been|have been)(?: all| both| still| only| just| kept| sitting| stored)* (?:in|inside) (?:the )?((?:[a-z]+ )?(?:fridge|walk-?in|chiller|cooler|lowboy|reach-?in|freezer)(?: \d)?)(?: (?:overnight|all night|last night|then|at the time|when it (?:failed|went|was warm)|this morning))*[\s.!]*$`)
	// toldNumber is a number as a fridge shows it.
	toldNumber = regexp.MustCompile(`-?\d{1,3}(?:\.\d)?`)
)

// coldName is what a fridge is called, where no number but its own stands behind it.
var coldName = regexp.MustCompile(`(?i)\b(?:(?:bar|back|front|veg|dairy|meat|fish|drinks|cake|display|van|walk[- ]?in|under ?-?counter|milk|prep|dessert|pastry|bottom|top|staff|main|chest|ice cream) )*(?:fridge|freezer|walk[- ]?in|chiller|cold ?room|cold store|cooler|reach[- ]?in|lowboy|undercounter)(?: (?:number |no\.? ?)?(?:[1-9]|one|two|three)\b)?`)

// coldNamed gives what a text calls a fridge; "" it names none. A number with no other behind it is what the fridge shows.
func coldNamed(text string) string {
	at := coldName.FindStringIndex(text)
	if at == nil {
		return ""
	}
	name := strings.ToLower(text[at[0]:at[1]])
	if strings.ContainsAny(name, digits) && (!strings.ContainsAny(text[at[1]:], digits) && !coldFailed.MatchString(text) && !strings.Contains(strings.ToLower(text), "off") || strings.HasPrefix(text[at[1]:], ".")) {
		name = strings.TrimRight(name, digits+" .")
	}
	return name
}

// inItTold reads which food was in which fridge; "" none. Of one that nobody numbered it tells only where that one was told
// to be warm.
func (t *turn) inItTold(text string) (place string, lines []*pantry.Line) {
	m := inItSaid.FindStringSubmatch(text)
	if m == nil || len(text) > longest/20 {
		return "", nil
	}
	for _, name := range thawsAnd.Split(strings.ReplaceAll(m[1], " and the ", " and "), -1) {
		of, _ := t.heldLines(strings.ToLower(strings.TrimSpace(name)))
		if len(of) == 0 {
			return "", nil
		}
		lines = append(lines, of...)
	}
	return strings.ToLower(m[2]), lines
}

// inItTalk answers what was told to be in a fridge that was told to be warm, or in one that has a number.
func (t *turn) inItTalk() (r Reply, done bool, err error) {
	place, lines := t.inItTold(t.m.Text)
	if place == "" {
		return r, false, nil
	}
	was, _, err := t.coldWas(place, t.said)
	if err != nil || was == nil && !strings.ContainsAny(place, digits) {
		return r, false, err
	}
	var names []string
	for _, l := range lines {
		names = appendOnce(names, l.Name)
	}
	says := fmt.Sprintf("%s: in %s, as told.", title(both(names, "and")), place)
	if was != nil {
		says += fmt.Sprintf(" It was %q at %s: probe them. What must be chilled and was above %d C for over %d hours is binned; if nobody knows how long, bin it.%s", was.Text, was.At.In(t.m.At.Location()).Format("15:04"), t.limits().cold, t.limits().out, ownRules)
	}
	return Reply{Kind: Answer, Text: says}, true, nil
}

// coldWas gives the latest message before one that told a fridge to be warm or off, and the earliest since which told it to be
// cold.
func (t *turn) coldWas(place string, before *pantry.Message) (was, again *pantry.Message, err error) {
	told, err := t.doubts()
	if err != nil {
		return nil, nil, err
	}
	for _, d := range told {
		if d.Message.N != d.Told.N || d.Told.N >= before.N || d.Told.Gone || before.At.Sub(d.Told.At) > 2*mostKept {
			continue
		}
		q, _, _ := t.toldBy(d.Told)
		if q == nil || !slices.Contains(ofCold, q.About) || q.About == language.AboutPower || !samePlace(q.Place, place) {
			continue
		}
		if t.isHazard(q) {
			return d.Told, again, nil
		}
		again = d.Told
	}
	return nil, nil, nil
}

// coldAgain gives the message that told a fridge to be cold since another told it to be warm; nil nobody did.
func (t *turn) coldAgain(place string, m *pantry.Message) (again *pantry.Message, at string) {
	told, err := t.doubts()
	if err != nil {
		return nil, ""
	}
	for _, d := range told {
		if d.Message.N != d.Told.N || d.Told.N <= m.N || d.Told.Gone {
			continue
		}
		q, _, _ := t.toldBy(d.Told)
		if q == nil || q.About != language.AboutFridgeAt && q.About != language.AboutFreezerAt || !samePlace(q.Place, place) {
			continue
		}
		if t.isHazard(q) {
			return nil, ""
		}
		again, at = d.Told, exactly(fmt.Sprintf("at %d C", q.N), q.N, d.Told.Text, t.country())
	}
	return again, at
}

// againTalk answers that a fridge is cold again which was told to be warm. Done is false where it was not.
func (t *turn) againTalk(q *language.Question) (r Reply, done bool, err error) {
	was, _, err := t.coldWas(q.Place, t.said)
	if was == nil || err != nil {
		return r, false, err
	}
	out := t.m.At.Sub(was.At)
	if q.About == language.AboutFreezerAt {
		return Reply{Kind: Answer, Text: fmt.Sprintf("%s at %d C. It was %q at %s, %s ago: what got soft goes to the fridge and is used within a day, or is binned, and is not frozen again raw. That it is cold again clears none of it.%s",
			title(q.Place), q.N, was.Text, was.At.In(t.m.At.Location()).Format("15:04"), sayMinutes(int(out.Minutes())), ownRules)}, true, nil
	}
	return Reply{Kind: Answer, Text: fmt.Sprintf("%s at %d C. It was %q at %s, %s ago: what must be chilled and was above %d C for over %d hours is binned all the same, and if nobody knows how long. That it is cold again clears none of it: probe the food.%s",
		title(q.Place), q.N, was.Text, was.At.In(t.m.At.Location()).Format("15:04"), sayMinutes(int(out.Minutes())), t.limits().cold, t.limits().out, ownRules)}, true, nil
}

// exactly puts degrees as they were told into an answer that has them rounded up, in C: "at 10 C" as "at 9.2 C". N is in C.
func exactly(answer string, n int, text, country string) string {
	for _, s := range toldNumber.FindAllString(text, 10) {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			continue
		}
		whole := fmt.Sprintf("at %d C", n)
		switch {
		case (country != "US" || saysCelsius.MatchString(text)) && !saysFahrenheit.MatchString(text) && upC(v) == n:
			return strings.Replace(answer, whole, "at "+s+" C", 1)
		case (country == "US" || saysFahrenheit.MatchString(text)) && inCelsius(upC(v)) == n:
			return strings.Replace(answer, whole, fmt.Sprintf("at %s F (%d C)", s, n), 1)
		}
	}
	return answer
}

// upC rounds up.
func upC(v float64) int {
	n := int(v)
	if v > float64(n) {
		n++
	}
	return n
}

// toldIn gives what was told to be in a fridge, and what in others; of what nobody told it may be in any.
func (t *turn) toldIn(place string) (in, other []*pantry.Line) {
	told, err := t.doubts()
	if err != nil || place == "" {
		return nil, nil
	}
	for _, d := range told {
		if d.Message.N != d.Told.N || d.Told.Gone {
			continue
		}
		at, of := t.inItTold(d.Told.Text)
		for _, l := range of {
			switch {
			case slices.Contains(in, l) || slices.Contains(other, l): // the latest holds
			case samePlace(at, place):
				in = append(in, l)
			default:
				other = append(other, l)
			}
		}
	}
	return in, other
}
