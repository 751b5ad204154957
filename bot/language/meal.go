package language

import "slices"

// meals are the services that have a name of their own; supper is dinner here.
var meals = []string{"breakfast", "brunch", "lunch", "dinner", "supper", "wedding", "banquet", "buffet", "function", "carvery", "christening", "wake", "party", "conference"}

// mealIn is the meal that tokens tell of: "dinner" for "tonight's dinner"; "" none.
func mealIn(list []token) string {
	for _, t := range list {
		if slices.Contains(meals, t.w) {
			return Meal(t.w)
		}
	}
	return ""
}

// Meal gives a meal the one name that it has here.
func Meal(said string) string {
	if said == "supper" {
		return "dinner"
	}
	return said
}

// mealAt reads the name of a service at i: "lunch,", "dinner service:", "for lunch", "sunday lunch:".
func (p *parser) mealAt(i int) (meal string, end int) {
	j := p.skipWord(i, "for")
	for n := 0; n < 2 && p.is(j, word) && p.is(j+1, word) && mealIn(p.t[j:j+1]) == ""; n++ { // "sunday lunch", "the school lunch"
		j++
	}
	if j >= p.end || mealIn(p.t[j:j+1]) == "" {
		return "", i
	}
	meal = mealIn(p.t[j : j+1])
	j = p.skipWord(j+1, "service")
	for j < p.end && p.is(j, mark) {
		j++
	}
	return meal, j
}
