package timetable

// sum keeps a variable at least a constant plus weights times sides, each side taken with the minus sign.
type sum struct {
	total    int32 // variable
	constant int64
	terms    []term
}

// term is a side with its weight, above 0, and the side's greatest value when the sum was added.
type term struct {
	weight int64
	v      side
	first  int32
}

// addWaiting makes a variable for the weight times the minutes between the end of each task and the makespan, and the
// cost of the ways taken, at most as given; false where that leaves no timetable.
func (p *plan) addWaiting(most int) bool {
	p.waiting = p.variable(0, int32(most))
	s, all := &sum{total: p.waiting}, int64(0)
	sides := []side{side(2 * p.waiting)}
	add := func(w int64, v side) {
		s.terms = append(s.terms, term{w, v, p.top[v]})
		sides = append(sides, v)
	}
	for i := range p.m.tasks {
		if w := int64(p.m.tasks[i].weight); w > 0 {
			all += w
			s.constant -= w * int64(p.end[i].plus)
			add(w, side(2*p.end[i].x))
		}
		for k, w := range p.m.tasks[i].ways {
			switch a := p.taken(int32(i), k); {
			case w.cost == 0:
			case a == always:
				s.constant += int64(w.cost)
			default: // its side is a.b where it is taken, else one more
				s.constant += int64(w.cost) * (int64(a.b) + 1)
				add(int64(w.cost), a.v)
			}
		}
	}
	if all > 0 {
		add(all, side(2*p.makespan+1))
	}
	p.addRule(s, sides...)
	return p.root()
}

func (*sum) costly() bool { return false }

func (s *sum) propagate(e *engine) bool {
	least := s.constant
	for _, t := range s.terms {
		least -= t.weight * int64(e.top[t.v])
	}
	most := int64(e.hi(s.total))
	if target := min(least, most+1); target > int64(e.lo(s.total)) {
		if !e.set(atLeast(s.total, int32(target)), s.because(e, -1, least-target)) {
			return false
		}
	}
	for k, t := range s.terms {
		room := (most - least) / t.weight // more than this above its least no term can be
		if int64(e.top[t.v^1])+int64(e.top[t.v]) <= room {
			continue
		}
		over := t.weight*(room+1) - (most - least) - 1
		why := s.because(e, k, over, atMost(s.total, int32(most)))
		if !e.set(atom{t.v ^ 1, int32(room) - e.top[t.v]}, why) {
			return false
		}
	}
	return true
}

// because stores the bounds of all terms but one, as far as they are needed where the sum is over by so much.
func (s *sum) because(e *engine, except int, over int64, more ...atom) reason {
	at := int32(len(e.reasons))
	e.reasons = append(e.reasons, more...)
	for k, t := range s.terms {
		if k == except {
			continue
		}
		slack := min(over/t.weight, int64(t.first-e.top[t.v]))
		over -= slack * t.weight
		if b := e.top[t.v] + int32(slack); b < t.first {
			e.reasons = append(e.reasons, atom{t.v, b})
		}
	}
	e.reasons = append(e.reasons, atom{v: -1})
	return reason{at: at, why: byReasons}
}
