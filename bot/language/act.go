package language

import (
	"slices"
	"strings"

	"scullion/pantry/measure"
)

// act reads a clause from i whose word for the act, v, stands at k and is n
// tokens long.
func (p *parser) act(i, k, n int, v phrase) int {
	switch v.class {
	case "if", "could":
		p.open = nil
		return p.end
	case "not":
		p.open = nil
		return p.nextClause(k + n - 1)
	}
	s := Statement{Mended: p.mend[k], Doubt: v.class == "do" && !p.hadTo(k), Verb: strings.Join(v.words, " ")}
	act, need, _ := strings.Cut(v.value, " ")
	s.Act = act
	if p.order(i, k, v, need) {
		p.open = nil
		return p.end
	}
	before, ok := p.before(i, k, k+n, &s)
	if !ok {
		p.open = nil
		return p.nextClause(k + n - 1)
	}
	if before.items > i {
		if v.class == "going" || v.class == "did" && need == "" && (act == "use" || act == "bin" || act == "receive") {
			return p.gone(&s, v, k+n, act)
		}
		p.open = nil
		return p.nextClause(k + n - 1) // "the carrots need peeling"
	}
	if v.class == "going" {
		if act != "bin" && act != "receive" {
			return p.nextClause(k + n - 1)
		}
	}
	if act == "make" {
		return p.made(&s, v, k+n)
	}
	if v.class == "unused" {
		s.Act = "return"
	}
	lead := s.Dish
	start := p.lead(k + n)
	if _, m := p.class(start, "not"); m > 0 { // "the delivery came without the leeks"
		return p.nextClause(start)
	}
	j := p.items(&s, start)
	if p.moved(&s, j, need) {
		p.open = nil
		return p.nextClause(j - 1)
	}
	if ph, m := p.class(j, "after"); m > 0 && len(s.Items) > 0 && turns(act, ph.value) {
		s.Act, s.Dish, j = ph.value, lead, j+m
		clearDishes(s.Items)
		if dish, n := p.dish(j); n > 0 && s.Act == "claim" {
			s.Dish, j = dish, j+n
		}
	}
	if _, m := p.class(j, "left"); m > 0 && (act == "receive" || act == "count") {
		s.Act, j = "count", j+m
	}
	if s.Act == "use" || s.Act == "bin" {
		j = p.how(&s, j)
	}
	if p.word(j, "in") && p.over(j+1) && s.Act == "use" { // "cem put 100g sugar in"
		j, need = j+1, ""
	}
	switch need {
	case "into", "throw", "move":
		s.Doubt = s.Doubt || s.Act == "use" && s.Dish == "" && !hasDish(s.Items)
	case "only":
		s.Only = true
	}
	if need == "all" {
		for x := range s.Items {
			if s.Items[x].Amount.How == Unsaid && !s.Items[x].Amount.Some {
				s.Items[x].Amount.How, s.Items[x].Amount.N = Share, measure.Whole(1)
			}
		}
	}
	if len(s.Items) == 0 && p.wrong != "" {
		p.open = nil
		return p.end
	}
	if len(s.Items) == 0 {
		if s.Dish != "" || s.Act == "receive" || p.mark(k+n, ":") || k+n == p.end { // the list is still to come
			p.open = &s
		}
		return max(j, p.nextClause(max(k+n, j)-1))
	}
	if s.Who != "" && s.Act != "use" && s.Act != "bin" && s.Act != "receive" && s.Act != "make" && !slices.Contains(p.cooks, s.Who) {
		return p.nextClause(j - 1) // "table 5 need 2 lemons"
	}
	if !p.fits(&s, v, i, k) {
		return p.nextClause(j - 1)
	}
	p.say(s)
	return p.afterAct(j)
}

// hadTo says whether what stands before k makes a plain form a fact: "had to
// bin 2 leeks".
func (p *parser) hadTo(k int) bool { return k > 1 && p.word(k-1, "to") && p.word(k-2, "had") }

// order says whether a word that is the same in the past and as an order ("put
// 2 leeks in") is an order here: somebody says please.
func (p *parser) order(i, k int, v phrase, need string) bool {
	same := v.class == "do" || need == "move" || v.words[0] == "cut" || v.words[0] == "beat" || v.words[0] == "roast"
	if !same {
		return false
	}
	for j := i; j < p.end; j++ {
		if p.word(j, "please") || p.word(j, "pls") || p.word(j, "plz") {
			return true
		}
	}
	return false
}

// moved says whether the food was only moved about, or put on a list: "put the
// leeks away", "put 2kg carrots in the store", "added 2 lemons to the order".
func (p *parser) moved(s *Statement, j int, need string) bool {
	place := IsPlace(s.Dish)
	for _, it := range s.Items {
		place = place || IsPlace(it.Dish)
	}
	switch {
	case place && binned(s.Dish) && need == "throw":
		return false
	case place && (s.Act == "use" || (s.Act == "return" || s.Act == "claim") && p.isPaper(s.Dish)):
		return true
	case need == "move" && (p.word(j, "away") || p.word(j, "out")):
		return true
	case need == "fetch":
		from, m := p.class(j, "from")
		return m > 0 && from.words[0] == "out" || p.word(j, "out") || p.word(j, "on") || p.word(j, "ready") || p.word(j, "done")
	}
	return false
}

func binned(dish string) bool { return dish == "bin" || dish == "compost" }

// IsPlace says whether what stands where a dish might is a place, a time or a
// paper.
func IsPlace(dish string) bool {
	if dish == "" {
		return false
	}
	last := dish[strings.LastIndexByte(dish, ' ')+1:]
	first, _, _ := strings.Cut(dish, " ")
	if day := words().first[strings.TrimSuffix(first, "s")]; len(day) > 0 && day[0].class == "weekday" { // "thursday's"
		return true
	}
	return words().places[dish] || words().places[last] || first == "table" || first == "section"
}

// isPaper says whether a dish phrase is of an order or a list.
func (p *parser) isPaper(dish string) bool {
	last := dish[strings.LastIndexByte(dish, ' ')+1:]
	if day := words().first[strings.TrimSuffix(dish, "s")]; len(day) > 0 && day[0].class == "weekday" { // "thursday's delivery"
		return true
	}
	return last == "order" || last == "orders" || last == "list" || last == "menu" || last == "delivery" || last == "invoice" || last == "table" || last == "supplier" || last == "mine" || last == "yours"
}

// turns says whether the word behind the foods may change the act: "threw the
// pears away", "put the flour back", "put 2 leeks aside".
func turns(act, to string) bool {
	return act == "use" || act == "return" || act == "claim" && to == "claim" || act == "bin" && to == "bin"
}

// fits drops statements whose words are an act's but whose sense is not.
func (p *parser) fits(s *Statement, v phrase, i, k int) bool {
	switch {
	case v.class == "unused": // only with a figure was it a return
		for _, it := range s.Items {
			if it.Amount.How != Measured && it.Amount.How != Pieces {
				return false
			}
		}
	case v.class == "claim" && strings.HasSuffix(v.words[len(v.words)-1], "need"):
		// "we need milk" and "need more milk" are a shopping list.
		we := false
		for x := i; x < k; x++ {
			we = we || p.word(x, "we")
		}
		for _, it := range s.Items {
			if bare := it.Amount.How == Unsaid && s.Dish == "" && it.Dish == ""; bare && (we || it.Amount.Some) {
				return false
			}
		}
	}
	return true
}

// say adds a statement and leaves its list open.
func (p *parser) say(s Statement) {
	p.out.Statements = append(p.out.Statements, s)
	p.open = &p.out.Statements[len(p.out.Statements)-1]
	open := *p.open
	p.open = &open
}

// afterAct passes what may trail behind a statement.
func (p *parser) afterAct(j int) int {
	if j < p.end && !p.mark(j, ",:-") {
		if _, m := p.longest(j, "join", "but"); m == 0 {
			return p.nextClause(j - 1)
		}
	}
	return j
}

type beforeAct struct{ items int }

// isName says whether a word may be the name of a cook who has not spoken yet:
// not a word that means something else.
func (p *parser) isName(i int) bool {
	if _, m := p.class(i, "noname"); m > 0 || len(p.t[i].w) < 2 || p.startsAmount(i) {
		return false
	}
	for _, ph := range p.lex[i] {
		if len(ph.words) == 1 && ph.class != "place" && ph.class != "size" {
			return false
		}
	}
	return true
}

// isCook says whether the word is the name of a cook of this kitchen.
func (p *parser) isCook(i int) bool { return slices.Contains(p.cooks, p.t[i].w) }

// before reads what stands before the act, from i to k: pauses and the
// speaker; the name of another cook; a dish ("for the stew I used"); or the
// foods themselves ("150g spinach used"). It is not ok where anything else
// does (after is where what follows the act begins): then somebody is telling a story.
func (p *parser) before(i, k, after int, s *Statement) (b beforeAct, ok bool) {
	end, follows := p.end, p.startsAmount(after)
	p.end = k
	defer func() { p.end = end }()
	j := i
	names := 0
	for j < k {
		if ph, m := p.longest(j, "i", "pause", "about"); m > 0 && !(ph.class != "i" && p.foodAt(j)) {
			j += m
			continue
		}
		if p.mark(j, ",:-") {
			j++
			continue
		}
		if _, m := p.class(p.skip(j, "det"), "noname"); m > 0 && p.isDet(j) && !p.isShare(j) {
			return b, false // "my gran"
		}
		if p.is(j, word) && s.Who == "" && (p.isCook(j) || j == k-1 && follows && p.isName(j)) {
			s.Who = p.t[j].w
			names++
			j++
			continue
		}
		if names == 0 && s.Dish == "" {
			if dish, m := p.dish(j); m > 0 && j+m < k {
				s.Dish, j = dish, j+m
				continue
			}
		}
		if p.startsAmount(j) || p.foodHere(j) || p.isDet(j) {
			at := p.skip(p.items(s, j), "i")
			if at >= k && len(s.Items) > 0 {
				b.items = at
				return b, true
			}
			s.Items = nil
			return b, false
		}
		if p.is(j, word) && names == 0 && p.isName(j) {
			s.Who = p.t[j].w
			names++
			j++
			continue
		}
		return b, false
	}
	return b, true
}

func (p *parser) foodHere(j int) bool {
	if _, m := p.class(j, "share"); m > 0 {
		return true
	}
	return p.foodAt(j)
}

func (p *parser) isShare(j int) bool { _, m := p.class(j, "share"); return m > 0 }

func (p *parser) isDet(j int) bool { _, m := p.class(j, "det"); return m > 0 }

// gone reads what follows an act that stands behind its foods: the dish.
func (p *parser) gone(s *Statement, v phrase, j int, act string) int {
	s.Act = act
	if s.Act == "use" || s.Act == "receive" {
		if ph, m := p.class(j, "after"); m > 0 && ph.value == "bin" {
			s.Act, j = "bin", j+m
		}
	}
	if dish, m := p.dish(j); m > 0 && s.Act == "use" {
		if IsPlace(dish) { // "the leeks went to table 4"
			return p.nextClause(j - 1)
		}
		s.Dish, j = dish, j+m
	} else if v.words[0] == "went" && len(v.words) == 1 && s.Act == "use" {
		return p.nextClause(j - 1) // "the milk went" says no more
	}
	for x := range s.Items { // "the leeks went in the tart": the leeks, all of them
		a := &s.Items[x].Amount
		if a.How == Unsaid && !a.Some && s.Act == "use" && v.class == "going" && v.words[0] != "used" {
			a.Some = true
		}
	}
	if s.Who != "" {
		return p.nextClause(j - 1)
	}
	p.say(*s)
	return p.afterAct(j)
}

// made reads "made 600 ml stock from the peelings" and "turned 2 onions into
// pickle".
func (p *parser) made(s *Statement, v phrase, j int) int {
	if v.words[0] == "turned" {
		from := Statement{Act: "use"}
		j = p.itemsOnly(&from, j)
		if !p.word(j, "into") || len(from.Items) == 0 {
			return p.nextClause(j - 1)
		}
		s.From = from.Items
		j = p.itemsOnly(s, j+1)
	} else {
		j = p.itemsOnly(s, j)
		_, m := p.class(j, "from")
		if m == 0 && p.word(j, "with") {
			m = 1
		}
		if m > 0 {
			from := Statement{Act: "use"}
			j = p.itemsOnly(&from, j+m)
			s.From = from.Items
		} else if len(s.Items) == 0 || s.Items[0].Amount.How != Measured {
			return p.nextClause(j - 1)
		}
	}
	if len(s.Items) != 1 {
		return p.nextClause(j - 1)
	}
	p.out.Statements = append(p.out.Statements, *s)
	p.open = nil
	return p.afterAct(j)
}

// lead passes what may stand between an act and its foods.
func (p *parser) lead(j int) int {
	for {
		if p.mark(j, ":-,") && p.is(j+1, digit) || p.mark(j, ":-") {
			j++
		} else if _, m := p.class(j, "pause"); m > 0 && !p.foodAt(j) {
			j += m
		} else if p.word(j, "up") || p.word(j, "off") || p.word(j, "just") || p.word(j, "another") && p.startsAmount(j+1) {
			j++
		} else {
			return j
		}
	}
}

// how passes how a food was treated: "chopped into the soup", "from the fridge".
func (p *parser) how(s *Statement, j int) int {
	if _, m := p.class(j, "did"); m > 0 {
		if dish, n := p.dish(j + m); n > 0 && s.Dish == "" {
			s.Dish = dish
			return j + m + n
		}
		if j+m == p.end {
			return p.end
		}
	}
	return j
}

// items reads items and the dish they went into, into s.
func (p *parser) items(s *Statement, i int) int {
	j := i
	from := len(s.Items)
	for j < p.end {
		if k := p.itemsOnly(s, j); k > j {
			j = k
		}
		if ph, m := p.class(j, "after"); m > 0 && turns(s.Act, ph.value) && (m > 1 || p.over(j+m)) {
			break // "in the bin" is no dish
		}
		j = p.instead(j)
		dish, m := p.dish(j)
		if m == 0 {
			break
		}
		j += m
		if s.Act == "receive" || s.Act == "count" {
			continue
		}
		if s.Dish == "" && from == 0 {
			s.Dish = dish
		}
		for x := from; x < len(s.Items); x++ {
			s.Items[x].Dish = dish
		}
		from = len(s.Items)
		k := p.joint(j)
		if k == j || p.newClause(k) || !p.startsAmount(k) && !p.opens(k) {
			break
		}
		j = k
	}
	return j
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
	for p.mark(k, ",+&/") {
		k++
	}
	if _, m := p.class(k, "join"); m > 0 {
		k += m
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
func (p *parser) itemsOnly(s *Statement, i int) int {
	j := i
	for j < p.end {
		k := j
		if len(s.Items) > 0 || j > i {
			k = p.joint(j)
			if k > j && p.newClause(k) {
				return j
			}
			if k == j && !p.startsAmount(j) {
				return j
			}
			if _, m := p.longest(k, "ask", "i"); m > 0 && !p.foodAt(k) {
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
		if _, m := p.class(k+n, "lack"); m > 0 && s.Act == "receive" { // "1kg carrots missing"
			j = k + n + m
			continue
		}
		if it.Amount.How == Unsaid && !it.Amount.Some && !it.Ref && len(s.Items) > 0 && s.Items[0].Amount.Each {
			it.Amount = s.Items[0].Amount // "100g each of carrots and leeks"
		}
		s.Items = append(s.Items, it)
		j = p.terms(&s.Items[len(s.Items)-1], k+n)
	}
	return j
}

// item reads one amount and one food.
func (p *parser) item(i int) (it Item, n int) {
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
	}
	it.Amount = a
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
		if m > 0 && a.How != Unsaid && p.endsItem(j) { // "used 50g more": of the same
			it.Ref = a.How == Share || p.word(j, "more") || p.word(i, "another") || i > 0 && p.word(i-1, "another")
			return it, j - i
		}
		return it, 0
	}
	if it.Amount.How == Unsaid && m == 0 {
		if b, n := p.behind(k); n > 0 { // "leeks 300g", "eggs: 6"
			it.Amount = b
			k += n
		}
	} else if b, n := p.behind(k); n > 0 && it.Amount.How == Pieces && it.Amount.Part != "" && it.Amount.N == measure.Whole(1) && b.How == Measured { // "a crate of leeks, 5kg"
		it.Amount = b
		k += n
	} else if b, n := p.each(k); n > 0 && it.Amount.How == Pieces && it.Amount.N.Den == 1 { // "6 tins of tomatoes, 400g each"
		if all, m := p.multiply(Amount{}, it.Amount.N, b, i, k+n); m > 0 {
			all.Said = it.Amount.Said + " x " + b.Said
			it.Amount, k = all, k+n
		}
	}
	return it, k - i
}

// each reads "400g each" behind a counted food.
func (p *parser) each(i int) (a Amount, n int) {
	j := i
	for p.mark(j, ",@") || p.word(j, "at") || p.word(j, "of") {
		j++
	}
	a, m := p.plain(j)
	if m == 0 || !p.word(j+m, "each") && !p.word(j+m, "apiece") {
		return a, 0
	}
	a.Said = p.text[p.t[j].from:p.t[j+m-1].to]
	return a, j + m + 1 - i
}

// behind reads an amount after its food, where nothing but an end follows it.
func (p *parser) behind(i int) (a Amount, n int) {
	j := i
	if p.mark(j, ":-=,") || p.word(j, "x") {
		j++
	}
	if !p.startsAmount(j) {
		return a, 0
	}
	a, n = p.amount(j)
	if n == 0 || a.How == Share || !p.endsItem(j+n) {
		return Amount{}, 0
	}
	if p.foodAt(j + n) {
		return Amount{}, 0
	}
	return a, j + n - i
}

// endsItem says whether nothing that could be a food stands at i.
func (p *parser) endsItem(i int) bool {
	if i >= p.end || p.mark(i, ",:-/") || p.is(i, digit) || p.is(i, money) {
		return true
	}
	if p.t[i].sort != word {
		return false
	}
	if p.word(i, "more") {
		return true
	}
	_, m := p.longest(i, "prep", "join", "but", "stop", "left", "after", "from")
	return m > 0
}

// food reads a food phrase into it and gives where it ends; a trim word at its
// end is taken off and noted.
func (p *parser) food(it *Item, i int) int {
	j := i
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
		if _, m := p.longest(j, "prep", "join", "but", "stop", "left", "label", "allgone", "weigh", "after", "none", "lack", "ref", "swap"); m > 0 && !(p.word(j, "ones") && j > i) {
			break
		}
		if _, m := p.longest(j, "did", "claim", "release", "going"); m > 0 && j > i && !p.mend[j] {
			break
		}
		if j > i && (p.startsAmount(j) || p.word(j, "a") || p.word(j, "an")) {
			break
		}
		if _, m := p.class(j, "pause"); m > 0 && j > i && !p.known(j, 1) {
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
	if last > i && p.word(last-1, "outer") {
		last--
	}
	for k := i; k < last; k++ {
		if p.t[k].sort == word {
			it.Words = append(it.Words, p.t[k].raw)
		}
	}
	it.Food = strings.Join(it.Words, " ")
	return j
}

// dish reads "in the tart": a prep, and words up to the end of the phrase. Not
// where an amount follows: "in two tablespoons of oil" is one more item.
func (p *parser) dish(i int) (name string, n int) {
	_, m := p.class(i, "prep")
	if m == 0 || p.word(i, "4") {
		return "", 0
	}
	j := i + m
	for {
		if _, d := p.longest(j, "det", "pause"); d > 0 {
			j += d
			continue
		}
		break
	}
	if p.startsAmount(j) {
		return "", 0
	}
	var list []string
	for j < p.end && len(list) < 6 {
		t := p.t[j]
		if t.sort == mark && t.w == "-" && p.is(j+1, word) && t.from == p.t[j-1].to {
			j++
			continue
		}
		if t.sort != word {
			break
		}
		if _, m := p.longest(j, "join", "but"); m > 0 && (len(list) == 0 || p.newClause(j+m) || p.startsAmount(j+m) || p.word(j, "plus") || p.word(j, "with") || p.opens(j+m) || p.talks(j, m)) {
			break
		}
		if _, m := p.longest(j, "stop", "did", "claim", "left", "prep"); m > 0 && !p.mend[j] && !p.dishWord(j) {
			break
		}
		if _, m := p.class(j, "i"); m > 0 {
			break
		}
		if len(list) > 0 && p.isCook(j) {
			break
		}
		if _, m := p.class(j, "pause"); m > 0 && len(list) > 0 {
			break
		}
		if len(list) > 0 && p.startsAmount(j) {
			break
		}
		if p.mend[j] { // a word of the dish's own: "crumble"
			t.w = plain(t.raw)
		}
		if t.w == "n" && len(list) > 0 { // mac n cheese
			t.w = "and"
		}
		list = append(list, t.w)
		j++
	}
	if len(list) == 0 {
		return "", 0
	}
	return strings.Join(list, " "), j - i
}

// talks says whether what a join opens is talk and not the rest of a name: "the
// curry and it's lovely", "the curry but it needs salt".
func (p *parser) talks(j, m int) bool {
	if _, but := p.class(j, "but"); but > 0 {
		return true
	}
	_, n := p.longest(j+m, "stop", "ref", "i", "noname", "pause")
	return n > 0
}

// opens says whether a word stands at i that opens a new item: "some", "the".
func (p *parser) opens(i int) bool {
	_, m := p.longest(i, "some", "share", "det")
	return m > 0
}

// dishWord are words for treatments that begin a dish's name: "roast veg".
func (p *parser) dishWord(i int) bool {
	switch p.t[i].w {
	case "roast", "baked", "fried", "mashed", "roasted", "grilled", "braised", "poached", "pickled", "steamed", "boiled", "scrambled", "stewed":
		return p.is(i+1, word)
	}
	return false
}

// terms reads money and dates behind an item.
func (p *parser) terms(it *Item, i int) int {
	j := i
	for j < p.end {
		if p.word(j, "for") && (p.is(j+1, money) || p.coin(j+1) > 0) || p.word(j, "at") && p.is(j+1, money) {
			j++
		}
		if p.is(j, money) && p.t[j].val.Den != 0 {
			if c, err := p.t[j].val.Of(1); err == nil {
				it.Cost = int64(c)
			}
			j++
			continue
		}
		if n := p.coin(j); n > 0 {
			w, _ := p.class(j+1, "coin")
			if v, ok := p.t[j].val.Times(w.ratio); ok {
				if c, err := v.Of(1); err == nil {
					it.Cost = int64(c)
				}
			}
			j += n
			continue
		}
		if n := p.date(it, j); n > 0 {
			j += n
			continue
		}
		if n := p.perUnit(it, j); n > 0 {
			j += n
			continue
		}
		if p.word(j, "each") || p.mark(j, ",") && (p.is(j+1, money) || p.isLabel(j+1) || p.coin(j+1) > 0) {
			j++
			continue
		}
		return j
	}
	return j
}

// perUnit reads "a kilo", "per litre", "/kg" behind a price, and makes the cost
// that of the whole amount.
func (p *parser) perUnit(it *Item, i int) int {
	if it.Cost == 0 || !(p.word(i, "a") || p.word(i, "per") || p.mark(i, "/")) {
		return 0
	}
	u, m := p.unit(i + 1)
	if m == 0 {
		return 0
	}
	if one, err := u.Base(measure.Whole(1)); err == nil && one > 0 && it.Amount.How == Measured && u.To == it.Amount.Kind {
		if cost, err := (measure.Ratio{Num: it.Cost, Den: int64(one)}).Of(it.Amount.Base); err == nil {
			it.Cost = int64(cost)
		}
	}
	return 1 + m
}

func (p *parser) isLabel(j int) bool { _, m := p.class(j, "label"); return m > 0 }

func (p *parser) coin(i int) int {
	if !p.is(i, digit) || p.t[i].val.Den == 0 {
		return 0
	}
	if w, m := p.class(i+1, "coin"); m > 0 && (w.words[0] != "pound" && w.words[0] != "pounds") {
		return 1 + m
	}
	return 0
}

// date reads "use by fri", "bb 5 march", "use by 5/3", "best before tomorrow".
func (p *parser) date(it *Item, i int) int {
	_, m := p.class(i, "label")
	if m == 0 {
		return 0
	}
	j := i + m
	for p.mark(j, ":") || p.word(j, "date") || p.word(j, "on") || p.word(j, "the") || p.word(j, "this") || p.word(j, "next") {
		j++
	}
	d := Day{Set: true}
	if w, m := p.class(j, "day"); m > 0 {
		d.Days, j = int(w.ratio.Num), j+m
	} else if w, m := p.class(j, "weekday"); m > 0 {
		d.Weekday, j = int(w.ratio.Num), j+m
	} else if w, m := p.class(j, "month"); m > 0 && p.is(j+1, digit) { // march 5
		d.Month, d.Dom, j = int(w.ratio.Num), int(p.t[j+1].val.Num), j+m+1
	} else if n := p.calendar(&d, j); n > 0 {
		j += n
	} else {
		return 0
	}
	it.Date, it.Label = d, true
	return j - i
}

// calendar reads 5 march, 5th of march, 5/3, 05.03, 2026-03-05.
func (p *parser) calendar(d *Day, i int) int {
	if !p.is(i, digit) {
		return 0
	}
	v := p.t[i].val
	if n := p.isoDate(d, i); n > 0 {
		return n
	}
	if strings.Contains(p.t[i].raw, "/") && v.Num <= 31 && v.Den <= 12 { // 5/3: day and month
		d.Dom, d.Month = int(v.Num), int(v.Den)
		return 1
	}
	j := i + 1
	for p.word(j, "th") || p.word(j, "st") || p.word(j, "nd") || p.word(j, "rd") || p.word(j, "of") {
		j++
	}
	if w, m := p.class(j, "month"); m > 0 && v.Den == 1 && v.Num <= 31 {
		d.Dom, d.Month = int(v.Num), int(w.ratio.Num)
		return j + m - i
	}
	return 0
}

func (p *parser) isoDate(d *Day, i int) int {
	if !(p.mark(i+1, "-") && p.is(i+2, digit) && p.mark(i+3, "-") && p.is(i+4, digit)) {
		return 0
	}
	y, m, dom := p.t[i].val, p.t[i+2].val, p.t[i+4].val
	if y.Num < 2000 || m.Num < 1 || m.Num > 12 || dom.Num < 1 || dom.Num > 31 {
		return 0
	}
	d.Year, d.Month, d.Dom = int(y.Num), int(m.Num), int(dom.Num)
	return 5
}
