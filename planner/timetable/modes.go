package timetable

// addWays makes the end of a task and, where there are several ways to do it, atoms that say which is taken.
func (p *plan) addWays(i int32) bool {
	t := &p.m.tasks[i]
	if len(t.ways) == 1 {
		p.end = append(p.end, finish{p.start[i], t.ways[0].minutes})
		return true
	}
	s := p.start[i]
	end := p.variable(p.lo(s)+shortest(t), p.hi(s)+longest(t))
	p.end = append(p.end, finish{end, 0})
	if len(t.ways) == 2 {
		first := p.boolean()
		p.ways[i] = []atom{first, first.not()}
	} else {
		for range t.ways {
			p.ways[i] = append(p.ways[i], p.boolean())
		}
		if !p.exactlyOne(p.ways[i]) {
			return false
		}
	}
	ok := p.lag(s, end, shortest(t), always) && p.lag(end, s, -longest(t), always)
	for k, w := range t.ways {
		ok = ok && p.lag(s, end, w.minutes, p.ways[i][k]) && p.lag(end, s, -w.minutes, p.ways[i][k])
	}
	return ok
}

func (p *plan) exactlyOne(atoms []atom) bool {
	for k, a := range atoms {
		for _, b := range atoms[:k] {
			if !p.require(a.not(), b.not()) {
				return false
			}
		}
	}
	return p.require(atoms...)
}

// taken is the atom that a task is done the way k.
func (p *plan) taken(i int32, k int) atom {
	if p.ways[i] == nil {
		return always
	}
	return p.ways[i][k]
}

// itemsOf gives what a task holds of a resource: one item where it holds the same units in every way, else one for
// each way that needs any.
func (p *plan) itemsOf(i, r int32) ([]item, bool) {
	var items []item
	t := &p.m.tasks[i]
	for k, w := range t.ways {
		for _, h := range w.holds {
			if h.resource == r {
				f := finish{p.start[i], h.minutes}
				items = append(items, item{i, p.start[i], f, h.minutes, h.units, p.taken(i, k), w.setting})
			}
		}
	}
	if len(t.ways) == 1 || len(items) < len(t.ways) {
		return items, true
	}
	least, most := items[0].minutes, items[0].minutes
	for _, it := range items[1:] {
		least, most = min(least, it.minutes), max(most, it.minutes)
		if it.units != items[0].units || it.setting != items[0].setting {
			return items, true
		}
	}
	one := items[0]
	one.minutes, one.condition, one.finish = least, always, finish{p.start[i], least}
	if least == most {
		return []item{one}, true
	}
	one.finish = finish{p.variable(p.lo(one.start)+least, p.hi(one.start)+most), 0}
	ok := p.lag(one.start, one.finish.x, least, always)
	for k, it := range items {
		ok = ok && p.lag(one.start, one.finish.x, it.minutes, p.ways[i][k])
		ok = ok && p.lag(one.finish.x, one.start, -it.minutes, p.ways[i][k])
	}
	return []item{one}, ok
}
