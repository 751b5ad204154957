package pantry

import "strings"

// given is where a use went that left the house: sold, lent or given to others. Such a use names
// it where others name a dish, and is neither a dish nor waste.
const given = "given away"

// longestTaker is how many letters the name of who was given something may have to be kept.
const longestTaker = 30

// AwayTo is what stands in Entry.Dish of food that was given away: "given away to next door", or
// only "given away" where nobody said to whom, or in too many words.
func AwayTo(who string) string {
	if who == "" || len(who) > longestTaker {
		return given
	}
	return given + " to " + who
}

// Away says whether what stands in Entry.Dish is no dish but says that the food was given away,
// and to whom; "" where that is not known.
func Away(dish string) (who string, away bool) {
	if dish == given {
		return "", true
	}
	return strings.CutPrefix(dish, given+" to ")
}
