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
	lines := []string{fmt.Sprintf("%s: %s into dishes%s.", head, sayMg(max(0, c.Dishes.AP)), w.shortCost())}
	if c.Due > 0 {
		lines[0] += fmt.Sprintf(" Used %.0f%% of the edible food that had to go.", 100*w.UsedShare)
	}
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
	if c.Served.AP > 0 {
		rest = append(rest, "served of what was put by "+sayMg(c.Served.AP))
	}
	if c.Given.AP > 0 {
		rest = append(rest, w.givenHow()+" "+sayMg(c.Given.AP))
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
	for _, s := range []string{w.SayDishes(), w.sayUntold()} {
		if s != "" {
			lines = append(lines, s)
		}
	}
	return strings.Join(lines, "\n")
}

// shortCost: ", £9.60 of £13.00 (400 g without a cost)", each currency by itself; "" where nobody
// said any.
func (w *Wrap) shortCost() string {
	var costs []string
	one := func(w *Wrap, sign string) {
		if had := w.hadCost(); had != 0 {
			costs = append(costs, sayPrice(sign, w.intoDishes())+" of "+sayPrice(sign, had))
		}
	}
	for _, a := range w.apart {
		one(a.Wrap, a.sign)
	}
	if len(w.apart) == 0 {
		one(w, w.Currency)
	}
	if len(costs) == 0 {
		return ""
	}
	text := ", " + both(costs, "and")
	if n := w.unpriced(); n > 0 {
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
