package planner

import (
	"regexp"
	"slices"
	"strings"

	"scullion/pantry/food"
	"scullion/planner/technique"
)

// Cheese that melts is not fried by itself, nor with the vegetables: it goes into the dish
// when that comes out of the pan, the hard ones grated. What keeps its form in a pan, halloumi
// and paneer, is fried.

// melts says whether a food is such cheese.
func melts(f *food.Food) bool {
	return isOf(f, "hard cheese", "melting cheese", "fresh cheese", "salty cheese", "blue-veined cheese", "rind cheese") && !isOf(f, "frying cheese")
}

var panned = regexp.MustCompile(`\b(fry|cook|brown|soften|spice)\b`)

// isPan says whether a step of a frame is one in a pan that is for what is fried, and not for
// what has been filled: a sandwich, an omelette.
func isPan(s *technique.Step) bool {
	return s.Kit == "ring" && s.Temp == 0 && panned.MatchString(s.What) && !filled.MatchString(s.What)
}

var filled = regexp.MustCompile(`\b(fold|until brown and hot through|in the broth)\b`)

// keepsOut says whether a food has no place in a step of the frame of a dish, though its role
// has one.
func keepsOut(d *dish, step int, f *food.Food) bool {
	s := &d.frame.Steps[step]
	return f != nil && isPan(s) && (melts(f) || isReadyFish(f) && !strings.Contains(s.What, "both sides")) // but in cakes
}

// isReadyFish says whether a food is fish that is eaten as it comes: smoked salmon, fish out of a
// tin. Frying makes it hard and salt: it is folded in off the heat. Smoked fish that wants cooking
// is fried as fish is.
func isReadyFish(f *food.Food) bool {
	if !isOf(f, "smoked fish", "tinned fish") {
		return false
	}
	heat, _, _ := technique.Need(technique.Of(f, false))
	return heat == technique.None
}

// cheeseOnly says whether all that a step in a pan handles melts: then the step falls away.
func (k *kitchen) cheeseOnly(d *dish, step int) bool {
	if !isPan(&d.frame.Steps[step]) {
		return false
	}
	all := k.foodsBy(d, func(role int) bool { return slices.Contains(d.frame.Handles[step], role) })
	return len(all) > 0 && !slices.ContainsFunc(all, func(f inDish) bool { return !keepsOut(d, step, f.food) })
}

// meltsAt gives the step, of those that a dish has, with which a role of cheese goes in that
// the frame's pan does not take; -1 where the frame has no pan for it.
func meltsAt(d *dish, steps []Step, role int) int {
	pan := -1
	for i := range d.frame.Steps {
		if pan < 0 && slices.Contains(d.frame.Handles[i], role) && isPan(&d.frame.Steps[i]) {
			pan = i
		}
	}
	if pan < 0 {
		return -1
	}
	for i, s := range steps {
		if s.at > pan && (slices.Contains(s.roles, role) || strings.HasPrefix(s.Do, "fold")) && !s.heats() {
			return i
		}
	}
	for i, s := range steps {
		if slices.Contains(d.frame.Steps[s.at].After, pan) && !s.heats() {
			return i
		}
	}
	return finishAt(steps)
}

// foldedIn puts into the words of a step, with what comes after it, that fish which is ready to
// eat goes in with it.
func foldedIn(do string, hot, hotAfter bool, name string) string {
	switch {
	case strings.Contains(do, "fill"), !hot && !hotAfter:
		return withName(do, name)
	case hotAfter:
		return do + "; fold the " + name + " in"
	}
	return do + "; off the heat, fold the " + name + " in"
}

// grated tells how cheese goes in at the end.
func grated(f *food.Food, name string) string {
	if isOf(f, "hard cheese") || isOf(f, "melting cheese") && !isOf(f, "rind cheese", "fresh cheese") {
		return "grate the " + name + " over it"
	}
	return "the " + name + " over it in pieces"
}
