package language

import "scullion/pantry/food"

// keeps reads what was done to how food is kept: "opened the cream", "froze 300g of
// it", "put the mince in the freezer", "took the mince out of the freezer". Only foods that
// are known count: doors are opened too. It gives where it ends; 0 where none of it
// stands at i.
func (p *parser) keeps(i int) int {
	if !p.has.has("keep") {
		return 0
	}
	s := Statement{Act: "count"}
	if j := p.beenKept(&s, i); j > 0 {
		return j
	}
	k := p.keeper(&s, i)
	v, n := p.class(k, "keep")
	if n == 0 {
		return 0
	}
	s.Verb, s.State = v.words[0], v.value
	wrong := p.wrong
	j := p.kept(&s, v.value, k+n)
	if j > 0 {
		if _, m := p.dish(j); m > 0 { // "opened a tin of tomatoes for the sauce"
			j += m
		}
	}
	if j == 0 || !p.keepable(s.Items) || !p.over(j) && !p.mark(j, ",-") {
		p.wrong = wrong
		return 0
	}
	p.say(s)
	p.open = nil
	return p.afterAct(j)
}

// beenKept reads the same of foods that stand before it: "the cream has been opened".
func (p *parser) beenKept(s *Statement, i int) int {
	if p.find(i, "been") == p.end || !p.foodAt(p.skip(i, "det")) && !p.startsAmount(i) {
		return 0
	}
	wrong := p.wrong
	own := *s
	j := p.itemsOnly(&own, i)
	for k := j; k < p.end; k++ {
		if p.word(k, "been") && k-j < 3 {
			v, n := p.class(k+1, "keep")
			if n > 0 && v.value != "in" && v.value != "out" && p.keepable(own.Items) && p.over(k+1+n) {
				own.Verb, own.State = v.words[0], v.value
				p.say(own)
				p.open = nil
				return p.afterAct(k + 1 + n)
			}
		}
	}
	p.wrong = wrong
	return 0
}

// keeper passes who did it: the speaker, or a cook.
func (p *parser) keeper(s *Statement, k int) int {
	for from := -1; k != from; {
		from = k
		k = p.skip(k, "i")
		if k > from || s.Who != "" { // "I just", not "just" for a food
			k = p.skip(k, "pause")
		}
		if p.is(k, word) && p.isCook(k) && s.Who == "" {
			s.Who = p.t[k].w
			k = p.skipWord(k+1, "has")
		}
	}
	return k
}

// kept reads the foods, and with "in" and "out" the freezer behind them; 0 where it is
// not there.
func (p *parser) kept(s *Statement, way string, j int) int {
	j = p.skipWord(p.skip(j, "pause"), "up")
	if way != "in" && way != "out" {
		return p.itemsOnly(s, j)
	}
	stop, past := p.freezer(way, j)
	if stop == 0 {
		return 0
	}
	s.State = map[string]string{"in": "frozen", "out": "thawed"}[way]
	end := p.end
	p.end = stop
	e := p.itemsOnly(s, j)
	p.end = end
	if e != stop {
		return 0
	}
	return past
}

// freezer finds "in the freezer" or "out of the freezer" behind j, and gives where it
// begins and ends; 0 where it does not stand there.
func (p *parser) freezer(way string, j int) (stop, past int) {
	at := p.find(j, "freezer")
	if at == p.end {
		return 0, 0
	}
	for stop = at; stop > j && p.isDet(stop-1); stop-- {
	}
	switch {
	case way == "in" && (p.word(stop-1, "in") || p.word(stop-1, "into")):
		stop--
	case way == "out" && p.word(stop-1, "of") && p.word(stop-2, "out"):
		stop -= 2
	case way == "out" && p.word(stop-1, "out"): // "took it out the freezer"
		stop--
	default:
		return 0, 0
	}
	if past = at + 1; p.word(past, "to") && (p.word(past+1, "defrost") || p.word(past+1, "thaw")) {
		past += 2
	}
	return stop, past
}

// keepable says whether the items are foods that are known, by their names or by a word for food of
// which so much was weighed, or the one spoken of.
func (p *parser) keepable(items []Item) bool {
	for _, it := range items {
		if it.Trim || it.Food == "" && !it.Ref || it.Food != "" && !p.knownWords(it.Words) && !(it.Amount.How == Measured && food.EndsInFood(it.Food)) {
			return false
		}
	}
	return len(items) > 0
}
