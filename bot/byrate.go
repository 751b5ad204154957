package bot

import (
	"slices"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// againIn drafts an entry of a message with what a correction changes. What was paid by the kilo, or for each, goes with
// the amount.
func (t *turn) againIn(target *pantry.Message, old pantry.Entry, a *language.Amend) draft {
	d := t.again(old, a)
	if old.Act == pantry.Receive && old.Lot.Cost > 0 && (a.Food == "" || t.isFood(old, a.Food)) && t.byRate(target, old) {
		d.CostOf = old.Amount
	}
	return d
}

// cost is what so much of what is drafted costs.
func (d *draft) cost(base measure.Amount) int64 {
	if d.CostOf <= 0 {
		return d.Cost
	}
	cost, err := measure.Ratio{Num: int64(base), Den: int64(d.CostOf)}.Of(measure.Amount(d.Cost))
	if err != nil {
		return d.Cost
	}
	return int64(cost)
}

// byRate says whether the cost of what came in by a message was told by the unit, or for each: there, or when it was
// priced since.
func (t *turn) byRate(target *pantry.Message, e pantry.Entry) bool {
	m := t.said
	for range mostBack {
		var err error
		if m, err = t.book.Heard("", m); err != nil || m == nil || m.N <= target.N {
			break
		}
		q := t.reader().PriceTalk(m.Text)
		if q == nil || q.Cost == 0 || q.About != language.AboutPrice && q.About != language.AboutItsPrice || q.About == language.AboutPrice && !t.isFood(e, q.Food) {
			continue
		}
		return q.To != nil || q.Each
	}
	for _, s := range t.reader().Read(language.MendShort(target.Text)).Statements {
		if i := slices.IndexFunc(s.Items, func(it language.Item) bool { return t.isFood(e, it.Food) }); i >= 0 {
			return s.Items[i].Rated
		}
	}
	return false
}
