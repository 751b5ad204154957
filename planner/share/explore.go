package share

import (
	"cmp"
	"slices"
)

// explore looks for better choices that add so many more dishes of a list to the present choice, none of which are
// worth more than bound. It gives a bound on what it left open: nothing, if the search was complete.
//
// As in the search for exact covers (Knuth 2000), it branches on what must be covered and can be covered in the fewest
// ways: on a line that no better choice leaves as it is, or a group that wants a member.
func (s *search) explore(list []int32, more int, bound int64, start []int64) (open int64) {
	switch {
	case s.stop(len(list) + 1):
		return bound
	case more == 0:
		if s.choice.wants() == 0 {
			s.try()
		}
		return nothing
	}
	o := s.outlooks[more]
	if !s.look(o, list, start, rounds) {
		return nothing
	}
	if more == 1 {
		return s.last(o)
	}
	return s.branch(o, min(bound, o.bound))
}

// branch explores the options to branch on one after the other, without those before.
func (s *search) branch(o *outlook, bound int64) (open int64) {
	o.sort(s.choice)
	open = nothing
	for _, k := range o.first {
		p := &o.options[k]
		left := min(bound, p.bound)
		if o.more == s.m.choose {
			s.shrink(max(open, left, s.best))
		}
		if left <= s.best {
			break
		}
		o.set.remove(int(k))
		if !s.bad.exclude(s.choice.dishes, p.dish) {
			s.choice.push(p.dish)
			open = max(open, s.descend(o, p, left))
			s.choice.pop()
		}
	}
	return open
}

// descend explores what can be added after an option.
func (s *search) descend(o *outlook, p *option, bound int64) (open int64) {
	if o.more > narrowest {
		return s.explore(o.listed(o.set), o.more-1, bound, o.prices.of)
	}
	return s.narrow(o, o.set, o.more-1, bound, o.base+p.net)
}

// last tries the options that complete the choice.
func (s *search) last(o *outlook) (open int64) {
	slices.SortFunc(o.options, func(a, b option) int {
		return cmp.Or(cmp.Compare(b.bound, a.bound), cmp.Compare(a.dish, b.dish))
	})
	for _, p := range o.options {
		if p.bound <= s.best {
			break
		}
		if s.stop(1) {
			return p.bound
		}
		s.choice.push(p.dish)
		s.try()
		s.choice.pop()
	}
	return nothing
}

// try takes over the choice, which is complete, if it is better than the best and fits.
func (s *search) try() {
	worth, ok := s.flow.best(s.choice.dishes)
	if !ok || worth <= s.best || s.bad.contain(s.choice.dishes) {
		return
	}
	if !s.bad.fit(s.choice.dishes, func() bool { return s.stop(pollEvery) }) { // a question takes long
		s.patience--
		return
	}
	s.best = worth
	s.chosen = append(s.chosen[:0], s.choice.dishes...)
	s.report()
}
