package share

// narrowest is how many dishes are still to be added at nodes that reckon everything afresh for the last time.
const narrowest = 3

// narrow is explore for the last dishes, where nodes are many: it takes the bounds over from the node that it came
// from, and does not look at every dish there but finds the few that come into question by intersecting sets. The set
// is one of the options there.
func (s *search) narrow(from *outlook, set bitset, more int, bound, base int64) (open int64) {
	if s.stop(20) {
		return bound
	}
	o := s.outlooks[more]
	forced, ok := s.choice.forced(more)
	if !ok || !o.inherit(from, s.choice, s.best) {
		return nothing
	}
	bound = min(bound, o.bound)
	if more == 1 {
		return s.finish(from, set, forced, bound, base)
	}
	o.set = o.set.copied(set)
	usable := s.choice.usable()
	most := sum(from.gains[:more-1])
	nets := sum(from.nets[:more-1])
	line := o.scarcest(from)
	open = nothing
	for k := range o.set.all() {
		p := &from.options[k]
		if usable+p.gain+most <= s.best {
			break
		}
		if (base+p.net+nets)>>from.prices.shift <= s.best {
			continue
		}
		if line != none && !from.users[line].has(k) {
			continue
		}
		o.set.remove(k)
		d := &s.m.dishes[p.dish]
		left := min(bound, usable+most+s.choice.gain(d))
		if left <= s.best || !s.choice.allows(d, more, forced) || s.bad.exclude(s.choice.dishes, p.dish) {
			continue
		}
		s.choice.push(p.dish)
		open = max(open, s.narrow(from, o.set, more-1, left, base+p.net))
		s.choice.pop()
	}
	return open
}

// finish tries the options that complete the choice.
func (s *search) finish(from *outlook, set bitset, forced int, bound, base int64) (open int64) {
	o := s.outlooks[1]
	o.set = o.set.copied(set)
	for i, n := range o.needed {
		if n > 0 {
			o.set.intersect(from.users[i])
		}
	}
	usable := s.choice.usable()
	for k := range o.set.all() {
		p := &from.options[k]
		if usable+p.gain <= s.best {
			break
		}
		if (base+p.net)>>from.prices.shift <= s.best {
			continue
		}
		d := &s.m.dishes[p.dish]
		if usable+s.choice.gain(d) <= s.best || !s.choice.allows(d, 1, forced) || s.bad.exclude(s.choice.dishes, p.dish) {
			continue
		}
		if s.stop(20) {
			return bound
		}
		s.choice.push(p.dish)
		s.try()
		s.choice.pop()
	}
	return nothing
}

// scarcest finds the needed line that the fewest of the set take.
func (o *outlook) scarcest(from *outlook) (line int) {
	line = none
	fewest := len(from.options) + 1
	for i, n := range o.needed {
		if n <= 0 {
			continue
		}
		if users := o.set.common(from.users[i]); users < fewest {
			line, fewest = i, users
		}
	}
	return line
}
