package share

import "slices"

// relax finds prices for what can still come of the choice, from those given on, and bounds every option by them.
func (s *search) relax(o *outlook, start []int64, rounds int) {
	p := o.prices
	copy(p.of, start)
	lowest := o.atPrices(s.choice)
	good := slices.Clone(p.of)
	pace := 1.0
	for range rounds {
		if lowest>>p.shift <= s.best || s.stop(len(o.options)) {
			break
		}
		o.charge(s.choice)
		p.step(pace * float64(o.relaxed-s.aim(p, lowest)))
		if bound := o.atPrices(s.choice); bound < lowest {
			lowest = bound
			copy(good, p.of)
		} else {
			pace *= 0.7
		}
	}
	copy(p.of, good)
	o.atPrices(s.choice)
	o.boundNet()
}

// aim is what prices try to bring a bound down to.
func (s *search) aim(p *prices, lowest int64) int64 {
	if s.best == nothing {
		return lowest - lowest/20
	}
	return s.best << p.shift
}

// atPrices reckons the nets at the present prices and gives the bound.
func (o *outlook) atPrices(c *choice) int64 {
	o.prices.ask()
	o.base = o.prices.stock
	for _, d := range c.dishes {
		o.base += o.prices.net(&c.m.dishes[d])
	}
	for i := range o.nets {
		o.nets[i] = nothing
	}
	for i := range o.options {
		p := &o.options[i]
		p.net = o.prices.net(&c.m.dishes[p.dish])
		insert(o.nets, p.net)
	}
	o.relaxed = o.base + sum(o.nets)
	return o.relaxed
}

// charge sets the load to that of the choice and of the options with the greatest nets.
func (o *outlook) charge(c *choice) {
	clear(o.prices.load)
	for _, d := range c.dishes {
		o.prices.charge(&c.m.dishes[d])
	}
	more := o.more
	for i := range o.options {
		if p := &o.options[i]; more > 0 && p.net >= o.nets[o.more-1] {
			o.prices.charge(&c.m.dishes[p.dish])
			more--
		}
	}
}

// boundNet lowers the bounds to what the prices allow.
func (o *outlook) boundNet() {
	least, others := o.nets[o.more-1], o.base+sum(o.nets[:o.more-1])
	o.bound = min(o.bound, o.relaxed>>o.prices.shift)
	for i := range o.options {
		p := &o.options[i]
		p.bound = min(p.bound, o.bound, (others+min(p.net, least))>>o.prices.shift)
	}
}
