package bot

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"

	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// planAt gives the i-th service, if it was begun in a period; else nil.
func (x *Records) planAt(p *account.Period, i int) *running {
	s := &x.Services[i]
	if s.Begun.Before(p.Since) || !p.Until.IsZero() && s.Begun.After(p.Until) {
		return nil
	}
	on := &running{}
	if json.Unmarshal(s.Body, on) != nil {
		return nil
	}
	on.Service = *s
	return on
}

// mostPast is how many past services are told.
const mostPast = 8

// pastServices compares the services that were wrapped up, the latest first.
func (t *turn) pastServices() (Reply, error) {
	x, list, err := t.wraps()
	if err != nil {
		return Reply{}, err
	}
	return Reply{Kind: Answer, Text: SayPast(x, list, t.m.At)}, nil
}

// SayPast compares services that were wrapped up, the latest first, a line each.
func SayPast(x *Records, list []*Wrap, now time.Time) string {
	var lines []string
	m := apart(x, list)
	for i, w := range slices.Backward(list) {
		if w.Until == nil || !w.happened() || len(lines) == mostPast {
			continue
		}
		c := &w.total
		head := sayWhen(*w.Until, now)
		if said := x.mealSaid(w); said != "" {
			head = title(said) + ", " + head
		}
		text := fmt.Sprintf("%s: used %.0f%% of the edible food that had to go, %s binned, %s", head, 100*w.UsedShare, sayMg(c.Binned.AP), counted1(len(w.Dishes), "dish", "dishes"))
		if len(w.Dishes) > 0 {
			text += " of " + sayMg(max(0, c.Dishes.AP)) + w.sayPortions()
		}
		if cost, _ := m.say(i, 1, func(_ *Records, w *Wrap) (int64, error) { return w.intoDishes(), nil }); cost != "" {
			text += ", " + cost + " into dishes"
		}
		lines = append(lines, text+".")
	}
	if len(lines) == 0 {
		return `No service was wrapped up yet. "wrap up" does that when one is over.`
	}
	return strings.Join(lines, "\n")
}

// Waste is what became of a food over several services.
type Waste struct {
	Item      string  `json:"item"`
	Unit      string  `json:"unit"`
	Had       float64 `json:"had"` // came in and made, of all these services
	Binned    float64 `json:"binned"`
	Cost      float64 `json:"cost_binned"`
	Apart     []Cost  `json:"cost_apart,omitempty"` // of each currency, where costs were said in several: Cost is 0 then
	Services  int     `json:"services"`             // in which it was there
	Times     int     `json:"times_binned"`         // and in which some was binned
	LessBy    float64 `json:"less_by"`              // of a usual delivery, so much was binned on average
	Delivered float64 `json:"usually_delivered"`

	line *pantry.Line
	cost int64
}

// Cost is a sum of money in one currency.
type Cost struct {
	Currency string  `json:"currency,omitempty"` // its sign; none: nobody said it
	Cost     float64 `json:"cost"`

	minor int64
}

// sayCostsApart: "£1.04 and $0.13".
func sayCostsApart(list []Cost) string {
	var signs []string
	for _, c := range list {
		signs = append(signs, sayPrice(c.Currency, c.minor))
	}
	return both(signs, "and")
}

// binnedApart gives what was binned over services of the lines that are wanted, in each currency.
func binnedApart(x *Records, list []*Wrap, want func(*pantry.Line) bool) (costs []Cost) {
	if len(list) == 0 {
		return nil
	}
	for _, p := range apart(x, list).purses {
		c := Cost{Currency: p.sign}
		for _, w := range p.list {
			for _, a := range w.period.Lines {
				if l := x.Kitchen.Line(a.ID); l.Shelf != food.Cupboard && want(l) {
					c.minor += a.Binned.Cost
				}
			}
		}
		if c.Cost = float64(c.minor) / 100; c.minor != 0 {
			costs = append(costs, c)
		}
	}
	return costs
}

// Wasted sums over services what was binned of the crate, the dearest first, then the heaviest.
// Trim is no waste here, nor what was carried over.
func Wasted(x *Records, list []*Wrap) (waste []Waste) {
	at := map[int64]int{}
	came := map[int64]int{}
	for _, w := range list {
		for i := range w.period.Lines {
			a := &w.period.Lines[i]
			l := x.Kitchen.Line(a.ID)
			if l.Shelf == food.Cupboard {
				continue
			}
			n, ok := at[a.ID]
			if !ok {
				n, at[a.ID] = len(waste), len(waste)
				waste = append(waste, Waste{Item: l.Name, Unit: l.Unit.String(), line: l})
			}
			o := &waste[n]
			o.Services++
			o.Had += (a.Came.Amount + a.Made.Amount).Units()
			if a.Came.Amount > 0 {
				came[a.ID]++
			}
			if a.Binned.Amount > 0 {
				o.Times++
				o.Binned += a.Binned.Amount.Units()
				o.cost += a.Binned.Cost
			}
		}
	}
	waste = slices.DeleteFunc(waste, func(o Waste) bool { return o.Binned == 0 })
	for i := range waste {
		o := &waste[i]
		if o.Cost = float64(o.cost) / 100; len(list[0].apart) > 0 { // several currencies are not added
			o.Cost, o.cost, o.Apart = 0, 0, binnedApart(x, list, func(l *pantry.Line) bool { return l == o.line })
		}
		if n := came[o.line.ID]; n > 0 {
			o.LessBy, o.Delivered = o.Binned/float64(n), o.Had/float64(n)
		}
	}
	slices.SortStableFunc(waste, func(a, b Waste) int {
		return cmp.Or(cmp.Compare(b.cost, a.cost), cmp.Compare(b.Binned, a.Binned), strings.Compare(a.Item, b.Item))
	})
	return waste
}

// leastTimes is from how many services with some of a food binned on less of it is to be
// ordered. The program's own judgement, no source.
const leastTimes = 2

// wasted tells what was binned most over the past services.
func (t *turn) wasted() (Reply, error) {
	x, list, err := t.wraps()
	if err != nil {
		return Reply{}, err
	}
	return Reply{Kind: Answer, Text: SayWaste(x, list)}, nil
}

// givenSoFar tells what has been given away in this service.
func (t *turn) givenSoFar() (Reply, error) {
	x, list, err := t.wraps()
	if err != nil {
		return Reply{}, err
	}
	if w := Latest(list); w != nil {
		if s := w.sayGiven(x); s != "" {
			return Reply{Kind: Answer, Text: s}, nil
		}
	}
	return Reply{Kind: Answer, Text: "Nothing was given away in this service, as far as anybody said."}, nil
}

// sayShare: "Over 5 services: 3.1 kg binned, 4% of what there was to eat, cost 12.40." The open
// one counts if anything happened in it.
func sayShare(x *Records, list []*Wrap) string {
	services, binned, eaten := 0, int64(0), int64(0)
	for _, w := range list {
		if !w.happened() {
			continue
		}
		services++
		c := &w.total
		binned += c.Binned.EP
		eaten += c.Binned.EP + max(0, c.Dishes.EP)
	}
	text := "Over " + counted1(services, "service", "services") + ": " + sayMg(binned) + " binned that could be eaten"
	if eaten > 0 {
		text += fmt.Sprintf(", %.0f%% of what left the shelf", 100*float64(binned)/float64(eaten))
	}
	if cost := sayCostsApart(binnedApart(x, list, func(*pantry.Line) bool { return true })); cost != "" {
		text += ", cost " + cost
	}
	return text + "."
}

// trimOver tells of the foods that were trimmed most over services how much came off, and what
// the books allow.
func trimOver(x *Records, list []*Wrap) string {
	sum := map[int64]*account.Line{}
	var order []*account.Line
	for _, w := range list {
		for i := range w.period.Lines {
			a := &w.period.Lines[i]
			if a.Trim.Amount == 0 {
				continue
			}
			o := sum[a.ID]
			if o == nil {
				o = &account.Line{ID: a.ID}
				sum[a.ID] = o
				order = append(order, o)
			}
			o.Trim.Amount += a.Trim.Amount
			o.Dishes.Amount += a.Dishes.Amount
		}
	}
	return sayTrimOf(x, order)
}

// SayWaste tells what was binned most over services, with a bar behind each, what came off in
// trimming, and what to order less of.
func SayWaste(x *Records, list []*Wrap) string {
	waste := Wasted(x, list)
	if len(waste) == 0 {
		return "Nothing was binned, as far as anybody said."
	}
	lines := []string{sayShare(x, list)}
	most := 0.0
	for _, o := range waste[:min(len(waste), mostPast)] {
		most = max(most, o.Binned)
	}
	for _, o := range waste[:min(len(waste), mostPast)] {
		line := fmt.Sprintf("%s: %s binned in %s", title(o.Item), measure.Say(measure.Amount(o.Binned*1000), o.line.Unit), counted1(o.Times, "service", "services"))
		switch {
		case len(o.Apart) > 0:
			line += ", cost " + sayCostsApart(o.Apart)
		case o.Cost > 0:
			line += ", cost " + sayPrice(list[0].Currency, o.cost)
		}
		lines = append(lines, line+". "+bar(o.Binned/most))
	}
	if trim := trimOver(x, list); trim != "" {
		lines = append(lines, trim)
	}
	orders := 0
	for _, o := range waste {
		if o.Times >= leastTimes && o.LessBy > 0 && o.Delivered > 0 {
			lines = append(lines, fmt.Sprintf("Order less %s: of %s a delivery %s was binned, on average.", o.Item, measure.Say(measure.Amount(o.Delivered*1000), o.line.Unit), measure.Say(measure.Amount(o.LessBy*1000), o.line.Unit)))
			if orders++; orders == mostTold {
				break
			}
		}
	}
	return strings.Join(lines, "\n")
}

// bar draws a share from 0 to 1 with up to ten marks.
func bar(share float64) string { return strings.Repeat("#", max(1, int(share*10+0.5))) }
