package bot

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
)

// dish gives the name of a dish already known if said is the same: singular or
// plural, or the end of just one longer name.
func (t *turn) dish(said string) string {
	said = language.DishName(said)
	d := t.sameDish(said)
	if d != said || slices.Contains(t.k.Dishes, d) && !strings.HasPrefix(said, "dish ") {
		return d
	}
	return cmp.Or(t.dishOn(said), said)
}

// dishNow is dish for what goes in now: by a shorter name only a dish of this service is meant,
// before one of another that is called just so.
func (t *turn) dishNow(said string) string {
	said = language.DishName(said)
	exact, ends := t.dishesCalled(said)
	if len(ends) == 0 {
		return t.dish(said)
	}
	now := t.calledNow()
	ends = slices.DeleteFunc(ends, func(d string) bool { return !now[d] })
	switch {
	case len(ends) == 1 && !now[exact]:
		return ends[0]
	case exact != "" && !strings.HasPrefix(said, "dish "):
		return exact
	}
	return cmp.Or(t.dishOn(said), said)
}

// sameDish is dish without a look at the plan that is on.
func (t *turn) sameDish(said string) string {
	exact, ends := t.dishesCalled(said)
	if exact == "" && len(ends) == 1 {
		return ends[0]
	}
	return cmp.Or(exact, said)
}

// dishesCalled gives the dish of that name, and those whose names end so.
func (t *turn) dishesCalled(said string) (exact string, ends []string) {
	for _, d := range t.k.Dishes {
		if exact == "" && (d == said || plural(d) == said || d == plural(said)) {
			exact = d
		} else if strings.HasSuffix(d, " "+said) && !language.IsCourse(said) && slices.Equal(food.SetApart(d), food.SetApart(said)) { // "brownies" are never the nut free brownies
			ends = append(ends, d)
		}
	}
	return exact, ends
}

// dishBegins gives the one dish cooked lately whose name begins so: "moules" for the moules mariniere.
// What food here is called so is not one; "" none.
func (t *turn) dishBegins(said string) (dish string, err error) {
	said = language.DishName(said)
	h := t.ear.find(said)
	if h.food != nil && fitsName(h.food.Name, said) || slices.ContainsFunc(h.lines, func(l *pantry.Line) bool { return fitsName(l.Name, said) }) {
		return "", nil
	}
	entries, err := t.book.IntoDish("", t.said.At.Add(-pantry.LeftOver))
	for _, e := range entries {
		if e.Act != pantry.Use || e.Dish == dish || !strings.HasPrefix(e.Dish, said+" ") {
			continue
		}
		if dish != "" {
			return "", err
		}
		dish = e.Dish
	}
	return dish, err
}

// calledNow are those that something went into, or is kept for, in this service: not before the
// last wrap-up, but for what is logged a short while after it.
func (t *turn) calledNow() map[string]bool {
	since := t.said.At.Add(-serviceLong)
	if last := t.lastService(); last.After(since) {
		since = last.Add(1) // what it ended with is of that service
	}
	entries, err := t.book.IntoDish("", since)
	if err != nil {
		return nil // then each name means what it says
	}
	now := map[string]bool{}
	for _, e := range entries {
		now[e.Dish] = true
	}
	return now
}

// lastService is when the service before this one ended; zero where none did.
func (t *turn) lastService() (at time.Time) {
	wraps, err := t.book.WrapUps()
	wraps = slices.DeleteFunc(wraps, func(w pantry.WrapUp) bool { return w.N >= t.said.N })
	if err != nil || len(wraps) == 0 {
		return at
	}
	last := wraps[len(wraps)-1].Ended
	if came, _, err := t.sinceWrapUp(wraps); err == nil && !came && t.said.At.Sub(last) < wrapAgain {
		return at
	}
	return last
}
