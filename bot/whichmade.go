package bot

import (
	"fmt"
	"slices"
	"strings"

	"scullion/pantry"
	"scullion/pantry/food"
)

// cookedCalled gives the dishes made lately whose longer names end in said: "pie" may be the
// cottage pie and the steak pie.
func (t *turn) cookedCalled(said string) (list []string, err error) {
	said = strings.ToLower(said)
	if said == "" || slices.Contains(t.k.Dishes, said) || slices.Contains(t.k.Dishes, plural(said)) {
		return nil, nil
	}
	all, err := t.book.IntoDish("", t.said.At.Add(-pantry.LeftOver))
	for _, e := range all {
		if e.Act == pantry.Use && sayAway(e.Dish) == "" && (strings.HasSuffix(e.Dish, " "+said) || strings.HasSuffix(e.Dish, " "+singular(said)) || strings.HasSuffix(singular(e.Dish), " "+said)) {
			list = appendOnce(list, e.Dish)
		}
	}
	return list, err
}

// whichMade asks which dish is meant where several that were made lately are called so, or one
// that is set apart by the rest of its name; "" where that is plain.
func (t *turn) whichMade(said string) (string, error) {
	list, err := t.cookedCalled(said)
	switch {
	case err != nil || len(list) == 0:
		return "", err
	case len(list) > 1:
		return fmt.Sprintf("Which %s: %s? Nothing written: say it again with the whole name.", strings.ToLower(said), both(list, "or")), nil
	case !slices.Equal(food.SetApart(list[0]), food.SetApart(said)):
		return fmt.Sprintf("No %s %s made lately, only %s. Nothing written: say it again with the whole name.", strings.ToLower(said), was(said), list[0]), nil
	}
	return "", nil
}

// whichPut is whichMade for a phrase that is found as one line of what was made here.
func (t *turn) whichPut(d *draft, l *pantry.Line) (result, error) {
	if l.Made == 0 || d.Act == pantry.Receive || d.Act == pantry.Make || key(l.Name) == key(d.Food) {
		return result{}, nil
	}
	text, err := t.whichMade(d.Food)
	return result{tell: text, fault: text != ""}, err
}
