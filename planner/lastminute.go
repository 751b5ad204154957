package planner

import (
	"regexp"
	"strings"

	"scullion/pantry/food"
)

// Garlic and ground spice burn bitter in a dry pan: they go into what is fried for its last
// minute.

// burns says whether a seasoning does so.
func burns(f *food.Food) bool {
	return f.Name == "garlic" || isOf(f, "spice") || strings.HasPrefix(f.Name, "dried ") && f.Group == "herb"
}

var dryFry = regexp.MustCompile(`(^|, )fry\b`)

// isDryFry says whether a step fries for longer than garlic bears, and not the seasoning itself.
func isDryFry(s *Step) bool {
	return s.Kit == "ring" && s.Temp == 0 && s.Minutes > 4 && dryFry.MatchString(s.Do) && !strings.Contains(s.Do, "the paste or spice")
}

// inLastMinute puts a seasoning into the words of a step that fries.
func inLastMinute(do, name string) string {
	const late = " in for the last minute"
	words, item, beside := strings.Cut(do, " (")
	at := strings.LastIndex(words, "; ")
	if head, ok := strings.CutSuffix(words, late); ok && at >= 0 {
		words = head[:at] + strings.Replace(head[at:], " and ", ", ", 1) + " and " + name + late
	} else {
		words += "; " + name + late
	}
	if beside {
		words += " (" + item
	}
	return words
}
