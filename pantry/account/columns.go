package account

import (
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// Columns are the weights of a line, or of several. AP, EP and Cost each close:
// Had + Came + Made = Dishes + Served + Given + Trim + Binned + Carried + Variance.
type Columns struct {
	Had, Came, Made, Dishes, Served, Given, Trim, Binned, Carried, Variance Weight
}

func (c *Columns) add(o Columns) {
	to, from := c.all(), o.all()
	for i := range to {
		to[i].add(*from[i])
	}
}

func (c *Columns) all() []*Weight {
	return []*Weight{&c.Had, &c.Came, &c.Made, &c.Dishes, &c.Served, &c.Given, &c.Trim, &c.Binned, &c.Carried, &c.Variance}
}

// sides are what came and what went, what is carried from one account to the next first.
func (c *Columns) sides() [2][]*Weight {
	return [2][]*Weight{{&c.Had, &c.Came, &c.Made}, {&c.Carried, &c.Dishes, &c.Trim, &c.Served, &c.Given, &c.Binned, &c.Variance}}
}

// split sets EP by AP, so that rounding loses nothing between the columns.
func (c *Columns) split(share func(int64) int64) {
	for _, side := range c.sides() {
		before, sum := int64(0), int64(0)
		for _, to := range side {
			sum += to.AP
			to.EP = share(sum) - before
			before += to.EP
		}
	}
}

// sums are those of a line, in the order of Columns.all.
func (l *Line) sums() []Sum {
	return []Sum{l.Had, l.Came, l.Made, l.Dishes, l.Served, l.Given, l.Trim, l.Binned, l.Carried, l.Variance}
}

// Columns weighs the account of one of the period's lines; its food is nil where no table knows it.
func (p *Period) Columns(a *Line, line *pantry.Line, f *food.Food) (c Columns) {
	w := weigher{line, f}
	from := a.sums()
	for i, to := range c.all() {
		*to = Weight{AP: int64(from[i].Amount), Cost: from[i].Cost, Unpriced: w.grams(from[i].Unpriced)}
	}
	c.split(func(amount int64) int64 { return w.grams(measure.Amount(amount)) })
	for _, x := range c.all() {
		x.AP = x.EP
	}
	if flow, made := p.made[a.ID]; made {
		c.madeOf(&flow.eaten)
	} else {
		w.setEdible(&c, a)
	}
	return c
}

// madeOf sets the edible weights of food that was made: those of what it was made of.
func (c *Columns) madeOf(eaten *Line) {
	from := eaten.sums()
	for i, to := range c.all() {
		to.EP = from[i].Cost
	}
}

// setEdible sets the edible weights of food that came in: of all columns the usual share. Where trim was
// weighed, the dishes have what it left them. Was that less than usual, the trim has what it took of the
// edible; was it more, nobody can say where that came from, and the variance is less by it.
func (w weigher) setEdible(c *Columns, a *Line) {
	c.split(w.edible)
	went := c.Dishes.EP + c.Trim.EP
	if a.Trim.Amount <= 0 {
		return
	}
	c.Dishes.EP = c.Dishes.AP
	c.Trim.EP = min(max(0, went-c.Dishes.EP), c.Trim.AP)
	c.Variance.EP += went - c.Dishes.EP - c.Trim.EP
}
