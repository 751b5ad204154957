package language

import (
	"scullion/pantry/measure"
	"slices"
	"strings"
)

// item reads one amount and one food.
func (p *parser) item(i int) (it Item, n int) {
	if p.dishFour(i) {
		return it, 0
	}
	if p.word(i, "the") && p.word(i+1, "lot") && !p.word(i+2, "of") { // "milk's gone off, binned the lot"
		it.Ref, it.Amount = true, Amount{How: Share, N: measure.Whole(1), Said: "all"}
		return it, 2
	}
	if n := p.toppedTailed(&it, i); n > 0 {
		return it, n
	}
	j := i
	a, m := p.amount(j)
	j += m
	it.Amount = a
	if n := p.cameOff(&it, i, j); n > 0 {
		return it, j + n - i
	}
	if _, other := p.class(j, "notfood"); m > 0 && other > 0 && !(a.How == Measured && p.lexHas(j, j+1, "trim")) { // "for 20 minutes", "14 portions"
		return it, 0
	}
	for m > 0 && j < p.end {
		if _, d := p.longest(j, "det", "pause"); d > 0 && !p.foodAt(j) {
			j += d
			continue
		}
		break
	}
	if m == 0 {
		j = p.skip(p.skip(j, "pause"), "det")
		if k := p.juice(j); k > j { // "the juice of 2 lemons" takes the lemons
			a, m = p.amount(k)
			j = k + m
		}
	}
	it.Amount = a
	if p.word(j, "them") && p.foodAt(j+1) { // "40g of them walnuts"
		j++
	}
	if _, r := p.class(j, "ref"); r > 0 && !p.foodAt(j) && (m > 0 || r > 0) {
		if m == 0 && (p.word(j, "that") || i > 0 && (p.mark(i-1, ",") || p.word(i-1, "and"))) { // "that soup", ", it has mould"
			return it, 0
		}
		j += r
		it.Ref = true
		if p.word(j, "all") {
			it.Amount, j = Amount{How: Share, N: measure.Whole(1), Said: "all"}, j+1
		}
		return it, j + p.trimOfIt(&it, j) - i
	}
	k := p.food(&it, j)
	if k == j {
		if n := p.trimOfIt(&it, j); n > 0 && m > 0 && !p.is(j-1, mark) { // "180g was peel"
			return it, j + n - i
		}
		more := p.word(j, "more") || p.word(j-1, "more") || p.word(i, "another") || i > 0 && p.word(i-1, "another")
		if m > 0 && a.How != Unsaid && (p.endsItem(j) || more && p.word(j, "just")) { // "used 50g more": of the same
			it.More = more
			_, rest := p.class(i, "share") // "the remaining 100g"
			it.Ref = a.How == Share || it.More || rest > 0
			return it, j - i
		}
		return it, 0
	}
	if _, r := p.class(k+1, "ref"); r > 0 && it.Trim && p.word(k, "off") { // "90g of peel off it"
		return it, k + 1 + r - i
	}
	p.partBehind(&it, j, k)
	k = p.told(&it, i, k, m > 0)
	if p.word(k, "not") { // "2 eggs not 3"
		if _, m := p.amount(k + 1); m > 0 && p.endsItem(k+1+m) {
			k += 1 + m
		}
	}
	return it, k - i
}

// juice passes "juice of", "zest and juice of" before an amount; i where they do
// not stand there.
func (p *parser) juice(i int) int {
	j := i
	for p.lexHas(j, j+1, "juice") || j > i && p.word(j, "and") {
		j++
	}
	if j > i && p.word(j, "of") && p.startsAmount(j+1) {
		return j + 1
	}
	return i
}

// endsItem says whether nothing that could be a food stands at i.
func (p *parser) endsItem(i int) bool {
	if i >= p.end || p.mark(i, ",:-/>=+;") || p.is(i, digit) || p.is(i, money) {
		return true
	}
	if p.t[i].sort != word {
		return false
	}
	if p.word(i, "more") {
		return true
	}
	if p.opensFood(i) {
		return false
	}
	if p.word(i, "all") && p.lexHas(i+1, i+2, "prep") || p.word(i, "off") || p.word(i, "i") || p.word(i, "ive") || p.word(i, "we") || p.word(i, "weve") { // "carrot 400 g I used"
		return true
	}
	_, m := p.longest(i, "prep", "join", "but", "stop", "left", "after", "from", "did", "going")
	return m > 0
}

// opensFood says whether a participle at i tells of the food behind it, "ground almonds", and is no
// act: the food has no amount of its own, as it has in "5 leeks 1kg peeled 3 carrots".
func (p *parser) opensFood(i int) bool {
	if p.knownLength(i) > 1 {
		return true
	}
	_, m := p.class(i, "did")
	if m == 0 || !p.is(i+m, word) {
		return false
	}
	k := i + m
	if n := p.knownLength(k); n > 0 {
		return !p.startsAmount(k + n)
	}
	if !strings.HasSuffix(p.t[i+m-1].w, "ed") || p.opens(k) { // "crushed wafers"
		return false
	}
	_, m = p.longest(k, "prep", "join", "but", "stop", "left", "after", "from", "did", "going", "pause", "ref", "later", "i", "place", "notfood", "pron")
	return m == 0
}

// food reads a food phrase into it and gives where it ends; a trim word at its
// end is taken off and noted.
func (p *parser) food(it *Item, i int) int {
	j := i
	if p.word(i, "ive") { // "I've lost half a stone"
		return i
	}
	if p.is(i, word) && !p.foodAt(i) && (p.isCook(i) || p.word(i, "all") && !p.word(i+1, "of") || p.lexHas(i, i+1, "pron") || p.lexHas(i, i+1, "spoilt") && !p.foodAt(i+1)) { // "chucked 2 pears, bruised"
		return i
	}
	for p.lexHas(i, i+1, "spoilt") && !p.foodAt(i) && p.foodAt(i+1) { // "burnt carrots"
		i++
		j = i
	}
	if n := p.stillOn(i); n > 0 && p.foodAt(i+n) && p.knownLength(i) <= n { // "3kg shell on prawns"
		i += n
		j = i
	}
	both := p.together(i)
	j += both
	for j < p.end && j-i < 6 {
		if n := p.knownLength(j); n > 1 || n == 1 && j == i {
			j += n
			continue
		}
		if j > i && p.stillOn(j) > 0 {
			break
		}
		if j > i && p.ownWord(j) {
			j++
			continue
		}
		if p.mark(j, "-") && j > i && p.is(j+1, word) && p.t[j].from == p.t[j-1].to {
			j++
			continue
		}
		if p.t[j].sort != word || p.t[j].w == "x" && p.is(j+1, digit) {
			break
		}
		if j > i && p.is(j+1, digit) && (p.word(j, "of") || p.word(j, "total") || p.word(j, "totalling")) { // "3 leeks of 220g"
			break
		}
		if j > i && (p.word(j, "bar") || p.word(j, "except")) && (p.is(j+1, digit) || p.lexHas(j+1, j+2, "number")) { // "all the eggs bar 4"
			break
		}
		if j > i && (p.word(j, "all") || p.word(j, "free") || p.lexHas(j, j+1, "spoilt")) {
			break
		}
		if j > i && p.costWord(j) > j { // "400g butter cost 1.50"
			break
		}
		if p.word(j, "weighing") && j > i || p.word(j, "off") && j > i && j+1 < p.end { // "potatoes off the van"
			break
		}
		if _, m := p.class(j+1, "ref"); m > 0 && j > i && p.word(j, "off") { // "peel off it"
			break
		}
		if m := p.skip(j, "about"); j > i && m > j && p.is(m, digit) { // "5 leeks about 1.1kg"
			break
		}
		if _, m := p.longest(j, "prep", "join", "but", "stop", "left", "label", "allgone", "weigh", "after", "none", "lack", "ref", "swap"); m > 0 && !(p.word(j, "ones") && j > i) {
			break
		}
		if _, m := p.longest(j, "did", "claim", "release", "going"); m > 0 && j > i && !p.mend[j] {
			break
		}
		if j > i && (p.startsAmount(j) || p.word(j, "a") || p.word(j, "an") || p.word(j, "another")) {
			break
		}
		if _, m := p.longest(j, "pause", "i"); m > 0 && j > i && !p.known(j, 1) { // "1 tsp of cumin I put in the kofte"
			break
		}
		j++
	}
	if j == i {
		return i
	}
	last := j
	for last > i {
		if _, m := p.class(last-1, "trim"); m == 0 || p.known(i, last-i) && last-i > 1 {
			break
		}
		last--
		it.Trim = true
	}
	if last < j {
		it.Off = strings.ToLower(p.text[p.t[last].from:p.t[j-1].to])
	}
	if last > i && p.word(last-1, "outer") {
		last--
	}
	if last >= i+both {
		it.Words = p.namedTogether(i, both)
	}
	for k := i + len(it.Words); k < last; k++ {
		if p.t[k].sort == word {
			it.Words = append(it.Words, p.t[k].raw)
		}
	}
	if n := len(it.Words) - 1; n >= 0 && !p.knownWords(it.Words) { // "half a kilo of beetroot's gone in the salad"
		if w, ok := possessive(it.Words[n]); ok && p.knownWords(append(slices.Clone(it.Words[:n]), w)) {
			it.Words[n] = w
		}
	}
	it.Food = strings.Join(it.Words, " ")
	return j + p.stillOn(j)
}
