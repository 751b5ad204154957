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

// What a probe showed of food that a message uses up as well: "12kg of chicken roasted, core 68". It is no core of an apple, and
// no amount.

const coreUnit = `(\d{2,3})(?:\.\d)? ?(°? ?c|°? ?f|°|deg(?:ree)?s?(?: ?[cf])?)?`

var (
	coreSaid = []*regexp.Regexp{
		regexp.MustCompile(`(?i)[,;.]?\s+(?:(?:and|at|with|the|its|a) )*(?:core|probed?|internal|core temp|temp)(?:(?: temp)?(?: at| is| was| of| reads| to)*)[:,]? ` + coreUnit + `[\s.!]*$`),
		regexp.MustCompile(`(?i)[,;.]?\s+(?:(?:and|at|with|its|was) )*` + coreUnit + ` (?:core|in the (?:middle|centre|center|thickest))[\s.!]*$`),
		regexp.MustCompile(`(?i)\s+to (?:only |about |just )?` + coreUnit + `[\s.!]*$`),
	}
	cookedSaid = regexp.MustCompile(`(?i)\b(?:cooked|roasted|grilled|baked|fried|braised|poached|steamed|reheated|barbecued|smoked|seared|boiled|nuked|microwaved)\b`)
)

// The degrees C that the middle of cooked food may be at. The program's own choice.
const leastCore = 40

// coreTold reads what the middle of food was at that a message uses too, and where that stands in it; nil where none is told. Its food
// is "" where none is left of it.
func (t *turn) coreTold(text string) (d *degreesTold, at []int) {
	if !cookedSaid.MatchString(text) || !weightTold.MatchString(strings.ToLower(text)) || comesIn.MatchString(text) || len(text) > longest/20 || asksThis.MatchString(text) {
		return nil, nil
	}
	for _, re := range coreSaid {
		m := re.FindStringSubmatchIndex(text)
		if m == nil {
			continue
		}
		d = &degreesTold{}
		d.n, _ = strconv.Atoi(text[m[2]:m[3]])
		unit := ""
		if m[4] >= 0 {
			unit = strings.ToLower(text[m[4]:m[5]])
		}
		if d.f = strings.Contains(unit, "f") || t.country() == "US" && !strings.Contains(unit, "c"); d.f {
			d.saidF, d.n = d.n, inCelsius(d.n)
		}
		if d.n < leastCore || d.n > mostBare {
			return nil, nil
		}
		d.food, d.lines = t.foodIn(strings.ToLower(text[:m[0]]), true)
		return d, m[:2]
	}
	return nil, nil
}

// withoutCore takes what the middle of food was at out of a text that uses it: mindCore speaks of it.
func (t *turn) withoutCore(text string) string {
	if _, at := t.coreTold(text); at != nil {
		return text[:at[0]]
	}
	return text
}

// coreQuestion is what it tells, as any reading.
func (t *turn) coreQuestion(text string) *language.Question {
	d, _ := t.coreTold(text)
	if d == nil || d.food == "" || t.heldThrough(d.n, text) {
		return nil
	}
	return &language.Question{About: aboutReading, Food: d.food, N: d.n, State: "probed"}
}

// mindCore adds to what was used that the middle of it was not hot enough.
func (t *turn) mindCore(r Reply, text string) Reply {
	d, _ := t.coreTold(text)
	i := slices.IndexFunc(r.Entries, func(e Entry) bool { return e.Kind == string(pantry.Use) || e.Kind == string(pantry.Make) })
	if d == nil || d.n >= t.limits().through || t.heldThrough(d.n, text) || i < 0 {
		return r
	}
	if d.food == "" { // all of it is used
		d.food = r.Entries[i].Item
	}
	r.Text += fmt.Sprintf("\n%s at %s in the middle: no proof that it is cooked through: that is %s. Cook on, and probe again.", title(d.food), d.at(), t.limits().proof)
	return r
}
