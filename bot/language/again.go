package language

import (
	"slices"

	"scullion/pantry/measure"
)

// again reads a message that goes on from its cook's last entry, the whole of
// it: "another 40g", "and 20g more butter in it", "same again for the soup",
// "those went in the cottage pie". 0 where it is none.
func (p *parser) again(i int) int {
	if i != p.start || !p.has.has("again", "join", "going", "prep") && !p.prices(i) || !p.alone() {
		return 0
	}
	j, joined := p.joinedOn(i)
	wrong, has := p.wrong, len(p.out.Statements)
	for _, form := range []func(*parser, *Again, int, bool) int{(*parser).forDish, (*parser).thoseWent, (*parser).same, (*parser).more, (*parser).besides} {
		a := Again{}
		if k := form(p, &a, j, joined); k > 0 && p.endsAgain(k, joined) {
			p.out.Again = &a
			return p.end
		}
		p.wrong, p.out.Statements = wrong, p.out.Statements[:has]
	}
	return 0
}

// alone says whether the sentence is all that the message says, and neither a
// question nor an order.
func (p *parser) alone() bool {
	for k := range p.t {
		if (k < p.start || k >= p.end) && (p.t[k].sort != mark || p.t[k].w == "?") {
			return false
		}
		if _, m := p.class(k, "bid"); m > 0 {
			return false
		}
	}
	return true
}

// joinedOn passes what may stand before it, and says whether that joins it to
// something said before: "and", "plus".
func (p *parser) joinedOn(i int) (j int, joined bool) {
	for i < p.end {
		if _, m := p.class(i, "join"); m > 0 {
			joined = true
			i += m
		} else if _, m := p.class(i, "pause"); m > 0 && !p.foodAt(i) {
			i += m
		} else if p.mark(i, ",+&:-") {
			joined = joined || p.mark(i, "+&")
			i++
		} else {
			break
		}
	}
	return i, joined
}

// endsAgain says whether the message ends at j. Behind "and", talk may follow a
// comma: "and another one, first was dry as a bone".
func (p *parser) endsAgain(j int, joined bool) bool {
	if j = p.skip(p.tooBehind(j), "pause"); j == p.end {
		return true
	}
	if !joined || !p.mark(j, ",") {
		return false
	}
	for ; j < p.end; j++ {
		if p.is(j, digit) {
			return false
		}
	}
	return true
}

// tooBehind passes "too" and "as well".
func (p *parser) tooBehind(j int) int {
	if w, m := p.class(j, "again"); m > 0 && w.value == "too" {
		return j + m
	}
	return j
}

// into reads where it went: "in it" or a dish. It gives j where there is
// neither.
func (p *parser) into(a *Again, j int) int {
	if w, m := p.class(j, "again"); m > 0 && w.value == "dish" {
		a.There = true
		return j + m
	}
	if dish, m := p.dish(j); m > 0 && !IsPlace(dish) && !binned(dish) && !noDish(dish) {
		a.Dish = dish
		return j + m
	}
	k := p.skipWord(j, "went")
	if p.word(k, "in") && p.skip(p.tooBehind(k+1), "pause") == p.end { // "another 100g in too"
		a.There = true
		return k + 1
	}
	return j
}

// forDish reads "for the salad".
func (p *parser) forDish(a *Again, j int, joined bool) int {
	k := p.into(a, j)
	if joined || a.Dish == "" || !p.isDet(j+1) {
		return 0
	}
	a.Went = true
	return k
}

// thoseWent reads "those went in the cottage pie".
func (p *parser) thoseWent(a *Again, j int, _ bool) int {
	_, m := p.class(j, "ref")
	if m == 0 && (p.word(j, "they") || p.word(j, "all")) {
		m = 1
	}
	if m == 0 {
		return 0
	}
	j = p.skipWord(j+m, "all")
	v, n := p.class(j, "going")
	if n == 0 || v.value != "use" {
		return 0
	}
	k := p.into(a, j+n)
	if a.Dish == "" {
		return 0
	}
	a.Went = true
	return k
}

// same reads "same again for the soup", "the same of carrots".
func (p *parser) same(a *Again, j int, _ bool) int {
	w, m := p.class(j, "again")
	if m == 0 || w.value != "same" {
		return 0
	}
	a.Same = true
	k := p.skip(p.skipWord(p.skipOf(j+m), "with"), "det")
	if n := p.knownLength(k); n > 0 {
		it := Item{}
		if e := p.food(&it, k); e == k+n {
			a.Items = []Item{it}
			j = e
		}
	}
	if len(a.Items) == 0 {
		j += m
	}
	k = p.into(a, j)
	if k == j && len(a.Items) == 0 { // "same again" may be a round of beers
		return 0
	}
	return k
}

// more reads "another 40g", "40g more in the tart", "and another one".
func (p *parser) more(a *Again, j int, joined bool) int {
	w, m := p.class(j, "again")
	more := m > 0 && w.value == "more"
	if more {
		j += m
	}
	amount, n := p.amount(j)
	switch {
	case n > 0:
		more = more || p.word(j+n-1, "more")
	case more && p.word(j, "one"):
		amount, n = Amount{How: Pieces, N: measure.Whole(1), Said: "another"}, 1
	case more && joined && j == p.end: // "and another"
		a.Items = []Item{{Amount: Amount{How: Pieces, N: measure.Whole(1), Said: "another"}, Ref: true}}
		return j
	}
	j += n
	if p.word(j, "more") {
		more, j = true, j+1
	}
	if n == 0 || amount.How != Measured && amount.How != Pieces || !more && !joined {
		return 0
	}
	k := p.into(a, j)
	if amount.How == Pieces && amount.Part == "" && (k == j || p.word(k-1, "in")) && !joined { // "another 50" may be covers
		return 0
	}
	if !more && amount.How != Measured {
		return 0
	}
	a.Items = []Item{{Amount: amount, Ref: true}}
	if p.prices(k) { // "another 2kg £4"
		return p.terms(&a.Items[0], k)
	}
	return k
}

// prices says whether a price stands from i on.
func (p *parser) prices(i int) bool {
	for ; i < p.end; i++ {
		if p.priceNext(i) {
			return true
		}
	}
	return false
}

// againWord passes the word of "another 2kg leeks £4".
func (p *parser) againWord(j int) int {
	if w, m := p.class(j, "again"); m > 0 && (w.value == "more" || w.value == "too") {
		return j + m
	}
	return j
}

// besides reads what else was used, or came: "and 6 lemons", "200ml cream in it".
func (p *parser) besides(a *Again, j int, joined bool) int {
	priced := p.prices(j)
	if !joined && !p.has.has("again") && !priced || p.has.has("did", "claim") && p.actsIn(j) {
		return 0
	}
	s := Statement{Act: "use"}
	if priced { // what is paid for came in
		s.Act = "receive"
		j = p.againWord(j)
	}
	p.joining = true
	k := p.itemsOnly(&s, j)
	p.joining = false
	if len(s.Items) == 0 {
		return 0
	}
	for _, it := range s.Items {
		if it.Food == "" || it.Trim || it.Amount.How != Measured && it.Amount.How != Pieces || it.Amount.Article && !joined || !priced && !p.exact(it.Words) {
			return 0
		}
	}
	a.Items = s.Items
	if priced {
		return k
	}
	e := p.added(k)
	if e > k {
		a.There = true
	} else {
		e = p.into(a, k)
	}
	if !joined && !a.There && !p.weighedToo(s.Items, e) {
		return 0
	}
	return e
}

// actsIn says whether a word for an act stands from j on, outside the names of food: "2kg ground almonds" has none.
func (p *parser) actsIn(j int) bool {
	for j < p.end {
		if n := p.knownLength(j); n > 0 {
			j += n
			continue
		}
		if _, m := p.longest(j, "did", "claim"); m > 0 {
			return true
		}
		j++
	}
	return false
}

// weighedToo says whether all of what is told was weighed, and "too" ends it: "1.5kg mushrooms too".
func (p *parser) weighedToo(items []Item, j int) bool {
	return p.tooBehind(j) > j && !slices.ContainsFunc(items, func(it Item) bool { return it.Amount.How != Measured || it.Amount.Vague() })
}

// added passes what food was added for: "to thicken it", "to bulk it out".
func (p *parser) added(j int) int {
	if !p.word(j, "to") || j+1 >= p.end || !slices.Contains(thatDish()["to"], p.t[j+1].w) {
		return j
	}
	j += 2
	if _, m := p.class(j, "ref"); m > 0 {
		j += m
	}
	for _, w := range []string{"up", "off", "out", "down"} {
		j = p.skipWord(j, w)
	}
	return j
}

// exact says whether the words are a food's name to the letter.
func (p *parser) exact(words []string) bool {
	return p.foods != nil && len(words) <= p.foods.MaxWords() && len(p.foods.Exact(words)) > 0
}
