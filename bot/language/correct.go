package language

import "strings"

// correction reads "undo" and "make that 200g", "I meant celeriac", "no, 200",
// "that was for the soup". 0 where it is neither.
func (p *parser) correction(i int) int {
	if _, m := p.class(i, "undo"); m > 0 && !p.over(i+m) && p.word(i, "undo") { // "undo the leek"
		it := Item{}
		if e := p.food(&it, p.skip(i+m, "det")); it.Food != "" && p.over(e) {
			p.out.Undo, p.out.UndoFood = 1, it.Food
			return p.end
		}
	}
	if u, m := p.class(i, "undo"); m > 0 && p.over(i+m) {
		p.out.Undo = 1
		if u.value != "" {
			p.out.Undo = int(u.value[0] - '0')
		}
		return p.end
	}
	j, any, meant := i, false, false
	if p.word(i, "not") && i == 0 { // "not the soup, the pie"
		for k := i + 1; k < p.end && k < i+6; k++ {
			if p.mark(k, ",") {
				at := p.skip(p.skip(p.skip(k+1, "pause"), "prep"), "det")
				end := at
				for end < p.end && p.is(end, word) {
					end++
				}
				if end == p.end && end > at && end-at <= 4 && !p.foodAt(at) {
					p.out.Amend = &Amend{Dish: strings.ToLower(p.text[p.t[at].from:p.t[end-1].to])}
					return p.end
				}
				break
			}
		}
	}
	if p.mark(i, "*") && i == 0 { // "*200g": the chat's own way to correct
		j, any, meant = i+1, true, true
	}
	for {
		if _, m := p.longest(j, "amend", "pause"); m > 0 {
			w, a := p.class(j, "amend")
			any = any || a == m
			meant = meant || a == m && w.value != "no"
			j += m
			continue
		}
		if any && p.mark(j, ",") && i == 0 && p.foodAt(j+1) && j == 1 { // "no, carrots"
			meant = true
		}
		if any && p.mark(j, ",:-") && !(p.mark(j, "-") && p.is(j+1, digit) && p.t[j].to == p.t[j+1].from) {
			j++
			continue
		}
		break
	}
	if !any {
		if amount, m := p.amount(i); m > 0 && amount.How != Unsaid && p.word(i+m, "not") && i == 0 { // "200g not 300g"
			if _, n := p.amount(i + m + 1); n > 0 && p.over(i+m+1+n) {
				p.out.Amend = &Amend{Amount: amount}
				return p.end
			}
		}
		return 0
	}
	a := &Amend{}
	it := Item{}
	if amount, m := p.amount(j); m > 0 {
		a.Amount, j = amount, j+m
	} else {
		j = p.skip(j, "det")
	}
	if k := p.food(&it, j); k > j && it.Food != "" {
		a.Food, j = it.Food, k
	} else if _, m := p.class(j, "ref"); m > 0 && a.Amount.How != Unsaid {
		j += m
	}
	if dish, m := p.dish(j); m > 0 {
		a.Dish, j = dish, j+m
		if p.word(j, "not") {
			j = p.end
		}
	}
	if p.word(j, "not") && (a.Food != "" || a.Amount.How != Unsaid) { // "celeriac, not beetroot"
		j = p.end
	}
	if p.mark(j, ",") && p.word(j+1, "not") {
		j = p.end
	}
	if !p.over(j) || j < p.end && p.mark(j, ",") || a.Food == "" && a.Dish == "" && (a.Amount.How == Unsaid) {
		return 0
	}
	if a.Amount.Article && a.Food == "" { // "that was a good one"
		return 0
	}
	if !meant && a.Amount.How == Unsaid { // "no leeks in mine"
		return 0
	}
	p.out.Amend = a
	return p.end
}
