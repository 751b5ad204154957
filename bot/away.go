package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// supplier is who gets what goes back unused.
const supplier = "the supplier"

// sayAway says where a use went that left the house, behind its amount: " given away to next
// door"; "" where it did not.
func sayAway(dish string) string {
	switch who, away := pantry.Away(dish); {
	case away && who == supplier:
		return " sent back to " + supplier
	case away:
		return " " + dish
	}
	return ""
}

// sayGiven tells what was given away and to whom, the most first: "Given away: 219 g lemon to next door." The
// cupboard's is told too: it is owed, or was paid for.
func (w *Wrap) sayGiven(x *Records) string {
	type gift struct {
		l *pantry.Line
		d account.Dish
	}
	var list []gift
	for i := range w.period.Lines {
		a := &w.period.Lines[i]
		l := x.Kitchen.Line(a.ID)
		for _, d := range a.GivenTo {
			if d.Amount > 0 {
				list = append(list, gift{l, d})
			}
		}
	}
	if len(list) == 0 {
		return ""
	}
	slices.SortStableFunc(list, func(a, b gift) int { return cmp.Compare(b.d.Amount, a.d.Amount) })
	var names []string
	for _, g := range list[:min(len(list), mostTold)] {
		s := measure.Say(g.d.Amount, g.l.Unit) + " " + g.l.Name
		switch g.d.Name {
		case "":
		case supplier:
			s += " back to " + supplier
		default:
			s += " to " + g.d.Name
		}
		if g.l.Shelf == food.Cupboard {
			s += " (cupboard)"
		}
		names = append(names, s)
	}
	if more := len(list) - len(names); more > 0 {
		names = append(names, fmt.Sprintf("%d more", more))
	}
	head := title(w.GivenSays())
	if head == "Sent back" {
		for i := range names {
			names[i] = strings.Replace(names[i], " back to "+supplier, "", 1)
		}
	}
	return head + ": " + both(names, "and") + "."
}

// GivenSays is what became of what was given away, in a word or two: "given away", or "sent back" of what all went back
// to who sold it.
func (w *Wrap) GivenSays() string {
	back, away := false, false
	for i := range w.period.Lines {
		for _, d := range w.period.Lines[i].GivenTo {
			if d.Amount > 0 {
				back, away = back || d.Name == supplier, away || d.Name != supplier
			}
		}
	}
	switch {
	case back && away:
		return "given away or sent back"
	case back:
		return "sent back"
	}
	return "given away"
}
