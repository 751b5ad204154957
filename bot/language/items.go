package language

import (
	"slices"
	"strings"

	"scullion/pantry/measure"
)

// items reads items and the dish they went into, into s.
func (p *parser) items(s *Statement, i int) int {
	j := i
	from := len(s.Items)
	for j < p.end {
		if k := p.itemsFrom(s, j, from == len(s.Items)); k > j {
			j = k
		}
		if s.Act == "use" || s.Act == "claim" || s.Act == "bin" { // "half the leeks left in the quiche"
			j = p.skip(j, "left")
		}
		if ph, m := p.class(j, "after"); m > 0 && turns(s.Act, ph.value) && (m > 1 || p.over(j+m)) {
			break // "in the bin" is no dish
		}
		j = p.instead(j)
		if k := p.skipMark(j, "-,"); p.word(k, "all") || p.word(k, "both") { // "500g potatoes, 200g leeks - all in the chowder"
			if d, m := p.dish(k + 1); m > 0 {
				if p.word(k, "both") && len(s.Items) == 1 {
					p.bothGo(d)
				}
				j = k + 1
			}
		}
		if k := p.skip(p.skip(j, "pause"), "later"); k > j { // "save me four eggs please for the souffle", "tonight for the tagine"
			if _, m := p.dish(k); m > 0 {
				j = k
			}
		}
		dish, m := p.dish(j)
		if m == 0 {
			break
		}
		j += m
		if s.Act == "receive" || s.Act == "count" {
			continue
		}
		if s.Act == "use" && IsPlace(dish) && !binned(dish) && !isPaper(dish) { // "in the oven for the staff feed"
			if d, m := p.dish(j); m > 0 && !IsPlace(d) && !IsNobody(d) {
				dish, j = d, j+m
			}
		}
		if s.Dish == "" && from == 0 {
			s.Dish = dish
		}
		for x := from; x < len(s.Items); x++ {
			s.Items[x].Dish = dish
		}
		from = len(s.Items)
		if k := p.skip(j, "pause"); k > j && p.joint(k) > k { // "for my brownies please and 4 eggs too"
			j = k
		}
		k := p.joint(j)
		if k == j && len(s.Items) == 0 && p.startsAmount(j) { // "used for the borscht 700g beetroot"
			continue
		}
		if k == j || p.newClause(k) || !p.startsAmount(k) && !p.opens(k) {
			break
		}
		j = k
	}
	return j
}

// bothIn gives the uses said so far in the sentence, which name no dish, the one
// at i: "grated 100g cheddar, chopped 10g parsley, both for the omelette". 0 where
// there is none.
func (p *parser) bothIn(i int) int {
	if !p.word(i, "both") && !p.word(i, "all") {
		return 0
	}
	dish, m := p.dish(i + 1)
	if m == 0 || IsPlace(dish) || IsNobody(dish) || !p.over(i+1+m) {
		return 0
	}
	if !p.bothGo(dish) {
		return 0
	}
	p.open = nil
	return i + 1 + m
}

// bothGo gives the uses said so far that name no dish this one; false where there
// is none.
func (p *parser) bothGo(dish string) (found bool) {
	for x := range p.out.Statements {
		if s := &p.out.Statements[x]; s.Act == "use" && s.Dish == "" && !hasDish(s.Items) {
			s.Dish, s.Doubt, found = dish, false, true
		}
	}
	return found
}

// instead passes "instead of the cream".
func (p *parser) instead(i int) int {
	_, m := p.class(i, "swap")
	if m == 0 {
		return i
	}
	return p.food(&Item{}, p.skip(i+m, "det"))
}

func clearDishes(items []Item) {
	for i := range items {
		items[i].Dish = ""
	}
}

func hasDish(items []Item) bool {
	for _, it := range items {
		if it.Dish != "" {
			return true
		}
	}
	return false
}

// joint passes what joins two items: "and", a comma, both, or nothing at all
// before an amount.
func (p *parser) joint(j int) int {
	k := j
	for p.mark(k, ",+&/") || p.mark(k, "-") && k > 0 && p.t[k].from != p.t[k-1].to {
		k++
	}
	if _, m := p.class(k, "join"); m > 0 {
		k += m
	}
	if k == j && p.word(k, "an") && p.is(k+1, digit) { // a slip of "and"
		k++
	}
	if k > j {
		k = p.skip(k, "pause")
	}
	if _, m := p.class(k, "prep"); m > 0 && k == j && p.startsAmount(k+m) { // "in two tablespoons of oil"
		k += m
	}
	return k
}

// itemsOnly reads items.
func (p *parser) itemsOnly(s *Statement, i int) int { return p.itemsFrom(s, i, len(s.Items) == 0) }

// itemsFrom is itemsOnly; first says that nothing need join the first item to
// what came before.
func (p *parser) itemsFrom(s *Statement, i int, first bool) int {
	j := i
	for j < p.end {
		k := j
		if !first || j > i {
			k = p.joint(j)
			if k > j && p.newClause(k) {
				return j
			}
			if k == j && !p.startsAmount(j) {
				return j
			}
			if _, m := p.longest(k, "ask", "i", "there"); m > 0 && !p.foodAt(k) {
				return j
			}
			if p.word(k, "all") || p.word(k, "both") { // "- all in the chowder"
				if _, m := p.dish(k + 1); m > 0 {
					return j
				}
			}
			if s.Act == "count" && p.weighsAt(p.skip(k, "det")) { // "counted 9 eggs, and the carrots weigh 700g"
				return j
			}
			if p.word(k-1, "with") && !p.startsAmount(k) && !p.word(k, "a") { // "with mustard": by the way
				return j
			}
		}
		it, n := p.item(k)
		if n == 0 {
			return j
		}
		if it.Food == "" && it.Amount.How == Share && k > i && (p.word(k+n, "is") || p.word(k+n, "are") || p.word(k+n, "was") || p.word(k+n, "can") || p.word(k+n, "will") || p.word(k+n, "looks") || p.word(k+n, "has")) {
			return j // "the rest is still good"
		}
		if it.Food == "" && s.Act == "receive" && k == j && len(s.Items) > 0 && p.is(k, word) { // "bought bo a pint on sunday"
			return j
		}
		if _, m := p.class(k+n, "lack"); m > 0 && s.Act == "receive" && !p.word(k+n+m, "in") && !p.word(k+n+m, "home") && !(p.word(k+n, "on") && s.Verb != "" && !strings.HasPrefix(s.Verb, "deliver")) { // "1kg carrots missing"
			j = k + n + m
			continue
		}
		if last := len(s.Items) - 1; last >= 0 && s.Act == "receive" && p.word(k-1, "and") && it.Amount.How == Unsaid && !p.known(k, n) {
			o := &s.Items[last] // "salt and vinegar crisps" are one food
			o.Words = append(append(o.Words, p.t[k-1].raw), it.Words...)
			o.Food = strings.Join(o.Words, " ")
			j = p.terms(o, k+n)
			continue
		}
		if it.Amount.How == Unsaid && !it.Amount.Some && !it.Ref && len(s.Items) > 0 && s.Items[0].Amount.Each {
			it.Amount = s.Items[0].Amount // "100g each of carrots and leeks"
		}
		if last := len(s.Items) - 1; last >= 0 && it.Amount.How == Unsaid && unsaid(s.Items[last:]) && !p.known(k, n) && p.namesDish(k, k+n) { // "finished the leek and tattie soup"
			s.Items = s.Items[:last]
			return k + n
		}
		if it.Amount.How == Unsaid && len(s.Items) > 0 && p.mark(k-1, ",-/>=") && !p.known(k, n) && p.namesDish(k, k+n) { // "used 150g mushrooms, risotto"
			return j
		}
		if p.binnedNext(s, k+n) { // "used 600g celeriac, 140g peel binned"
			return j
		}
		s.Items = append(s.Items, it)
		j = p.terms(&s.Items[len(s.Items)-1], k+n)
	}
	return j
}

// binnedNext says whether what was read of a list of uses up to i was binned, in a
// clause of its own.
func (p *parser) binnedNext(s *Statement, i int) bool {
	v, m := p.longest(i, "did", "going")
	return m > 0 && s.Act == "use" && len(s.Items) > 0 && strings.HasPrefix(v.value, "bin") && p.over(i+m)
}

// item reads one amount and one food.
func (p *parser) item(i int) (it Item, n int) {
	if p.dishFour(i) {
		return it, 0
	}
	j := i
	a, m := p.amount(j)
	j += m
	if _, other := p.class(j, "notfood"); m > 0 && other > 0 { // "for 20 minutes", "14 portions"
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
		return it, j - i
	}
	k := p.food(&it, j)
	if k == j {
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
	if p.word(i, "all") && p.lexHas(i+1, i+2, "prep") || p.word(i, "off") || p.word(i, "i") || p.word(i, "ive") || p.word(i, "we") || p.word(i, "weve") { // "carrot 400 g I used"
		return true
	}
	_, m := p.longest(i, "prep", "join", "but", "stop", "left", "after", "from", "did", "going")
	return m > 0
}

// food reads a food phrase into it and gives where it ends; a trim word at its
// end is taken off and noted.
func (p *parser) food(it *Item, i int) int {
	j := i
	if p.is(i, word) && !p.foodAt(i) && (p.isCook(i) || p.word(i, "all") && !p.word(i+1, "of") || p.lexHas(i, i+1, "pron") || p.lexHas(i, i+1, "spoilt") && !p.foodAt(i+1)) { // "chucked 2 pears, bruised"
		return i
	}
	for p.lexHas(i, i+1, "spoilt") && !p.foodAt(i) && p.foodAt(i+1) { // "burnt carrots"
		i++
		j = i
	}
	for j < p.end && j-i < 6 {
		if n := p.knownLength(j); n > 1 || n == 1 && j == i {
			j += n
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
		if j > i && (p.word(j, "all") || p.word(j, "free") || p.lexHas(j, j+1, "spoilt")) {
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
	for k := i; k < last; k++ {
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
	return j
}
