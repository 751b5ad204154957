package language

import "strings"

// landed gives how long the words for a delivery at k are, with what says that it
// has come: "delivery's just landed", "donation arrived from the mosque: ...".
func (p *parser) landed(k, n int) int {
	e := p.skip(p.skip(k+n, "i"), "pause")
	ph, m := p.longest(e, "going", "did")
	if m == 0 || !strings.HasPrefix(ph.value, "receive") {
		return n
	}
	n = e + m - k
	if colon := p.find(k+n, ""); p.lexHas(k+n, k+n+1, "from") && colon < p.end {
		n = colon - k
	}
	return n
}

// toCome says whether a delivery spoken of at k is still to come, or is not ours:
// "tomorrow's delivery: 4kg potatoes", "delivery is coming at 4", "delivery for
// next door".
func (p *parser) toCome(i, k, j int) bool {
	for x := i; x < k; x++ {
		if _, m := p.longest(x, "day", "weekday", "later"); m > 0 || p.owner(x) != "" && words().is(p.owner(x), "day") {
			return true
		}
	}
	next := p.skip(j, "sofar")
	if p.end < len(p.t) && p.t[p.end].raw == "\n" { // a list follows
		return false
	}
	return next < p.end && !p.mark(next, ":,-") && !p.startsAmount(next) && !p.foodAt(next) && !p.lexHas(next, next+1, "of")
}

// atTable says whether the clause from i speaks of a guest's table.
func (p *parser) atTable(i int) bool {
	for ; i < p.end; i++ {
		if p.word(i, "table") && p.is(i+1, digit) {
			return true
		}
	}
	return false
}
