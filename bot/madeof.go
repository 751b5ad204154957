package bot

import (
	"slices"
	"strings"
	"time"

	"scullion/pantry"
	"scullion/pantry/food"
)

// foodOrMade gives the food of a line. One that was made here has the allergens of all that went
// into it, and suits those whom all of that suits; nil where nobody knows anything of it.
func (x *Records) foodOrMade(l *pantry.Line) *food.Food {
	if l == nil || l.Made == 0 || x.past == nil {
		return x.FoodOf(l)
	}
	return x.madeFood(l, mostMade)
}

func (x *Records) madeFood(l *pantry.Line, deep int) *food.Food {
	f := x.FoodOf(l)
	of := x.past.made[l.ID]
	switch {
	case len(of) == 0 && l.Made > 0 && !isJustCooked(l.Name): // nobody logged what went in
		if f == nil {
			return food.Named(l.Name)
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
	return &made
}

// isJustCooked says whether a name tells of no more than a food and that it was cooked
// in water or without: what went in is known though nobody logged it.
func isJustCooked(name string) bool {
	for _, how := range []string{"cooked ", "boiled ", "steamed "} {
		if rest, ok := strings.CutPrefix(name, how); ok {
			_, known := food.Default().Food(rest)
			return known
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
	since int64             // the message from which on it was read
	made  map[int64][]int64 // lines that were drawn on to make a line, or went into the dishes that it is what is left of
	when  map[cameTo]doneBy // who brought food of a line into a state with a date last, and when
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

// read reads the ledger from some way before a message on, if that is not done yet.
func (x *Records) read(from int64) (*past, error) {
	from = max(1, from-pantry.LookBack)
	if x.past != nil && x.past.since <= from {
		return x.past, nil
	}
	p := &past{since: from, made: map[int64][]int64{}, when: map[cameTo]doneBy{}}
	into := map[string][]pantry.Entry{} // uses, by dish
	var used, made []pantry.Entry       // by one message
	n := int64(0)
	settle := func() {
		for _, m := range made {
			for _, u := range used {
				p.madeFrom(m.Line, u.Line)
			}
			for _, u := range into[m.Dish] {
				if m.Dish != "" && m.At.Sub(u.At) <= pantry.LeftOver {
					p.madeFrom(m.Line, u.Line)
				}
			}
		}
		used, made = nil, nil
	}
	err := x.Ledger.Between(from, 1<<62, func(e pantry.Placed) error {
		if e.N != n {
			settle()
			n = e.N
		}
		if e.Lot.State != "" {
			p.when[cameTo{e.Line, e.Lot.State, e.Lot.Date}] = doneBy{e.At, e.Cook}
		}
		switch e.Act {
		case pantry.Make:
			made = append(made, e.Entry)
		case pantry.Use:
			used = append(used, e.Entry)
			if e.Dish != "" {
				into[e.Dish] = append(into[e.Dish], e.Entry)
			}
		}
		return nil
	})
	settle()
	x.past = p
	return p, err
}

func (p *past) madeFrom(line, of int64) {
	if line != of && !slices.Contains(p.made[line], of) {
		p.made[line] = append(p.made[line], of)
	}
}
