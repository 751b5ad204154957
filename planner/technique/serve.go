package technique

import "slices"

// Cold says whether what a technique makes is eaten cold, or as cool as the room:
// what no heat has touched, what was pickled or cured, and what ends in the fridge.
func (t *Technique) Cold() bool {
	last := t.Steps[len(t.Steps)-1]
	return t.Heat == None || t.Family == "cure" || t.Family == "raw" || last.Kit == "fridge" || slices.ContainsFunc(t.Holds, func(h string) bool { return h == "cold" })
}
