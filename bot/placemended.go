package bot

import (
	"regexp"
	"time"

	"scullion/bot/language"
)

// mendsPlace is a message that only sets a place right: "sorry room 7", "no, I meant table 5".
var mendsPlace = regexp.MustCompile(`(?i)^\s*(?:sorry|no|nope|oops|wait|actually|i mean|i meant|make that|that should be|should be)[,: ]+(?:sorry |i mean |i meant |make that |it was |its |it's )?((?:table|tbl|bed|room|rm|ward|bay|seat|class|year|cover|cubicle|order|ticket)\s+\w{1,4}|t\d{1,3}|y\d{1,2})(?:,? not [\w ]{1,12})?(?: sorry)?\s*[.!]?\s*$`)

// placeNot is a place with the wrong one behind it: "t7 not t6".
var placeNot = regexp.MustCompile(`(?i)^\s*(?:sorry |no |its |it's |that was |that's |thats )*(` + onePlace + `),? not (` + onePlace + `)(?: sorry)?\s*[.!]*\s*$`)

// placeLong is how long after it was said a place may be set right in so few words. The program's own choice.
const placeLong = 10 * time.Minute

// placeMended reads a place that is set right as a move of the needs which the cook told last; not ok where
// the message before told of no one place.
func (t *turn) placeMended() (x language.TableTalk, ok bool, err error) {
	m := mendsPlace.FindStringSubmatch(t.m.Text)
	if m == nil {
		m = placeNot.FindStringSubmatch(t.m.Text)
	}
	if m == nil {
		return x, false, nil
	}
	last, err := t.book.Heard(t.cook, t.said)
	if err != nil || last == nil || t.m.At.Sub(last.At) > placeLong {
		return x, false, err
	}
	from := ""
	var said []language.TableNeed
	list, _ := t.reader().Table(last.Text)
	for _, o := range list {
		if o.About != language.AboutNumbered || from != "" && from != o.Place {
			return x, false, nil
		}
		from, said = o.Place, append(said, o.Needs...)
	}
	if from == "" {
		return x, false, nil
	}
	list, _ = t.reader().Table("move " + from + " to " + m[1])
	if len(list) != 1 || list[0].About != language.AboutMoved {
		return x, false, nil
	}
	x = list[0]
	there := 0
	for _, n := range t.needs() {
		if n.Who == from {
			there++
		}
	}
	if there > len(said) { // what was known of that place before stays there
		x.About, x.Needs, x.From = language.AboutNumbered, said, ""
	}
	return x, true, nil
}
