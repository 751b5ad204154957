package bot

import (
	"slices"
	"strings"

	"scullion/bot/language"
)

// hadInDish writes as a use what a dish is said to have had in it, with an amount: "roasties had 600g dripping". Of what is
// no dish and no food here the text is left as it is: "the kids had 2 soups".
func (t *turn) hadInDish(text string) string {
	dish, amount, what, ok := language.DishHad(text)
	if !ok || language.IsPlace(strings.ToLower(dish)) {
		return text
	}
	if !slices.Contains(t.k.Dishes, t.dish(strings.ToLower(dish))) && !t.reader().NamesDish(dish) && !language.IsFilled(dish) {
		return text
	}
	if h := t.ear.find(what); !h.exact || h.sound || len(h.lines) == 0 && h.food == nil {
		return text
	}
	return "used " + amount + " " + what + " in the " + dish
}
