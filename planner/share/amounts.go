package share

// flow finds the best amounts for a fixed choice: amounts between bounds on every arc from a dish to a line, totals
// between bounds on dishes, what is used of a line between least and stock, and the worth on the lines.
//
// What can be used of the lines is then a generalised polymatroid, and the greedy method is exact: lines in order of
// decreasing weight, each raised as far as augmenting paths allow without lowering those before it (Edmonds 1970;
// Megiddo 1974 for flows). Paths are shortest ones, so that their number does not depend on the amounts (Edmonds and
// Karp 1972). With whole bounds all amounts are whole.
type flow struct {
	m     *model
	arcs  []arc   // dish after dish, in the order of uses
	first []int32 // first[k]: first arc of the k-th dish; one more at the end
	head  []int32 // head[i]: an arc into line i, others follow by next; none ends
	ends  []end   // the dishes, then the lines
	queue []int32 // of ends
	round int     // of looking for a path
}

// arc is what one dish takes of one line.
type arc struct {
	amount, min, max int64
	dish, line       int32 // as numbers of ends
	next             int32
}

// end is a dish or a line, with its total.
type end struct {
	total, min, max int64
	seen            int   // the round in which it was reached
	by              int32 // the arc by which it was
}

const none = -1

func newFlow(m *model) *flow {
	return &flow{m: m, head: make([]int32, len(m.stock)), ends: make([]end, m.choose+len(m.stock))}
}

// best gives the worth of the best amounts for a choice, and leaves them in arcs. It is not ok where there are none.
func (f *flow) best(chosen []int32) (worth int64, ok bool) {
	if !f.start(chosen) {
		return 0, false
	}
	for k := range f.ends {
		if !f.raise(k, f.ends[k].min, len(chosen)) {
			return 0, false
		}
	}
	lines := f.ends[len(chosen):]
	for i := range lines {
		f.raise(len(chosen)+i, lines[i].max, len(chosen)+i+1)
		worth += f.m.weight[i] * lines[i].total
	}
	for _, d := range chosen {
		worth += f.m.dishes[d].value
	}
	return worth, true
}

// start sets every amount to its minimum.
func (f *flow) start(chosen []int32) bool {
	f.arcs, f.first, f.ends = f.arcs[:0], f.first[:0], f.ends[:0]
	for _, d := range chosen {
		f.ends = append(f.ends, end{min: f.m.dishes[d].min, max: f.m.dishes[d].max})
	}
	for i, s := range f.m.stock {
		f.ends = append(f.ends, end{min: f.m.least[i], max: s})
		f.head[i] = none
	}
	for k, d := range chosen {
		f.first = append(f.first, int32(len(f.arcs)))
		for _, u := range f.m.dishes[d].uses {
			line := int32(len(chosen)) + u.line
			f.arcs = append(f.arcs, arc{u.min, u.min, u.max, int32(k), line, f.head[u.line]})
			f.head[u.line] = int32(len(f.arcs) - 1)
			f.ends[k].total += u.min
			f.ends[line].total += u.min
			if f.ends[line].total > f.ends[line].max {
				return false
			}
		}
	}
	f.first = append(f.first, int32(len(f.arcs)))
	return true
}

// raise brings the total of an end up to target, or as near as can be. For a dish more is drawn from lines that have
// some left, or from other dishes above their minimum; for a line more is put into dishes below their maximum, or
// taken over from lines above their minimum that are numbered from givers on.
func (f *flow) raise(start int, target int64, givers int) bool {
	for f.ends[start].total < target {
		got := f.augment(int32(start), target-f.ends[start].total, int32(givers))
		if got == 0 {
			return false
		}
		f.ends[start].total += got
	}
	return true
}

// augment finds a shortest path by which the total of start can grow, and lets as much as possible, up to want, flow
// along it. It leaves the total of start to the caller.
//
// On a path away from a line, arcs towards dishes grow and arcs towards lines shrink; away from a dish it is the other
// way round.
func (f *flow) augment(start int32, want int64, givers int32) int64 {
	f.round++
	f.queue = append(f.queue[:0], start)
	f.ends[start].seen, f.ends[start].by = f.round, none
	fromLine := f.isLine(start)
	for at := 0; at < len(f.queue); at++ {
		k := f.queue[at]
		grow := f.isLine(k) == fromLine
		for e := f.firstArc(k); e != none; e = f.nextArc(k, e) {
			far := f.arcs[e].line + f.arcs[e].dish - k
			if f.ends[far].seen == f.round || f.arcs[e].room(grow) == 0 {
				continue
			}
			f.ends[far].seen, f.ends[far].by = f.round, e
			if f.spare(far, fromLine, givers) > 0 {
				return f.push(start, far, min(want, f.spare(far, fromLine, givers)))
			}
			f.queue = append(f.queue, far)
		}
	}
	return 0
}

func (f *flow) isLine(k int32) bool { return int(k) >= len(f.first)-1 }

// firstArc gives the first arc of an end that has one.
func (f *flow) firstArc(k int32) int32 {
	if f.isLine(k) {
		return f.head[int(k)-len(f.first)+1]
	}
	return f.first[k]
}

func (f *flow) nextArc(k, e int32) int32 {
	switch {
	case f.isLine(k):
		return f.arcs[e].next
	case e+1 < f.first[k+1]:
		return e + 1
	}
	return none
}

// room is how much an arc can grow, or shrink.
func (a *arc) room(grow bool) int64 {
	if grow {
		return a.max - a.amount
	}
	return a.amount - a.min
}

// spare is what a path may take up at its far end. From a line, a dish can grow and a giver can shrink; from a dish, a
// line can grow and a dish can shrink.
func (f *flow) spare(k int32, fromLine bool, givers int32) int64 {
	switch e := &f.ends[k]; {
	case f.isLine(k) != fromLine:
		return e.max - e.total
	case f.isLine(k) && k < givers:
		return 0
	default:
		return e.total - e.min
	}
}

// push lets up to want flow along the path found from start to last.
func (f *flow) push(start, last int32, want int64) int64 {
	fromLine := f.isLine(start)
	for k := last; k != start; {
		a := &f.arcs[f.ends[k].by]
		want = min(want, a.room(f.isLine(k) != fromLine))
		k = a.line + a.dish - k
	}
	f.settle(last, fromLine, want)
	for k := last; k != start; {
		a := &f.arcs[f.ends[k].by]
		if f.isLine(k) != fromLine {
			a.amount += want
		} else {
			a.amount -= want
		}
		k = a.line + a.dish - k
	}
	return want
}

// settle changes the total at the far end of a path.
func (f *flow) settle(k int32, fromLine bool, amount int64) {
	if f.isLine(k) != fromLine {
		f.ends[k].total += amount
	} else {
		f.ends[k].total -= amount
	}
}
