package timetable

// tries is how many orders are tried before exact search begins.
const tries = 24

// quick gives a good timetable of a plain problem: by some rules of priority in both directions, then by orders drawn
// near the best rule's, each improved.
func (m *model) quick(w *windows, stop *stopper) []int {
	b := newBuilder(m, w)
	rules := b.rules()
	key := make([]int32, len(m.tasks))
	for k := 0; k < tries && (k == 0 || b.least > w.bound && !stop.now()); k++ {
		rule := rules[k%len(rules)]
		if k >= len(rules) {
			b.blur(rule, key)
			rule = key
		}
		if k%len(rules) < 2 {
			b.place(&b.ahead, rule, &b.forward)
		} else {
			b.place(&b.back, rule, &b.reverse)
			b.mirror()
		}
		b.justify()
	}
	start := make([]int, len(b.best))
	for i, t := range b.best {
		start[i] = int(t)
	}
	return start
}

// rules gives keys for the forward direction, latest finish and latest start, and the same two for the reverse (Kolisch
// 1996), all shifted by the critical path.
func (b *builder) rules() [4][]int32 {
	var keys [4][]int32
	for i := range b.m.tasks {
		minutes := b.ahead.minutes[i]
		head, tail := b.w.head[i], b.w.tail[i]
		for k, key := range [4]int32{minutes - tail, -tail, -head, -head - minutes} {
			keys[k] = append(keys[k], key)
		}
	}
	return keys
}

// blur moves keys by chance, by up to a sixth of their range either way.
func (b *builder) blur(key, into []int32) {
	lo, hi := key[0], key[0]
	for _, v := range key {
		lo, hi = min(lo, v), max(hi, v)
	}
	reach := uint64(hi-lo)/3 + 2
	for i, v := range key {
		b.rng ^= b.rng << 13
		b.rng ^= b.rng >> 7
		b.rng ^= b.rng << 17
		into[i] = 4*v + 4*int32(b.rng%reach) // shifted alike, order is all that counts
	}
}

// mirror makes a forward timetable in the order of the reverse one.
func (b *builder) mirror() {
	key := make([]int32, len(b.reverse.start))
	for i, t := range b.reverse.start {
		key[i] = -t - b.back.minutes[i]
	}
	b.place(&b.ahead, key, &b.forward)
}

// justify pushes all tasks as late as they go, in order of their ends, and then as early as they go, in order of their
// starts, as long as that makes the timetable shorter (forward-backward improvement, Li and Willis 1992; Tormos and
// Lova 2001).
func (b *builder) justify() {
	b.keep()
	key := make([]int32, len(b.forward.start))
	for b.least > b.w.bound {
		for i, t := range b.forward.start {
			key[i] = -t - b.ahead.minutes[i]
		}
		was := b.forward.makespan
		b.place(&b.back, key, &b.reverse)
		b.mirror()
		b.keep()
		if b.forward.makespan >= was {
			return
		}
	}
}
