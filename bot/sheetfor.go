package bot

import (
	"fmt"
	"regexp"
	"strings"

	"scullion/bot/language"
)

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

// dishDoubled asks for more of a dish that was cooked: "double the duck salad".
var dishDoubled = regexp.MustCompile(`(?i)^\s*(?:can we |lets |let's |please |we need to )*(double|triple|quadruple)(?: up)? (?:the |our )?([a-z' -]+?)(?: please)?[\s?.!]*$`)

// timesAsMany are those words as numbers.
var timesAsMany = map[string]int{"double": 2, "triple": 3, "quadruple": 4}

// doubleTalk answers that with the dish's sheet for so many more; where nobody said for how many it was, with how to say
// so. Done is false where no dish is meant that was cooked.
func (t *turn) doubleTalk() (r Reply, done bool, err error) {
	m := dishDoubled.FindStringSubmatch(t.m.Text)
	if m == nil {
		return r, false, nil
	}
	dish, err := t.dishMeant(m[2])
	if err != nil || dish == "" {
		return r, false, err
	}
	s, err := t.sheetOf(dish)
	if err != nil || s == nil {
		return r, false, err
	}
	if s.Portions == 0 {
		return Reply{Kind: Error, Text: fmt.Sprintf(`For how many was the %s? "the %s %s for 6" says it, and then "%s the %s" gives its sheet.`, dish, dish, was(dish), strings.ToLower(m[1]), dish)}, true, nil
	}
	n := s.Portions * timesAsMany[strings.ToLower(m[1])]
	r, done, err = t.sheetAsked(&language.Question{About: language.AboutSheet, Food: dish, N: n})
	if done {
		r.Text += fmt.Sprintf("\nNothing is kept for it: \"cook the %s again for %d\" does that.", dish, n)
	}
	return r, done, err
}
