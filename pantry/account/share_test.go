package account_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// bit is food that went into something: mg edible of the crate's or of other's; old where it is of
// a stretch before.
type bit struct {
	mg         float64
	crate, old bool
}

// batch is a lot, or a pot, and what it is of.
type batch struct {
	mg, cost float64
	of       []bit
	span     int
}

// take takes a part out of a batch.
func (b *batch) take(mg float64) (out batch) {
	if b.mg <= 0 {
		return batch{}
	}
	share := min(1, mg/b.mg)
	out.mg, out.cost = b.mg*share, b.cost*share
	for i := range b.of {
		x := b.of[i]
		x.mg *= share
		b.of[i].mg -= x.mg
		out.of = append(out.of, x)
	}
	b.mg, b.cost = b.mg-out.mg, b.cost-out.cost
	return out
}

func (b *batch) put(o batch) {
	b.mg, b.cost = b.mg+o.mg, b.cost+o.cost
	for _, x := range o.of {
		x.old = false
		b.of = append(b.of, x)
	}
}

// What had to be used, what was, and what the dishes cost that were put by, against following every
// gram: through pots, leftovers, other dishes and later services, into the bin.
func TestShareLaw(t *testing.T) {
	const leek, cheese, rice, soup, pie, stock = 1, 2, 3, 4, 5, 6
	keeps := &food.Food{Name: "cheese", Keeper: true}
	rapid.Check(t, func(rt *rapid.T) {
		k := &pantry.Kitchen{}
		for i, name := range []string{"leek", "cheese", "rice", "soup", "pie", "stock"} {
			l := &pantry.Line{ID: int64(i + 1), Name: name, Unit: measure.Gram, Shelf: food.Crate}
			if l.ID == rice {
				l.Shelf = food.Cupboard
			}
			k.Add(l)
		}
		var said ledger
		var wraps []pantry.WrapUp
		lots := map[int64][]batch{}
		pots := map[string]*batch{"soup": {}, "pie": {}}
		n, span := int64(0), 0
		type tally struct{ due, used, carried, binned float64 }
		var want []tally
		now := tally{}
		say := func(e pantry.Entry) { said = append(said, pantry.Placed{Entry: e, N: n}) }
		has := func(id int64) (sum float64) {
			for _, l := range lots[id] {
				sum += l.mg
			}
			return sum
		}
		draw := func(id int64, mg float64) (out batch) {
			for i := range lots[id] {
				got := lots[id][i].take(mg - out.mg)
				out.mg, out.cost, out.of = out.mg+got.mg, out.cost+got.cost, append(out.of, got.of...)
			}
			return out
		}
		pot := func(dish string, b batch) {
			if pots[dish].span != span {
				*pots[dish] = batch{span: span}
			}
			pots[dish].put(b)
		}
		isMade := func(id int64) bool { return id >= soup }
		used := func(id int64, b batch) { // into a dish
			for _, x := range b.of {
				if !isMade(id) && x.crate || x.old {
					now.used += x.mg
					if !isMade(id) {
						now.due += x.mg
					}
				}
			}
		}
		wrap := func() {
			for id := int64(leek); id <= stock; id++ {
				for i := range lots[id] {
					now.carried += lots[id][i].cost
					for j, x := range lots[id][i].of {
						if id == leek {
							now.due += x.mg
						}
						lots[id][i].of[j].old = isMade(id)
					}
				}
			}
			want = append(want, now)
			span++
			now = tally{}
			for id := int64(soup); id <= stock; id++ { // leftovers are to be used
				for _, l := range lots[id] {
					for _, x := range l.of {
						now.due += x.mg
					}
				}
			}
		}
		for range rapid.IntRange(1, 40).Draw(rt, "turns") {
			n++
			mg := float64(rapid.IntRange(50, 900).Draw(rt, "g")) * 1000
			id := rapid.Int64Range(leek, stock).Draw(rt, "line")
			if h := has(id); mg > h {
				mg = math.Floor(h)
			}
			e := pantry.Entry{Line: id, Amount: measure.Amount(mg)}
			switch what := rapid.IntRange(0, 9).Draw(rt, "what"); {
			case what == 0 && !isMade(id):
				mg = 1_000_000
				cost := rapid.Int64Range(1, 1_000_000).Draw(rt, "cost")
				e.Act, e.Amount, e.Lot.Cost = pantry.Receive, 1_000_000, cost
				say(e)
				lots[id] = append(lots[id], batch{mg: mg, cost: float64(cost), of: []bit{{mg: mg, crate: id != rice}}})
			case what <= 3 && mg > 0:
				e.Act, e.Dish = pantry.Use, rapid.SampledFrom([]string{"soup", "pie"}).Draw(rt, "dish")
				say(e)
				b := draw(id, mg)
				used(id, b)
				pot(e.Dish, b)
			case what == 4 && mg > 0 && id != stock: // stock of that
				e.Act, e.Dish = pantry.Use, "stock"
				say(e)
				b := draw(id, mg)
				used(id, b)
				made := batch{}
				made.put(b)
				made.mg = 700_000
				say(pantry.Entry{Act: pantry.Make, Line: stock, Amount: 700_000})
				lots[stock] = append(lots[stock], made)
			case what == 5: // put by
				dish := rapid.SampledFrom([]string{"soup", "pie"}).Draw(rt, "left")
				p, mg := pots[dish], float64(rapid.IntRange(50, 900).Draw(rt, "left g"))*1000
				late := p.span != span && p.mg > 0
				b := p.take(mg)
				if b.mg == 0 {
					b.of = []bit{{mg: mg}}
				}
				for i := range b.of {
					if b.of[i].old = late; late {
						now.due += b.of[i].mg
					}
				}
				b.mg = mg
				to := map[string]int64{"soup": soup, "pie": pie}[dish]
				say(pantry.Entry{Act: pantry.Make, Line: to, Amount: measure.Amount(mg), Dish: dish})
				lots[to] = append(lots[to], b)
			case what == 6 && mg > 0:
				e.Act = pantry.Bin
				say(e)
				b := draw(id, mg)
				if id != rice {
					now.binned += b.cost
				}
				for _, x := range b.of {
					switch {
					case id == leek || id == cheese, isMade(id) && !x.old && !x.crate:
						now.due += x.mg
					case isMade(id) && !x.old:
						now.used -= x.mg
					}
				}
			case what == 7 && mg > 0:
				e.Act, e.Dish = pantry.Use, pantry.AwayTo("")
				say(e)
				for _, x := range draw(id, mg).of {
					if isMade(id) && x.old {
						now.due -= x.mg
					}
				}
			case what == 8 && isMade(id) && mg > 0: // counted: so much was served
				e.Act, e.Amount = pantry.Count, measure.Amount(has(id)+0.5)-e.Amount
				say(e)
				used(id, draw(id, mg))
			case what == 9 && rapid.Bool().Draw(rt, "over"):
				wraps = append(wraps, pantry.WrapUp{N: n})
				wrap()
			}
		}
		wrap()
		foodOf := func(l *pantry.Line) *food.Food {
			if l.ID == cheese {
				return keeps
			}
			return nil
		}
		list, err := account.Periods(k, wraps, said, foodOf, nil)
		if err != nil {
			rt.Fatal(err)
		}
		for i, w := range want {
			c := list[i].Total(k, foodOf)
			got := tally{float64(c.Due), float64(c.Used), 0, float64(c.Binned.Cost)}
			for _, l := range list[i].Lines {
				got.carried += float64(l.Carried.Cost)
				if l.In() != l.Out() {
					rt.Fatalf("span %d: %+v", i, l)
				}
			}
			// every entry rounds to the mg and to the penny
			if slack := float64(4 * len(said)); math.Abs(got.due-w.due) > slack || math.Abs(got.used-w.used) > slack || math.Abs(got.carried-w.carried) > slack || math.Abs(got.binned-w.binned) > slack {
				rt.Fatalf("span %d: %+v, not %+v\n%+v", i, got, w, said)
			}
			if put := c.IntoDishes(); put < -int64(4*len(said)) {
				rt.Fatalf("span %d: %d into dishes: %+v\n%+v", i, put, c, said)
			}
			if all := c.IntoDishes() + c.Given.Cost + c.Binned.Cost + c.Carried.Cost + c.Variance.Cost; all != c.ToAccount() {
				rt.Fatalf("span %d: %d to account for, and %d of it are: %+v", i, c.ToAccount(), all, c)
			}
			if u := c.UsedShare(); u < 0 || u > 1 || c.Used > c.Due+4*int64(len(said)) {
				rt.Fatalf("span %d: used %d of %d", i, c.Used, c.Due)
			}
		}
	})
}

// ledger is entries in force.
type ledger []pantry.Placed

func (l ledger) AllInForce() ([]pantry.Placed, error) { return l, nil }
