package bot

import (
	"slices"
	"strings"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/planner"
)

// cookedDry are the kinds of dry food which weigh more once they are cooked, and keep days, not
// years: what is made by their name is not what stands in the cupboard.
var cookedDry = []string{"rice", "grain", "pasta", "noodle", "dried pulse"}

// potName is what the line is called in which what was made by a name stands: the lasagne out of the
// oven is not the sheets of the cupboard.
func potName(name string) string {
	if name = strings.ToLower(name); isDry(name) {
		return "cooked " + name
	}
	return name
}

func isDry(name string) bool {
	all := food.Default()
	return slices.ContainsFunc(all.Index().Exact(strings.Fields(name)), func(id int) bool {
		f := all.Foods()[id]
		return f.Shelf == food.Cupboard && slices.ContainsFunc(f.Kinds, func(k string) bool { return slices.Contains(cookedDry, k) }) && !planner.IsCooked(f, name)
	})
}

// potLine is the line in which what was made of a dish stands; nil there is none.
func potLine(k *pantry.Kitchen, dish string) *pantry.Line { return k.Named(potName(dish)) }
