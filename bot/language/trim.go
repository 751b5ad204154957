package language

import (
	"slices"
	"strings"

	"scullion/pantry/food"
)

// toppedTailed reads what came off the food before where the work is named in several words:
// "topped and tailed, 60g off". It gives how many tokens that takes.
func (p *parser) toppedTailed(it *Item, i int) int {
	_, m := p.class(i, "trim")
	if m < 2 || !p.trimmed(i) {
		return 0
	}
	j := p.skipMark(i+m, ":-=,")
	a, n := p.amount(j)
	if n == 0 || a.How != Measured || !p.over(p.skipWord(j+n, "off")) {
		return 0
	}
	it.Amount, it.Trim, it.Came, it.Off = a, true, true, "tops"
	return p.skipWord(j+n, "off") - i
}

// trimmed says whether at i stands what came off the food before, and how much: "peel 60g".
func (p *parser) trimmed(i int) bool {
	_, m := p.class(i, "trim")
	marks := ":-="
	if m > 1 { // "topped and tailed, 60g"
		marks += ","
	}
	return m > 0 && p.startsAmount(p.skipMark(i+m, marks))
}

// trimNext says whether what came off the food before is all that stands at i: "peel 60g", "140g of
// peel".
func (p *parser) trimNext(i int) bool {
	if p.trimmed(i) {
		return true
	}
	if !p.startsAmount(i) {
		return false
	}
	_, n := p.amount(i)
	k := p.skip(i+n, "of")
	_, m := p.class(k, "trim")
	if v, b := p.longest(k+m, "did", "going"); strings.HasPrefix(v.value, "bin") { // "80g tops binned"
		k += b
	}
	return n > 0 && m > 0 && p.over(k+m)
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

// cameOff reads at j, behind an amount that begins at i, what came off which food: "300g fat off
// the beef", "250g peel from the carrots", and "trimmed 400g off the beef". It gives how many tokens
// that takes.
func (p *parser) cameOff(it *Item, i, j int) int {
	if it.Amount.How != Measured {
		return 0
	}
	k := p.skip(j, "of")
	_, m := p.class(k, "trim")
	if m == 0 && p.is(k, word) && food.NamesTrimming(p.t[k].w) && !p.foodAt(k) {
		m = 1
	}
	switch {
	case m > 0 && (p.word(k+m, "off") || p.lexHas(k+m, k+m+1, "from")):
	case m == 0 && i > 0 && (p.word(i-1, "trimmed") || p.word(i-1, "peeled") || p.word(i-1, "took") || p.word(i-1, "pared")) && p.find(i, "off") < j: // which the amount takes for a slip of "of"
		k = p.find(i, "off")
	default:
		return 0
	}
	at := p.skip(p.skip(k+m+1, "of"), "det")
	n := p.knownLength(at)
	if n == 0 {
		return 0
	}
	it.Trim, it.Came, it.Off = true, true, "trim"
	if m > 0 {
		it.Off = strings.ToLower(p.text[p.t[k].from:p.t[k+m-1].to])
	}
	for x := at; x < at+n; x++ {
		it.Words = append(it.Words, p.t[x].raw)
	}
	it.Food = strings.Join(it.Words, " ")
	return at + n - j
}

// allCame says whether all of some items are what came off a food that is named.
func allCame(items []Item) bool {
	return len(items) > 0 && !slices.ContainsFunc(items, func(it Item) bool { return !it.Came || it.Food == "" })
}

// neverIn says whether nobody leaves such trim in the dish that its food goes into: bones, but not
// the stalks.
func (p *parser) neverIn(off string) bool {
	for _, ph := range words().first[off] {
		if ph.class == "trim" && ph.value == "off" && len(ph.words) == 1 {
			return true
		}
	}
	return false
}

// TakesTrim says whether a dish is one that peel and bones go into: "chicken stock".
func TakesTrim(dish string) bool {
	return words().is(dish[strings.LastIndexByte(dish, ' ')+1:], "stockpot")
}
