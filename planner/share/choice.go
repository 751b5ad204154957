package share

// choice is a choice that need not be complete yet, with what it may take of every line.
type choice struct {
	m         *model
	dishes    []int32
	low, high []int64 // of each line: the sums of what the dishes take at least and at most
	min, max  int64   // sums of their least and greatest totals
	value     int64
	counts    []int   // of each group
	loads     []int64 // on each limit
}

func newChoice(m *model) *choice {
	return &choice{
		m:      m,
		dishes: make([]int32, 0, m.choose),
		low:    make([]int64, len(m.stock)),
		high:   make([]int64, len(m.stock)),
		counts: make([]int, len(m.groups)),
		loads:  make([]int64, len(m.limits)),
	}
}

func (c *choice) push(d int32) {
	c.dishes = append(c.dishes, d)
	c.add(&c.m.dishes[d], 1)
}

func (c *choice) pop() {
	last := len(c.dishes) - 1
	c.add(&c.m.dishes[c.dishes[last]], -1)
	c.dishes = c.dishes[:last]
}

func (c *choice) add(d *dish, sign int64) {
	for i := range d.uses {
		u := &d.uses[i]
		c.low[u.line] += sign * u.min
		c.high[u.line] += sign * u.max
	}
	c.min += sign * d.min
	c.max += sign * d.max
	c.value += sign * d.value
	for _, g := range d.groups {
		c.counts[g] += int(sign)
	}
	for i, l := range d.loads {
		c.loads[i] += sign * l
	}
}

// set replaces what is chosen.
func (c *choice) set(dishes []int32) {
	for len(c.dishes) > 0 {
		c.pop()
	}
	for _, d := range dishes {
		c.push(d)
	}
}

// usable is the worth of what the dishes may use if nothing but stock and their uses bound it.
func (c *choice) usable() int64 {
	worth := c.value
	for i, h := range c.high {
		worth += c.m.weight[i] * min(h, c.m.stock[i])
	}
	return worth
}

// gain bounds what d adds to usable: its value and the worth of what it can take where high leaves some, within its
// greatest total.
func (c *choice) gain(d *dish) int64 {
	worth, spare := d.value, d.spare
	for i := range d.uses {
		u := &d.uses[i]
		left := c.m.stock[u.line] - c.high[u.line]
		if left <= 0 {
			continue
		}
		take := min(left, u.max)
		if above := take - u.min; above > spare {
			take -= above - spare
			spare = 0
		} else if above > 0 {
			spare -= above
		}
		worth += c.m.weight[u.line] * take
	}
	return worth
}

// wants gives the greatest number of members that any group lacks.
func (c *choice) wants() (most int) {
	for _, g := range c.m.demanding {
		most = max(most, c.m.groups[g].least-c.counts[g])
	}
	return most
}

// forced gives the number of groups that each of so many more dishes must be in. It is not ok where they are too few.
func (c *choice) forced(more int) (groups int, ok bool) {
	for _, g := range c.m.demanding {
		switch need := c.m.groups[g].least - c.counts[g]; {
		case need > more:
			return 0, false
		case need == more && need > 0:
			groups++
		}
	}
	return groups, true
}

// listOptions puts the dishes of a list that may be added into an outlook. It says whether enough are found.
func (c *choice) listOptions(o *outlook, list []int32, bad *nogoods) bool {
	forced, ok := c.forced(o.more)
	if !ok {
		return false
	}
	for _, d := range list {
		if c.allows(&c.m.dishes[d], o.more, forced) && !bad.exclude(c.dishes, d) {
			o.options = append(o.options, option{dish: d})
		}
	}
	return len(o.options) >= o.more
}

// allows says whether groups, limits and stock let d be one of so many more dishes, all of which must be in each of the forced
// groups.
func (c *choice) allows(d *dish, more, forced int) bool {
	for _, g := range d.groups {
		group, count := c.m.groups[g], c.counts[g]
		if count >= group.most {
			return false
		}
		if group.least-count == more {
			forced--
		}
	}
	if forced > 0 {
		return false
	}
	for i, limit := range c.m.limits {
		if c.loads[i]+d.load(i)+c.m.lightest[i][more-1] > limit {
			return false
		}
	}
	var room int64
	for i := range d.uses {
		u := &d.uses[i]
		left := c.m.stock[u.line] - c.low[u.line]
		if left < u.min {
			return false
		}
		room += min(left, u.max)
	}
	return room >= d.min
}
