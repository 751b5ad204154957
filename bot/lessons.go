package bot

import (
	"maps"
	"slices"
	"strings"

	"scullion/pantry"
)

// Lesson is something that a kitchen's cooks have taught.
type Lesson struct {
	Name  string            `json:"name"`
	Means string            `json:"means,omitempty"`
	Facts map[string]string `json:"facts,omitempty"`
}

// Lessons lists what a kitchen's cooks have taught and not taken back.
func Lessons(k *pantry.Kitchen) (list []Lesson) {
	for _, l := range k.Lessons {
		list = append(list, Lesson{l.Name, l.Means, l.Cells})
	}
	return list
}

// Say puts a lesson in one line.
func (l Lesson) Say() string {
	if r, isRule, err := (pantry.Lesson{Name: l.Name, Cells: l.Facts}).Rule(); isRule && err == nil {
		return "House rule: " + sayRule(r) + "."
	}
	if to, isSetting := (pantry.Lesson{Name: l.Name, Cells: l.Facts}).Setting(); isSetting {
		return title(l.Name) + ": " + to + "."
	}
	if x, ok := (pantry.Lesson{Name: l.Name, Cells: l.Facts}).Told(); ok {
		return "Said to be in the " + x.Name + ": " + x.Of + "."
	}
	if l.Means != "" {
		return title(l.Name) + " is " + l.Means + "."
	}
	var facts []string
	for _, c := range slices.Sorted(maps.Keys(l.Facts)) {
		if c != "name" {
			facts = append(facts, c+" "+l.Facts[c])
		}
	}
	return "New food: " + l.Name + ", " + strings.Join(facts, ", ") + "."
}

// whatWasTaught: "the house rule: stock 2 days in the fridge", "what was said of sea beet".
func whatWasTaught(l pantry.Lesson) string {
	if r, isRule, err := l.Rule(); isRule && err == nil {
		return "the house rule, " + sayRule(r)
	}
	if to, isSetting := l.Setting(); isSetting {
		return l.Name + " " + to
	}
	if x, ok := l.Told(); ok {
		return "that " + x.Of + " is in the " + x.Name
	}
	return "what was said of " + l.Name
}
