package language

// gone reads what follows an act that stands behind its foods: the dish.
func (p *parser) gone(s *Statement, v *phrase, j int, act string) int {
	if s.Act = act; p.word(j, "up") || p.word(j, "down") { // "butter has gone up to £2"
		return p.nextClause(j)
	}
	if back := p.skip(j, "back"); act == "receive" && back > j && p.cameBack(s) { // "4 lambs came back half eaten"
		return p.nextClause(back - 1)
	}
	if s.Act == "use" || s.Act == "receive" {
		if ph, m := p.class(j, "after"); m > 0 && ph.value == "bin" {
			s.Act, j = "bin", j+m
		}
	}
	if dish, m := p.dish(j); m > 0 && s.Act == "use" {
		if from := p.skip(j+1, "det"); p.word(j, "to") && p.isTaker(from, j+m) && !unsaid(s.Items) && s.Who == "" { // "2 lemons went to next door"
			s.Away, s.Dish = true, p.asTaker(j+1, j+m)
			return p.leaves(s, j+m)
		}
		if IsPlace(dish) && !binned(dish) || IsNobody(dish) && unsaid(s.Items) { // "the leeks went to table 4"
			return p.nextClause(j - 1)
		}
		s.Dish, j = dish, p.amountLast(s.Items, j+m)
		if k := p.joint(j); k > j && p.word(k-1, "with") && p.startsAmount(k) { // "went in the quiche with 5 eggs"
			j = p.itemsOnly(s, j)
		}
		if binned(dish) { // "180g carrot peel thrown in compost"
			s.Act, s.Dish = "bin", ""
		}
	} else if _, m := p.class(j, "prep"); m > 0 && p.lexHas(j+m, j+m+1, "pron") && !unsaid(s.Items) { // "went in it"
		j += m + 1
	} else if s.Act == "use" && (v.value == stands || len(v.words) == 1 && (v.words[0] == "went" || v.words[0] == "gone")) {
		return p.nextClause(j - 1) // "the milk went" says no more
	}
	for x := range s.Items { // "the leeks went in the tart": the leeks, all of them
		a := &s.Items[x].Amount
		if a.How == Unsaid && !a.Some && s.Act == "use" && v.class == "going" && v.words[0] != "used" {
			a.Some = true
		}
	}
	if v.class == "did" && s.Dish == "" && unsaid(s.Items) { // "the sugar caramelised"
		return p.nextClause(j - 1)
	}
	for _, it := range s.Items {
		if v.value == stands && it.Amount.How == Unsaid { // "the leeks are in the soup" says how they taste
			return p.nextClause(j - 1)
		}
	}
	if s.Who != "" {
		return p.nextClause(j - 1)
	}
	p.say(*s)
	return p.afterAct(j)
}

// stands is the value of "is" and "are" before a dish.
const stands = "use stands"

// cameBack notes the food that came back from the table, with an amount: nobody has bought it.
func (p *parser) cameBack(s *Statement) bool {
	if len(s.Items) == 0 || s.Items[0].Food == "" {
		return false
	}
	if it := s.Items[0]; it.Amount.How == Measured || it.Amount.How == Pieces {
		p.out.Back = &it
	}
	p.open = nil
	return true
}
