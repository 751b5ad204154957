package share

// nothing is less than the worth of any choice, and far enough from overflow to reckon with.
const nothing = -2 * mostWorth

// inherit bounds what can come of a choice by what is known of a part of it. It says whether there can be anything
// better than best.
func (o *outlook) inherit(from *outlook, c *choice, best int64) bool {
	o.bound = o.reckon(from, c)
	if o.bound <= best || !o.coversLeast(c) {
		return false
	}
	o.need(c, best)
	return true
}

// reckon gives a bound on every completion, of what may be used of each line and of all together.
func (o *outlook) reckon(from *outlook, c *choice) int64 {
	var amount int64
	worth := c.value + sum(from.values[:o.more])
	o.loose = worth
	for i, most := range from.most {
		o.reach[i] = min(c.m.stock[i], c.high[i]+sum(most[:o.more]))
		amount += o.reach[i]
		o.loose += c.m.weight[i] * o.reach[i]
	}
	if c.min-sum(from.minima[:o.more]) > amount {
		return nothing
	}
	total := c.max + sum(from.totals[:o.more])
	if amount <= total {
		return o.loose
	}
	return worth + heaviest(c.m, o.reach, total)
}

// heaviest is the worth of the heaviest lines within reach, up to a total amount.
func heaviest(m *model, reach []int64, total int64) (worth int64) {
	for i, r := range reach {
		r = min(r, total)
		worth += m.weight[i] * r
		total -= r
	}
	return worth
}

func (o *outlook) coversLeast(c *choice) bool {
	for i, least := range c.m.least {
		if o.reach[i] < least {
			return false
		}
	}
	return true
}

// need works out of which lines the dishes added must take, and how much: what cannot be spared for the least amount,
// or if the result is to be better than best.
func (o *outlook) need(c *choice, best int64) {
	slack := o.loose - best - 1
	for i, w := range c.m.weight {
		o.needed[i] = c.m.least[i] - c.high[i]
		if w > 0 {
			o.needed[i] = max(o.needed[i], o.reach[i]-c.high[i]-slack/w)
		}
	}
}

// price puts gain and bound to every option.
func (o *outlook) price(c *choice) {
	for i := range o.gains {
		o.gains[i] = nothing
	}
	for i := range o.options {
		p := &o.options[i]
		p.gain = c.gain(&c.m.dishes[p.dish])
		insert(o.gains, p.gain)
	}
	usable := c.usable()
	others := sum(o.gains[:o.more-1])
	base, amount, total := o.withoutOne(c)
	for i := range o.options {
		p := &o.options[i]
		gain := min(p.gain, o.gains[o.more-1]) // if it is more, the dish is among the others already
		p.bound = min(o.bound, usable+others+gain, o.withOne(c, &c.m.dishes[p.dish], base, amount, total))
	}
}

// withoutOne gives what all but one of the dishes added may bring together with the choice: worth, amount and the
// greatest total.
func (o *outlook) withoutOne(c *choice) (worth, amount, total int64) {
	worth = c.value + sum(o.values[:o.more-1])
	for i, most := range o.most {
		o.beside[i] = c.high[i] + sum(most[:o.more-1])
		r := min(c.m.stock[i], o.beside[i])
		amount += r
		worth += c.m.weight[i] * r
	}
	return worth, amount, c.max + sum(o.totals[:o.more-1])
}

// withOne bounds the completions that hold d from what withoutOne gave.
func (o *outlook) withOne(c *choice, d *dish, worth, amount, total int64) int64 {
	worth += d.value
	for i := range d.uses {
		u := &d.uses[i]
		if room := c.m.stock[u.line] - o.beside[u.line]; room > 0 {
			r := min(room, u.max)
			worth += c.m.weight[u.line] * r
			amount += r
		}
	}
	if c.min+d.min-sum(o.minima[:o.more-1]) > amount {
		return nothing
	}
	if total += d.max; amount > total {
		return c.value + sum(o.values[:o.more-1]) + d.value + o.heaviestWith(c.m, d, total)
	}
	return worth
}

// heaviestWith is heaviest for d and all but one of the dishes added.
func (o *outlook) heaviestWith(m *model, d *dish, total int64) (worth int64) {
	uses := d.uses
	for i, r := range o.beside {
		if len(uses) > 0 && int(uses[0].line) == i {
			r += uses[0].max
			uses = uses[1:]
		}
		r = min(r, m.stock[i], total)
		worth += m.weight[i] * r
		total -= r
	}
	return worth
}
