package bot

import (
	"slices"
	"strings"
	"time"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// foodOrMade gives the food of a line. One that was made here has the allergens of all that went
// into it, and suits those whom all of that suits; nil where nobody knows anything of it.
func (x *Records) foodOrMade(l *pantry.Line) *food.Food {
	if l == nil || l.Made == 0 || x.past == nil {
		return x.withTold(l, x.FoodOf(l))
	}
	return x.madeFood(l, mostMade)
}

// foodOfLot is foodOrMade of one lot: of two days' pots each has its own allergens, as long as the
// ledger tells them apart.
func (x *Records) foodOfLot(l *pantry.Line, state food.State, date pantry.Date) *food.Food {
	if of := x.past.lots[cameTo{l.ID, state, date}]; len(of) > 0 && !slices.ContainsFunc(of, func(id int64) bool { return id == l.ID }) {
		return x.madeOf(l, of, mostMade)
	}
	return x.foodOrMade(l)
}

func (x *Records) madeFood(l *pantry.Line, deep int) *food.Food {
	return x.madeOf(l, x.past.made[l.ID], deep)
}

// madeOf gives the food of a line that was made of others. What was asked about and not answered may be
// in it as well.
func (x *Records) madeOf(l *pantry.Line, of []int64, deep int) *food.Food {
	f := x.ofParts(l, of, deep)
	if f == nil || len(unsettledIn(x.Kitchen, l)) == 0 {
		return f
	}
	doubted := *f
	doubted.Unasked, doubted.Vegan, doubted.Meatless = true, worse(f.Vegan, "check label"), worse(f.Meatless, "check label")
	return &doubted
}

// ofParts is the food of a line by what it was made of, as far as that was logged.
func (x *Records) ofParts(l *pantry.Line, of []int64, deep int) *food.Food {
	f := x.withTold(l, x.FoodOf(l))
	switch {
	case len(of) == 0 && l.Made > 0 && !isJustCooked(l.Name): // nobody logged what went in
		if f == nil {
			return x.withTold(l, food.Named(l.Name))
		}
		made := *f
		made.Unasked = true
		return &made
	case len(of) == 0 || deep == 0:
		return f
	}
	made := food.Food{Name: l.Name, Unit: l.Unit, Vegan: "yes", Meatless: "yes"}
	by := food.Named(l.Name)
	if f != nil {
		made, by = *f, f
	}
	made.Allergen, made.MayCarry = slices.Clone(by.Allergen), slices.Clone(by.MayCarry)
	for _, id := range of {
		part := x.madeFood(x.Kitchen.Line(id), deep-1)
		if part == nil {
			part = food.Named(x.Kitchen.Line(id).Name)
		}
		for _, a := range part.Allergen {
			made.Allergen = appendOnce(made.Allergen, a)
		}
		for _, a := range part.MayCarry {
			made.MayCarry = appendOnce(made.MayCarry, a)
		}
		made.Unasked = made.Unasked || part.Unasked
		made.Vegan, made.Meatless = worse(made.Vegan, part.Vegan), worse(made.Meatless, part.Meatless)
	}
	x.feed(&made, l, of, deep)
	return &made
}

// feed reckons the energy and nutrients of what was made, per 100 g of it, by what went in prepared
// and what it came to; of what has no figures nothing is in them, see food.Food.Covered. Food that a
// table has figures for keeps those, but for what was cooked of food that is called the same.
func (x *Records) feed(made *food.Food, l *pantry.Line, of []int64, deep int) {
	whole := x.past.came[l.ID]
	if whole <= 0 || made.Figures && !slices.ContainsFunc(of, func(id int64) bool { return x.Kitchen.Line(id).Food == l.Food }) {
		return
	}
	var all, known float64
	var sum food.Food
	for _, id := range of {
		part := x.Kitchen.Line(id)
		f := x.madeFood(part, deep-1)
		g := prepared(f, part, x.past.went[[2]int64{l.ID, id}])
		if all += g; f == nil || !f.Figures {
			continue
		}
		if n := f.Covered; n > 0 {
			known += g * n
		} else {
			known += g
		}
		sum.Kcal, sum.Protein, sum.Fat, sum.Carb, sum.Fibre = sum.Kcal+g*f.Kcal, sum.Protein+g*f.Protein, sum.Fat+g*f.Fat, sum.Carb+g*f.Carb, sum.Fibre+g*f.Fibre
	}
	if known <= 0 {
		return
	}
	made.Figures, made.Covered = true, known/all
	made.Kcal, made.Protein, made.Fat, made.Carb, made.Fibre = sum.Kcal/whole, sum.Protein/whole, sum.Fat/whole, sum.Carb/whole, sum.Fibre/whole
}

// prepared is the mg that so much of a line weighs once it is trimmed as usual.
func prepared(f *food.Food, l *pantry.Line, a measure.Amount) float64 {
	g := float64(a)
	if f == nil {
		return g
	}
	if l.Unit == measure.Millilitre && f.Density > 0 {
		g = g * float64(f.Density) / 1000
	}
	if l.Made > 0 {
		return g
	}
	return g * f.Prepared().Float()
}

// isJustCooked says whether a name tells of no more than a food and that it was cooked
// in water or without: what went in is known though nobody logged it.
func isJustCooked(name string) bool {
	for _, how := range []string{"cooked ", "boiled ", "steamed "} {
		if rest, ok := strings.CutPrefix(name, how); ok {
			_, known := food.Default().Food(rest)
			return known && !food.IsDishOf(rest)
		}
	}
	return false
}

// worse gives what two foods together are to a diet: "no", "check label" or "yes".
func worse(a, b string) string {
	for _, fit := range []string{"no", "check label", ""} {
		if a == fit || b == fit {
			return fit
		}
	}
	return "yes"
}

// past is what the ledger says of how food came to be what it is.
type past struct {
	since int64                       // the message from which on it was read
	made  map[int64][]int64           // lines that were drawn on to make a line, or went into the dishes that it is what is left of
	when  map[cameTo]doneBy           // who brought food of a line into a state with a date last, and when
	lots  map[cameTo][]int64          // lines that were drawn on to make a lot
	into  map[string][]wentIn         // by dish
	went  map[[2]int64]measure.Amount // how much of a line went into another, or into the dish that it is what is left of
	came  map[int64]float64           // the mg that a line, or the dish that it is what is left of, came to each time, in all
}

type cameTo struct {
	line  int64
	state food.State
	date  pantry.Date
}

type doneBy struct {
	at   time.Time
	cook string
}

// wentIn is a use for a dish, and what it drew on.
type wentIn struct {
	drawnOn
	line   int64
	amount measure.Amount
	at     time.Time
}

// read reads the ledger from some way before a message on, if that is not done yet.
func (x *Records) read(from int64) (*past, error) {
	from = max(1, from-pantry.LookBack)
	if x.past != nil && x.past.since <= from {
		return x.past, nil
	}
	p := &past{since: from, made: map[int64][]int64{}, when: map[cameTo]doneBy{}, lots: map[cameTo][]int64{}, into: map[string][]wentIn{}, went: map[[2]int64]measure.Amount{}, came: map[int64]float64{}}
	lines, err := x.standing(from)
	if err != nil {
		return nil, err
	}
	var used, made []pantry.Entry        // by one message
	putBy := map[string][]pantry.Entry{} // what is left of dishes, by dish
	n := int64(0)
	settle := func() {
		whole := 0.0
		for _, m := range made {
			if m.Dish == "" {
				whole += float64(m.Amount)
			}
		}
		for _, m := range made {
			if m.Dish == "" {
				for _, u := range used { // of several parts each is of its share
					p.madeFrom(m, u.Line, measure.Amount(float64(u.Amount)*float64(m.Amount)/max(1, whole)))
				}
				p.came[m.Line] += float64(m.Amount)
				continue
			}
			for _, u := range used { // of what else it was done
				if u.Dish != m.Dish {
					p.linked(m, u.Line)
				}
			}
			in := 0.0
			for _, u := range p.into[m.Dish] {
				if m.At.Sub(u.at) <= pantry.LeftOver {
					p.madeFrom(m, u.line, u.amount)
					in += prepared(x.FoodOf(x.Kitchen.Line(u.line)), x.Kitchen.Line(u.line), u.amount)
				}
			}
			if c := x.yieldAbout(m.Dish, m.At); c > 0 {
				in = c
			}
			p.came[m.Line] += max(in, float64(m.Amount))
			putBy[m.Dish] = append(putBy[m.Dish], m)
		}
		used, made = nil, nil
	}
	err = x.Ledger.Between(from, 1<<62, func(e pantry.Placed) error {
		if e.N != n {
			settle()
			n = e.N
		}
		if e.Lot.State != "" {
			p.when[cameTo{e.Line, e.Lot.State, e.Lot.Date}] = doneBy{e.At, e.Cook}
		}
		l := lines[e.Line]
		if l == nil {
			return nil
		}
		if e.Act == pantry.Make {
			made = append(made, e.Entry)
		}
		if e.Act != pantry.Use {
			_, err := l.Apply(e.Entry)
			return err
		}
		used = append(used, e.Entry)
		u := wentIn{line: e.Line, amount: e.Amount, at: e.At}
		_, err := u.drawing(e.Entry, l, x.FoodOf(l), pantry.DateOf(e.At))
		if e.Dish != "" {
			p.into[e.Dish] = append(p.into[e.Dish], u)
			for _, m := range putBy[e.Dish] { // owned up to late: it may be in what was put by before
				if e.At.Sub(m.At) <= pantry.LeftOver {
					p.linked(m, e.Line)
				}
			}
		}
		return err
	})
	settle()
	x.past = p
	return p, err
}

// standing gives all lines as they stood before a message.
func (x *Records) standing(from int64) (map[int64]*pantry.Line, error) {
	lines := map[int64]*pantry.Line{}
	for _, l := range x.Kitchen.Lines {
		f, err := pantry.Fold(*l, nil)
		if err != nil {
			return nil, err
		}
		lines[l.ID] = &f
	}
	if from <= 1 {
		return lines, nil
	}
	all, err := x.Ledger.AllInForce()
	for i := range all {
		if all[i].N >= from {
			break
		}
		if l := lines[all[i].Line]; l != nil {
			if _, err := l.Apply(all[i].Entry); err != nil {
				return nil, err
			}
		}
	}
	return lines, err
}

func (p *past) madeFrom(m pantry.Entry, of int64, amount measure.Amount) {
	if m.Line != of {
		p.went[[2]int64{m.Line, of}] += amount
		p.linked(m, of)
	}
}

// linked notes that a line was drawn on to make another.
func (p *past) linked(m pantry.Entry, of int64) {
	if m.Line == of {
		return
	}
	lot := cameTo{m.Line, m.Lot.State, m.Lot.Date}
	if !slices.Contains(p.made[m.Line], of) {
		p.made[m.Line] = append(p.made[m.Line], of)
	}
	if !slices.Contains(p.lots[lot], of) {
		p.lots[lot] = append(p.lots[lot], of)
	}
}
