package language

import (
	"scullion/pantry/measure"
	"slices"
	"strings"
)

// meets holds a statement against what its word for the act needs (words.csv, at
// class did), and makes of it what that says; false where it is no such act.
func (p *parser) meets(s *Statement, need string) bool {
	nowhere := s.Act == "use" && s.Dish == "" && !hasDish(s.Items)
	switch need {
	case "throw", "drop":
		if nowhere && (need == "drop" || p.has.has("spoilt")) { // "chucked 200g spinach, it was minging"
			s.Act = "bin"
			return true
		}
		s.Doubt = s.Doubt || nowhere
	case "away", "sent": // it was not said to whom
		return false
	case "into", "move", "gave":
		if s.Act == "receive" && unsaid(s.Items) { // "put away the leeks"
			return false
		}
		s.Doubt = s.Doubt || nowhere
	case "dish": // "dumped 200g spinach into the saag"
		if s.Dish != "" && !IsPlace(s.Dish) {
			s.Act = "use"
		}
	case "asked": // "would you mind keeping 2 lemons", not "keeping 2 eggs warm"
		return p.asked || s.Dish != ""
	case "source": // "grabbed two tins from the shop", but "grabbed 2 lemons" for what?
		if s.Act = "receive"; !p.sourced {
			s.Act, s.Doubt = "use", nowhere
		}
	case "burnt": // "burnt 200g carrots", "burnt 200g sugar for the caramel"
		if s.Dish != "" {
			s.Act = "use"
		}
		return !unsaid(s.Items)
	case "said": // "done 400g beetroot for the hummus", not "done the carrots"
		return !unsaid(s.Items)
	case "had":
		return s.Who != "" || s.Dish != ""
	case "only":
		s.Only = true
		for x := range s.Items { // "only need 300g": of the same
			s.Items[x].Ref = s.Items[x].Food == ""
		}
	case "all":
		for x := range s.Items {
			if a := &s.Items[x].Amount; a.How == Unsaid && !a.Some {
				a.How, a.N = Share, measure.Whole(1)
			}
		}
	}
	return true
}

// source passes where food was got from, at j: "from the corner shop", "off the
// neighbour's tree". It gives j where it was from nowhere outside.
func (p *parser) source(j int) int {
	p.sourced = false
	_, m := p.class(j, "from")
	if m = max(m, p.skipWord(j, "off")-j, p.skipWord(j, "at")-j); m == 0 {
		return j
	}
	for k := j + m; k < min(p.end, j+m+5); k++ {
		if p.lexHas(k, k+1, "source") {
			p.sourced = true
			return k + 1
		}
	}
	return j
}

// byUs says whether a statement may be of one of ours: what nobody known did
// must say how much ("oily fried potatoes" does not), and "table 5 need 2 lemons"
// is no claim.
func (p *parser) byUs(s *Statement) bool {
	if s.Who == "" || slices.Contains(p.cooks, s.Who) {
		return true
	}
	return !unsaid(s.Items) && (s.Act == "use" || s.Act == "bin" || s.Act == "receive" || s.Act == "make")
}

// hadTo says whether what stands before k makes a plain form a fact: "had to
// bin 2 leeks".
func (p *parser) hadTo(k int) bool {
	if p.word(k-1, "i") && p.has.has("done") { // "I add 3 dl yoghurt, is done"
		return true
	}
	if p.word(k-1, "already") { // "already use 4 eggs"
		return true
	}
	return k > 1 && p.word(k-1, "to") && (p.word(k-2, "had") || p.word(k-2, "wed") || p.word(k-2, "id"))
}

// order says whether a word that is the same in the past and as an order ("put
// 2 leeks in") is an order here: somebody says please.
func (p *parser) order(i, k int, v *phrase, need string) bool {
	same := v.class == "do" || need == "move" || v.words[0] == "cut" || v.words[0] == "beat" || v.words[0] == "roast"
	if subject := k > i && p.is(k-1, word) && !p.lexHas(k-1, k, "pause"); !same || subject { // "dee put 2 leeks in before her break"
		return false
	}
	for j := i; j < p.end; j++ {
		if _, m := p.class(j, "bid"); m > 0 {
			return true
		}
		if j > k && p.mark(j, ",") && p.newClause(j+1) { // "put 100g spinach in the omelettes, hold 150g for my pie please"
			return false
		}
	}
	return false
}

// moved says whether the food was only moved about, or put on a list: "put the
// leeks away", "put 2kg carrots in the store", "added 2 lemons to the order".
func (p *parser) moved(s *Statement, j int, need string) bool {
	place := IsPlace(s.Dish)
	for _, it := range s.Items {
		place = place || IsPlace(it.Dish)
	}
	switch {
	case place && binned(s.Dish) && need == "throw":
		return false
	case place && s.Act == "use" && need == "" && !isPaper(s.Dish) && s.Verb != "" && !strings.HasPrefix(s.Verb, "added") && !strings.HasPrefix(s.Verb, "used"): // "fried mushrooms for the breakfast table"
		s.Dish = ""
		clearDishes(s.Items)
		return false
	case place && s.Act == "use" && need == "" && !isPaper(s.Dish) && strings.HasPrefix(s.Verb, "used") && weighed(s.Items): // "used 500g scampi in the basket"
		s.Dish = ""
		clearDishes(s.Items)
		return false
	case place && (s.Act == "use" || (s.Act == "return" || s.Act == "claim") && isPaper(s.Dish)):
		return true
	case need == "move" && (p.word(j, "away") || p.word(j, "out")):
		return true
	case s.Act == "claim" && (p.word(j, "out") || p.word(j, "off") || p.word(j, "down")): // "I'm taking the chicken out now"
		return true
	case need == "fetch":
		from, m := p.class(j, "from")
		return m > 0 && from.words[0] == "out" || p.word(j, "out") || p.word(j, "on") || p.word(j, "ready") || p.word(j, "done")
	}
	return false
}

// weighed says whether all items were weighed or measured.
func weighed(items []Item) bool {
	return len(items) > 0 && !slices.ContainsFunc(items, func(it Item) bool { return it.Amount.How != Measured || it.Amount.Vague() })
}

// unsaid says whether an item has no amount.
func unsaid(items []Item) bool {
	return slices.ContainsFunc(items, func(it Item) bool { return it.Amount.How == Unsaid })
}

// turns says whether the word behind the foods may change the act: "threw the
// pears away", "put the flour back", "put 2 leeks aside".
func turns(act, to string) bool {
	return act == "use" || act == "return" || act == "claim" && to == "claim" || act == "bin" && to == "bin"
}

// fits drops statements whose words are an act's but whose sense is not.
func (p *parser) fits(s *Statement, v *phrase, i, k, j int) bool {
	switch {
	case (s.Act == "receive" || s.Act == "claim") && len(s.Items) == 1 && s.Items[0].Amount.Article && s.Dish == "" && !p.over(j):
		return false // "picked up a tomato so big it sat on the ground"
	case v.class == "claim" && len(v.words) == 1 && (v.words[0] == "keep" || v.words[0] == "hold" || v.words[0] == "save") && (s.Dish == "" || IsPlace(s.Dish)) && unsaid(s.Items):
		return false // "keep potatoes fresh"
	case len(s.Items) == 1 && s.Items[0].Ref && s.Items[0].Amount.How == Unsaid && s.Dish == "" && !p.over(j):
		return false // "slice it any way you like"
	case s.Act == "release" && len(s.Items) == 1 && s.Items[0].Ref && !p.over(j): // "I don't want them to celebrate alone"
		return false
	case v.class == "did" && unsaid(s.Items) && (p.word(j, "is") || p.word(j, "are") || p.word(j, "was") || p.word(j, "were")): // "processed cheeses are easy to spread"
		return false
	case v.class == "claim" && len(v.words) > 1 && unsaid(s.Items) && words().is(v.words[0], "ask"): // "can you keep the milk out"
		return false
	case v.class == "unused": // only with a figure was it a return
		for _, it := range s.Items {
			if it.Amount.How != Measured && it.Amount.How != Pieces {
				return false
			}
		}
	case v.class == "claim" && (s.Dish == "mine" || s.Dish == "yours"): // "I'll have two sugars in mine"
		return false
	case v.class == "claim" && strings.HasSuffix(v.words[len(v.words)-1], "need"):
		// "we need milk" and "need more milk" are a shopping list.
		we := false
		for x := i; x < k; x++ {
			we = we || p.word(x, "we")
		}
		for _, it := range s.Items {
			if bare := it.Amount.How == Unsaid && s.Dish == "" && it.Dish == ""; bare && (we || it.Amount.Some) {
				return false
			}
		}
	}
	return true
}
