package bot

import (
	"regexp"
	"strings"

	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// asksOpened is a message that asks which packs are open.
var asksOpened = regexp.MustCompile(`(?i)^\s*(?:whats|what's|what is|what have we got|what do we have|what have we|anything|is anything|what) (?:been |thats |that's |already )?(?:open|opened)(?: in the fridge| already| now| at the moment)?\s*\??\s*$`)

// openedTalk tells which food on hand was opened, and until when it keeps.
func (t *turn) openedTalk() (r Reply, done bool, err error) {
	if !asksOpened.MatchString(t.m.Text) {
		return r, false, nil
	}
	var list []string
	for _, l := range t.k.Lines {
		a, lot := l.In(food.Opened)
		if a == 0 {
			continue
		}
		text := measure.Say(a, l.Unit) + " " + l.Name
		if lot.Date != "" {
			text += ", " + sayBy(map[bool]string{true: "best-before", false: "use-by"}[lot.Best]) + " " + t.sayDate(lot.Date)
		}
		list = append(list, text)
	}
	if len(list) == 0 {
		return Reply{Kind: Answer, Text: `Nothing is open, as far as anybody said. "opened the milk" tells me.`}, true, nil
	}
	return Reply{Kind: Answer, Text: "Open: " + strings.Join(list, "; ") + ". Labels go first."}, true, nil
}
