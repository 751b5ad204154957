package share

import (
	"testing"

	"pgregory.net/rapid"
)

// TestNet compares the net worth of a dish, and what it is said to take, with trying all amounts.
func TestNet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		small := rapid.Int64Range(0, 5)
		p := Problem{Choose: 1, Candidates: []Candidate{{Value: rapid.Int64Range(-5, 5).Draw(t, "value")}}}
		c := &p.Candidates[0]
		for line := range rapid.IntRange(0, 4).Draw(t, "lines") {
			p.Stock = append(p.Stock, small.Draw(t, "stock"))
			p.Weight = append(p.Weight, small.Draw(t, "weight"))
			u := Use{Line: line, Min: small.Draw(t, "least") / 2}
			u.Max = u.Min + small.Draw(t, "most")
			c.Uses = append(c.Uses, u)
		}
		c.Min = 2 * small.Draw(t, "least total")
		c.Max = c.Min + small.Draw(t, "most total")
		m := newModel(&p)
		if len(m.dishes) == 0 {
			return
		}
		prices := newPrices(m)
		for i := range prices.of {
			prices.of[i] = rapid.Int64Range(0, 4*m.weight[i]<<prices.shift).Draw(t, "price")
		}
		prices.ask()
		d := &m.dishes[0]
		want, ok := mostNet(prices, d, 0, 0)
		if got := prices.net(d); !ok || got != want {
			t.Fatalf("net %d, want %d, %v", got, want, ok)
		}
		worth := d.value << prices.shift
		prices.charge(d)
		for i, amount := range prices.load {
			worth += prices.rates[i] * amount
		}
		if worth != want {
			t.Fatalf("what is taken is worth %d, not %d", worth, want)
		}
	})
}

// mostNet tries all amounts of the uses from the k-th on, after those that come to total.
func mostNet(p *prices, d *dish, k int, total int64) (most int64, ok bool) {
	if k == len(d.uses) {
		return d.value << p.shift, d.min <= total && total <= d.max
	}
	for u, a := d.uses[k], d.uses[k].min; a <= u.max; a++ {
		if rest, can := mostNet(p, d, k+1, total+a); can && (!ok || rest+a*p.rates[u.line] > most) {
			most, ok = rest+a*p.rates[u.line], true
		}
	}
	return most, ok
}
