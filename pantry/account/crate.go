package account

import (
	"scullion/pantry"
	"scullion/pantry/food"
)

// Weight is mg as purchased (AP), the edible of it (EP), and what it cost, in the currency's
// smallest unit; of Unpriced mg nobody said the cost. Of food that was made here AP is its own
// weight, and EP the edible weight of what went into it, by the same share as its cost, but never more
// than its own.
type Weight struct{ AP, EP, Cost, Unpriced int64 }

func (w *Weight) add(o Weight) {
	w.AP, w.EP, w.Cost, w.Unpriced = w.AP+o.AP, w.EP+o.EP, w.Cost+o.Cost, w.Unpriced+o.Unpriced
}

// Crate is the account of the crate as a whole. The cupboard is not counted, but for what went out of it into
// dishes: that is paid for with them.
type Crate struct {
	Columns

	Late   Weight // see Line
	Larder Weight // out of the cupboard into dishes, without EP; less what was made for it
	Due    int64  // mg edible that had to be used, see UsedShare
	Used   int64  // mg edible of that which was used
	Kept   Weight // of Carried, what keeps so well that it is no waste
	Saved  int64  // mg of trim that was used
	More   int64  // mg as purchased that there was more than the record had, of the lines where there was; Variance is net of it
}

// Total sums the crate's lines. FoodOf gives the food of a line; nil where no table knows it:
// all of it counts as edible then. What is poured weighs what its density says, as much as
// water where that is not known.
func (p *Period) Total(k *pantry.Kitchen, foodOf func(*pantry.Line) *food.Food) (c Crate) {
	for i := range p.Lines {
		a := &p.Lines[i]
		line := k.Line(a.ID)
		if line == nil {
			continue
		}
		f := foodOf(line)
		w := weigher{line, f}
		if line.Shelf == food.Cupboard {
			c.Larder.add(w.drawn(a))
			continue
		}
		flow, isMade := p.made[a.ID]
		x := p.Columns(a, line, f)
		c.Columns.add(x)
		c.More += max(0, -x.Variance.AP)
		c.Late.add(Weight{AP: w.grams(a.Late.Amount), Cost: a.Late.Cost})
		keeps := f != nil && f.Keeper && !isMade
		if keeps {
			c.Kept.add(x.Carried)
		}
		due, used := w.used(a, keeps)
		if isMade {
			due, used = flow.used()
		}
		c.Due, c.Used = c.Due+due, c.Used+used
		c.Saved += w.grams(a.Saved)
	}
	return c
}

// IntoDishes is what the dishes cost, out of the crate and out of the cupboard, with the trim, less what was put by of
// them: that is carried, binned or given away, or served after all. It is negative where more was put by than
// went in.
func (c *Crate) IntoDishes() int64 {
	return c.Dishes.Cost + c.Trim.Cost + c.Served.Cost + c.Larder.Cost - (c.Made.Cost - c.Late.Cost)
}

// ToAccount is all cost that there was for that: of what was in the crate or came into it, and of what the dishes took out of
// the cupboard. What is put by of dishes of this stretch is in that. It is what IntoDishes, Given, Binned, Carried and
// Variance make.
func (c *Crate) ToAccount() int64 {
	return c.Had.Cost + c.Came.Cost + c.Late.Cost + c.Larder.Cost
}

// drawn is what dishes took of a line of the cupboard.
func (w weigher) drawn(a *Line) (x Weight) {
	for _, s := range []Sum{a.Dishes, a.Trim, a.Served} {
		x.add(Weight{AP: w.grams(s.Amount), Cost: s.Cost, Unpriced: w.grams(s.Unpriced)})
	}
	x.Cost -= a.Made.Cost - a.Late.Cost
	return x
}

// used is the mg edible of a line that had to be used, and that was used.
func (w weigher) used(a *Line, keeps bool) (due, used int64) {
	went := max(0, a.Used().Amount)
	all := went + a.Binned.Amount + max(0, a.Variance.Amount)
	if !keeps {
		all += a.Carried.Amount
	}
	used = max(0, w.Eaten(a))
	return w.edible(w.grams(all)) + max(0, used-w.edible(w.grams(went))), used
}

// used is the like of what was made. What was there before is to be used now; what is of this
// stretch was used when it was made, and is not used after all if it is binned: then what came into
// it out of the cupboard had to be used as well.
func (f madeFlow) used() (due, used int64) {
	had := f.old.Had.Cost + f.old.Came.Cost + f.old.Made.Cost
	due = had - f.old.Given.Cost
	used = had - f.old.Given.Cost - f.old.Carried.Cost - f.old.Binned.Cost - max(0, f.old.Variance.Cost)
	binned := max(0, f.food.Binned.Cost-f.old.Binned.Cost)
	ofCrate := min(binned, f.fresh.Binned.Cost)
	return due + binned - ofCrate, used - ofCrate
}

// UsedShare is how much of the edible weight that had to be used was used, from 0 to 1; 0 where there
// was nothing. To be used is all that came into the crate or was in it, edible: less what keeps and is
// still there, less what was given away, and without the cupboard. Used is what went into dishes which
// were served, given away or put by. What was binned is not used, and no more is a dish that was binned
// or what was put by of one, however it was called and whenever it was made: it counts by what went
// into it. What is put by is to be used in the next stretch. Where trim was weighed, food is edible as
// far as the trim left it, if that is more than the usual.
func (c *Crate) UsedShare() float64 {
	if c.Due <= 0 {
		return 0
	}
	return min(1, max(0, float64(c.Used)/float64(c.Due)))
}
