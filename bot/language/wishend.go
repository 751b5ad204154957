package language

// timedOff passes what tells nothing: "please", "from now".
func (p *parser) timedOff(s *setting, j int) int {
	for {
		if ph, m := p.longest(j, "pause", "timed"); m > 0 && !p.foodAt(j) && (ph.value != "asked" || s.ordered && (p.bounds(j+m) || p.word(j+m, "for") || !s.timed && p.timeAt(j+m))) {
			j += m
			continue
		}
		return j
	}
}

// timeAt says whether a time stands at j, with or without a word before it.
func (p *parser) timeAt(j int) bool { return p.when(&setting{}, j) > 0 }

// bounds says whether a wish may end at j: at a mark, or where a clause of its own
// begins.
func (p *parser) bounds(j int) bool {
	if j >= p.end || p.mark(j, ",:-(") {
		return true
	}
	if ph, m := p.longest(j, "join", "but"); m > 0 && ph.words[0] != "with" {
		return p.amountsTo(j+m) || p.opensAnother(j+m)
	}
	return p.amountsTo(j)
}

// amountsTo says whether a clause about stock begins at j: an act and an amount.
func (p *parser) amountsTo(j int) bool {
	j = p.skip(p.skip(j, "pause"), "i")
	switch ph, m := p.longest(j, "did", "claim", "undo", "ask"); {
	case m == 0:
	case ph.class == "ask":
		before := len(p.out.Questions)
		n := p.question(j)
		p.out.Questions = p.out.Questions[:before]
		return n > 0
	default:
		return ph.class == "undo" || p.startsAmount(p.lead(j+m)) || p.isShare(j+m)
	}
	_, n := p.stops(j, false)
	return n > 0
}

// opensAnother says whether another wish for a timer begins at j: a time, or the
// words for one.
func (p *parser) opensAnother(j int) bool {
	if _, n, unit := p.lasts(j); n > 0 && (unit || p.word(j+n, "for")) {
		return true
	}
	j, _ = p.wishAfter(p.skip(j, "i"))
	_, m := p.class(j, "call")
	return m > 0 || p.heads(j)
}

// setsMore reads what else is to be timed, behind a wish that ends at j: "timer 12
// min tart, 20 min bread". It gives where that ends; j where there is none.
func (p *parser) setsMore(j int, lax bool) int {
	for {
		k := j
		for p.mark(k, ",-") || p.class1(k, "join") {
			k++
		}
		if k > j && (p.word(k, "one") || p.word(k, "another")) && p.class1(k+1, "when") { // "and one for 20 min for the bread"
			k++
		}
		s := setting{strict: true}
		end := 0
		if k > j {
			end = p.timeAndName(&s, k)
		}
		if end == 0 || !s.timed || !lax && !(s.named && (s.exact || p.forBehind(k))) {
			return j
		}
		s.Wish = TimerSet
		if p.wish(s.Timer); len(p.out.Timer.Also) >= mostTimers {
			return end
		}
		j = end
	}
}

// forBehind says whether "20 for" stands at k.
func (p *parser) forBehind(k int) bool {
	_, n, _ := p.lasts(k)
	return n > 0 && p.word(k+n, "for")
}
