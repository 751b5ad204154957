package timetable

import "slices"

// addSettings keeps the items of each two settings of a resource apart, all of one before all of the other: one
// Boolean for each two settings.
func (p *plan) addSettings(items []item) bool {
	groups := map[int][]item{}
	var settings []int
	for _, it := range items {
		if groups[it.setting] == nil {
			settings = append(settings, it.setting)
		}
		groups[it.setting] = append(groups[it.setting], it)
	}
	slices.Sort(settings)
	for k, s := range settings {
		for _, t := range settings[:k] {
			before := p.boolean()
			if !p.groupsApart(groups[t], groups[s], before) {
				return false
			}
		}
	}
	return true
}

func (p *plan) groupsApart(first, second []item, before atom) bool {
	for _, x := range first {
		for _, y := range second {
			if x.task != y.task && !p.apart(x, y, before) {
				return false
			}
		}
	}
	return true
}
