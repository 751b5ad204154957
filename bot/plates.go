package bot

import (
	"fmt"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// platesBack writes what came back on the plates: of the dish that is named, else of all dishes of
// this service, each by what went into it.
func (t *turn) platesBack(q *language.Question, why string) (r Reply, done bool, err error) {
	if q.Food != "" {
		dish, _, err := t.cooked(q.Food)
		if err != nil {
			return r, true, err
		}
		d := t.onPlates(dish, q.Amount)
		if dish == "" {
			d = t.ofNoDish(q.Amount)
		}
		r, err = t.write([]draft{d}, why)
		return r, r.Kind != Silent, err
	}
	_, list, err := t.wraps()
	if err != nil {
		return r, true, err
	}
	w := WithDishes(list, 0)
	if w == nil || w.Until != nil && t.said.At.Sub(*w.Until) >= wrapAgain || q.Amount.Kind != measure.Gram {
		r, err = t.write([]draft{t.ofNoDish(q.Amount)}, why)
		return r, r.Kind != Silent, err
	}
	var drafts []draft
	all, rest := 0.0, q.Amount.Base
	for _, d := range w.Dishes {
		all += d.Grams
	}
	for i, d := range w.Dishes {
		part := measure.Amount(float64(q.Amount.Base)*d.Grams/all + 0.5)
		if part = min(part, rest); i == len(w.Dishes)-1 {
			part = rest
		}
		if rest -= part; part > 0 {
			a := q.Amount
			a.Base, a.Approx = part, a.Approx || len(w.Dishes) > 1
			drafts = append(drafts, t.onPlates(d.Name, a))
		}
	}
	r, err = t.write(drafts, why)
	if r.Kind == Log && len(drafts) > 1 {
		r.Text, _, _ = strings.Cut(r.Text, "\nLeft: ") // of a pot nobody knows it
		r.Text = fmt.Sprintf("Plate waste %s, by what went into each dish: ", measure.Say(q.Amount.Base, q.Amount.Kind)) + strings.TrimSpace(lower(r.Text))
	}
	return r, r.Kind != Silent, err
}

// ofNoDish drafts that so much came back of no dish that is known: it has a line of its own.
func (t *turn) ofNoDish(a language.Amount) draft {
	return draft{Act: pantry.Bin, Food: plateWaste, Amount: a, Day: t.day()}
}

// onPlates drafts that so much of a dish came back and was thrown.
func (t *turn) onPlates(dish string, a language.Amount) draft {
	return draft{Act: pantry.Bin, Food: dish, Amount: a, Plate: true, Day: t.day()}
}
