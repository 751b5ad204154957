package bot

import (
	"fmt"

	"scullion/pantry/measure"
)

// sayNoPot tells of a dish that was cooked lately and of which nobody has said what is left, how that is said; ""
// where words are of no such dish.
func (t *turn) sayNoPot(phrase string) (string, error) {
	dish, in, err := t.cooked(phrase)
	if err != nil || dish == "" {
		return "", err
	}
	if l := potLine(t.k, dish); l != nil && l.OnHand() > 0 {
		return "", nil
	}
	var went []string
	for _, e := range in {
		if l := t.k.Line(e.Line); e.Amount > 0 && !e.Trim {
			went = append(went, l.Name+" "+measure.Say(e.Amount, l.Unit))
		}
	}
	return fmt.Sprintf("Nobody has said how much of the %s is left: \"2kg %[1]s left\" puts it by. Into it went %s.", dish, few(went)), nil
}
