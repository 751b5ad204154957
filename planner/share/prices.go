package share

import "math/bits"

// prices relax a problem: a price is put on every line instead of the limit to its stock, so that each dish can be
// reckoned by itself. Whatever the prices, the worth of all stock at its price and of the dishes net of what they pay
// is a bound (Lagrange; Geoffrion 1974). Good prices are found by following subgradients (Held, Wolfe and Crowder
// 1974), and held by the dishes of a whole subtree.
//
// Prices, and worths that are net of them, are in fractions of a unit of worth: 1<<shift of them.
type prices struct {
	m     *model
	shift int
	of    []int64 // of each line
	rates []int64 // of each line: weight less price
	stock int64   // worth of all stock at its price
	parts []part  // of the dish reckoned last, best rate first
	load  []int64 // of each line: what the dishes take
}

// part is what a dish takes of a line.
type part struct {
	line       int32
	rate       int64
	room, take int64 // above the minimum
}

func newPrices(m *model) *prices {
	return &prices{
		m:     m,
		shift: m.shift(),
		of:    make([]int64, len(m.stock)),
		rates: make([]int64, len(m.stock)),
		load:  make([]int64, len(m.stock)),
	}
}

// shift is how finely prices can be told without overflow.
func (m *model) shift() int {
	var worth, value int64
	for i, s := range m.stock {
		worth += s * m.weight[i]
	}
	for i := range m.dishes {
		value = max(value, m.dishes[i].value, -m.dishes[i].value)
	}
	worth = (worth + value) * int64(m.choose+1)
	return min(20, max(0, bits.Len64(mostWorth)-1-bits.Len64(uint64(worth))))
}

// ask sets the rates and the worth of the stock by the prices.
func (p *prices) ask() {
	p.stock = 0
	for i, v := range p.of {
		p.rates[i] = p.m.weight[i]<<p.shift - v
		p.stock += v * p.m.stock[i]
	}
}

// net is the greatest worth of a dish net of prices. Its amounts are left in parts.
func (p *prices) net(d *dish) int64 {
	p.parts = p.parts[:0]
	worth, gainful := d.value<<p.shift, int64(0)
	for i := range d.uses {
		u := &d.uses[i]
		rate := p.rates[u.line]
		worth += rate * u.min
		room := u.max - u.min
		if rate > 0 {
			gainful += room
		}
		p.parts = append(p.parts, part{u.line, rate, room, 0})
	}
	lack := d.min - (d.max - d.spare)
	if lack <= gainful && gainful <= d.spare {
		lack = 0 // all that is gainful is taken, and nothing else
	} else {
		p.sort()
	}
	spare := d.spare
	for i := range p.parts {
		q := &p.parts[i]
		if q.rate > 0 {
			q.take = min(q.room, spare)
		} else {
			q.take = min(q.room, max(0, lack))
		}
		spare -= q.take
		lack -= q.take
		worth += q.rate * q.take
	}
	return worth
}

// sort puts the parts in order of descending rate.
func (p *prices) sort() {
	for i := 1; i < len(p.parts); i++ {
		q := p.parts[i]
		k := i
		for ; k > 0 && p.parts[k-1].rate < q.rate; k-- {
			p.parts[k] = p.parts[k-1]
		}
		p.parts[k] = q
	}
}

// charge adds what a dish takes at these prices to the load.
func (p *prices) charge(d *dish) {
	p.net(d)
	for i := range d.uses {
		p.load[d.uses[i].line] += d.uses[i].min
	}
	for _, q := range p.parts {
		p.load[q.line] += q.take
	}
}

// step moves the prices against the difference of stock and load, by Polyak's rule for an excess over what is aimed at.
func (p *prices) step(excess float64) {
	var square float64
	for i, s := range p.m.stock {
		if short := float64(s - p.load[i]); short < 0 || p.of[i] > 0 {
			square += short * short
		}
	}
	if square == 0 {
		return
	}
	for i, s := range p.m.stock {
		move := excess / square * float64(s-p.load[i])
		most := float64(p.m.weight[i] << p.shift * 4)
		p.of[i] = int64(max(0, min(most, float64(p.of[i])-move)))
	}
}
