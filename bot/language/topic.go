package language

// about gives items that name no food the one that was spoken of before in the
// same message, in words that wrote nothing: "all the coriander's slimy, I've
// binned it", "can someone check the cream, I used 100ml of it". An "it" without
// an amount means as much as was said there.
func (p *parser) about(s *Statement) {
	if len(p.out.Statements) > 0 {
		return
	}
	for i := range s.Items {
		it := &s.Items[i]
		if it.Food != "" || it.Amount.How == Unsaid && !it.Ref {
			continue
		}
		topic, ok := p.topic()
		if !ok {
			return
		}
		it.Food, it.Words = topic.Food, topic.Words
		if it.Amount.How == Unsaid {
			it.Amount = topic.Amount
		}
	}
}

// topic is the one food named before the clause being read; not ok where there
// are several, or none.
func (p *parser) topic() (it Item, ok bool) { return p.topicBefore(p.from) }

// topicBefore is the one food named before the token at.
func (p *parser) topicBefore(at int) (it Item, ok bool) {
	end, wrong := p.end, p.wrong
	defer func() { p.end, p.wrong = end, wrong }()
	for j := 0; j < at; {
		if _, m := p.class(j, "spoilt"); m > 1 { // "past its date"
			j += m
			continue
		}
		if !p.startsAmount(j) && !p.isShare(j) && !p.foodAt(j) {
			j++
			continue
		}
		p.end = at
		found, n := p.item(j)
		if n == 0 || found.Food == "" || !p.foodAt(j+n-1) && !p.foodAt(j) && found.Amount.How == Unsaid {
			j++
			continue
		}
		if !p.knownWords(found.Words) {
			j++
			continue
		}
		if ok && found.Food != it.Food {
			return Item{}, false
		}
		it, ok = found, true
		j += n
	}
	return it, ok
}
