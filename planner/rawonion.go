package planner

import (
	"slices"

	"scullion/planner/technique"
)

// Raw onions, of leaf or bulb, season a dish: one sort of them, as much as a role bears of it,
// and a salad has another vegetable. Common practice, no source.

// isOnionToo says whether a line would be a second sort of raw onion in a dish.
func (k *kitchen) isOnionToo(d *dish, l *line, role int) bool {
	if d.frame.Roles[role].Heat != technique.None || l.cooked || !isOf(l.Food, "allium") {
		return false
	}
	return slices.ContainsFunc(d.parts, func(p part) bool {
		o := &k.lines[p.line]
		return p.role != beside && !o.cooked && isOf(o.Food, "allium") && d.frame.Roles[p.role].Heat == technique.None
	})
}

// isBareSalad says whether a salad has no vegetable but onions, nor fruit or potatoes.
func (k *kitchen) isBareSalad(f *technique.Frame, parts []part) bool {
	return f.Family == "salad" && !slices.ContainsFunc(parts, func(p part) bool {
		l := &k.lines[p.line]
		return isFresh(l.Food) && !isOf(l.Food, "allium") || isOf(l.Food, "starchy root")
	})
}
