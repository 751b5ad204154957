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
	if name = strings.ToLower(name); isDry(name) || food.IsDishOf(name) {
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

// potLine is the line in which what was made of a dish stands; nil there is none. What was counted
// stands under one of it: "sausage rolls" as sausage roll, the sourdough as sourdough loaf.
func potLine(k *pantry.Kitchen, dish string) *pantry.Line {
	for n, name := range potNames(dish) {
		if l := k.Named(name); l != nil && (n == 0 || l.Made > 0) {
			return l
		}
	}
	return nil
}

func potNames(dish string) []string {
	pot := potName(dish)
	return []string{pot, singular(pot), pot + loafOf}
}

// loafOf stands behind the name of a bread that is counted.
const loafOf = " loaf"

// isPotName says whether a line that was made stands under a name, and none that came in.
func (t *turn) isPotName(name string) bool {
	h := t.ear.find(name)
	return h.exact && len(h.lines) > 0 && !slices.ContainsFunc(h.lines, func(l *pantry.Line) bool { return l.Made == 0 })
}

// isPotOf says whether a line is that in which what was made of a dish stands.
func isPotOf(line, dish string) bool {
	return slices.ContainsFunc(potNames(dish), func(name string) bool { return strings.EqualFold(line, name) })
}
