package timetable

import "slices"

// builder makes timetables of a plain problem by serial schedule generation (Kelley 1963; Kolisch 1996): the tasks are
// taken in some order, each starts as early as it finds room. Some order gives an optimum.
type builder struct {
	m       *model
	w       *windows
	ahead   direction
	back    direction
	usage   usage
	waits   []int32 // of each task: tasks before it that are not placed yet
	ready   []int32
	rng     uint64
	best    []int32 // starts
	least   int32   // makespan of best
	forward pass
	reverse pass
}

// direction is the problem with time running one way.
type direction struct {
	before, after [][]int32
	minutes       []int32
	earliest      []int32
	spans         [][]span
}

// pass is a timetable made in one direction.
type pass struct {
	start    []int32
	makespan int32
}

func newBuilder(m *model, w *windows) *builder {
	n := len(m.tasks)
	b := &builder{m: m, w: w, waits: make([]int32, n), rng: 0x9e3779b97f4a7c15, least: m.horizon + 1}
	b.usage.capacity = m.capacity
	b.ahead.earliest, b.back.earliest = make([]int32, n), make([]int32, n)
	for i := range m.tasks {
		t := &m.tasks[i]
		before := make([]int32, len(t.after))
		for k, l := range t.after {
			before[k] = l.task
		}
		minutes := t.ways[0].minutes
		var spans, mirrored []span
		for _, h := range t.ways[0].holds {
			spans = append(spans, span{h.resource, h.units, 0, h.minutes})
			mirrored = append(mirrored, span{h.resource, h.units, minutes - h.minutes, minutes})
		}
		b.ahead.enter(before, t.followers, minutes, spans)
		b.back.enter(t.followers, before, minutes, mirrored)
		b.ahead.earliest[i] = t.earliest
	}
	b.forward.start, b.reverse.start = make([]int32, n), make([]int32, n)
	return b
}

func (d *direction) enter(before, after []int32, minutes int32, spans []span) {
	d.before, d.after = append(d.before, before), append(d.after, after)
	d.minutes, d.spans = append(d.minutes, minutes), append(d.spans, spans)
}

// place makes a timetable, of the tasks that may come next always taking the one with the least key.
func (b *builder) place(d *direction, key []int32, into *pass) {
	b.usage.clear()
	b.ready, into.makespan = b.ready[:0], 0
	for i := range d.before {
		if b.waits[i] = int32(len(d.before[i])); b.waits[i] == 0 {
			b.ready = append(b.ready, int32(i))
		}
	}
	for len(b.ready) > 0 {
		next := 0
		for k, i := range b.ready {
			if j := b.ready[next]; key[i] < key[j] || key[i] == key[j] && i < j {
				next = k
			}
		}
		i := b.ready[next]
		b.ready[next] = b.ready[len(b.ready)-1]
		b.ready = b.ready[:len(b.ready)-1]
		start := d.earliest[i]
		for _, j := range d.before[i] {
			start = max(start, into.start[j]+d.minutes[j])
		}
		start = b.usage.fit(d.spans[i], start)
		b.usage.take(d.spans[i], start)
		into.start[i] = start
		into.makespan = max(into.makespan, start+d.minutes[i])
		for _, j := range d.after[i] {
			if b.waits[j]--; b.waits[j] == 0 {
				b.ready = append(b.ready, j)
			}
		}
	}
}

// keep notes the timetable of the forward pass if it is the best; true if so.
func (b *builder) keep() bool {
	if b.forward.makespan >= b.least {
		return false
	}
	b.least, b.best = b.forward.makespan, slices.Clone(b.forward.start)
	return true
}
