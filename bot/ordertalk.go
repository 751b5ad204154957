package bot

import (
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// orderTalk warns of a dish that is on its way to a place with needs: "6 fishcakes for table 2". No order
// is kept; where nothing is known of the place or of the dish, it is talk.
func (t *turn) orderTalk() (r Reply, done bool, err error) {
	q := t.reader().OrderTalk(t.m.Text)
	if q == nil || q.Food == "" || q.Place == "" {
		return r, false, nil
	}
	if !slices.ContainsFunc(t.needs(), func(n pantry.Need) bool { return isAt(n, q.Place) && !n.Lasting && n.Kind != pantry.NeedHeads }) {
		return r, false, nil
	}
	x, list, err := t.wraps()
	if err != nil {
		return r, true, err
	}
	h, err := t.heldBy(x, list, strings.ToLower(q.Food))
	if h == nil || err != nil {
		return r, false, err
	}
	text := t.sayMayEat(&language.Question{About: language.AboutEats, Food: q.Food, Place: q.Place}, h)
	if text == "" {
		return r, false, nil
	}
	return Reply{Kind: Answer, Text: t.beforeSettled(h, strings.ToLower(q.Food)) + text}, true, nil
}
