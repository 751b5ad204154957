package bot

import (
	"regexp"
	"slices"

	"scullion/pantry"
)

// servedWeight tells by weight what was served: "served 6kg rice", "sold 1.2kg of the potato salad".
var servedWeight = regexp.MustCompile(`(?i)^\s*(?:i |we |ive |weve |i've |we've )?(?:just )?(?:served|sold|sent out|plated|plated up|dished up|dished out) (\d[\d.,]* ?(?:kgs?|g|kilos?|grams?|ml|l|litres?)) (?:of )?(?:the |our )?([a-z][a-z' -]*?)(?: today| tonight| so far| at lunch| for lunch| for dinner)?\s*[.!]?$`)

// servedTalk writes what was served of food that was made here or cooked before, which is on hand by weight; of what
// is still in the pot it says that this needs no word. Done is false where other food is meant: raw leeks are not served.
func (t *turn) servedTalk(why string) (r Reply, done bool, err error) {
	m := servedWeight.FindStringSubmatch(t.m.Text)
	if m == nil {
		return r, false, nil
	}
	a, ok := t.amountSaid(m[1])
	lines, _ := t.heldLines(m[2])
	lines = slices.DeleteFunc(lines, func(l *pantry.Line) bool { return l.Made == 0 && !t.ear.areCooked([]*pantry.Line{l}) })
	switch {
	case !ok || len(lines) > 1:
		return r, false, nil
	case len(lines) == 1:
		r, err = t.write([]draft{{Act: pantry.Use, Food: lines[0].Name, Line: lines[0].ID, Amount: a, Day: t.day()}}, why)
		return r, r.Kind != Silent, err
	}
	dish, err := t.inPot(m[2], false)
	if err != nil || dish == "" {
		return r, false, err
	}
	return Reply{Kind: Answer, Text: sayServed(dish)}, true, nil
}
