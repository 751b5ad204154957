package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"scullion/pantry"
	"scullion/pantry/measure"
)

// whenMade asks when food was made.
var whenMade = regexp.MustCompile(`(?i)^\s*(?:when|what day|what time) (?:was|were|did (?:we|you|i|anyone|someone) (?:make|cook)) (?:the |that |those )?([a-z][a-z' -]*?)(?: made| cooked| baked| done| put by)?\s*\??\s*$`)

// sayAt: "at 16:03", or "Mon 2 Mar at 16:03".
func (t *turn) sayAt(e pantry.Entry) string {
	at := e.At.In(t.m.At.Location())
	if pantry.DateOf(at) == t.day() {
		return "at " + at.Format("15:04")
	}
	return sayDay(pantry.DateOf(at)) + " at " + at.Format("15:04")
}

// sayWhenMade: "Torte: 4 kg put by at 16:20 (dee)." or when something last went into the dish; "" of what was not made.
func (t *turn) sayWhenMade(said string) (string, error) {
	l := potLine(t.k, strings.ToLower(said))
	if l == nil || l.Made == 0 {
		l = t.madeCalled(said)
	}
	if l != nil && l.Made > 0 && l.OnHand() > 0 {
		entries, err := t.book.Since(l.ID, &pantry.Message{})
		if err != nil {
			return "", err
		}
		for _, e := range slices.Backward(entries) {
			if e.Act == pantry.Make {
				date, err := t.sayDates([]*pantry.Line{l})
				return strings.TrimSpace(fmt.Sprintf("%s: %s put by %s (%s).\n%s", title(l.Name), measure.Say(e.Amount, l.Unit), t.sayAt(e), title(t.k.CookName(e.Cook)), date)), err
			}
		}
	}
	dish, in, err := t.cooked(said)
	if err != nil || dish == "" {
		return "", err
	}
	e := in[len(in)-1]
	return fmt.Sprintf("%s: the last of it went in %s (%s). What is left of it nobody has put by.", title(dish), t.sayAt(e), title(t.k.CookName(e.Cook))), nil
}
