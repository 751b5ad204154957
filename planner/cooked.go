package planner

import (
	"scullion/pantry/food"
	"scullion/planner/technique"
)

// IsCooked says whether a name tells that its food has been cooked already: cooked
// rice is another thing than rice, with other uses and dangers.
func IsCooked(f *food.Food, name string) bool { return technique.Cooked(f, name) }

// BeforeCooking gives a name without the words that tell that it was cooked:
// "leftover roast potatoes" were potatoes.
func BeforeCooking(name string) string { return technique.BeforeCooking(name) }
