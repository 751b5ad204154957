package bot

import (
	"cmp"
	"time"

	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/food"
)

// keptUntil is until when what is left of a dish keeps: as guidance has it of all that is in it,
// and no longer than what was cooked or made before and went in.
type keptUntil struct {
	date     pantry.Date
	guidance food.Guidance
	of       string // the item in it whose date it is; "" it is the guidance's
}

// by says whose date it is.
func (k keptUntil) by() string {
	if k.of != "" {
		return "the date of the " + k.of + " in it"
	}
	return sayGuide(k.guidance)
}

// until works out how long what is left of a dish keeps, from the day on which it was cooked.
// Units say whose guidance: "uk" or "us". False where nobody has a figure.
func (x *Records) until(s *account.Sheet, units string, place *time.Location) (k keptUntil, ok bool) {
	var foods []*food.Food
	for _, p := range s.Parts {
		f, _ := food.Default().Food(cmp.Or(p.Food, p.Item))
		foods = append(foods, f)
	}
	on := pantry.DateOf(s.Cooked.In(place))
	if k.guidance, ok = keepsLeast(x.Kitchen, food.Default(), s.Dish, foods, countryOf(units)); ok {
		k.date = on.Add(k.guidance.Days)
	}
	for _, p := range s.Parts {
		l := x.Kitchen.Named(p.Item)
		if l == nil || l.Made == 0 || x.past == nil {
			continue
		}
		for c := range x.past.when {
			if c.line == l.ID && isOld(c.state) && c.date >= on && (!ok || c.date < k.date) {
				k.date, k.of, ok = c.date, l.Name, true
			}
		}
	}
	return k, ok
}

// isOld says whether food in a state was cooked or made before it goes into a dish.
func isOld(state food.State) bool { return state == food.Cooked || state == food.MadeUp }

// noLonger is the soonest date of what was cooked or made before and went into a dish, and what
// that is; "" where none did.
func (t *turn) noLonger(in []pantry.Entry, day pantry.Date) (date pantry.Date, of string, err error) {
	for _, e := range in {
		l := t.k.Line(e.Line)
		if l.Made == 0 {
			continue
		}
		entries, err := t.book.Since(l.ID, &pantry.Message{})
		if err != nil {
			return "", "", err
		}
		for _, m := range entries {
			if m.Act == pantry.Make && isOld(m.Lot.State) && m.Lot.Date >= day && (date == "" || m.Lot.Date < date) {
				date, of = m.Lot.Date, l.Name
			}
		}
	}
	return date, of, nil
}
