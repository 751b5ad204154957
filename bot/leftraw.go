package bot

import (
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
	"scullion/planner"
)

// What is left of food that was cooked by itself is not the raw by the name alone: it would have the raw's date, and the
// raw would be counted away.

var (
	// leftOvers are the words for what a meal leaves, leftAny those for what is there still.
	leftOvers = regexp.MustCompile(`(?i)\bleft ?-?overs?\b`)
	leftAny   = regexp.MustCompile(`(?i)\b(?:left|leftovers?|remain(?:s|ing)?|still (?:here|got))\b`)
	// cookedAlone are words for food that is cooked as it is, said of it or standing in the name of what it went into.
	cookedAlone = regexp.MustCompile(`(?i)\b(?:cooked|cooking|roast(?:s|ed|ing)?|boiled|steamed|simmered|baked|braised|poached|grilled|griddled|fried|seared|browned|smoked|barbecued|bbq[\x27e]?d?|confit|carvery)\b|\b(?:in(?:to)?|out of) the oven\b|\bon the (?:grill|bbq|barbecue)\b`)
)

// leftOverRaw says whether a count of food that came in raw may be of the cooked: some of it was cooked by itself in this
// service, or it is meat or fish, some was used, and it is what was left over. What is as the record has it is the raw.
func (t *turn) leftOverRaw(d *draft, l *pantry.Line, base measure.Amount) bool {
	if d.Act != pantry.Count || d.State != "" || d.Yes || l.Made > 0 || base == 0 || base == l.OnHand() || !leftAny.MatchString(t.m.Text) || language.SaysRaw(t.m.Text, lastWord(l.Name)) {
		return false
	}
	f := t.ear.foodOf(l)
	if f != nil && planner.IsCooked(f, l.Name) || tellsWork(l.Name, "cooked") {
		return false
	}
	meal := isFlesh(f, l.Name) && leftOvers.MatchString(t.m.Text)
	from := t.m.At.Add(-serviceLong)
	if leftOvers.MatchString(t.m.Text) { // of the night before as well
		from = t.m.At.Add(-pantry.LeftOver)
	}
	for m, err := range t.back("", t.said, mostNotBack, from) {
		if err != nil {
			return false
		}
		if m.Rev == 0 || m.Gone {
			continue
		}
		entries, err := t.book.InForce(m)
		if err != nil {
			return false
		}
		for _, e := range entries {
			if e.Act == pantry.Use && e.Line == l.ID && (meal || cookedAlone.MatchString(e.Dish) || e.Dish == "" && cookedAlone.MatchString(m.Text)) {
				return true
			}
		}
	}
	return false
}

// calledRaw finds food that came in for a name which begins with its being raw: "4kg raw sirloin left"; nothing where it
// is none.
func (t *turn) calledRaw(phrase string) (h found) {
	rest, ok := strings.CutPrefix(strings.ToLower(phrase), "raw ")
	if !ok {
		return found{}
	}
	h = t.ear.find(rest)
	h.lines = slices.DeleteFunc(slices.Clone(h.lines), t.isCookedLine)
	if l := t.madeCalled(rest); len(h.lines) == 0 && l != nil && l.Made == 0 {
		return found{lines: []*pantry.Line{l}, exact: true}
	}
	if !h.exact || len(h.lines) == 0 {
		return found{}
	}
	return h
}
