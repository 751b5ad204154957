package bot

import (
	"fmt"
	"strings"
	"time"

	"scullion/pantry/account"
)

// Short tells the account in three lines, as a phone has room for: what was used of what there
// was and what that cost; what became of the rest; the dishes. Say tells all.
func (w *Wrap) Short(x *Records, now time.Time) string {
	c := &w.total
	head := "Wrap-up"
	if w.Since != nil {
		head += ", since " + sayWhen(*w.Since, now)
	}
	lines := []string{fmt.Sprintf("%s: %s into dishes, %.0f%% of what there was to eat%s.", head, sayMg(max(0, c.Dishes.AP)), 100*w.UsedShare, w.shortCost())}
	var rest []string
	if c.Binned.AP > 0 {
		text := "binned "
		names := w.binnedNames(x)
		if len(names) != 1 {
			text += sayMg(c.Binned.AP) + ": "
		}
		rest = append(rest, text+strings.Join(names, ", "))
	}
	if s := w.shortTrim(x); s != "" {
		rest = append(rest, s)
	}
	if c.Given.AP > 0 {
		rest = append(rest, "given away "+sayMg(c.Given.AP))
	}
	if c.Carried.AP > 0 {
		s := "carried over " + sayMg(c.Carried.AP)
		if c.Kept.AP > 0 {
			s += ", " + sayMg(c.Kept.AP) + " of it keeps"
		}
		rest = append(rest, s)
	}
	rest = append(rest, sayVariance(c)...)
	if len(rest) > 0 {
		lines = append(lines, title(strings.Join(rest, "; "))+".")
	}
	if s := w.SayDishes(); s != "" {
		lines = append(lines, s)
	}
	return strings.Join(lines, "\n")
}

// shortCost: ", £9.60 of £13.00 (400 g without a cost)"; "" where nobody said any.
func (w *Wrap) shortCost() string {
	c := &w.total
	had := c.Had.Cost + c.Came.Cost
	if had == 0 || strings.Contains(w.Currency, "+") {
		return ""
	}
	text := ", " + sayPrice(w.Currency, w.intoDishes()) + " of " + sayPrice(w.Currency, had)
	if n := c.Had.Unpriced + c.Came.Unpriced; n > 0 {
		text += " (" + sayMg(n) + " without a cost)"
	}
	return text
}

// shortTrim: "trim 180 g (leek 30%, books 56%)".
func (w *Wrap) shortTrim(x *Records) string {
	if w.total.Trim.AP <= 0 {
		return ""
	}
	text := "trim " + sayMg(w.total.Trim.AP)
	var lines []*account.Line
	for i := range w.period.Lines {
		lines = append(lines, &w.period.Lines[i])
	}
	if list := trims(x, lines); len(list) > 0 {
		text += " (" + list[0].say(", ") + ")"
	}
	return text
}
