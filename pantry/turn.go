package pantry

import (
	"slices"

	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// Turnable is how much of the line can be opened, frozen or thawed: what is open, or
// frozen, stays as it is, and what was thawed is not frozen again.
func (l *Line) Turnable(to food.State) (sum measure.Amount) {
	for _, i := range l.toTurn(to) {
		sum += l.Lots[i].Left
	}
	return sum
}

// Next is the lot of which the first would be opened, frozen or thawed; false none.
func (l *Line) Next(to food.State) (Lot, bool) {
	for _, i := range l.toTurn(to) {
		return l.Lots[i], true
	}
	return Lot{}, false
}

// In is how much of the line is in a state, and the date of what of it must go first.
func (l *Line) In(state food.State) (sum measure.Amount, soonest Lot) {
	for _, i := range l.drawOrder() {
		if o := l.Lots[i]; o.Left > 0 && o.State == state {
			if sum == 0 {
				soonest = o
			}
			sum += o.Left
		}
	}
	return sum, soonest
}

// toTurn lists the lots with anything left that may come into a state, first expired
// first. Thawed is what was frozen here, or, where nothing was, what came frozen.
func (l *Line) toTurn(to food.State) (list []int) {
	frozen, _ := l.In(food.Frozen)
	for _, i := range l.drawOrder() {
		was := l.Lots[i].State
		fits := was != to && (was == food.Frozen) == (to == food.Thawed && frozen > 0) && !(to == food.Frozen && was == food.Thawed)
		if fits && l.Lots[i].Left > 0 {
			list = append(list, i)
		}
	}
	return list
}

// turn brings up to a of the line into a state, and says how much. What was opened
// or thawed keeps an earlier date that it has; frozen food has the freezer's, and
// what comes out of there a new one.
func (l *Line) turn(a measure.Amount, to LotTerms) (turned measure.Amount) {
	var parted []Lot
	for _, i := range l.toTurn(to.State) {
		n := min(a-turned, l.Lots[i].Left)
		if n <= 0 {
			break
		}
		turned += n
		o := &l.Lots[i]
		if n < o.Left { // a part of it: a lot of its own, with its share of the cost
			part := Lot{LotTerms: o.LotTerms, Came: n, Left: n}
			part.Cost = share(o.Cost, n, o.Came)
			o.Cost, o.Came, o.Left = o.Cost-part.Cost, o.Came-n, o.Left-n
			part.become(to)
			parted = append(parted, part)
			continue
		}
		o.become(to)
	}
	for _, p := range slices.Backward(parted) {
		l.add(p)
	}
	return turned
}

func share(cost int64, of, all measure.Amount) int64 {
	if all <= 0 {
		return 0
	}
	return int64(float64(cost) * float64(of) / float64(all))
}

func (o *Lot) become(to LotTerms) {
	thaws := o.State == food.Frozen || to.State == food.Frozen || o.State == food.Uncooked && to.State == food.Cooked // cooking begins a date too
	o.State = to.State
	if thaws || to.Date != "" && (o.Date == "" || to.Date < o.Date) {
		o.Date, o.Label, o.Best = to.Date, to.Label, to.Best
	}
}
