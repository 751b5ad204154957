package timetable

// chooser picks what to decide next. In its heap are atoms [x <= b] by activity, which is how often they or their
// denials had a part in recent conflicts (Moskewicz et al. 2001). A variable with very many values has only some of
// its atoms in it.
type chooser struct {
	choices  []choice
	rows     []row // of each variable
	heap     []int32
	place    []int32 // of each choice in heap, -1 if out
	activity []float64
	step     float64 // activity a choice gains
	advice   []int32 // of each variable: value to try first
	told     []bool  // of each variable: there is advice
}

type choice struct{ x, b int32 }

// row is where the choices of a variable are: of bounds lo, lo + 2^shift and so on.
type row struct {
	first, count, lo int32
	shift            uint8
}

// mostChoices is how many choices a variable has at most.
const mostChoices = 512

func (h *chooser) enter(x, lo, hi int32) {
	r := row{first: int32(len(h.choices)), lo: lo}
	for (hi-lo)>>r.shift > mostChoices {
		r.shift++
	}
	r.count = (hi - lo + 1<<r.shift - 1) >> r.shift
	h.rows = append(h.rows, r)
	for k := range r.count {
		h.place = append(h.place, int32(len(h.heap)))
		h.heap = append(h.heap, r.first+k)
		h.choices = append(h.choices, choice{x, lo + k<<r.shift})
		h.activity = append(h.activity, 0)
	}
	h.advice = append(h.advice, 0)
	h.told = append(h.told, false)
}

func (h *chooser) advise(x, value int32) { h.advice[x], h.told[x] = value, true }

// adviseAtom advises that a Boolean's atom holds or is denied, as it says.
func (h *chooser) adviseAtom(a atom) {
	if a.v&1 == 1 {
		h.advise(int32(a.v>>1), -a.b)
	} else {
		h.advise(int32(a.v>>1), a.b)
	}
}

// bump counts an atom as part of a conflict.
func (h *chooser) bump(a atom) {
	r := &h.rows[a.v>>1]
	if r.count == 0 {
		return
	}
	b := a.b
	if a.v&1 == 1 {
		b = -a.b - 1
	}
	k := r.first + min(max(0, b-r.lo)>>r.shift, r.count-1)
	h.activity[k] += h.step
	if h.activity[k] > 1e100 {
		for y := range h.activity {
			h.activity[y] *= 1e-100
		}
		h.step *= 1e-100
	}
	if p := h.place[k]; p >= 0 {
		h.rise(p)
	}
}

// decay makes all earlier conflicts count a little less.
func (e *engine) decay() {
	e.chooser.step /= 0.95
	e.learner.step /= 0.999
}

// free puts the choices back that a tightening of a side had made.
func (h *chooser) free(v side, now, old int32) {
	r := &h.rows[v>>1]
	lo, hi := now, old-1
	if v&1 == 1 {
		lo, hi = -old, -now-1
	}
	lo, hi = max(0, lo-r.lo)>>r.shift, min((hi-r.lo)>>r.shift, r.count-1)
	for k := r.first + lo; k <= r.first+hi; k++ {
		if h.place[k] < 0 {
			h.place[k] = int32(len(h.heap))
			h.heap = append(h.heap, k)
			h.rise(h.place[k])
		}
	}
}

func (h *chooser) rise(p int32) {
	x := h.heap[p]
	for p > 0 {
		up := (p - 1) / 2
		y := h.heap[up]
		if h.activity[y] >= h.activity[x] {
			break
		}
		h.heap[p], h.place[y] = y, p
		p = up
	}
	h.heap[p], h.place[x] = x, p
}

// take removes the most active choice.
func (h *chooser) take() choice {
	first := h.heap[0]
	h.place[first] = -1
	n := int32(len(h.heap) - 1)
	x := h.heap[n]
	h.heap = h.heap[:n]
	if n == 0 {
		return h.choices[first]
	}
	p := int32(0)
	for {
		down := 2*p + 1
		if down >= n {
			break
		}
		if down+1 < n && h.activity[h.heap[down+1]] > h.activity[h.heap[down]] {
			down++
		}
		y := h.heap[down]
		if h.activity[x] >= h.activity[y] {
			break
		}
		h.heap[p], h.place[y] = y, p
		p = down
	}
	h.heap[p], h.place[x] = x, p
	return h.choices[first]
}

// mostActive decides on the atom that had most to do with recent conflicts; false when all variables have a value.
func (e *engine) mostActive() (atom, bool) {
	for len(e.heap) > 0 {
		c := e.take()
		if e.lo(c.x) <= c.b && c.b < e.hi(c.x) {
			if e.told[c.x] && e.advice[c.x] > c.b {
				return atLeast(c.x, c.b+1), true
			}
			return atMost(c.x, c.b), true
		}
	}
	for x := range int32(len(e.rows)) {
		if !e.fixed(x) {
			return e.attempt(x), true
		}
	}
	return atom{}, false
}

// attempt decides on a bound of a variable by advice, or its least value.
func (e *engine) attempt(x int32) atom {
	lo, hi := e.lo(x), e.hi(x)
	if !e.told[x] || e.advice[x] <= lo {
		return atMost(x, lo)
	}
	if e.advice[x] >= hi {
		return atLeast(x, hi)
	}
	return atMost(x, e.advice[x])
}

// firstOf decides on the variable of a list with the least value possible, or the one to come first by advice where
// that is followed; false when all have a value.
func (e *engine) firstOf(list []int32, follow bool) (atom, bool) {
	best, bestLo, bestHi := int32(-1), int32(0), int32(0)
	for _, x := range list {
		if e.fixed(x) {
			continue
		}
		lo, hi := e.lo(x), e.hi(x)
		if follow && e.told[x] {
			lo = max(lo, e.advice[x])
		}
		if best < 0 || lo < bestLo || lo == bestLo && hi < bestHi {
			best, bestLo, bestHi = x, lo, hi
		}
	}
	switch {
	case best < 0:
		return atom{}, false
	case follow:
		return e.attempt(best), true
	}
	return atMost(best, e.lo(best)), true
}
