package bot

import (
	"scullion/bot/language"
	"scullion/pantry"
)

// intoLast gives uses for "it" the dish that this cook's last use was for.
func (t *turn) intoLast(list []draft) error {
	if !language.SaysIntoIt(t.m.Text) && !language.SaysAdded(t.m.Text) {
		return nil
	}
	dish := ""
	for i := range list {
		d := &list[i]
		if d.Act != pantry.Use || d.Dish != "" || d.State != "" {
			dish = d.Dish
			continue
		}
		if dish == "" {
			var err error
			if dish, err = t.lastDish(); err != nil || dish == "" {
				return err
			}
		}
		d.Dish = dish
	}
	return nil
}

// lastDish is the dish that this cook used something for last, if that was a little while ago at
// most; "" none.
func (t *turn) lastDish() (string, error) {
	list, err := t.book.LastLogged(t.cook, undoSearch)
	if err != nil {
		return "", err
	}
	for _, m := range list {
		if !t.fair(m) || m.N >= t.said.N {
			continue
		}
		entries, err := t.book.InForce(m)
		if err != nil {
			return "", err
		}
		for i := len(entries) - 1; i >= 0; i-- {
			e := entries[i]
			if _, away := pantry.Away(e.Dish); e.Act == pantry.Use && e.Dish != "" && !away {
				return e.Dish, nil
			}
		}
	}
	return "", nil
}
