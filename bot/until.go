package bot

import (
	"cmp"
	"time"

	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/planner"
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
		var f *food.Food
		if l := x.Kitchen.Named(p.Item); l != nil {
			f = x.FoodOf(l)
		}
		if f == nil {
			f, _ = food.Default().Food(cmp.Or(p.Food, p.Item))
		}
		foods = append(foods, f)
	}
	on := pantry.DateOf(s.Cooked.In(place))
	if k.guidance, ok = keepsLeast(x.Kitchen, food.Default(), s.Dish, foods, countryOf(units)); ok {
		k.date = on.Add(k.guidance.Days)
	}
	if x.past == nil {
		return k, ok
	}
	var in drawnOn
	for _, u := range x.past.into[s.Dish] {
		if s.Cooked.Sub(u.at).Abs() <= pantry.LeftOver {
			in.join(u.drawnOn)
		}
	}
	if k.guidance, ok = eggGuide(x.Kitchen, food.Default(), k.guidance, ok, s.Dish, &in, countryOf(units)); ok {
		k.date = on.Add(k.guidance.Days)
	}
	if m := in.keeps(workOf(s.Dish, &in, true)); m.date != "" && (!ok || m.date < k.date) {
		k.date, k.of, ok = m.date, m.of, true
	}
	return k, ok
}

// isOld says whether food in a state was cooked or made before it goes into a dish.
func isOld(state food.State) bool { return state == food.Cooked || state == food.MadeUp }

// limit keeps what food was made into from a date of its own: the soonest date of what was past
// its use-by when it went in, or had been cooked, made or thawed before.
type limit struct {
	date pantry.Date // "" none
	of   string      // the item whose date it is
}

func (m *limit) sooner(o limit) {
	if o.date != "" && (m.date == "" || o.date < m.date) {
		*m = o
	}
}

// thawedDays is how long cooked food out of the freezer keeps: UK FSA, thawed food 24 h.
const thawedDays = 1

// add takes in a lot of a line that was drawn on on a day.
func (d *drawnOn) add(o pantry.Lot, l *pantry.Line, f *food.Food, day pantry.Date) {
	before := l.Made > 0 && o.State != food.Uncooked || f != nil && planner.IsCooked(f, l.Name)
	d.flesh = d.flesh || isFleshLot(o, l, f)
	d.egg = d.egg || !before && isRawEgg(f, l.Name)
	if !before {
		d.fresh = append(d.fresh, l.Name)
		if f != nil {
			d.fresh = append(d.fresh, f.Name)
		}
	}
	if before && (o.State == food.Frozen || o.State == food.Thawed) && !tellsWork(l.Name, "base") && !tellsWork(l.Name, "raw") && !tellsWork(l.Name, "readied") {
		d.thawed = l.Name
	}
	switch own := (limit{o.Date, l.Name}); {
	case o.State == food.Frozen: // nobody said that it was thawed
		thawed := limit{day.Add(thawedDays), l.Name}
		if d.uncooked.sooner(thawed); before {
			d.sooner(thawed)
		}
	case isOld(o.State), o.State == food.Thawed && before, pastUseBy(o, l, f, day):
		d.sooner(own)
		d.uncooked.sooner(own)
	case isUseBy(o, l, f, "UK"):
		d.uncooked.sooner(own)
	}
}

// drawing applies an entry to a line, and takes in what it drew on.
func (m *drawnOn) drawing(e pantry.Entry, l *pantry.Line, f *food.Food, day pantry.Date) (pantry.Effect, error) {
	left := make([]measure.Amount, len(l.Lots))
	for i := range l.Lots {
		left[i] = l.Lots[i].Left
	}
	effect, err := l.Apply(e)
	for i := range left {
		if l.Lots[i].Left < left[i] {
			m.add(l.Lots[i], l, f, day)
		}
	}
	return effect, err
}

// drewNext takes in what a use that is still asked about will draw on first: what the same message
// makes may be of it.
func (t *turn) drewNext(d *draft) {
	l := t.k.Line(d.Line)
	if d.Act != pantry.Use || d.Trim || l == nil {
		return
	}
	if o, ok := l.First(); ok {
		t.drew.add(o, l, t.ear.foodOf(l), t.day())
	}
}

// limitOf tells what went into a dish by its uses in force since a time, which are of
// these lines.
func limitOf(book pantry.Book, ear *ear, dish string, in []pantry.Entry, since time.Time, place *time.Location) (m drawnOn, err error) {
	seen := map[int64]bool{}
	for _, u := range in {
		if seen[u.Line] {
			continue
		}
		seen[u.Line] = true
		l := book.Kitchen().Line(u.Line)
		f := ear.foodOf(l)
		entries, err := book.Since(l.ID, &pantry.Message{})
		if err != nil {
			return m, err
		}
		line, err := pantry.Fold(*l, nil)
		if err != nil {
			return m, err
		}
		for _, e := range entries {
			if e.Act == pantry.Use && e.Dish == dish && !e.At.Before(since) {
				_, err = m.drawing(e, &line, f, pantry.DateOf(e.At.In(place)))
			} else {
				_, err = line.Apply(e)
			}
			if err != nil {
				return m, err
			}
		}
	}
	return m, nil
}
