// Package account reckons what became of a kitchen's food between two moments: a fold over the
// entries in force, nothing else. For every line, to the milligram and to the penny,
//
//	had + came + made = dishes + served + given + trim + binned + carried + variance
//
// where given is what was given away, had is what was there at the beginning, trim is what cooks said they took off the food
// that went into dishes, served is what a count found less of food that was made here, and carried is what is there at the end.
package account

import (
	"slices"

	"scullion/pantry"
	"scullion/pantry/measure"
)

// Sum is an amount of a line as purchased (AP), in mg or µl, with what it cost, in the
// currency's smallest unit. Of Unpriced, a part of Amount, nobody said the cost.
type Sum struct {
	Amount   measure.Amount
	Cost     int64
	Unpriced measure.Amount
}

func (s *Sum) add(o Sum) {
	s.Amount, s.Cost, s.Unpriced = s.Amount+o.Amount, s.Cost+o.Cost, s.Unpriced+o.Unpriced
}

func (s Sum) minus(o Sum) Sum {
	return Sum{s.Amount - o.Amount, s.Cost - o.Cost, s.Unpriced - o.Unpriced}
}

// Line is the account of one line. Dishes and Variance may be negative: more came back than
// went in, more was there than the record had.
type Line struct {
	ID       int64
	Had      Sum
	Came     Sum // received
	Made     Sum
	Dishes   Sum // used, less what was put back and Trim
	Served   Sum // of what was made here, what was sold or eaten as it was, or was gone when it was counted
	Given    Sum // given away: sold, lent; no dish, and no waste
	Trim     Sum // that came off what was used; beyond it, see Loose
	Binned   Sum
	Carried  Sum
	Variance Sum
	Loose    measure.Amount // trim recorded beyond what was used: of food that was used before
	Saved    measure.Amount // trim that was used: tops in the stock
	Signs    []string       // of the currencies in which what came in was priced
	Of       []Dish         // of what was used, for which dish, in order of first use
	TrimOf   []Dish         // of the trim, what was said of which dish
	GivenTo  []Dish         // of Given, to whom; "" nobody said
	Pieces   int64          // thousandths of pieces that were used where they were counted
	Stock    bool           // some was made that is no dish's leftovers
	sold     measure.Amount // of Served, what was not counted
	Late     Sum            // of Made, what is of dishes of a stretch before; its cost also where Made has a price of its own
}

// Dish is what one dish took of a line, net of what was put back.
type Dish struct {
	Name string // "" none was named
	Sum
}

// In is all that the line had to give.
func (l *Line) In() (s Sum) {
	for _, o := range []Sum{l.Had, l.Came, l.Made} {
		s.add(o)
	}
	return s
}

// Out is all that is accounted for.
func (l *Line) Out() (s Sum) {
	for _, o := range []Sum{l.Dishes, l.Served, l.Given, l.Trim, l.Binned, l.Carried, l.Variance} {
		s.add(o)
	}
	return s
}

// Used is what was used as purchased: into dishes and trimmed.
func (l *Line) Used() (s Sum) {
	s.add(l.Dishes)
	s.add(l.Trim)
	return s
}

// Span is a stretch of the order of things: messages From to To, both in it.
type Span struct{ From, To int64 }

// Of reckons the account of one line in each of several spans, which follow one another
// without overlapping. Steps are all its entries in force, in order. An entry that the
// line cannot hold is an error.
func Of(line pantry.Line, steps []pantry.Placed, spans []Span) ([]Line, error) {
	return of(line, pointers(steps), spans)
}

func of(line pantry.Line, steps []*pantry.Placed, spans []Span) ([]Line, error) {
	l, err := pantry.Fold(line, nil)
	if err != nil {
		return nil, err
	}
	list := make([]Line, len(spans))
	at := 0
	for i := range spans {
		for ; at < len(steps) && steps[at].N < spans[i].From; at++ {
			if _, err := l.Apply(steps[at].Entry); err != nil {
				return nil, err
			}
		}
		a := &list[i]
		a.ID, a.Had = l.ID, stock(&l)
		a.Carried = a.Had
		for ; at < len(steps) && steps[at].N <= spans[i].To; at++ {
			if _, err := a.apply(&l, &steps[at].Entry); err != nil {
				return nil, err
			}
		}
		a.settleTrim()
	}
	return list, nil
}

// stock is what is on hand, and what that cost: of each lot the same share of its cost as of
// its weight.
func stock(l *pantry.Line) (s Sum) {
	for i := range l.Lots {
		x := &l.Lots[i]
		s.Amount += x.Left
		switch {
		case x.Left == 0:
		case x.Left == x.Came && x.Cost > 0: // most are untouched
			s.Cost += x.Cost
		case x.Cost == 0:
			s.Unpriced += x.Left
		case x.Came > 0:
			if cost, err := (measure.Ratio{Num: int64(x.Left), Den: int64(x.Came)}).Of(measure.Amount(x.Cost)); err == nil {
				s.Cost += int64(cost)
			}
		}
	}
	return s
}

// apply folds an entry into a line and notes what became of what by it.
func (a *Line) apply(l *pantry.Line, e *pantry.Entry) (pantry.Effect, error) {
	effect, err := l.Apply(*e)
	if err != nil {
		return effect, err
	}
	after := stock(l)
	gone := a.Carried.minus(after) // what the entry took off the shelf, or, negative, brought
	a.Carried = after
	switch e.Act {
	case pantry.Receive, pantry.Make:
		s := Sum{Amount: e.Amount, Cost: e.Lot.Cost}
		if e.Lot.Cost == 0 {
			s.Unpriced = e.Amount
		}
		if e.Sign != "" && e.Lot.Cost != 0 && !slices.Contains(a.Signs, e.Sign) {
			a.Signs = append(a.Signs, e.Sign)
		}
		to := &a.Came
		if e.Act == pantry.Make {
			to = &a.Made
			a.Stock = a.Stock || e.Dish == ""
		}
		to.add(s)
		gone.add(s) // what rounding, and lots that were put together, make of the cost
		a.Variance.add(gone)
	case pantry.Use:
		if e.Trim {
			a.Saved += e.Amount
			break
		}
		gone.Amount += effect.Over // used beyond the record: it was there
		gone.Unpriced += effect.Over
		a.Variance.add(Sum{Amount: -effect.Over, Unpriced: -effect.Over})
		a.Pieces += e.Pieces
		if a.asItIs(e, l.Made > 0) {
			a.Served.add(gone)
			break
		}
		a.use(e.Dish, gone)
	case pantry.Return:
		if a.asItIs(e, l.Made > 0) {
			a.Served.add(gone)
			break
		}
		a.use(e.Dish, gone)
	case pantry.Bin:
		if e.Trim {
			a.Loose += e.Amount
			if e.Dish != "" {
				addTo(&a.TrimOf, e.Dish, Sum{Amount: e.Amount})
			}
			break
		}
		gone.Amount += effect.Over
		gone.Unpriced += effect.Over
		a.Variance.add(Sum{Amount: -effect.Over, Unpriced: -effect.Over})
		a.Binned.add(gone)
	case pantry.Count:
		if l.Made > 0 {
			gone = a.serve(gone)
		}
		a.Variance.add(gone)
	default:
		a.Variance.add(gone)
	}
	return effect, nil
}

// asItIs says whether what was made here was sold or eaten as it is, or comes back from that.
func (a *Line) asItIs(e *pantry.Entry, made bool) bool {
	switch {
	case e.Dish != "" || !made:
		return false
	case e.Act == pantry.Use:
		a.sold += e.Amount
	case e.Amount > a.sold:
		return false
	default:
		a.sold -= e.Amount
	}
	return true
}

// serve notes that a count found so much less of what was made. Where it found more, less was served
// before than it seemed; what is left of that comes back.
func (a *Line) serve(gone Sum) (rest Sum) {
	switch n := min(a.Served.Amount, -gone.Amount); {
	case gone.Amount > 0:
		a.Served.add(gone)
		return Sum{}
	case n > 0:
		back := a.Served.part(n)
		a.Served = a.Served.minus(back)
		gone.add(back)
	}
	return gone
}

// part is so much of a sum, with the same share of its cost.
func (s Sum) part(n measure.Amount) Sum {
	p := Sum{Amount: n}
	if s.Amount <= 0 {
		return p
	}
	share := measure.Ratio{Num: int64(n), Den: int64(s.Amount)}
	if cost, err := share.Of(measure.Amount(max(0, s.Cost))); err == nil {
		p.Cost = int64(cost)
	}
	if unpriced, err := share.Of(max(0, s.Unpriced)); err == nil {
		p.Unpriced = min(n, unpriced)
	}
	return p
}

// use notes what went into a dish or was given away, or came back.
func (a *Line) use(dish string, s Sum) {
	sum, of := &a.Dishes, &a.Of
	if who, away := pantry.Away(dish); away {
		dish, sum, of = who, &a.Given, &a.GivenTo
	}
	sum.add(s)
	addTo(of, dish, s)
}

func addTo(list *[]Dish, dish string, s Sum) {
	at := slices.IndexFunc(*list, func(d Dish) bool { return d.Name == dish })
	if at < 0 {
		at, *list = len(*list), append(*list, Dish{Name: dish})
	}
	(*list)[at].add(s)
}

// cameOff is how much of a line's trim came off what went into a dish: what was said of that dish, else
// its share of what was said of none. Not known where none was.
func (a *Line) cameOff(d Dish) (off measure.Amount, known bool) {
	own := func(dish string) measure.Amount {
		for _, t := range a.TrimOf {
			if t.Name == dish && dish != "" {
				return t.Amount
			}
		}
		return 0
	}
	if n := own(d.Name); n > 0 {
		return min(n, d.Amount), true
	}
	rest, others := a.Trim.Amount, a.Used().Amount
	for _, t := range a.TrimOf {
		rest -= t.Amount
	}
	for _, o := range a.Of {
		if own(o.Name) > 0 {
			others -= max(0, o.Amount)
		}
	}
	if rest <= 0 || others <= 0 {
		return 0, false
	}
	return measure.Amount(float64(d.Amount) * float64(min(rest, others)) / float64(others)), true
}

// settleTrim takes the trim that was recorded out of what was used, as far as that goes.
func (a *Line) settleTrim() {
	n := min(a.Loose, max(0, a.Dishes.Amount))
	if n == 0 {
		return
	}
	off := a.Dishes.part(n)
	a.Trim, a.Dishes, a.Loose = off, a.Dishes.minus(off), a.Loose-n
}

// Flow reckons what of each line went where by some entries in force, in order, without what was
// there before: of its lines Dishes, Given, Trim, Binned and Loose are those that Of gives, in
// amounts alone, and so are Of and GivenTo; the rest is zero. Of the lines in made some had been
// made before. Lines come in order of first use.
func Flow(steps []pantry.Placed, made map[int64]bool) []*Line {
	var list []*Line
	at := map[int64]*Line{}
	now := map[int64]bool{}
	for i := range steps {
		e := &steps[i].Entry
		if e.Act == pantry.Make && e.Amount > 0 {
			now[e.Line] = true
		}
		if e.Act != pantry.Use && e.Act != pantry.Return && e.Act != pantry.Bin {
			continue
		}
		a := at[e.Line]
		if a == nil {
			a = &Line{ID: e.Line}
			at[e.Line], list = a, append(list, a)
		}
		switch {
		case e.Act == pantry.Bin && e.Trim:
			a.Loose += e.Amount
		case e.Act == pantry.Bin:
			a.Binned.Amount += e.Amount
		case e.Act == pantry.Use && e.Trim:
			a.Saved += e.Amount
		case a.asItIs(e, made[e.Line] || now[e.Line]):
		case e.Act == pantry.Use:
			a.use(e.Dish, Sum{Amount: e.Amount})
		default:
			a.use(e.Dish, Sum{Amount: -e.Amount})
		}
	}
	for _, a := range list {
		a.settleTrim()
	}
	return list
}
