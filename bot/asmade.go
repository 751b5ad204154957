package bot

import (
	"regexp"
	"strings"
)

var (
	// madeFor is what was made, with for how many, before what went into it: "made soup for 40 with 4kg leeks".
	madeFor = regexp.MustCompile(`(?i)^(\s*(?:made|did) (?:the |a |some )?)([a-z][a-z' -]*?) for (\d{1,4})(?: (?:people|ppl|covers|guests|kids|portions|pax))?(?:\s*[:,]\s*| (?:with|using|from|w|w/) )(.*\d.*)$`)
	// madeMany is so many that were made, before what went into them: "baked 120 cookies: 2kg flour, 10 eggs".
	madeMany = regexp.MustCompile(`(?i)^(\s*)(made|baked|did)( (?:about )?\d{1,4} )([a-z][a-z' -]*?)(?:\s*:\s*| (?:with|using|from|w|w/) )(.*\d.*)$`)
	// madeUnit begins what is measured, and not counted: "made 4 litres of soup".
	madeUnit = regexp.MustCompile(`(?i)^(?:kgs?|kilos?|g|grams?|l|lt|ltrs?|lit(?:re|er)s?|ml|lbs?|pounds?|oz|gals?|gallons?|qts?|quarts?|pints?|cups?|portions?|batch(?:es)?|trays?|tins?|pots?|pans?|tubs?|x)\b`)
	// deliveredShort is a delivery in short.
	deliveredShort = regexp.MustCompile(`(?i)^\s*(?:deliv'?d?|delivry|dlvry)\b\s*[:,-]?\s*(\d.*)$`)
)

// asMade puts a text that tells what was made, for how many or how many of it, and what went into it, into the words that are
// read: "made soup with 4kg leeks for 40".
func (t *turn) asMade(text string) string {
	if m := deliveredShort.FindStringSubmatch(text); m != nil {
		return "got " + m[1]
	}
	if m := madeFor.FindStringSubmatch(text); m != nil && !t.isOnHand(m[2]) {
		return "made " + m[2] + " with " + strings.TrimRight(m[4], " .!") + " for " + m[3]
	}
	if m := madeMany.FindStringSubmatch(text); m != nil && !(t.isCooked(m[4]) && !strings.EqualFold(m[2], "made")) && !madeUnit.MatchString(m[4]) {
		return m[1] + "made" + m[3] + m[4] + " with " + m[5]
	}
	return text
}

// isCooked says whether words call a food of the tables, or one that came in: it is what is cooked, not what it becomes.
func (t *turn) isCooked(said string) bool {
	h := t.ear.find(strings.ToLower(said))
	return h.exact && h.food != nil || t.isOnHand(said)
}

// isOnHand says whether words call a food of which there is some: it is what is cooked, not what it becomes.
func (t *turn) isOnHand(said string) bool {
	h := t.ear.find(strings.ToLower(said))
	for _, l := range h.lines {
		if l.OnHand() > 0 && l.Made == 0 {
			return true
		}
	}
	return false
}
