package account

import (
	"slices"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// goods is what food that was made is of: what that cost, the mg edible that went in, and those of them that came
// out of the crate.
type goods struct{ cost, food, crate int64 }

func (g *goods) add(o goods) {
	g.cost, g.food, g.crate = g.cost+o.cost, g.food+o.food, g.crate+o.crate
}

// pot is what has gone into a dish, or into what a message makes.
type pot struct {
	goods
	mg   int64 // as it weighs prepared
	came int64 // what it came to, as weighed, less what was put by of it; 0 nobody said
	from int64 // the message from which on it counts
}

// take takes so many mg out of a pot.
func (p *pot) take(mg int64) (g goods) {
	if p == nil || mg <= 0 {
		return g
	}
	whole := p.mg
	if p.came > 0 {
		whole = p.came
	}
	if whole <= 0 {
		return g
	}
	mg = min(mg, whole)
	of := func(n *int64) int64 {
		part, err := measure.Ratio{Num: mg, Den: whole}.Of(measure.Amount(max(0, *n)))
		if err != nil {
			return 0
		}
		*n -= int64(part)
		return int64(part)
	}
	g = goods{of(&p.cost), of(&p.food), of(&p.crate)}
	if of(&p.mg); p.came > 0 {
		p.came -= mg
	}
	return g
}

// fold is a line with lots that have a value other than their cost, and its account of that.
type fold struct {
	line pantry.Line
	sum  Line
}

func (f *fold) apply(e pantry.Entry, value int64) (effect pantry.Effect, gone Sum, err error) {
	e.Lot.Cost, e.Sign = value, ""
	before := stock(&f.line)
	effect, err = f.sum.apply(&f.line, &e)
	return effect, before.minus(stock(&f.line)), err
}

// begin begins another stretch.
func (f *fold) begin() {
	has := stock(&f.line)
	f.sum = Line{ID: f.line.ID, Had: has, Carried: has}
}

// folds are those of a line that was made: by cost, by mg edible of all that went in, by those of them
// that its own weight has room for, and by what of all that came out of the crate; and, anew in each stretch, by the mg that were there before or come of
// a stretch before, and by those out of the crate that do not.
type folds struct {
	cost, food, eaten, crate, old, fresh fold
	span                                 int
	late                                 Sum
}

// carrier gives what was made, and was not priced, the cost of what it was made of.
type carrier struct {
	k      *pantry.Kitchen
	spans  []Span
	foodOf func(*pantry.Line) *food.Food
	came   func(span int, dish string) int64
	used   func(line int64, span int) *Line // the account of a line that is not made

	stocks map[int64]bool // messages by which something is made that is no dish's leftovers
	made   map[int64]*folds
	raw    map[int64]*pantry.Line
	pots   map[string]*pot
	makes  map[int64]*pot  // by message
	parts  map[int64]int64 // mg that a message makes, less those that have had their share of what it is of
	list   []map[int64]madeFlow
}

// madeFlow is what became of the mg edible in food that was made, in a stretch: see folds.
type madeFlow struct {
	food, eaten, old, fresh Line
	late                    Sum // see Line
}

// carry gives what was made its cost: of all uses of its message, and of those for the dish that it
// is what is left of the share that it weighs of what that came to, or of what went in, prepared,
// where nobody said that. All are the entries in force, in order; a dish begins anew with each span.
// It gives what became of all that was made, by span and line.
func (c *carrier) carry(all []*pantry.Placed) ([]map[int64]madeFlow, error) {
	c.list = make([]map[int64]madeFlow, len(c.spans))
	c.stocks, c.made, c.raw, c.pots, c.makes, c.parts = map[int64]bool{}, map[int64]*folds{}, map[int64]*pantry.Line{}, map[string]*pot{}, map[int64]*pot{}, map[int64]int64{}
	for _, e := range all {
		if e.Act != pantry.Make {
			continue
		}
		if c.made[e.Line] == nil {
			if err := c.follow(e.Line); err != nil {
				return nil, err
			}
		}
		if e.Dish != "" {
			c.pots[e.Dish] = &pot{}
		} else {
			c.stocks[e.N], c.makes[e.N] = true, &pot{}
			c.parts[e.N] += weigher{c.k.Line(e.Line), c.foodOf(c.k.Line(e.Line))}.grams(e.Amount)
		}
	}
	if len(c.made) == 0 {
		return c.list, nil
	}
	for _, e := range all {
		if e.Act == pantry.Use && c.potOf(e) != nil && c.made[e.Line] == nil && c.raw[e.Line] == nil {
			l, err := pantry.Fold(*c.k.Line(e.Line), nil)
			if err != nil {
				return nil, err
			}
			c.raw[e.Line] = &l
		}
	}
	span := 0
	for _, e := range all {
		for span < len(c.spans)-1 && e.N > c.spans[span].To {
			span++
		}
		if err := c.step(e, span); err != nil {
			return nil, err
		}
	}
	for id, f := range c.made {
		c.turn(id, f, len(c.spans))
	}
	return c.list, nil
}

// follow begins the folds of a line that is made.
func (c *carrier) follow(line int64) error {
	l, err := pantry.Fold(*c.k.Line(line), nil)
	if err != nil {
		return err
	}
	f := &folds{}
	for _, x := range []*fold{&f.cost, &f.food, &f.eaten, &f.crate, &f.old, &f.fresh} {
		x.line, x.sum = l, Line{ID: line}
	}
	c.made[line] = f
	return nil
}

// potOf gives the pot that a use goes into: what its message makes, else its dish; nil none.
func (c *carrier) potOf(e *pantry.Placed) *pot {
	if c.stocks[e.N] && e.Act == pantry.Use {
		return c.makes[e.N]
	}
	return c.pots[e.Dish]
}

// turn brings a line that is made to a stretch: the accounts of those before end.
func (c *carrier) turn(id int64, f *folds, span int) {
	for ; f.span < span; f.span++ {
		if c.list[f.span] == nil {
			c.list[f.span] = map[int64]madeFlow{}
		}
		f.eaten.sum.settleTrim()
		c.list[f.span][id] = madeFlow{f.food.sum, f.eaten.sum, f.old.sum, f.fresh.sum, f.late}
		f.old.line.Lots, f.fresh.line.Lots = slices.Clone(f.food.line.Lots), slices.Clone(f.food.line.Lots)
		for i := range f.fresh.line.Lots {
			f.fresh.line.Lots[i].Cost = 0
		}
		for _, x := range []*fold{&f.food, &f.eaten, &f.old, &f.fresh} {
			x.begin()
		}
		f.late = Sum{}
	}
}

// step folds an entry in.
func (c *carrier) step(e *pantry.Placed, span int) error {
	f := c.made[e.Line]
	if f == nil && c.raw[e.Line] == nil {
		return nil
	}
	drawn := goods{}
	weigh := weigher{c.k.Line(e.Line), c.foodOf(c.k.Line(e.Line))}
	mg := int64(0)
	if f != nil {
		c.turn(e.Line, f, span)
		g, old := c.valueOf(e, f, span, weigh)
		effect, cost, err := f.cost.apply(e.Entry, e.Lot.Cost)
		if err != nil {
			return err
		}
		_, food, _ := f.food.apply(e.Entry, g.food)
		// a pot boils down: what is left of it is no heavier than itself
		_, _, _ = f.eaten.apply(e.Entry, min(g.food, weigh.grams(e.Amount)))
		_, crate, _ := f.crate.apply(e.Entry, g.crate)
		_, _, _ = f.old.apply(e.Entry, old)
		fresh := g.crate
		if old > 0 {
			fresh = 0
		}
		_, _, _ = f.fresh.apply(e.Entry, fresh)
		drawn, mg = goods{cost: cost.Cost, food: food.Cost, crate: crate.Cost}, weigh.grams(cost.Amount+effect.Over)
	} else {
		l := c.raw[e.Line]
		before := stock(l)
		effect, err := l.Apply(e.Entry)
		if err != nil {
			return err
		}
		gone := before.minus(stock(l))
		drawn.cost = gone.Cost
		mg = weigh.grams(gone.Amount + effect.Over)
		drawn.food, mg = weigh.trimmed(c.used(e.Line, span), e.Dish, mg)
		if l.Shelf != food.Cupboard {
			drawn.crate = drawn.food
		}
	}
	if e.Act != pantry.Use && e.Act != pantry.Return || e.Trim {
		return nil
	}
	p := c.potOf(e)
	if p == nil {
		return nil
	}
	if from := c.spans[span].From; p.from != from {
		*p = pot{from: from}
		if e.Dish != "" && p == c.pots[e.Dish] && c.came != nil {
			p.came = c.came(span, e.Dish)
		}
	}
	p.add(drawn)
	p.mg += mg
	return nil
}

// trimmed gives the mg edible of so much that went into a dish, as the account of the line counts them,
// and the mg that it weighs prepared, as the dish's sheet does.
func (w weigher) trimmed(a *Line, dish string, mg int64) (eaten, prepared int64) {
	of := func(n, all measure.Amount) int64 {
		if all <= 0 {
			return mg
		}
		return int64(float64(mg) * float64(max(0, n)) / float64(all))
	}
	eaten, prepared = w.edible(mg), mg
	if w.food != nil {
		prepared = int64(float64(mg) * w.food.Prepared().Float())
	}
	if a.Trim.Amount <= 0 || a.Dishes.Amount <= 0 {
		return eaten, prepared
	}
	for _, d := range a.Of {
		if d.Name != dish {
			continue
		}
		if off, known := a.cameOff(d); known {
			n := of(d.Amount-off, d.Amount)
			return n, n
		}
	}
	return mg, prepared
}

// valueOf gives what comes in by an entry, and the mg of it that are older than the stretch; of what
// is made, and was not priced, the entry gets its cost.
func (c *carrier) valueOf(e *pantry.Placed, f *folds, span int, w weigher) (g goods, old int64) {
	switch e.Act {
	case pantry.Receive:
		g.food = w.edible(w.grams(e.Amount))
		g.crate = g.food
		return g, g.food
	case pantry.Make:
	default:
		return g, 0
	}
	mg := w.grams(e.Amount)
	late := false
	if p := c.pots[e.Dish]; e.Dish != "" {
		late = p.from != c.spans[span].From && p.mg > 0
		g = p.take(mg)
	} else if p := c.makes[e.N]; p != nil { // of several parts each has the share of its weight, and the last what remains
		p.mg, p.came = c.parts[e.N], 0
		if mg < p.mg {
			g = p.take(mg)
		} else {
			g = p.goods
			*p = pot{from: p.from}
		}
		c.parts[e.N] -= mg
	}
	own := e.Lot.Cost != 0
	if !own {
		e.Lot.Cost = g.cost
	}
	if own || late {
		f.late.Cost += e.Lot.Cost
	}
	if g.food == 0 { // nobody said of what
		g.food = mg
	}
	if late {
		f.late.Amount += e.Amount
		old = g.food
	}
	return g, old
}
