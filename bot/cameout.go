package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// saysCameOut are words of what came out of an oven or a pot, which no weighing of raw food has.
var saysCameOut = regexp.MustCompile(`(?i)\b(?:came|comes|come|coming) out\b|\bturned out\b|\byield(?:s|ed)?\b|\bcooked\b|\bout of the (?:oven|pot)\b`)

// cameOutRaw answers that food came to so much cooked which is no dish: that does not count what is raw of it. ""
// where it may be a count.
func (t *turn) cameOutRaw(q *language.Question) string {
	h := t.ear.find(q.Food)
	i := slices.IndexFunc(h.lines, func(l *pantry.Line) bool { return l.Made == 0 })
	if q.About != language.AboutYield && q.About != language.AboutWeighs || !h.exact || h.sound || i < 0 || !saysCameOut.MatchString(t.m.Text) {
		return ""
	}
	name := strings.ToLower(q.Food)
	if !strings.Contains(name, "cooked") {
		name = "cooked " + name
	}
	return notTheRaw(q.Amount.Said, name, h.lines[i])
}

// notTheRaw tells that cooked food does not count the raw line of it, and how to put it by.
func notTheRaw(amount, cooked string, l *pantry.Line) string {
	whole := "5kg"
	if l.OnHand() > 0 {
		whole = strings.ReplaceAll(measure.Say(l.OnHand(), l.Unit), " ", "")
	}
	return fmt.Sprintf(`Cooked, so it does not count the %s: nothing was written. "made %s %s from %s %s" puts it by, with what went in; "%s %s left" counts the raw.`, l.Name, amount, cooked, whole, l.Name, amount, l.Name)
}
