package bot

import (
	"slices"

	"scullion/bot/language"
	"scullion/pantry"
)

// otherDish moves what a cook said went into one dish to another: "sorry the walnuts went in the
// korma not the salad". Done is false where no such entry is in force.
func (t *turn) otherDish(reading language.Reading) (r Reply, done bool, err error) {
	not := language.NotInto(t.m.Text)
	if not == "" || len(reading.Statements) != 1 {
		return r, false, nil
	}
	s := reading.Statements[0]
	if s.Act != string(pantry.Use) || s.Dish == "" || len(s.Items) != 1 || s.Items[0].Amount.How != language.Unsaid || s.Items[0].Food == "" {
		return r, false, nil
	}
	was := t.dish(not)
	if was == t.dish(s.Dish) {
		return r, false, nil
	}
	list, err := t.book.LastLogged(t.cook, undoSearch)
	if err != nil {
		return r, false, err
	}
	for _, m := range list {
		entries, err := t.book.InForce(m)
		if err != nil {
			return r, false, err
		}
		at := slices.IndexFunc(entries, func(e pantry.Entry) bool {
			return e.Act == pantry.Use && e.Dish == was && t.isFood(e, s.Items[0].Food)
		})
		if at >= 0 {
			r, err = t.mend(m, entries, at, &language.Amend{Dish: s.Dish, Food: t.k.Line(entries[at].Line).Name, Named: true})
			return r, r.Kind != Silent, err
		}
	}
	return r, false, nil
}
