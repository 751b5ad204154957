package account

import (
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// pot is what has gone into a dish, or into what a message makes: mg edible, and what that cost.
type pot struct {
	mg, cost int64
	from     int64 // the message from which on it counts
}

// take takes so much out of a pot, and gives what that cost.
func (p *pot) take(mg int64) int64 {
	if p == nil || p.mg <= 0 || mg <= 0 {
		return 0
	}
	mg = min(mg, p.mg)
	cost, err := measure.Ratio{Num: mg, Den: p.mg}.Of(measure.Amount(p.cost))
	if err != nil {
		return 0
	}
	p.mg, p.cost = p.mg-mg, p.cost-int64(cost)
	return int64(cost)
}

// carry gives what was made, and was not priced, the cost of what it was made of: of all uses of
// its message, and of those for the dish that it is what is left of the same share as of their
// edible weight. All are the entries in force, in order; a dish begins anew with each span.
func carry(k *pantry.Kitchen, all []pantry.Placed, spans []Span, foodOf func(*pantry.Line) *food.Food) error {
	dishes, messages := map[string]*pot{}, map[int64]*pot{}
	for i := range all {
		if e := &all[i]; e.Act == pantry.Make && e.Lot.Cost == 0 {
			messages[e.N] = &pot{}
			if e.Dish != "" {
				dishes[e.Dish] = &pot{}
			}
		}
	}
	if len(messages) == 0 {
		return nil
	}
	lines := map[int64]*pantry.Line{} // that something was made of, or that were made
	for i := range all {
		e := &all[i]
		if e.Act == pantry.Make || e.Act == pantry.Use && (dishes[e.Dish] != nil || messages[e.N] != nil) {
			lines[e.Line] = nil
		}
	}
	for id := range lines {
		l, err := pantry.Fold(*k.Line(id), nil)
		if err != nil {
			return err
		}
		lines[id] = &l
	}
	span := 0
	for i := range all {
		e := &all[i]
		l := lines[e.Line]
		if l == nil {
			continue
		}
		for span < len(spans)-1 && e.N > spans[span].To {
			span++
		}
		w := weigher{l, foodOf(l)}
		if e.Act == pantry.Make && e.Lot.Cost == 0 {
			e.Lot.Cost = dishes[e.Dish].take(w.grams(e.Amount)) + messages[e.N].take(messages[e.N].mg)
		}
		before := stock(l)
		if _, err := l.Apply(e.Entry); err != nil {
			return err
		}
		if e.Act != pantry.Use && e.Act != pantry.Return || e.Trim {
			continue
		}
		gone := before.minus(stock(l))
		if d := dishes[e.Dish]; d != nil {
			if d.from != spans[span].From {
				*d = pot{from: spans[span].From}
			}
			d.mg, d.cost = d.mg+w.edible(w.grams(gone.Amount)), d.cost+gone.Cost
		}
		if m := messages[e.N]; m != nil && e.Act == pantry.Use {
			m.mg, m.cost = m.mg+w.edible(w.grams(gone.Amount)), m.cost+gone.Cost
		}
	}
	return nil
}
