package language

import "strings"

// undo reads "undo", "undo the leek", "scrap my last two". What was done instead
// may follow: "scrap that, used 150g celeriac in the mash".
func (p *parser) undo(i int) int {
	i = p.skip(i, "request") // "can you undo that"
	u, m := p.class(i, "undo")
	if m == 0 {
		return 0
	}
	if p.amends(p.skipMark(i+m, ",")) { // "scratch that it was five", "scrap that, make it 3"
		return 0
	}
	j, n := i+m, 1
	if u.value != "" {
		n = int(u.value[0] - '0')
	}
	if v, k := p.number(j); k > 0 && v.Den == 1 && v.Num > 1 && v.Num < 10 { // "undo my last two"
		n, j = int(v.Num), p.skip(j+k, "ref")
	}
	if n == 1 && !p.over(j) && p.word(i, "undo") { // "undo the leek"
		it := Item{}
		if e := p.food(&it, p.skip(j, "det")); it.Food != "" && p.over(e) {
			p.out.Undo, p.out.UndoFood = 1, it.Food
			return p.end
		}
	}
	if p.word(j, "of") && p.word(j+1, "mine") {
		j += 2
	}
	near := strings.HasSuffix(u.value, "near")
	if _, m := p.class(p.idle(j), "not"); !p.over(j) || near && m == 0 && p.talkBehind(j) { // "forget it, sorted"
		return 0
	}
	p.out.Undo, p.out.UndoNear = n, near
	if k := p.idle(j); k > j && k < p.end && p.newClause(k) {
		return k
	}
	return p.end
}
