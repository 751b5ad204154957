package account

import (
	"scullion/pantry"
	"scullion/pantry/food"
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

// Columns weighs the account of one of the period's lines; its food is nil where no table knows it.
func (p *Period) Columns(a *Line, line *pantry.Line, f *food.Food) (c Columns) {
	w := weigher{line, f}
	in, out := int64(0), int64(0)
	for _, x := range []struct {
		to   *Weight
		s    Sum
		side *int64
	}{
		{&c.Had, a.Had, &in}, {&c.Came, a.Came, &in}, {&c.Made, a.Made, &in},
		{&c.Dishes, a.Dishes, &out}, {&c.Served, a.Served, &out}, {&c.Given, a.Given, &out}, {&c.Trim, a.Trim, &out}, {&c.Binned, a.Binned, &out}, {&c.Variance, a.Variance, &out},
	} {
		*x.to = Weight{AP: w.grams(x.s.Amount), Cost: x.s.Cost, Unpriced: w.grams(x.s.Unpriced)}
		*x.side += x.to.AP
	}
	c.Carried = Weight{AP: in - out, Cost: a.Carried.Cost, Unpriced: w.grams(a.Carried.Unpriced)} // with what rounding leaves
	if flow, made := p.made[a.ID]; made {
		c.madeOf(&flow.eaten)
	} else {
		w.setEdible(&c, a)
	}
	return c
}

// madeOf sets the edible weights of food that was made: those of what it was made of.
func (c *Columns) madeOf(eaten *Line) {
	from := []Sum{eaten.Had, eaten.Came, eaten.Made, eaten.Dishes, eaten.Served, eaten.Given, eaten.Trim, eaten.Binned, eaten.Carried, eaten.Variance}
	for i, to := range c.all() {
		to.EP = from[i].Cost
	}
}

// setEdible sets the edible weights of food that came in: of all columns the usual share. Where trim was
// weighed, the dishes have what it left them. Was that less than usual, the trim has what it took of the
// edible; was it more, nobody can say where that came from, and the variance is less by it.
func (w weigher) setEdible(c *Columns, a *Line) {
	split := func(list ...*Weight) { // so that rounding loses nothing between them
		before, sum := int64(0), int64(0)
		for _, x := range list {
			sum += x.AP
			x.EP = w.edible(sum) - before
			before += x.EP
		}
	}
	went := Weight{AP: c.Dishes.AP + c.Trim.AP}
	split(&c.Had, &c.Came, &c.Made)
	split(&c.Carried, &went, &c.Served, &c.Given, &c.Binned, &c.Variance)
	if a.Trim.Amount <= 0 {
		c.Dishes.EP = went.EP
		return
	}
	c.Dishes.EP = w.Eaten(a)
	c.Trim.EP = min(max(0, went.EP-c.Dishes.EP), c.Trim.AP)
	c.Variance.EP += went.EP - c.Dishes.EP - c.Trim.EP
}
