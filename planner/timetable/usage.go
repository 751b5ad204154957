package timetable

import "slices"

// usage is what is free of each resource over time, as steps: from times[k] on, and to times[k+1], free[k] is there.
type usage struct {
	capacity []int32
	times    []int32
	free     []int32 // len(capacity) numbers a step
}

// span is what a task holds of a resource, in minutes from its start.
type span struct{ resource, units, from, to int32 }

func (u *usage) clear() {
	u.times = append(u.times[:0], 0)
	u.free = append(u.free[:0], u.capacity...)
}

// fit gives the earliest start, not before the minute given, at which all spans find room.
func (u *usage) fit(spans []span, start int32) int32 {
	k := u.step(start)
	for moved := true; moved; {
		moved = false
		for _, s := range spans {
			if wait := u.blocked(s, start, k); wait > start {
				start, moved = wait, true
				for k+1 < len(u.times) && u.times[k+1] <= start {
					k++
				}
			}
		}
	}
	return start
}

// blocked gives the next start to try where one span does not fit, else the same; k is the step that start is in.
func (u *usage) blocked(s span, start int32, k int) int32 {
	m := len(u.capacity)
	from, to := start+s.from, start+s.to
	for k+1 < len(u.times) && u.times[k+1] <= from {
		k++
	}
	for ; k < len(u.times) && u.times[k] < to; k++ {
		if u.free[k*m+int(s.resource)] < s.units {
			start = u.times[k+1] - s.from // there is a next step, for in the last all is free
			to = start + s.to
		}
	}
	return start
}

// step gives the step a minute is in.
func (u *usage) step(t int32) int {
	k, ok := slices.BinarySearch(u.times, t)
	if !ok {
		k--
	}
	return k
}

// take holds the spans of a task that starts at a minute.
func (u *usage) take(spans []span, start int32) {
	m := len(u.capacity)
	for _, s := range spans {
		from, to := u.split(start+s.from), u.split(start+s.to)
		for k := from; k < to; k++ {
			u.free[k*m+int(s.resource)] -= s.units
		}
	}
}

// split makes a step begin at a minute and gives its number.
func (u *usage) split(t int32) int {
	k := u.step(t)
	if u.times[k] == t {
		return k
	}
	m := len(u.capacity)
	u.times = slices.Insert(u.times, k+1, t)
	u.free = slices.Insert(u.free, (k+1)*m, u.free[k*m:(k+1)*m]...)
	return k + 1
}
