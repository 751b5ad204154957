package pantry

import (
	"cmp"
	"fmt"
	"slices"

	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// Effect is what an entry did besides what it says.
type Effect struct {
	Over   measure.Amount // drawn beyond what was on hand; kept as a negative variance
	Lost   measure.Amount // a count's variance: what the record had more (or, negative, less)
	Held   measure.Amount // how much of a use came out of a claim
	Gave   measure.Amount // how much a release really gave back
	Turned measure.Amount // how much a count with a state found to open, freeze or thaw
}

// Apply folds one entry into the line. The line's account closes before and
// after. It reports an error for an act that is none of the eight or an amount
// below nothing, and then changes nothing.
func (l *Line) Apply(e Entry) (Effect, error) {
	var f Effect
	if e.Amount < 0 {
		return f, fmt.Errorf("%s %s: an amount below nothing", e.Act, l.Name)
	}
	switch e.Act {
	case Receive:
		l.Received += e.Amount
		l.addLot(e)
	case Make:
		l.Made += e.Amount
		l.addLot(e)
	case Use:
		if e.Trim { // it was drawn with the food that it came off
			break
		}
		l.Used += e.Amount
		f.Over = e.Amount - l.draw(e.Amount, l.uses()+1)
		l.Variance -= f.Over
		f.Held = l.drawHolds(e.Cook, e.Dish, e.Amount)
	case Bin:
		if e.Trim {
			l.Trimmed += e.Amount
			break
		}
		l.Binned += e.Amount
		f.Over = e.Amount - l.draw(e.Amount, 0)
		l.Variance -= f.Over
	case Return:
		l.Used -= e.Amount
		l.putBack(e.Amount, e.Lot)
	case Claim:
		l.hold(e.Cook, e.Dish, e.Amount)
	case Release:
		f.Gave = l.release(e.Cook, e.Dish, e.Amount)
	case Count:
		if e.Lot.State != "" {
			f.Turned = l.turn(e.Amount, e.Lot)
			break
		}
		f.Lost = l.OnHand() - e.Amount
		l.Variance += f.Lost
		if f.Lost > 0 {
			l.draw(f.Lost, 0)
		} else {
			l.putBack(-f.Lost, LotTerms{Date: e.Lot.Date, Label: e.Lot.Label})
		}
		if e.Lot.PieceMg > 0 {
			l.weigh(e.Lot.PieceMg)
		}
	default:
		return f, fmt.Errorf("%q is not an act", e.Act)
	}
	return f, nil
}

// Fold gives the line as its entries alone make it: balances are nothing else.
func Fold(l Line, entries []Entry) (Line, error) {
	f := Line{ID: l.ID, Name: l.Name, Food: l.Food, Unit: l.Unit, Shelf: l.Shelf}
	for _, e := range entries {
		if _, err := f.Apply(e); err != nil {
			return f, err
		}
	}
	return f, nil
}

// keptLots is how many lots a line may have before they are thinned out: those
// used up are forgotten, and one that comes in joins another of the same date
// and piece. So a return can find the lot it came from, and a balance stays
// small for ever.
const keptLots = 12

func (l *Line) addLot(e Entry) { l.add(Lot{LotTerms: e.Lot, Came: e.Amount, Left: e.Amount}) }

func (l *Line) add(n Lot) {
	for i := 0; len(l.Lots) >= keptLots && i < len(l.Lots); {
		if l.Lots[i].Left == 0 {
			l.Lots = slices.Delete(l.Lots, i, i+1)
		} else {
			i++
		}
	}
	if len(l.Lots) >= keptLots {
		for i := range l.Lots {
			o, same := &l.Lots[i], n.LotTerms
			if same.Cost = o.Cost; o.LotTerms == same {
				o.Cost, o.Came, o.Left = o.Cost+n.Cost, o.Came+n.Came, o.Left+n.Left
				return
			}
		}
	}
	l.Lots = append(l.Lots, n)
}

// weigh says what one piece of all that is left weighs.
func (l *Line) weigh(piece measure.Amount) {
	for i := range l.Lots {
		if l.Lots[i].Left > 0 {
			l.Lots[i].PieceMg, l.Lots[i].Weighed = piece, true
		}
	}
}

// uses is the highest number that a use has left on a lot.
func (l *Line) uses() (most int) {
	for i := range l.Lots {
		most = max(most, l.Lots[i].Used)
	}
	return most
}

// drawOrder lists lots first expired, first out; undated ones last, the older
// delivery first among equals. What is frozen comes behind all that is not.
func (l *Line) drawOrder() []int {
	order := make([]int, len(l.Lots))
	for i := range order {
		at := i
		for ; at > 0 && l.goesBefore(i, order[at-1]); at-- { // few lots, and in order nearly always
			order[at] = order[at-1]
		}
		order[at] = i
	}
	return order
}

// goesBefore says whether one lot is drawn before another that came earlier: what is frozen is
// drawn last.
func (l *Line) goesBefore(i, earlier int) bool {
	if a, b := l.Lots[i].State == food.Frozen, l.Lots[earlier].State == food.Frozen; a != b {
		return b
	}
	x, y := l.Lots[i].Date, l.Lots[earlier].Date
	return x != "" && (y == "" || x < y)
}

// draw takes up to a from the lots and says how much there was to take. A use
// above 0 is left on the lots drawn, for putBack.
func (l *Line) draw(a measure.Amount, use int) (taken measure.Amount) {
	from := func(i int) {
		n := min(a-taken, l.Lots[i].Left)
		l.Lots[i].Left -= n
		taken += n
		if n > 0 && use > 0 {
			l.Lots[i].Used = use
			use++
		}
	}
	if l.isInOrder() {
		for i := 0; i < len(l.Lots) && taken < a; i++ {
			from(i)
		}
		return taken
	}
	for _, i := range l.drawOrder() {
		from(i)
	}
	return taken
}

// isInOrder says whether lots with anything left are drawn in the order in which they came, as
// they mostly are.
func (l *Line) isInOrder() bool {
	last := -1
	for i := range l.Lots {
		if l.Lots[i].Left == 0 {
			continue
		}
		if last >= 0 && l.goesBefore(i, last) {
			return false
		}
		last = i
	}
	return true
}

// putBack returns a to the lots it was drawn from, last used first. What no
// lot has room for goes to the newest lot, or to a lot of its own.
func (l *Line) putBack(a measure.Amount, terms LotTerms) {
	order := l.drawOrder()
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(l.Lots[i].Used, l.Lots[j].Used) })
	for _, i := range slices.Backward(order) {
		n := min(a, l.Lots[i].Came-l.Lots[i].Left)
		l.Lots[i].Left += n
		a -= n
	}
	if a == 0 {
		return
	}
	if len(l.Lots) == 0 {
		l.Lots = append(l.Lots, Lot{LotTerms: terms})
	}
	last := &l.Lots[len(l.Lots)-1]
	last.Came += a
	last.Left += a
}

func (l *Line) hold(cook, dish string, a measure.Amount) {
	for i := range l.Holds {
		if l.Holds[i].Cook == cook && l.Holds[i].Dish == dish {
			l.Holds[i].Amount += a
			return
		}
	}
	if a > 0 {
		l.Holds = append(l.Holds, Hold{cook, dish, a})
	}
}

// drawHolds takes up to a from the claims for the dish, then from the cook's
// other claims.
func (l *Line) drawHolds(cook, dish string, a measure.Amount) (taken measure.Amount) {
	taken = l.takeHolds(a, func(h Hold) bool { return dish != "" && h.Dish == dish && h.Cook == cook })
	taken += l.takeHolds(a-taken, func(h Hold) bool { return dish != "" && h.Dish == dish })
	taken += l.takeHolds(a-taken, func(h Hold) bool { return h.Cook == cook })
	return taken
}

// release takes up to a from the cook's claims: those for the dish where one
// is named, else all.
func (l *Line) release(cook, dish string, a measure.Amount) measure.Amount {
	return l.takeHolds(a, func(h Hold) bool { return h.Cook == cook && (dish == "" || h.Dish == dish) })
}

func (l *Line) takeHolds(a measure.Amount, from func(Hold) bool) (taken measure.Amount) {
	for i := range l.Holds {
		if taken < a && from(l.Holds[i]) {
			n := min(a-taken, l.Holds[i].Amount)
			l.Holds[i].Amount -= n
			taken += n
		}
	}
	l.Holds = slices.DeleteFunc(l.Holds, func(h Hold) bool { return h.Amount == 0 })
	return taken
}
