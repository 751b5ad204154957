package bot

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"scullion/pantry/account"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// sayWhen: "18:05" of today, else "Tue 3 Mar 18:05".
func sayWhen(at, now time.Time) string {
	at = at.In(now.Location())
	if at.Year() == now.Year() && at.YearDay() == now.YearDay() {
		return at.Format("15:04")
	}
	return at.Format("Mon 2 Jan 15:04")
}

// sayMg: "1.2 kg".
func sayMg(mg int64) string { return measure.Say(measure.Amount(mg), measure.Gram) }

// sayCost: "12.40".
func sayCost(minor int64) string {
	sign := ""
	if minor < 0 {
		sign, minor = "-", -minor
	}
	return fmt.Sprintf("%s%d.%02d", sign, minor/100, minor%100)
}

// Say tells the account in a few lines.
func (w *Wrap) Say(x *Records, now time.Time) string {
	c := &w.total
	head := "Wrap-up"
	if w.Since != nil {
		head += ", since " + sayWhen(*w.Since, now)
	}
	lines := []string{fmt.Sprintf("%s: %s of the crate into dishes.%s", head, sayMg(max(0, c.Dishes.AP)), w.sayUsed())}
	text := "Had " + sayMg(c.Had.AP+c.Came.AP)
	if c.Made.AP > 0 {
		text += ", made or put by " + sayMg(c.Made.AP)
	}
	if c.Served.AP > 0 {
		text += ", served of that " + sayMg(c.Served.AP)
	}
	for _, s := range []struct {
		what string
		mg   int64
	}{{"trim", c.Trim.AP}, {w.givenHow(), c.Given.AP}, {"binned", c.Binned.AP}} {
		if s.mg > 0 {
			text += ", " + s.what + " " + sayMg(s.mg)
		}
	}
	if c.Carried.AP > 0 {
		text += ", carried over " + sayMg(c.Carried.AP)
		if c.Kept.AP > 0 {
			text += " (" + sayMg(c.Kept.AP) + " of it keeps)"
		}
	}
	for _, s := range sayVariance(c) {
		text += ", " + s
	}
	lines = append(lines, text+".")
	for _, s := range []string{w.sayMoney(), w.sayGiven(x), w.sayBinned(x), w.sayTrim(x), w.SayDishes()} {
		if s != "" {
			lines = append(lines, s)
		}
	}
	if c.Due > 0 {
		lines = append(lines, usedMeans)
	}
	return strings.Join(lines, "\n")
}

// usedMeans says what is told of what was used.
const usedMeans = "Used: went into dishes that were served, given away or put by. Binned is not used, binned dishes neither. Left out: what keeps, food given away as it came, the cupboard."

// sayUsed: " Used 72% of the edible food that had to go: 1.8 kg of 2.5 kg."
func (w *Wrap) sayUsed() string {
	if w.total.Due <= 0 {
		return ""
	}
	return fmt.Sprintf(" Used %.0f%% of the edible food that had to go: %s of %s.", 100*w.UsedShare, sayMg(max(0, w.total.Used)), sayMg(w.total.Due))
}

// sayVariance: "3.4 kg unaccounted for", "6.7 kg more than the record had": the one does not make up for
// the other.
func sayVariance(c *account.Crate) (list []string) {
	if less := c.Variance.AP + c.More; less > 0 {
		list = append(list, sayMg(less)+" unaccounted for")
	}
	if c.More > 0 {
		list = append(list, sayMg(c.More)+" more than the record had")
	}
	return list
}

// sayPrice gives a cost with the sign of its currency, if that is known.
func sayPrice(sign string, minor int64) string {
	if strings.Contains(sign, "+") { // several: no sum is of one of them
		sign = ""
	}
	return sign + sayCost(minor)
}

// sayMoney: "Cost 42.10: 31.20 into dishes, 1.20 binned. Of 3 kg the cost is not known." What
// is trimmed is paid for with the dish.
func (w *Wrap) sayMoney() string {
	text := w.sayCosts(w.Currency)
	for i, a := range w.apart {
		if i == 0 {
			text = ""
		}
		text = strings.TrimSpace(text + "\n" + a.sayCosts(a.sign))
	}
	if text == "" {
		return ""
	}
	return text + w.sayUnpriced()
}

// sayCosts: "Cost £42.10: £31.20 into dishes, £1.20 binned."
func (w *Wrap) sayCosts(sign string) string {
	had := w.hadCost()
	if had == 0 {
		return ""
	}
	list := append([]string{sayPrice(sign, w.intoDishes()) + " into dishes"}, w.otherCosts(sign)...)
	return "Cost " + sayPrice(sign, had) + ": " + strings.Join(list, ", ") + "."
}

// sayDishCosts tells first what went into dishes: "£31.20 into dishes; £1.20 binned, of £42.10 that was
// there."
func (w *Wrap) sayDishCosts(sign string) string {
	had := w.hadCost()
	if had == 0 {
		return ""
	}
	text := sayPrice(sign, w.intoDishes()) + " into dishes"
	if list := w.otherCosts(sign); len(list) > 0 {
		text += "; " + strings.Join(list, ", ") + ", of " + sayPrice(sign, had) + " that was there"
	}
	return text + "."
}

// otherCosts is what became of the rest: "£1.20 binned".
func (w *Wrap) otherCosts(sign string) (list []string) {
	c := &w.total
	for _, s := range []struct {
		minor int64
		what  string
	}{{c.Given.Cost, "given away"}, {c.Binned.Cost, "binned"}, {c.Carried.Cost, "carried over"}, {c.Variance.Cost, "unaccounted for"}} {
		if s.minor > 0 {
			list = append(list, sayPrice(sign, s.minor)+" "+s.what)
		}
	}
	if c.Variance.Cost < 0 {
		list = append(list, "less "+sayPrice(sign, -c.Variance.Cost)+" for what there was more of than the record had")
	}
	return list
}

// hadCost is what all cost that there was for the dishes.
func (w *Wrap) hadCost() int64 { return w.total.ToAccount() + max(0, -w.total.IntoDishes()) }

// intoDishes is what the dishes cost, less what was put by of them.
func (w *Wrap) intoDishes() int64 { return max(0, w.total.IntoDishes()) }

// sayUnpriced: " Of 3 kg nobody said the cost." What was made here is paid for with what went in.
func (w *Wrap) sayUnpriced() string {
	if n := w.unpriced(); n > 0 {
		return " Of " + sayMg(n) + " nobody said the cost."
	}
	return ""
}

// unpriced is so much of what there was for the dishes that nobody said the cost of, mg.
func (w *Wrap) unpriced() int64 {
	c := &w.total
	return c.Had.Unpriced + c.Came.Unpriced + max(0, c.Larder.Unpriced)
}

// mostTold is how many foods are named of what was binned or trimmed.
const mostTold = 3

// binned lists the lines of the crate of which something was binned, the most first.
func (w *Wrap) binned(x *Records) (list []account.Line) {
	for _, a := range w.period.Lines {
		if l := x.Kitchen.Line(a.ID); a.Binned.Amount > 0 && l.Shelf != food.Cupboard {
			list = append(list, a)
		}
	}
	slices.SortStableFunc(list, func(a, b account.Line) int { return cmp.Compare(b.Binned.Amount, a.Binned.Amount) })
	return list
}

// sayBinned: "Binned: 200 g spinach."
func (w *Wrap) sayBinned(x *Records) string {
	names := w.binnedNames(x)
	if len(names) == 0 {
		return ""
	}
	return "Binned: " + both(names, "and") + "."
}

// binnedNames names what was binned, the most first.
func (w *Wrap) binnedNames(x *Records) []string {
	list := w.binned(x)
	var names []string
	for _, a := range list[:min(len(list), mostTold)] {
		l := x.Kitchen.Line(a.ID)
		names = append(names, measure.Say(a.Binned.Amount, l.Unit)+" "+l.Name)
	}
	if more := len(list) - len(names); more > 0 {
		names = append(names, fmt.Sprintf("%d more", more))
	}
	return names
}

// sayTrim: "Trim: leek 31%; the books allow 56%, with all of it used that can be dinner 8%."
func (w *Wrap) sayTrim(x *Records) string {
	var lines []*account.Line
	for i := range w.period.Lines {
		lines = append(lines, &w.period.Lines[i])
	}
	return sayTrimOf(x, lines)
}

// trimmed is how much of a food was trimmed off, how much the books allow, and how much that is
// where all that can be dinner is used; from 0 to 1.
type trimmed struct {
	name             string
	was, book, least float64
	mg               measure.Amount
}

// say: "leek 31%; the books allow 56%". A book that has no refuse means food that is sold without.
func (o *trimmed) say(between string) string {
	s := fmt.Sprintf("%s %.0f%%", o.name, 100*o.was)
	if o.book > 0 {
		s += fmt.Sprintf("%sthe books allow %.0f%%", between, 100*o.book)
	}
	return s
}

// trims lists what was trimmed, the most first.
func trims(x *Records, lines []*account.Line) (list []trimmed) {
	for _, a := range lines {
		l := x.Kitchen.Line(a.ID)
		if was, book, least, ok := account.TrimShares(a, x.FoodOf(l)); ok {
			list = append(list, trimmed{l.Name, was, book, least, a.Trim.Amount})
		}
	}
	slices.SortStableFunc(list, func(a, b trimmed) int { return cmp.Compare(b.mg, a.mg) })
	return list
}

// sayTrimOf tells of the lines that were trimmed most.
func sayTrimOf(x *Records, lines []*account.Line) string {
	list := trims(x, lines)
	if len(list) == 0 {
		return ""
	}
	var told []string
	for _, o := range list[:min(len(list), mostTold)] {
		s := o.say("; ")
		if math.Round(100*o.least) < math.Round(100*o.book) {
			s += fmt.Sprintf(", %.0f%% where all that can be dinner is used", 100*o.least)
		}
		told = append(told, s)
	}
	return "Trim: " + strings.Join(told, ". ") + "."
}

// mostDishesTold is how many dishes a wrap-up names.
const mostDishesTold = 6

// SayDishes: "Dishes: 1 leek tart, 1.2 kg. 2 soup, 800 g."
func (w *Wrap) SayDishes() string {
	if len(w.Dishes) == 0 {
		return ""
	}
	var list []string
	for n, d := range w.Dishes[:min(len(w.Dishes), mostDishesTold)] {
		s := fmt.Sprintf("%d %s, %s", n+1, d.Name, sayMg(int64(d.Grams*1000)))
		if d.Portions > 0 {
			s += fmt.Sprintf(" for %d", d.Portions)
			if d.Covers > 0 {
				s += " covers"
			}
		}
		list = append(list, s)
	}
	if more := len(w.Dishes) - len(list); more > 0 {
		list = append(list, fmt.Sprintf("%d more", more))
	}
	return "Dishes, as purchased: " + strings.Join(list, ". ") + "."
}

// SayLines tells each line of the crate: "Leek: had 1.2 kg; dishes 800 g, trim 248 g, carried
// over 152 g.", "Soup: put by 2 kg; served 500 g, binned 1.5 kg." What nothing happened to is told in one
// line: "And 12.5 kg of 7 more, untouched."
func (w *Wrap) SayLines(x *Records) []string {
	var lines []string
	rest, untouched := int64(0), 0
	for i := range w.period.Lines {
		a := &w.period.Lines[i]
		l := x.Kitchen.Line(a.ID)
		if l.Shelf == food.Cupboard {
			continue
		}
		if a.Had == a.Carried && a.Came.Amount+a.Made.Amount+a.Dishes.Amount+a.Served.Amount+a.Given.Amount+a.Binned.Amount+a.Trim.Amount+a.Variance.Amount == 0 {
			if mg := w.period.Columns(a, l, x.FoodOf(l)).Carried.AP; mg > 0 {
				rest, untouched = rest+mg, untouched+1
			}
			continue
		}
		say := func(n measure.Amount) string { return measure.Say(n, l.Unit) }
		var parts []string
		for _, s := range []struct {
			what string
			n    measure.Amount
		}{{"dishes", a.Dishes.Amount}, {"served", a.Served.Amount}, {"trim", a.Trim.Amount}, {"given away", a.Given.Amount}, {"binned", a.Binned.Amount}, {"carried over", a.Carried.Amount}} {
			if s.n > 0 {
				parts = append(parts, s.what+" "+say(s.n))
			}
		}
		if a.Dishes.Amount < 0 {
			parts = append(parts, "put back "+say(-a.Dishes.Amount)+" more than went in")
		}
		switch {
		case a.Variance.Amount > 0:
			parts = append(parts, say(a.Variance.Amount)+" unaccounted for")
		case a.Variance.Amount < 0:
			parts = append(parts, say(-a.Variance.Amount)+" more than the record had")
		}
		var in []string
		if n := a.Had.Amount + a.Came.Amount; n > 0 || a.Made.Amount == 0 {
			in = append(in, "had "+say(n))
		}
		switch {
		case a.Made.Amount == 0:
		case a.Stock:
			in = append(in, "made "+say(a.Made.Amount))
		default:
			in = append(in, "put by "+say(a.Made.Amount))
		}
		lines = append(lines, title(l.Name)+": "+strings.Join(in, ", ")+"; "+strings.Join(parts, ", ")+".")
	}
	if len(lines) == 0 {
		lines = []string{"No line of the crate had anything happen to it."}
	}
	if untouched > 0 {
		lines = append(lines, fmt.Sprintf("And %s of %d more, untouched.", sayMg(rest), untouched))
	}
	return lines
}
