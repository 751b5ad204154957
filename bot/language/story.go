package language

// habits passes what is a story of other days and not of now: it gives where a
// clause of today begins ("usually it's 2 but I put 3"), p.end where none does.
// Where it only tells what somebody said ("recipe says 250g, I used 300g"), the
// part up to the comma is passed.
func (p *parser) habits(i int) int {
	if !p.has.has("habit", "prep") {
		return i
	}
	for j := i; j < p.end; j++ {
		if ph, m := p.longest(j, "share", "pause", "request"); m > 1 && ph.class != "habit" { // "every last bit of"
			j += m - 1
			continue
		}
		if p.word(j, "in") && p.isYear(j+1) { // "in 2019 we used 4kg butter"
			return p.end
		}
		ph, m := p.class(j, "habit")
		if m == 0 || len(ph.words) == 1 && p.known(j, 1) {
			continue
		}
		if j > i && (p.lexHas(j-1, j, "spoilt") || p.datesLabel(j)) { // "expired yesterday", "use by yesterday"
			continue
		}
		from := j
		for ; j < p.end; j++ {
			_, but := p.class(j, "but")
			if but > 0 && !p.word(j, "then") || ph.value == "part" && p.mark(j, ",-") {
				break
			}
		}
		if j < p.end && p.newClause(j+1) {
			return p.habits(j + 1)
		}
		if ph.value == "part" && from > i && p.partBefore(i, from) {
			p.end = from
			return i
		}
		return p.end
	}
	return i
}

// toDo says whether a sentence is a list of what is still to be done, or of what
// was ordered: "prep list: 2kg leeks peeled, 1kg carrots diced".
func (p *parser) toDo(i int) bool {
	if !p.has.has("todo") {
		return false
	}
	head := false
	for j := i; j < min(p.end, i+6) && (!p.startsAmount(j) || head && p.mark(j+1, ":-")); j++ { // "step 3:"
		if _, m := p.class(j, "did"); m > 0 { // "order's in: 2kg leeks"
			return false
		}
		if _, m := p.class(j, "todo"); m > 0 {
			head = true
		}
		if p.mark(j, ":-") {
			p.open = nil
			return head
		}
	}
	return false
}

func (p *parser) isYear(i int) bool {
	return p.is(i, digit) && len(p.t[i].raw) == 4 && p.t[i].val.Den == 1 && p.t[i].val.Num >= 1900 && p.t[i].val.Num < 2100 && p.bare(i+1)
}

// partBefore says whether a comma stands between i and k: what comes before it
// is a part of its own.
func (p *parser) partBefore(i, k int) bool {
	for ; i < k; i++ {
		if p.mark(i, ",-") {
			return true
		}
	}
	return false
}
