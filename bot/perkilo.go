package bot

import (
	"fmt"
	"regexp"
	"strings"

	"scullion/pantry"
	"scullion/pantry/measure"
)

// perKilo asks what food cost by weight.
var perKilo = regexp.MustCompile(`(?i)^\s*(?:how much|what) (?:did we pay for|did|was|were|is|are) (?:the )?([a-z][a-z' -]*?)(?: cost| come to)? (?:(?:per|a|by the) (kilo|kg|kilogram|litre|liter)|each)(?: last time| today)?\s*\??\s*$`)

// sayPerKilo: "Chicken: £3.33 a kilo, £6.00 each (14.4 kg for £48.00 on Tue 3 Mar)." of each of the last two deliveries that
// had a price.
func (t *turn) sayPerKilo(said string) (string, error) {
	h := t.ear.find(said)
	if !h.exact || h.sound || len(h.lines) == 0 {
		return "", nil
	}
	var says []string
	for _, l := range h.lines {
		entries, err := t.book.Since(l.ID, &pantry.Message{})
		if err != nil {
			return "", err
		}
		n := 0
		for i := len(entries) - 1; i >= 0 && n < 2; i-- {
			e := entries[i]
			if e.Act != pantry.Receive || e.Lot.Cost == 0 || e.Amount == 0 {
				continue
			}
			n++
			unit := map[measure.Kind]string{measure.Gram: "kilo", measure.Millilitre: "litre"}[l.Unit]
			text := fmt.Sprintf("%s: %s a %s", title(l.Name), sayPrice(e.Sign, int64(float64(e.Lot.Cost)*1e6/float64(e.Amount)+0.5)), unit)
			if e.Pieces > 0 {
				text += fmt.Sprintf(", %s each", sayPrice(e.Sign, int64(float64(e.Lot.Cost)*1000/float64(e.Pieces)+0.5)))
			}
			says = append(says, fmt.Sprintf("%s (%s for %s, in %s).", text, measure.Say(e.Amount, l.Unit), sayPrice(e.Sign, e.Lot.Cost), t.sayAt(e)))
		}
		if n == 0 {
			says = append(says, fmt.Sprintf("%s: nobody said what it cost. \"the %s cost £4\" tells it.", title(l.Name), l.Name))
		}
	}
	return strings.Join(says, "\n"), nil
}
