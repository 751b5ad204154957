package bot

import (
	"slices"
	"time"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// mostKept is how far back a dish was cooked of which something may still be kept: no guidance for
// cooked food in a fridge is longer.
const mostKept = 4 * 24 * time.Hour

// pots lists what may be left of dishes that were cooked lately, where nobody said what is: those
// whose last day is today or is over.
func pots(book pantry.Book, ear *ear, now time.Time, country string) (list []Dated, err error) {
	k, today := book.Kitchen(), pantry.DateOf(now)
	all, err := book.IntoDish("", now.Add(-mostKept))
	if err != nil {
		return nil, err
	}
	for _, dish := range k.Dishes {
		if _, away := pantry.Away(dish); away {
			continue
		}
		var foods []*food.Food
		var in []pantry.Entry
		for _, e := range all {
			if e.Dish == dish && e.Act == pantry.Use {
				foods, in = append(foods, ear.foodOf(k.Line(e.Line))), append(in, e)
			}
		}
		if len(foods) == 0 {
			continue
		}
		last := in[len(in)-1].At
		if l := potLine(k, dish); l != nil && l.Made > 0 {
			if put, err := wasPutBy(book, l, last); put || err != nil {
				if err != nil {
					return nil, err
				}
				continue
			}
		}
		g, ok := keepsLeast(k, ear.all, dish, foods, country)
		drew, err := limitOf(book, ear, dish, in, last.Add(-pantry.LeftOver), now.Location())
		if err != nil {
			return nil, err
		}
		m := drew.keeps(workOf(dish, &drew, true))
		cooked := pantry.DateOf(last.In(now.Location()))
		d := Dated{Item: "what is left of the " + dish + ", if any is", State: food.Cooked, UseBy: g.Date != "best-before", Date: cooked.Add(g.Days)}
		if m.date != "" && (!ok || m.date < d.Date) {
			d.Date, ok = m.date, true
		}
		if d.days = d.Date.Days(today); ok && d.days <= 0 && today.Days(cooked) <= g.Days+1 { // the day after its last it is told of once more
			list = append(list, d)
		}
	}
	return list, nil
}

// wasPutBy says whether something was made on a line since a time, or with the message of that time.
func wasPutBy(book pantry.Book, l *pantry.Line, since time.Time) (bool, error) {
	entries, err := book.Since(l.ID, &pantry.Message{})
	return slices.ContainsFunc(entries, func(e pantry.Entry) bool { return e.Act == pantry.Make && !e.At.Before(since) }), err
}

// howMuch is the amount of it, where that is known: " 300 g".
func (d Dated) howMuch() string {
	if d.Amount == 0 {
		return ""
	}
	return " " + measure.Say(d.Amount, d.Unit)
}
