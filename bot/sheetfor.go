package bot

import "regexp"

// dishForMany asks for a dish that was cooked, for so many: "duck salad for 30 portions?". With its question mark
// it tells nothing.
var dishForMany = regexp.MustCompile(`(?i)^\s*(?:and |so )?(?:the |what about (?:the )?|how about (?:the )?)?([a-z' -]+?) for (\d+)(?: portions| people| covers| heads| guests)?\s*\?+\s*$`)

// sheetFor puts a text that asks so for a dish into the words that ask for its sheet.
func (t *turn) sheetFor(text string) string {
	m := dishForMany.FindStringSubmatch(text)
	if m == nil {
		return text
	}
	dish, err := t.dishMeant(m[1])
	if err != nil || dish == "" {
		return text
	}
	in, err := t.book.IntoDish(dish, t.m.At.Add(-serviceLong))
	if err != nil || len(in) == 0 {
		return text
	}
	return "sheet for the " + dish + " for " + m[2]
}
