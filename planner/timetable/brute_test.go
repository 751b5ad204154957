package timetable

// brute tries all starts and ways, for ever longer makespans up to the one given, and gives the least makespan and
// then the least waiting; false where there is none.
func brute(p Problem, most int) (makespan, waiting int, ok bool) {
	for limit := 0; limit <= most; limit++ {
		b := &bruteForce{p: p, limit: limit, r: Result{Start: make([]int, len(p.Tasks))}}
		for _, t := range p.Tasks {
			if len(t.Else) > 0 {
				b.r.Mode = make([]int, len(p.Tasks))
			}
		}
		if b.place(0); b.found {
			return limit, b.waiting, true
		}
	}
	return 0, 0, false
}

type bruteForce struct {
	p       Problem
	limit   int
	r       Result
	found   bool
	waiting int
}

func (b *bruteForce) place(i int) {
	if i == len(b.p.Tasks) {
		b.look()
		return
	}
	t := b.p.Tasks[i]
	for k := 0; k <= len(t.Else); k++ {
		minutes := t.Minutes
		if k > 0 {
			minutes = t.Else[k-1].Minutes
		}
		if b.r.Mode != nil {
			b.r.Mode[i] = k
		}
		for s := t.Earliest; s+minutes <= b.limit; s++ {
			b.r.Start[i] = s
			if b.after(i) {
				b.place(i + 1)
			}
		}
	}
}

// after looks at precedences early; verify does the rest.
func (b *bruteForce) after(i int) bool {
	for _, j := range b.p.Tasks[i].After {
		if j < i && b.r.Start[j] > b.r.Start[i] {
			return false
		}
	}
	return true
}

func (b *bruteForce) look() {
	r := b.r
	for i, t := range b.p.Tasks {
		r.Makespan = max(r.Makespan, r.Start[i]+b.minutes(i, t))
	}
	if r.Makespan != b.limit {
		return
	}
	for i, t := range b.p.Tasks {
		r.Waiting += t.Weight * (r.Makespan - r.Start[i] - b.minutes(i, t))
		if b.r.Mode != nil && b.r.Mode[i] > 0 {
			r.Waiting += t.Else[b.r.Mode[i]-1].Cost
		}
	}
	if b.found && r.Waiting >= b.waiting {
		return
	}
	r.Bound, r.Proven = r.Makespan, true
	r.WaitingBound, r.WaitingProven = r.Waiting, true
	if verify(b.p, r) == nil {
		b.found, b.waiting = true, r.Waiting
	}
}

func (b *bruteForce) minutes(i int, t Task) int {
	if b.r.Mode == nil || b.r.Mode[i] == 0 {
		return t.Minutes
	}
	return t.Else[b.r.Mode[i]-1].Minutes
}
