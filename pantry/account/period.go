package account

import (
	"time"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// Ledger is where entries are read from.
type Ledger interface {
	AllInForce(do func(pantry.Placed) error) error
}

// Period is the account of a stretch of the ledger, up to a wrap-up or still open.
type Period struct {
	Span
	Since  time.Time // of the wrap-up before; zero: from the beginning
	Until  time.Time // of its own; zero: it is open
	Lines  []Line    // of those that had, got or lost anything, in order of first arrival
	Wrapup string    // the message that closed it; "" it is open
}

// end is the last place there is.
const end = 1<<63 - 1

// Periods reckons the accounts of all stretches of a kitchen's ledger, in order, the open one
// last. FoodOf gives the food of a line; nil where no table knows it.
func Periods(k *pantry.Kitchen, wraps []pantry.WrapUp, ledger Ledger, foodOf func(*pantry.Line) *food.Food) ([]Period, error) {
	list := make([]Period, 0, len(wraps)+1)
	spans := make([]Span, 0, len(wraps)+1)
	from, since := int64(1), time.Time{}
	for _, w := range wraps {
		spans = append(spans, Span{from, w.N})
		list = append(list, Period{Span: spans[len(spans)-1], Since: since, Until: w.At, Wrapup: w.Message})
		from, since = w.N+1, w.At
	}
	spans = append(spans, Span{from, end})
	list = append(list, Period{Span: spans[len(spans)-1], Since: since})
	var all []pantry.Placed
	if err := ledger.AllInForce(func(p pantry.Placed) error {
		all = append(all, p)
		return nil
	}); err != nil {
		return nil, err
	}
	if err := carry(k, all, spans, foodOf); err != nil {
		return nil, err
	}
	entries := map[int64][]pantry.Placed{}
	for _, p := range all {
		entries[p.Line] = append(entries[p.Line], p)
	}
	for _, l := range k.Lines {
		accounts, err := Of(*l, entries[l.ID], spans)
		if err != nil {
			return nil, err
		}
		for i := range accounts {
			if !accounts[i].isEmpty() {
				list[i].Lines = append(list[i].Lines, accounts[i])
			}
		}
	}
	return list, nil
}

func (l *Line) isEmpty() bool {
	return l.In().Amount == 0 && l.Out().Amount == 0 && l.Variance.Amount == 0 && l.Dishes.Amount == 0 && l.Given.Amount == 0 && l.Binned.Amount == 0 && l.Loose == 0 && l.Saved == 0
}

// Weight is mg as purchased (AP), the edible of it (EP), and what it cost, in the currency's
// smallest unit; of Unpriced mg nobody said the cost.
type Weight struct{ AP, EP, Cost, Unpriced int64 }

func (w *Weight) add(o Weight) {
	w.AP, w.EP, w.Cost, w.Unpriced = w.AP+o.AP, w.EP+o.EP, w.Cost+o.Cost, w.Unpriced+o.Unpriced
}

// Crate is the account of the crate as a whole: the cupboard is not counted. It closes as the
// lines do: Had + Came + Made = Dishes + Given + Trim + Binned + Carried + Variance.
type Crate struct {
	Had, Came, Made, Dishes, Given, Trim, Binned, Carried, Variance Weight

	Due   int64  // mg edible that there was to use: what came and what was carried in, less what keeps and what was given away
	Eaten int64  // mg edible of that which went into dishes, and was not thrown away out of them
	Kept  Weight // of Carried, what keeps so well that it is no waste
	Saved int64  // mg of trim that was used
	More  int64  // mg as purchased that there was more than the record had, of the lines where there was; Variance is net of it
}

// Total sums the crate's lines. FoodOf gives the food of a line; nil where no table knows it:
// all of it counts as edible then. What is poured weighs what its density says, as much as
// water where that is not known.
func (p *Period) Total(k *pantry.Kitchen, foodOf func(*pantry.Line) *food.Food) (c Crate) {
	for i := range p.Lines {
		a := &p.Lines[i]
		line := k.Line(a.ID)
		if line == nil || line.Shelf == food.Cupboard {
			continue
		}
		f := foodOf(line)
		w := weigher{line, f}
		in := Weight{}
		for _, x := range []struct {
			to *Weight
			s  Sum
		}{{&c.Had, a.Had}, {&c.Came, a.Came}, {&c.Made, a.Made}} {
			weight := w.of(x.s)
			x.to.add(weight)
			in.add(weight)
		}
		for _, x := range []struct {
			to *Weight
			s  Sum
		}{{&c.Given, a.Given}, {&c.Trim, a.Trim}, {&c.Binned, a.Binned}, {&c.Variance, a.Variance}, {&c.Dishes, a.Dishes}} {
			weight := w.of(x.s)
			switch x.to {
			case &c.Trim:
				weight.EP = 0
			case &c.Dishes:
				weight.EP = w.Eaten(a)
			case &c.Variance:
				c.More += max(0, -weight.AP)
			}
			x.to.add(weight)
			in.AP -= weight.AP
		}
		carried := w.of(a.Carried)
		carried.AP = in.AP // what rounding leaves
		c.Carried.add(carried)
		keeps := f != nil && f.Keeper && line.Made == 0
		if keeps {
			c.Kept.add(carried)
		}
		due, eaten := w.used(a, keeps)
		c.Due, c.Eaten = c.Due+due, c.Eaten+eaten
		c.Saved += w.grams(a.Saved)
	}
	return c
}

// used is the mg edible that there was to use of a line, and that was used of it. What was made in
// the period was used when it was made: of that there is nothing to use, and what is thrown away
// of it is no use after all, a gram for a gram. What became of a line that had both goes by how
// much there was of each.
func (w weigher) used(a *Line, keeps bool) (due, eaten int64) {
	in := a.In().Amount
	if in <= 0 {
		return 0, w.Eaten(a)
	}
	part := func(mg int64, of measure.Amount) int64 { return int64(float64(mg) * float64(of) / float64(in)) }
	there := a.Had.Amount + a.Came.Amount
	due = w.of(Sum{Amount: there}).EP - part(w.of(a.Given).EP, there)
	if keeps {
		due -= part(w.of(a.Carried).EP, there)
	}
	return due, part(w.Eaten(a), there) - part(w.of(a.Binned).EP, a.Made.Amount)
}

// UsedShare is how much of what there was to use went into dishes that were eaten or kept, from 0
// to 1: what was given away does not count, nor what keeps and was carried over. Zero where there
// was nothing.
func (c *Crate) UsedShare() float64 {
	if c.Due <= 0 {
		return 0
	}
	return min(1, max(0, float64(c.Eaten)/float64(c.Due)))
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

func (w weigher) of(s Sum) Weight {
	x := Weight{AP: w.grams(s.Amount), Cost: s.Cost, Unpriced: w.grams(s.Unpriced)}
	x.EP = w.edible(x.AP)
	return x
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
