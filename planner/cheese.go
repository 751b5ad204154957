package planner

import (
	"regexp"
	"slices"

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
	return f != nil && melts(f) && isPan(s)
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
		if s.at > pan && slices.Contains(s.roles, role) && !s.heats() {
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

// grated tells how cheese goes in at the end.
func grated(f *food.Food, name string) string {
	if isOf(f, "hard cheese") || isOf(f, "melting cheese") && !isOf(f, "rind cheese", "fresh cheese") {
		return "grate the " + name + " over it"
	}
	return "the " + name + " over it in pieces"
}
