package account

import (
	"time"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// Ledger is where entries are read from.
type Ledger interface {
	// AllInForce gives every entry in force, in order. It is read and not changed.
	AllInForce() ([]pantry.Placed, error)
}

// Period is the account of a stretch of the ledger, up to a wrap-up or still open.
type Period struct {
	Span
	Since  time.Time // of the end of the stretch before; zero: from the beginning
	Until  time.Time // of its own; zero: it is open
	Before time.Time // when the wrap-up before was said, no later than Since
	Said   time.Time // when its own was
	Lines  []Line    // of those that had, got or lost anything, in order of first arrival
	Wrapup string    // the message that closed it; "" it is open

	made map[int64]madeFlow // what became of food that was made, by line
}

// end is the last place there is.
const end = 1<<63 - 1

// Periods reckons the accounts of all stretches of a kitchen's ledger, in order, the open one
// last. FoodOf gives the food of a line; nil where no table knows it. Came gives the mg that a dish of
// a stretch came to once cooked, 0 where nobody said; it may be nil.
func Periods(k *pantry.Kitchen, wraps []pantry.WrapUp, ledger Ledger, foodOf func(*pantry.Line) *food.Food, came func(*Period, string) int64) ([]Period, error) {
	list := make([]Period, 0, len(wraps)+1)
	spans := make([]Span, 0, len(wraps)+1)
	from, since, before := int64(1), time.Time{}, time.Time{}
	for _, w := range wraps {
		spans = append(spans, Span{from, w.N})
		list = append(list, Period{Span: spans[len(spans)-1], Since: since, Until: w.Ended, Before: before, Said: w.At, Wrapup: w.Message})
		from, since, before = w.N+1, w.Ended, w.At
	}
	spans = append(spans, Span{from, end})
	list = append(list, Period{Span: spans[len(spans)-1], Since: since, Before: before})
	inForce, err := ledger.AllInForce()
	if err != nil {
		return nil, err
	}
	all, made := pointers(inForce), map[int64]bool{}
	for i, p := range all {
		if p.Act == pantry.Make { // it gets its cost below
			own := *p
			all[i], made[p.Line] = &own, true
		}
	}
	entries := byLine(all)
	accounts := map[int64][]Line{}
	reckon := func(wasMade bool) error {
		for _, l := range k.Lines {
			if made[l.ID] == wasMade {
				var err error
				if accounts[l.ID], err = of(*l, entries[l.ID], spans); err != nil {
					return err
				}
			}
		}
		return nil
	}
	if err := reckon(false); err != nil {
		return nil, err
	}
	if len(made) > 0 {
		c := carrier{k: k, spans: spans, foodOf: foodOf, used: func(line int64, span int) *Line { return &accounts[line][span] }}
		if came != nil {
			c.came = func(span int, dish string) int64 { return came(&list[span], dish) }
		}
		flows, err := c.carry(all)
		if err != nil {
			return nil, err
		}
		if err := reckon(true); err != nil {
			return nil, err
		}
		for i := range list {
			list[i].made = flows[i]
			for id, f := range flows[i] {
				accounts[id][i].Late = f.late
			}
		}
	}
	for _, l := range k.Lines {
		for i := range accounts[l.ID] {
			if a := &accounts[l.ID][i]; !a.isEmpty() {
				list[i].Lines = append(list[i].Lines, *a)
			}
		}
	}
	return list, nil
}

func (l *Line) isEmpty() bool {
	return l.In().Amount == 0 && l.Out().Amount == 0 && l.Variance.Amount == 0 && l.Dishes.Amount == 0 && l.Served.Amount == 0 && l.Given.Amount == 0 && l.Binned.Amount == 0 && l.Loose == 0 && l.Saved == 0
}

// weigher turns amounts of a line into weights.
type weigher struct {
	line *pantry.Line
	food *food.Food
}

// grams gives the mg of an amount.
func (w weigher) grams(a measure.Amount) int64 {
	if w.line.Unit != measure.Millilitre || w.food == nil || w.food.Density == 0 {
		return int64(a)
	}
	return int64(a) * w.food.Density / 1000
}

// edible gives the EP of an AP.
func (w weigher) edible(mg int64) int64 {
	if w.food == nil {
		return mg
	}
	share := w.food.Edible()
	return int64(float64(mg) * share.Float())
}

// Eaten is the mg of a line that were eaten, of what went into dishes: what is left of it where
// trim was recorded, else the usual share.
func (w weigher) Eaten(a *Line) int64 {
	if a.Trim.Amount > 0 {
		return w.grams(a.Dishes.Amount)
	}
	return w.edible(w.grams(a.Dishes.Amount))
}

// TrimShares says how much of what was used was trimmed off, how much the books allow, and how
// much that is where all that can be dinner is used; from 0 to 1. Ok is false where nothing was
// recorded, or no book has a figure.
func TrimShares(a *Line, f *food.Food) (was, books, least float64, ok bool) {
	used := a.Used().Amount
	if f == nil || a.Trim.Amount == 0 || used <= 0 || f.Refuse == 0 && len(f.Trim) == 0 {
		return 0, 0, 0, false
	}
	return float64(a.Trim.Amount) / float64(used), float64(f.Refuse) / 100, 1 - f.Edible().Float(), true
}

// pointers points to each entry: entries are large, and a year has many.
func pointers(all []pantry.Placed) []*pantry.Placed {
	list := make([]*pantry.Placed, len(all))
	for i := range all {
		list[i] = &all[i]
	}
	return list
}

// byLine parts entries by their lines, in order.
func byLine(all []*pantry.Placed) map[int64][]*pantry.Placed {
	parts := map[int64][]*pantry.Placed{}
	for _, p := range all {
		parts[p.Line] = append(parts[p.Line], p)
	}
	return parts
}
