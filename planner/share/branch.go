package share

import (
	"cmp"
	"slices"
)

// sort puts the options in order of descending gain and finds those to branch on, best bound first. Every choice
// better than the best has one of them.
func (o *outlook) sort(c *choice) {
	slices.SortFunc(o.options, func(a, b option) int {
		return cmp.Or(cmp.Compare(b.gain, a.gain), cmp.Compare(a.dish, b.dish))
	})
	o.set = o.set.full(len(o.options))
	if o.more <= narrowest {
		o.index(c.m)
	}
	o.pickFirst(c)
	slices.SortFunc(o.first, func(a, b int32) int {
		return cmp.Or(cmp.Compare(o.options[b].bound, o.options[a].bound), cmp.Compare(a, b))
	})
}

// pickFirst takes the users of the scarcest line or the members of the scarcest group, whichever are fewer; all options
// where nothing is needed.
func (o *outlook) pickFirst(c *choice) {
	line, users := o.scarcestLine(c)
	group, members := o.scarcestGroup(c)
	o.first = o.first[:0]
	for k, p := range o.options {
		d := &c.m.dishes[p.dish]
		switch {
		case group != none && members < users:
			if !slices.Contains(d.groups, int32(group)) {
				continue
			}
		case line != none && !o.mayBeGreatest(d, line):
			continue
		}
		o.first = append(o.first, int32(k))
	}
}

// index notes which options take of each line.
func (o *outlook) index(m *model) {
	for i := range o.users {
		o.users[i] = o.users[i].empty(len(o.options))
	}
	for k, p := range o.options {
		for _, u := range m.dishes[p.dish].uses {
			o.users[u.line].add(k)
		}
	}
}

// listed gives the dishes of the options in a set.
func (o *outlook) listed(set bitset) []int32 {
	o.dishes = o.dishes[:0]
	for k := range set.all() {
		o.dishes = append(o.dishes, o.options[k].dish)
	}
	return o.dishes
}

// scarcestLine finds the needed line that the fewest options can take most of, and how many those are.
func (o *outlook) scarcestLine(c *choice) (line, users int) {
	clear(o.votes)
	for _, p := range o.options {
		for _, u := range c.m.dishes[p.dish].uses {
			if o.needed[u.line] > 0 && u.max*int64(o.more) >= o.needed[u.line] {
				o.votes[u.line]++
			}
		}
	}
	line, users = none, len(o.options)+1
	for i, n := range o.needed {
		if n > 0 && o.votes[i] < users {
			line, users = i, o.votes[i]
		}
	}
	return line, users
}

// mayBeGreatest says whether a dish can take so much of a needed line that no other one added need take more.
func (o *outlook) mayBeGreatest(d *dish, line int) bool {
	for _, u := range d.uses {
		if int(u.line) == line {
			return u.max*int64(o.more) >= o.needed[line]
		}
	}
	return false
}

// scarcestGroup finds the group that wants members and has the fewest among the options, and how many those are.
func (o *outlook) scarcestGroup(c *choice) (group, members int) {
	group, members = none, len(o.options)+1
	for _, g := range c.m.demanding {
		if c.counts[g] >= c.m.groups[g].least {
			continue
		}
		n := 0
		for _, p := range o.options {
			if slices.Contains(c.m.dishes[p.dish].groups, int32(g)) {
				n++
			}
		}
		if n < members {
			group, members = g, n
		}
	}
	return group, members
}
