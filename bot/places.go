package bot

import (
	"fmt"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// inside are the places that guests are in, not at.
var inside = []string{"bed", "ward", "room", "side room", "bay", "year", "class", "form", "suite", "cabin", "unit", "flat", "pod", "house", "group", "cubicle", "apartment", "lodge", "villa"}

// homes are the named places whose guests are the same tomorrow.
var homes = []string{"school", "nursery", "preschool", "creche", "breakfast club", "after school club", "day centre"}

// sayAt: "at table 5", "in bed 3", "at the bar".
func sayAt(place string) string {
	switch kind := kindOf(place); {
	case slices.Contains(inside, kind):
		return "in " + place
	case language.IsSpot(place):
		return "at the " + place
	}
	return "at " + place
}

// kindOf is a place without its number: "side room".
func kindOf(place string) string {
	if i := strings.LastIndexByte(place, ' '); i > 0 && strings.ContainsAny(place[i:], "0123456789") {
		return place[:i]
	}
	return place
}

// stays says whether what is said of a place stands until it is said to be over: who is in a bed, a
// ward or a class tonight is there tomorrow; who is at a table is not.
func stays(place string) bool {
	kind := kindOf(place)
	return slices.Contains(inside, kind) || slices.Contains(homes, kind)
}

// sayStanding: "Table of 14, for this service: 3 vegan." and "Until you say it is over: fish allergy in
// bed 5 (\"bed 5: none\")." Heads is how many are at the table, 0 unknown.
func sayStanding(list []pantry.Need, heads int) string {
	var now, on []pantry.Need
	for _, n := range list {
		if stays(n.Who) {
			on = append(on, n)
		} else {
			now = append(now, n)
		}
	}
	var says []string
	of := ""
	if heads > 0 {
		of = fmt.Sprint(" of ", heads)
	}
	if len(now) > 0 {
		says = append(says, fmt.Sprintf("Table%s, for this service: %s.", of, sayList(now)))
	}
	if len(on) > 0 {
		says = append(says, fmt.Sprintf("Until you say %q: %s.", on[len(on)-1].Who+": none", sayList(on)))
	}
	return strings.Join(says, " ")
}
