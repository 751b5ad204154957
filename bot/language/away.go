package language

import (
	"slices"
	"strings"
)

// awayNeeds are what words for giving something away need; see words.csv, at class did.
var awayNeeds = map[string]bool{"away": true, "gave": true, "sent": true}

// takerBefore reads who got something where that stands before the foods: "gave next door 2
// lemons", "lent bo's place 1kg flour"; n is 0 where nobody does. Any name will do where the word
// says that it was given away.
func (p *parser) takerBefore(need string, i int) (who string, n int) {
	if p.word(i, "away") { // "gave away 2 lemons"
		return "", 1
	}
	j := p.skip(i, "det")
	for m := 1; m <= 3 && j+m < p.end; m++ {
		if !p.is(j+m-1, word) {
			break
		}
		if k := p.skip(j+m, "det"); !p.startsAmount(k) && !p.foodAt(k) {
			continue
		}
		if p.isTaker(j, j+m) || need == "away" && m == 1 && p.isName(j) && !p.isCook(j) && !p.foodAt(j) {
			return p.asTaker(i, j+m), j + m - i
		}
	}
	return "", 0
}

// isTaker says whether the words from i to k are somebody outside this kitchen: by words.csv, or
// as a place of somebody's: "bo's place".
func (p *parser) isTaker(i, k int) bool {
	if k <= i || k > p.end {
		return false
	}
	for x := i; x < k; x++ { // the end of it: "the nice cafe"
		if _, m := p.longest(x, "taker"); m == k-x {
			return true
		}
	}
	return k-i == 2 && p.owner(i) != "" && p.lexHas(k-1, k, "place")
}

// asTaker is who got something as it is told: "the cafe", "bo's place".
func (p *parser) asTaker(i, k int) string {
	var list []string
	for ; i < k; i++ {
		if p.t[i].sort == word && !p.lexHas(i, i+1, "pause") {
			list = append(list, strings.ToLower(p.t[i].raw))
		}
	}
	return strings.Join(list, " ")
}

// away reads at j, behind the foods of an act before k, whether they left the house, and gives where
// that ends; s.Away says so. Taker is who got them where that was said before the foods. What stands behind a "to" that is no taker may be a dish: "gave 80g
// walnuts to the salad".
func (p *parser) away(s *Statement, need, taker string, said bool, k, j int) int {
	if said && s.Dish == "" {
		s.Away, s.Dish = true, taker
		return j
	}
	if p.word(j, "away") {
		s.Away, j = true, j+1
		if _, m := p.dish(j); m > 0 && p.word(j, "to") {
			s.Dish, j = p.asTaker(j+1, j+m), j+m
		}
		return j
	}
	to := j - 1
	for to > k && !p.word(to, "to") {
		to--
	}
	if to == k || s.Dish == "" {
		return j
	}
	from := p.skip(to+1, "det")
	switch {
	case p.isTaker(from, j):
	case need == "sent" || IsPlace(s.Dish) || IsNobody(s.Dish) || NamesDish(s.Dish) || p.foodAt(from):
		return j
	case from+1 == j && p.isCook(from): // to one of us it is not gone
		s.Dish, s.Doubt = "", true
		return j
	case need == "gave" && from > to+1 && !said:
		return j
	}
	s.Away, s.Dish = true, p.asTaker(to+1, j)
	return j
}

// leaves says that foods left the house.
func (p *parser) leaves(s *Statement, j int) int {
	clearDishes(s.Items)
	p.about(s)
	known := !slices.ContainsFunc(s.Items, func(it Item) bool { return it.Amount.How == Unsaid && !p.knownWords(it.Words) })
	if !known || !p.byUs(s) || !p.over(j) && !p.word(j, "for") {
		p.open = nil
		return p.nextClause(j - 1)
	}
	p.say(*s)
	p.open = nil
	return p.afterAct(j)
}

// alsoGiven says whether what stands behind "donated" at i came in with what the sentence tells of
// before: to nobody, and another food.
func (p *parser) alsoGiven(i int) bool {
	n := len(p.out.Statements)
	if n == 0 || p.open == nil || p.out.Statements[n-1].Act != "receive" || p.find(i, "to") < p.end || p.word(i, "away") {
		return false
	}
	it, m := p.item(i)
	return m > 0 && it.Food != "" && it.Amount.How != Unsaid && !slices.ContainsFunc(p.out.Statements[n-1].Items, func(o Item) bool { return o.Food == it.Food })
}
