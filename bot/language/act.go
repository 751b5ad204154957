package language

import (
	"strings"
)

// act reads a clause from i whose word for the act, v, stands at k and is n
// tokens long.
func (p *parser) act(i, k, n int, v *phrase) int {
	switch v.class {
	case "if", "could":
		p.open = nil
		if v.class == "could" {
			if at := p.ownAct(k + n); at > 0 {
				return at
			}
		}
		return p.anew(k + n)
	case "not":
		p.open = nil
		return p.nextClause(k + n - 1)
	}
	if v.value == "use away" && k == i && p.mark(k+n, ":") && p.find(k+n, "to") == p.end { // "donated: 4kg onions" heads what came in
		v = &phrase{words: v.words, class: v.class, value: "receive load"}
	}
	if v.value == "use away" && p.alsoGiven(k+n) { // "got 10kg lentils as a gift, donated 3kg leeks"
		v = &phrase{words: v.words, class: v.class, value: "receive"}
	}
	load := v.value == "receive load"
	if load {
		n = p.landed(k, n)
	}
	s := Statement{Mended: p.mend[k], Doubt: v.class == "do" && !p.hadTo(k), Verb: strings.Join(v.words, " ")}
	act, need, _ := strings.Cut(v.value, " ")
	s.Act, s.Thrown, s.Loose = act, need == "throw", need == "move" || need == "throw" || need == "gift"
	if load && p.toCome(i, k, k+n) || p.order(i, k, v, need) {
		p.open = nil
		return p.end
	}
	items, ok := p.before(i, k, k+n, &s)
	if !ok {
		if at := p.subject(i, k, v.class); at > i { // "oven's at 180, used 200g filo"
			p.open, p.from = nil, at
			return p.act(at, k, n, v)
		}
		if at := p.lastComma(i, k); at > i && (v.class == "going" || v.class == "did") && p.startsAmount(p.idle(at)) { // "no cream this time, 200g yoghurt went in the curry"
			p.open = nil
			return p.act(p.idle(at), k, n, v)
		}
		if listed := p.mark(k+n, ":") && p.startsAmount(k+n+1) && k-i <= 6; act != "receive" || !listed && !(load && k-i <= 3) && !(v.words[0] == "dropped" && k-i <= 6) { // "dry store delivery has arrived:"
			p.open = nil
			return p.nextClause(k + n - 1)
		}
		s.Who = ""
	}
	topic := Item{}
	if items > i {
		if v.class != "did" || len(s.Items) != 1 || !unsaid(s.Items) || !p.knownWords(s.Items[0].Words) || !p.startsAmount(p.lead(k+n)) {
			return p.behindFood(&s, v, k, n, act, need)
		}
		topic, s.Items = s.Items[0], nil // "the beetroot, I have cooked 700 g"
	}
	if v.class == "going" {
		return p.beforeFood(&s, v, i, k, n, act)
	}
	if act == "make" {
		return p.made(&s, v, k+n)
	}
	if v.class == "unused" {
		s.Act = "return"
	}
	return p.listed(&s, v, i, k, n, topic)
}

// behindFood reads an act that stands behind its foods: "half the milk went in
// the sauce", "200g mushrooms fried for the toasts".
func (p *parser) behindFood(s *Statement, v *phrase, k, n int, act, need string) int {
	if len(v.words) > 1 && v.class == "did" && p.isDet(k+n) && words().is(v.words[len(v.words)-1], "prep") { // "walnuts chucked in the granola"
		n--
	}
	if _, prep := p.class(k+n, "prep"); v.class == "going" || v.class == "did" && (need == "" || prep > 0) && (act == "use" || act == "bin" || act == "receive") {
		return p.gone(s, v, k+n, act)
	}
	p.open = nil
	return p.nextClause(k + n - 1) // "the carrots need peeling"
}

// beforeFood reads an act that mostly stands behind its foods, where it does not:
// "into the tagine went 700g chicken", "gone off: 2 leeks".
func (p *parser) beforeFood(s *Statement, v *phrase, i, k, n int, act string) int {
	if act == "use" && s.Dish != "" && p.startsAmount(k+n) {
		j := p.itemsOnly(s, k+n)
		if len(s.Items) > 0 && !unsaid(s.Items) && p.over(j) {
			p.say(*s)
			return p.afterAct(j)
		}
	}
	if act == "use" || !p.startsAmount(p.lead(k+n)) {
		return p.nextClause(k + n - 1)
	}
	return p.listed(s, v, i, k, n, Item{})
}

// listed reads the foods behind an act, where they went, and what else is said of
// it; topic is the food where it was named before the act.
func (p *parser) listed(s *Statement, v *phrase, i, k, n int, topic Item) int {
	act, need, _ := strings.Cut(v.value, " ")
	if need == "throw" && p.hadTo(k) { // "had to chuck 200g potatoes"
		need = "drop"
	}
	lead := s.Dish
	start := p.lead(k + n)
	if len(v.words) > 1 && v.words[len(v.words)-1] == "in" { // "put in the stew three carrots"
		if _, m := p.dish(k + n - 1); m > 0 && p.isDet(k+n) && p.startsAmount(k+n-1+m) {
			start = k + n - 1
		}
	}
	if act == "count" { // "fridge check: only 7 eggs left"
		start = p.skip(start, "there")
	}
	if ph, m := p.longest(start, "not", "some"); m > 0 && ph.class == "not" { // "the delivery came without the leeks"
		return p.nextClause(start)
	}
	taker, m := "", 0
	if awayNeeds[need] {
		taker, m = p.takerBefore(need, start)
	}
	j := p.where(s, p.items(s, start+m))
	if awayNeeds[need] && len(s.Items) > 0 {
		if j = p.away(s, need, taker, m > 0, k+n, j); s.Away {
			return p.leaves(s, j)
		}
	}
	if need == "source" {
		j = p.source(j)
	}
	if s.Act == "receive" && p.word(j, "back") && !p.lexHas(j+1, j+2, "from") && p.cameBack(s) { // "got 2 lambs back half eaten"
		return p.nextClause(j)
	}
	if s.Act == "use" && binned(s.Dish) { // "thrown 2 pears to the garbage"
		s.Act, s.Dish = "bin", ""
		clearDishes(s.Items)
	}
	if p.moved(s, j, need) {
		p.open = nil
		return p.nextClause(j - 1)
	}
	ph, m := p.class(j, "after")
	if m > 0 && ph.value == "return" && p.word(j+m, "where") { // "put the lemons back where you found them"
		return p.nextClause(j)
	}
	if m > 0 && act == "use" && ph.value == "return" && p.lastBack(s, v) {
		return p.afterAct(j + m)
	}
	if m > 0 && len(s.Items) > 0 && turns(act, ph.value) {
		s.Act, s.Dish, j = ph.value, lead, j+m
		clearDishes(s.Items)
		if dish, n := p.dish(j); n > 0 && s.Act == "claim" {
			s.Dish, j = dish, j+n
		}
	}
	if _, m := p.class(j, "left"); m > 0 && (act == "receive" || act == "count") {
		s.Act, j = "count", j+m
	}
	if s.Act == "use" || s.Act == "bin" {
		j = p.how(s, j)
	}
	if s.Act == "use" && s.Dish == "" && !hasDish(s.Items) && len(s.Items) > 0 { // "used 150g mushrooms, risotto"
		j = p.dishBehind(s, j)
	}
	if (p.word(j, "in") || p.word(j, "inside")) && p.over(j+1) && s.Act == "use" { // "cem put 100g sugar in"
		j, need = j+1, ""
	}
	if !p.meets(s, need) {
		p.open = nil
		return p.nextClause(j - 1)
	}
	if len(s.Items) == 0 && s.Act == "bin" && p.over(j) && len(p.out.Statements) == 0 { // "200ml of the cream was past its date, binned"
		if it, ok := p.topic(); ok && it.Amount.How != Unsaid {
			s.Items = []Item{it}
		}
	}
	p.refer(s, topic)
	if len(s.Items) == 0 {
		return p.listToCome(s, k+n, j)
	}
	if s.Act == "receive" && p.atTable(i) { // "got 4 leek tarts on order for table 9"
		return p.end
	}
	if !p.byUs(s) || !p.fits(s, v, i, k, j) {
		return p.nextClause(j - 1)
	}
	p.say(*s)
	return p.afterAct(j)
}

// where reads what else tells where the foods went, behind them at j.
func (p *parser) where(s *Statement, j int) int {
	if s.Act == "claim" && s.Dish == "" && (p.word(j, "back") || p.word(j, "aside")) { // "keep a quarter of the cheese back for my tartlets"
		j++
		if dish, n := p.dish(j); n > 0 {
			s.Dish, j = dish, j+n
		}
	}
	if IsNobody(s.Dish) && p.mark(j, ",") && s.Act == "claim" { // "keep 2 carrots for me, for the fried rice"
		s.Dish = ""
	}
	if s.Dish == "" && p.mark(j, ",") && len(s.Items) > 0 && (s.Act == "use" || s.Act == "claim") { // "dibs on the cheddar, for the tart"
		if dish, n := p.dish(j + 1); n > 0 && p.over(j+1+n) {
			s.Dish, j = dish, j+1+n
		}
	}
	return j
}

// refer gives items without a food the one that was spoken of: topic, named before
// the act, or what else the message named.
func (p *parser) refer(s *Statement, topic Item) {
	for x := range s.Items {
		if it := &s.Items[x]; topic.Food != "" && (it.Food == "" || len(it.Words) == 1 && p.isUnit(it.Food)) {
			it.Food, it.Words, it.Ref = topic.Food, topic.Words, false
		}
	}
	p.about(s)
	for x := range s.Items { // "put 50ml back"
		s.Items[x].Ref = s.Items[x].Ref || s.Act == "return" && s.Items[x].Food == ""
	}
}

// listToCome leaves a statement open whose foods are still to come, behind its act
// that ends at j.
func (p *parser) listToCome(s *Statement, act, j int) int {
	if p.wrong != "" {
		p.open = nil
		return p.end
	}
	if s.Dish != "" || s.Act == "receive" || p.mark(act, ":") || act == p.end {
		p.open = s
	}
	return max(j, p.nextClause(max(act, j)-1))
}

// say adds a statement and leaves its list open.
func (p *parser) say(s Statement) {
	p.out.Statements = append(p.out.Statements, s)
	p.open = &p.out.Statements[len(p.out.Statements)-1]
	open := *p.open
	p.open = &open
}

// afterAct passes what may trail behind a statement.
func (p *parser) afterAct(j int) int {
	if j < p.end && !p.mark(j, ",:-") && !p.newClause(j) {
		if _, m := p.longest(j, "join", "but"); m == 0 {
			return p.nextClause(j - 1)
		}
	}
	return j
}

// lead passes what may stand between an act and its foods.
func (p *parser) lead(j int) int {
	for {
		if p.mark(j, ":-,") && p.is(j+1, digit) || p.mark(j, ":-") {
			j++
		} else if _, m := p.class(j, "pause"); m > 0 && !p.foodAt(j) {
			j += m
		} else if p.word(j, "with") && p.startsAmount(j+1) || p.word(j, "up") || p.word(j, "off") || p.word(j, "just") || p.word(j, "another") && p.startsAmount(j+1) {
			j++
		} else {
			return j
		}
	}
}

// how passes how a food was treated: "chopped into the soup", "from the fridge".
func (p *parser) how(s *Statement, j int) int {
	if p.mark(j, ",") && p.bareVerb(j+1) { // "parsley, chopped, in the salsa"
		j++
	}
	if _, m := p.class(j, "did"); m > 0 {
		if p.mark(j+m, ",") {
			if _, n := p.dish(j + m + 1); n > 0 {
				m++
			}
		}
		if dish, n := p.dish(j + m); n > 0 && s.Dish == "" {
			s.Dish = dish
			return j + m + n
		}
		if j+m == p.end {
			return p.end
		}
	}
	return j
}
