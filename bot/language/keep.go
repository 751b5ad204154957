package language

// keeps reads what was done to how food is kept: "opened the cream", "froze 300g of
// it", "put the mince in the freezer", "took the mince out of the freezer". Only foods that
// are known count: doors are opened too. It gives where it ends; 0 where none of it
// stands at i.
func (p *parser) keeps(i int) int {
	if !p.has.has("keep") {
		return 0
	}
	s := Statement{Act: "count"}
	k := p.skip(i, "i")
	for k > i && p.skip(k, "pause") > k || p.is(k, word) && p.isCook(k) && s.Who == "" {
		if p.isCook(k) {
			s.Who = p.t[k].w
			k++
		}
		k = p.skip(p.skip(p.skipWord(k, "has"), "pause"), "i")
	}
	v, n := p.class(k, "keep")
	if n == 0 {
		return 0
	}
	s.Verb, s.State = v.words[0], v.value
	end := p.end
	defer func() { p.end = end }()
	stop := end
	if v.value == "in" || v.value == "out" { // of the freezer
		at := p.find(k+n, "freezer")
		for stop = at; stop > k+n && p.isDet(stop-1); stop-- {
		}
		switch {
		case at == end:
			return 0
		case v.value == "in" && (p.word(stop-1, "in") || p.word(stop-1, "into")):
			s.State, stop = "frozen", stop-1
		case v.value == "out" && p.word(stop-1, "of") && p.word(stop-2, "out"):
			s.State, stop = "thawed", stop-2
		default:
			return 0
		}
		end = at + 1
		p.end = stop
	}
	wrong := p.wrong
	j := p.itemsOnly(&s, p.skipWord(p.skip(k+n, "pause"), "up"))
	p.end = max(p.end, end)
	if stop < p.end {
		if j != stop {
			s.Items = nil
		}
		j = end
		if p.end = len(p.t); p.word(j, "to") && p.keepsAt(j+1) { // "to defrost"
			j += 2
		}
		p.end = p.sentenceEnd(i)
		end = p.end
	}
	if !p.keepable(s.Items) {
		p.wrong = wrong
		return 0
	}
	if _, m := p.dish(j); m > 0 { // "opened a tin of tomatoes for the sauce"
		j += m
	}
	if !p.over(j) && !p.mark(j, ",-") {
		return 0
	}
	p.say(s)
	p.open = nil
	return p.afterAct(j)
}

func (p *parser) keepsAt(i int) bool { return p.word(i, "defrost") || p.word(i, "thaw") }

// keepable says whether the items are foods that are known, or the one spoken of.
func (p *parser) keepable(items []Item) bool {
	for _, it := range items {
		if it.Trim || it.Food == "" && !it.Ref || it.Food != "" && !p.knownWords(it.Words) {
			return false
		}
	}
	return len(items) > 0
}
