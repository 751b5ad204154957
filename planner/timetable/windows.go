package timetable

// windows says between which minutes each task can be, by precedence alone.
type windows struct {
	head  []int32 // earliest start
	tail  []int32 // minutes from the start to the makespan, at least
	bound int32   // lower bound of the makespan
}

// newWindows follows the longest paths, and weighs the work for each resource against its capacity.
func newWindows(m *model) *windows {
	n := len(m.tasks)
	w := &windows{head: make([]int32, n), tail: make([]int32, n)}
	for _, i := range m.order {
		t := &m.tasks[i]
		w.head[i] = max(w.head[i], t.earliest)
		for _, j := range t.followers {
			w.head[j] = max(w.head[j], w.head[i]+shortest(t))
		}
	}
	for k := n - 1; k >= 0; k-- {
		i := m.order[k]
		t := &m.tasks[i]
		for _, j := range t.followers {
			w.tail[i] = max(w.tail[i], w.tail[j])
		}
		w.tail[i] += shortest(t)
		w.bound = max(w.bound, w.head[i]+w.tail[i])
	}
	w.bound = max(w.bound, energy(m, w))
	return w
}

// energy gives a lower bound: before the first task that needs a resource, and after the last, it is idle.
func energy(m *model, w *windows) int32 {
	bound := int32(0)
	for r, capacity := range m.capacity {
		before, after, work := m.horizon, m.horizon, int64(0)
		for i := range m.tasks {
			least, most := heldFor(&m.tasks[i], int32(r))
			if least == 0 {
				continue
			}
			work += least
			before = min(before, w.head[i])
			after = min(after, w.tail[i]-most)
		}
		if work > 0 {
			bound = max(bound, before+max(0, after)+int32((work+int64(capacity)-1)/int64(capacity)))
		}
	}
	return bound
}

// heldFor gives the least units times minutes of a resource that a task holds in any of its ways, and the most minutes.
func heldFor(t *task, r int32) (least int64, most int32) {
	for k := range t.ways {
		work := int64(0)
		for _, h := range t.ways[k].holds {
			if h.resource == r {
				work, most = int64(h.units)*int64(h.minutes), max(most, h.minutes)
			}
		}
		if k == 0 || work < least {
			least = work
		}
	}
	return least, most
}
