package language

import (
	"fmt"
	"strings"

	"scullion/pantry/measure"
)

// items reads items and the dish they went into, into s.
func (p *parser) items(s *Statement, i int) int {
	j := i
	from, join := len(s.Items), -1
	for j < p.end {
		if k := p.itemsFrom(s, j, from == len(s.Items)); k > j {
			j = k
		} else if join >= 0 && p.binnedAt(j) { // "in the soup, 90g tops binned": a clause of its own
			return join
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
		heads, m := p.forHeads(j)
		if m > 0 {
			s.Heads = heads
		}
		j += m
		j = p.amountLast(s.Items[from:], j)
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
		j, join = k, j
	}
	return j
}

// amountLast takes an amount that ends the clause for the one item before it that has none: "used
// carrots in the soup, 500g".
func (p *parser) amountLast(items []Item, i int) int {
	if len(items) != 1 || items[0].Food == "" || items[0].Amount.How != Unsaid || items[0].Amount.Some {
		return i
	}
	j := p.skipMark(i, ",-:=")
	a, n := p.amount(j)
	if n == 0 || a.How != Measured || !p.over(j+n) {
		return i
	}
	items[0].Amount = a
	return j + n
}

// forHeads reads for how many a dish is: "in the soup for 12", "for 12 people"; n is how many
// tokens that takes.
func (p *parser) forHeads(i int) (heads, n int) {
	if !p.word(i, "for") {
		return 0, 0
	}
	v, n := p.number(i + 1)
	if n == 0 || v.Den != 1 || v.Num < 1 {
		return 0, 0
	}
	_, m := p.class(i+1+n, "heads")
	if end := i + 1 + n + m; end >= p.end || p.is(end, mark) {
		return int(min(v.Num, mostHeads)), 1 + n + m
	}
	return 0, 0
}

// mostHeads is for how many a dish may be.
const mostHeads = 9999

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
			s.Dish, found = dish, true
			s.Doubt = s.Doubt && !s.Loose // "put" needed no more than a dish; "add" may be an order
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
			if k == j && !p.startsAmount(j) && !(p.behindTo == j && p.foodAt(j)) {
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
		if p.word(k, "all") && n == 1 && len(s.Items) > 0 { // "thanks all"
			return j
		}
		if last := len(s.Items) - 1; last >= 0 && it.Food == "" && it.Amount.How == Measured && !it.More && s.Items[last].Amount.How == Share && (p.over(k+n) || p.lexHas(k+n, k+n+1, "stop")) {
			s.Items[last].Amount, j = it.Amount, k+n // "half the mushrooms, 200g by the scale"
			continue
		}
		if s.Act == "bin" && it.Amount.How == Unsaid && !it.Ref && len(s.Items) > 0 && p.mark(k-1, ",") && n == 1 && !p.known(k, 1) && !it.Trim { // "binned 3 pears, mush"
			return j
		}
		if it.Food == "" && it.Amount.How == Share && len(s.Items) > 0 && (p.word(k+n, "is") || p.word(k+n, "are") || p.word(k+n, "was") || p.word(k+n, "can") || p.word(k+n, "will") || p.word(k+n, "looks") || p.word(k+n, "has")) {
			return j // "the rest is still good"
		}
		if it.Food == "" && s.Act != "make" && !it.Ref && it.Amount.Part == "loaf" && p.knownWords([]string{"bread"}) { // "the bakery dropped off 40 loaves"
			it.Food, it.Words = "bread", []string{"bread"}
		}
		if it.Food == "" && it.Amount.How == Measured && it.Amount.Pack == "tub" && it.Amount.Kind == measure.Gram && p.t[k+n-1].w == "pots" { // "3kg pots" are no tubs
			it.Food, it.Words = "potatoes", []string{"potatoes"}
			it.Amount.Pack, it.Amount.Count = "", measure.Ratio{}
			it.Amount.Said = strings.TrimSuffix(it.Amount.Said, " pots")
		}
		if last := len(s.Items) - 1; last >= 0 && s.Act == "receive" && k == j && it.Food == "" && it.Amount.How == Pieces && it.Amount.Part == "" && it.Amount.N.Den == 1 && !it.Amount.Article && n == 1 && s.Items[last].Amount.How == Measured && s.Items[last].Amount.Count.Num == 0 && s.Items[last].Food != "" && p.endsItem(k+n) { // "3kg haddock 42": so many, or so much money
			p.out.Unclear, j = fmt.Sprintf("%s behind the %s", it.Amount.Said, strings.ToLower(s.Items[last].Food)), k+n
			continue
		}
		shareAlso(s.Items, &it)
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
		if it.Amount.How == Unsaid && !it.Amount.Some && len(s.Items) > 0 && p.mark(k-1, ",-/>=") && !p.known(k, n) && p.namesDish(k, k+n) { // "used 150g mushrooms, risotto"
			return j
		}
		if p.binnedNext(s, k+n) { // "used 600g celeriac, 140g peel binned"
			return j
		}
		it.Came = it.Came || it.Trim && it.Food == "" && p.mark(k-1, ",") && p.neverIn(it.Off)
		s.Items = append(s.Items, it)
		o := &s.Items[len(s.Items)-1]
		j = p.terms(o, k+n)
		if m := p.bareCost(o, j); m > 0 && (s.Act == "receive" || p.joining) {
			j = p.terms(o, j+m)
		}
		if s.Act == "receive" || s.State != "" {
			o.thawedName()
		}
		if s.Act == "receive" {
			p.plainName(o)
			j = p.ofAll(s.Items, p.howCame(o, j))
			for x := k; x < j && (o.Food != "" || o.Ref); x++ {
				p.t[x].read = true
			}
		}
	}
	return j
}

// shareAlso makes a bare fraction behind shares of a food one of the same food, and
// of what those have left: "half the leeks went in the tart and half in the soup"
// takes all that there is then.
func shareAlso(before []Item, it *Item) {
	more := it.Amount
	if it.Food != "" || more.How != Pieces || more.Part != "" || more.N.Num >= more.N.Den || len(before) == 0 {
		return
	}
	left := measure.Whole(1)
	for k := len(before) - 1; k >= 0; k-- {
		n, ok := before[k].Amount.N, before[k].Amount.How == Share && before[k].Amount.Less == nil
		if ok {
			left, ok = left.Times(measure.Ratio{Num: n.Den - n.Num, Den: n.Den})
		}
		if !ok {
			return
		}
		if before[k].Food != "" {
			break
		}
	}
	share, ok := more.N.Times(measure.Ratio{Num: left.Den, Den: max(left.Num, 1)})
	if !ok || left.Num <= 0 || share.Num > share.Den {
		share = measure.Whole(1)
	}
	it.Ref, it.Amount = true, Amount{How: Share, N: share, Said: more.Said, Approx: more.Approx}
}

// binnedAt says whether the item at i was binned, in a clause of its own.
func (p *parser) binnedAt(i int) bool {
	_, n := p.item(i)
	return n > 0 && p.binnedNext(&Statement{Act: "use", Items: make([]Item, 1)}, i+n)
}

// binnedNext says whether what was read of a list of uses up to i was binned, in a
// clause of its own.
func (p *parser) binnedNext(s *Statement, i int) bool {
	v, m := p.longest(i, "did", "going")
	return m > 0 && s.Act == "use" && len(s.Items) > 0 && strings.HasPrefix(v.value, "bin") && p.over(i+m)
}
