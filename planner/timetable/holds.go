package timetable

// holds says whether starts and modes from outside are a timetable, and one that does not reach past the horizon.
func (m *model) holds(start, mode []int) bool {
	for i := range start {
		if start[i] < 0 || start[i] > int(m.horizon) || m.way(mode, i) == nil {
			return false
		}
	}
	for i := range m.tasks {
		t := &m.tasks[i]
		if start[i] < int(t.earliest) || m.end(start, mode, i) > int(t.latest) {
			return false
		}
		for _, l := range t.after {
			gap := start[i] - m.end(start, mode, int(l.task))
			if gap < 0 || l.within >= 0 && gap > int(l.within) {
				return false
			}
		}
	}
	for r := range m.capacity {
		uses := m.usesOf(start, mode, int32(r))
		if !withinCapacity(uses, int(m.capacity[r])) || m.setting[r] && !settingsApart(uses) {
			return false
		}
	}
	return true
}

// use is what a timetable holds of a resource from one minute to before another.
type use struct{ from, to, units, setting int }

func (m *model) usesOf(start, mode []int, r int32) []use {
	var uses []use
	for i := range m.tasks {
		w := m.way(mode, i)
		for _, h := range w.holds {
			if h.resource == r {
				uses = append(uses, use{start[i], start[i] + int(h.minutes), int(h.units), w.setting})
			}
		}
	}
	return uses
}

func withinCapacity(uses []use, capacity int) bool {
	for _, at := range uses { // the most is held when some use begins
		held := 0
		for _, u := range uses {
			if u.from <= at.from && at.from < u.to {
				held += u.units
			}
		}
		if held > capacity {
			return false
		}
	}
	return true
}

func settingsApart(uses []use) bool {
	spans := map[int]use{} // of each setting, from the first minute to the last
	for _, u := range uses {
		s, ok := spans[u.setting]
		if !ok {
			s = u
		}
		spans[u.setting] = use{from: min(s.from, u.from), to: max(s.to, u.to), setting: u.setting}
	}
	for _, a := range spans {
		for _, b := range spans {
			if a.setting != b.setting && a.from < b.to && b.from < a.to {
				return false
			}
		}
	}
	return true
}
