package planner

import (
	"regexp"
	"strings"

	"scullion/pantry/food"
)

// Raw poultry and mince are told as what they are: the step in which they get done says how a
// cook sees that they are, and not "hot through", which is for food that was cooked before. Of
// other raw meat no step says that either.

// noPink is how poultry and mince are seen to be done: UK FSA.
const noPink = "until no pink is left and the juices run clear"

// inRaw is raw meat in a dish, by the step of the frame in which it must get done.
type inRaw struct {
	inDish
	at int
}

// rawMeat gives the raw meat of a dish.
func (k *kitchen) rawMeat(d *dish) (list []inRaw) {
	for r := range d.frame.Roles {
		for _, f := range k.foodsBy(d, func(role int) bool { return role == r }) {
			if f.cooked || !isOf(f.food, "poultry", "mince", "tender cut", "stewing cut", "offal", "game") {
				continue
			}
			if at := k.doneAt(d, r, f.food); at >= 0 {
				list = append(list, inRaw{f, at})
			}
		}
	}
	return list
}

var throughs = regexp.MustCompile(`\bthrough\b|juice is clear`)

// doneAt is the step of a frame in which a role of meat gets done: the first that says so, else
// that which is over the heat longest.
func (k *kitchen) doneAt(d *dish, role int, f *food.Food) int {
	for _, i := range cooksIn(d.frame, role) {
		if throughs.MatchString(k.reworded(d, d.frame.Steps[i].What, i)) {
			return i
		}
	}
	if isOf(f, "mince") { // the pan is where it is broken up and seen
		for _, i := range cooksIn(d.frame, role) {
			if isPan(&d.frame.Steps[i]) {
				return i
			}
		}
	}
	return safeAt(d.frame, role)
}

// isToldRaw says whether meat is told how it is seen to be done. Whole cuts may be pink inside.
func isToldRaw(f inDish) bool { return isOf(f.food, "poultry", "mince") }

var (
	isHotThrough = regexp.MustCompile(`,? ?(until )?(brown and )?hot (right )?through`)
	throughIn    = regexp.MustCompile(`through (with what seasons|in the oven)`)
	clearJuice   = "until the juice is clear"
)

// tellRaw tells in the words of a step how raw meat that gets done in it is seen to be.
func tellRaw(s *Step, raw []inRaw) {
	var names []inDish
	any := false
	for _, f := range raw {
		if f.at == s.at {
			if any = true; isToldRaw(f.inDish) {
				names = append(names, f.inDish)
			}
		}
	}
	if !any {
		return
	}
	words, item, beside := strings.Cut(s.Do, " (")
	switch told := listed(names); {
	case len(names) == 0:
		words = isHotThrough.ReplaceAllString(words, " through")
	case strings.Contains(words, clearJuice):
		words = strings.Replace(words, clearJuice, noPink, 1)
	case isHotThrough.MatchString(words):
		words = isHotThrough.ReplaceAllString(words, " "+noPink)
	case throughIn.MatchString(words):
		words = throughIn.ReplaceAllString(words, "$1 "+noPink)
	case strings.Contains(words, told+" through"):
		words = strings.Replace(words, told+" through", told+" "+noPink, 1)
	case strings.Contains(words, "through") && !strings.Contains(words, "or through"):
		words = strings.Replace(words, "through", noPink, 1)
	case strings.Contains(words, "fry the "+told+","):
		words = strings.Replace(words, told+",", told+" "+noPink+",", 1)
	case strings.Contains(words, told):
		words += ", " + noPink
	default:
		words += ", the " + told + " " + noPink
	}
	s.Do = words
	if beside {
		s.Do += " (" + item
	}
}
