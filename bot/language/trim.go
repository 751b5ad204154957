package language

import (
	"strings"

	"scullion/pantry/food"
)

// trimmed says whether at i stands what came off the food before, and how much: "peel 60g".
func (p *parser) trimmed(i int) bool {
	_, m := p.class(i, "trim")
	return m > 0 && p.startsAmount(p.skipMark(i+m, ":-="))
}

// trimOfIt reads what an amount of the food before was, behind it: "60g of it peel", "80g of that
// was greens". It gives how many tokens that takes.
func (p *parser) trimOfIt(it *Item, i int) int {
	if it.Amount.How != Measured && it.Amount.How != Pieces {
		return 0
	}
	j := i
	if p.word(j, "was") || p.word(j, "were") || p.word(j, "is") || p.word(j, "as") {
		j++
	}
	_, m := p.class(j, "trim")
	if m == 0 && p.is(j, word) && food.NamesTrimming(p.t[j].w) {
		m = 1
	}
	if m == 0 || !p.over(j+m) {
		return 0
	}
	it.Ref, it.Trim, it.Off = false, true, strings.ToLower(p.text[p.t[j].from:p.t[j+m-1].to])
	return j + m - i
}
