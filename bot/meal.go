package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"scullion/pantry"
)

// mealSaid is what a service was called as it was started; "" nobody called it anything.
func (x *Records) mealSaid(w *Wrap) string {
	for i := len(x.Services) - 1; i >= 0; i-- {
		if on := x.planAt(w.period, i); on != nil && on.Wish.Meal != "" {
			return on.Wish.Meal
		}
	}
	return ""
}

// meal is what a service is called: as it was started, else by the clock of its end; "" of one that is on.
func (x *Records) meal(w *Wrap, place *time.Location) string {
	if said := x.mealSaid(w); said != "" || w.Until == nil {
		return said
	}
	switch h := w.Until.In(place).Hour(); { // common practice, no source
	case h >= 5 && h < 11:
		return "breakfast"
	case h >= 11 && h < 17:
		return "lunch"
	}
	return "dinner"
}

// sayPortions: ", 48 portions", ", 24 covers" where nobody told those of some dish; "" where nobody said of any
// dish for how many it was.
func (w *Wrap) sayPortions() string {
	n := 0
	for _, d := range w.Dishes {
		if d.Covers > 0 {
			return ", " + counted1(d.Covers, "cover", "covers")
		}
		n += d.Portions
	}
	if n == 0 {
		return ""
	}
	return ", " + counted1(n, "portion", "portions")
}

// sayMeal tells what the service of a name cost that was wrapped up within a day, or is on by that name;
// "" where there is none.
func (m *money) sayMeal(meal string, t *turn) (string, error) {
	for i := len(m.list) - 1; i >= 0; i-- {
		w := m.list[i]
		if w.Until != nil && t.m.At.Sub(*w.Until) > 24*time.Hour {
			break
		}
		called := m.x.meal(w, t.m.At.Location())
		if !w.happened() || called != meal && !slices.Contains(strings.Fields(called), meal) { // the wedding may be the wedding buffet
			continue
		}
		head := title(called)
		if w.Until != nil {
			head += ", wrapped up " + sayWhen(*w.Until, t.m.At)
		}
		return head + ": " + m.sayWrap(w) + m.sayAHead(w), nil
	}
	return "", nil
}

// sayStarted tells what a service cost that was started by a name which words fit, "sunday lunch", within a day; where
// another was started before it was wrapped up, what both did. "" where none was.
func (m *money) sayStarted(said string, t *turn) (string, error) {
	for _, w := range slices.Backward(m.list) {
		if w.Until != nil && t.m.At.Sub(*w.Until) > 24*time.Hour {
			break
		}
		var names []string
		meant := ""
		for i := range m.x.Services {
			on := m.x.planAt(w.period, i)
			if on == nil || on.Wish.Meal == "" {
				continue
			}
			names = appendOnce(names, on.Wish.Meal)
			if said != "" && (fitsName(on.Wish.Meal, said) || fitsName(said, on.Wish.Meal)) {
				meant = on.Wish.Meal
			}
		}
		switch {
		case meant == "":
		case !w.happened():
			return title(meant) + ": nothing was logged since it was started.", nil
		case len(names) > 1:
			return title(both(names, "and")) + " are in one account, as nobody said \"wrap up\" between them: " + m.sayWrap(w), nil
		default:
			return m.sayMeal(meant, t)
		}
	}
	return "", nil
}

// sayAHead: " £1.66 a head for 90."; "" where nobody said for how many the service was, or costs are in several
// currencies.
func (m *money) sayAHead(w *Wrap) string {
	if len(m.purses) != 1 || w.intoDishes() == 0 {
		return ""
	}
	for i := len(m.x.Services) - 1; i >= 0; i-- {
		if on := m.x.planAt(w.period, i); on != nil && on.Wish.Portions > 0 {
			return fmt.Sprintf(" %s a head for %d.", sayPrice(m.purses[0].sign, eachOf(w.intoDishes(), on.Wish.Portions)), on.Wish.Portions)
		}
	}
	return ""
}

// sayDay tells what went into dishes in each of the day's services.
func (m *money) sayDay(t *turn) string {
	var lines []string
	for i, w := range m.list {
		if !w.happened() || w.Until != nil && pantry.DateOf(w.Until.In(t.m.At.Location())) != pantry.DateOf(t.m.At) {
			continue
		}
		cost, _ := m.say(i, 1, func(_ *Records, w *Wrap) (int64, error) { return w.intoDishes(), nil })
		binned, _ := m.say(i, 1, func(_ *Records, w *Wrap) (int64, error) { return w.total.Binned.Cost, nil })
		if cost == "" && binned == "" {
			continue
		}
		head := title(cmp.Or(m.x.mealSaid(w), "service"))
		if w.Until != nil {
			head += ", " + sayWhen(*w.Until, t.m.At)
		}
		var parts []string
		if cost != "" {
			parts = append(parts, cost+" into dishes"+w.sayPortions())
		}
		if binned != "" {
			parts = append(parts, binned+" binned")
		}
		lines = append(lines, fmt.Sprintf("%s: %s.%s", head, strings.Join(parts, ", "), w.sayUnpriced()))
	}
	if len(lines) == 0 {
		return m.sayService()
	}
	return strings.Join(lines, "\n")
}
