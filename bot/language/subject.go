package language

import (
	"slices"
	"strings"
)

// isName says whether a word may be the name of a cook who has not spoken yet:
// not a word that means something else.
func (p *parser) isName(i int) bool {
	if _, m := p.class(i, "noname"); m > 0 || len(p.t[i].w) < 2 || p.startsAmount(i) {
		return false
	}
	for _, ph := range p.lex[i] {
		if len(ph.words) == 1 && ph.class != "place" && ph.class != "size" && ph.class != "dish" && ph.class != "source" {
			return false
		}
	}
	return true
}

// isCook says whether the word is the name of a cook of this kitchen.
func (p *parser) isCook(i int) bool {
	return slices.Contains(p.cooks, p.t[i].w) || len(p.cooks) > 0 && slices.Contains(p.cooks, p.owner(i))
}

// before reads what stands before the act, from i to k: pauses and the
// speaker; the name of another cook; a dish ("for the stew I used"); or the
// foods themselves ("150g spinach used"). It is not ok where anything else
// does (after is where what follows the act begins): then somebody is telling a story.
func (p *parser) before(i, k, after int, s *Statement) (items int, ok bool) {
	end, follows := p.end, p.startsAmount(after)
	p.end = k
	wrong := p.wrong
	defer func() { p.end, p.wrong = end, wrong }()
	j := i
	if base := p.owner(k - 1); k > i && base != "" && words().is(base, "dish") { // "chicken pie's had 650g of the thighs"
		for j = p.skip(p.idle(i), "det"); j < k-1; j++ {
			s.Dish += p.t[j].w + " "
		}
		s.Dish = strings.TrimSpace(s.Dish + base)
		return 0, true
	}
	to := k
	if p.word(k-1, "has") {
		to--
	}
	if from := p.skip(p.idle(i), "det"); from < to && (p.t[k].w == "had" || p.t[k].w == "took" && follows && p.named(from, to)) && p.namesDish(from, to) && p.owner(from) == "" { // "fish pie had 220g of the mackerel in it", "staff lunch took 6 eggs"
		for ; from < to; from++ {
			s.Dish += p.t[from].shown() + " "
		}
		s.Dish = strings.TrimSpace(s.Dish)
		return 0, true
	}
	for j < k {
		if k-j < 5 && s.Act == "receive" && (p.lexHas(k-1, k, "source") || p.lexHas(k-1, k, "taker")) && follows {
			if p.t[k].w == "bought" && !p.lexHas(k-1, k, "source") { // "my mate bought 2kg of leeks for a bet"
				return 0, false
			}
			s.Who = p.t[k-1].w
			return 0, true
		}
		if ph, m := p.longest(j, "i", "pause", "about", "amend"); m > 0 && !(ph.class != "i" && p.foodAt(j)) {
			j += m
			continue
		}
		if p.mark(j, ",:-") || p.word(j, "and") && j > i && j+1 < k { // "me and bo put"
			j++
			continue
		}
		if _, m := p.class(p.skip(j, "det"), "noname"); m > 0 && p.isDet(j) && !p.isShare(j) && !p.startsAmount(j) {
			return 0, false // "my gran"
		}
		if base := p.owner(j); base != "" && j == k-1 && s.Who == "" { // "dee's had 4 eggs", "soup's had 600g"
			if slices.Contains(p.cooks, base) {
				s.Who = base
				j++
				continue
			}
		}
		if p.unheard(j) && !p.isCook(j) && j+2 < k && (p.startsAmount(j+1) || p.foodAt(j+1)) { // "yog 100g binned", "Italian parsley 20g chopped into"
			if at := p.items(s, j); at >= k && len(s.Items) > 0 {
				return at, true
			}
			s.Items = nil
		}
		if words().is(p.owner(j), "noname") { // "housemate's used all my milk"
			return 0, false
		}
		if p.mark(j+1, ":") && p.is(j, word) && !p.isCook(j) && p.namesDish(j, j+1) { // "traybake: used 2 onions"
			s.Dish, j = p.t[j].shown(), j+1
			continue
		}
		if p.is(j, word) && s.Who == "" && (p.isCook(j) || j == k-1 && follows && p.isName(j)) {
			s.Who = p.t[j].w
			j++
			continue
		}
		if s.Who == "" && s.Dish == "" {
			if dish, m := p.dish(j); m > 0 && j+m <= k {
				if IsPlace(dish) { // "in my day we peeled 4 kg"
					return 0, false
				}
				s.Dish, j = dish, j+m
				continue
			}
		}
		if p.startsAmount(j) || p.foodHere(j) || p.isDet(j) || p.juice(j) > j {
			at := p.items(s, j)
			for p.mark(at, ",-") || p.skip(at, "i") > at {
				at = p.skip(at+1, "i")
			}
			if at >= k && len(s.Items) > 0 {
				return at, true
			}
			s.Items = nil
			return 0, false
		}
		if p.is(j, word) && s.Who == "" && p.isName(j) {
			s.Who = p.t[j].w
			j++
			continue
		}
		return 0, false
	}
	return 0, true
}

// subject is where the subject of the act at k begins, if it is the speaker, a
// cook, or nobody behind a comma or a word that ends what came before; i where
// somebody or something else may be the one: "my gran used", "the recipe used".
func (p *parser) subject(i, k int, act class) int {
	if first := p.idle(i); first < k && (p.lexHas(first, first+1, "prep") || p.lexHas(first, first+1, "elsewhere")) { // "in my day we peeled 4 kg", "back in Lyon I used 2 kg"
		if dish, n := p.dish(first); n == 0 || IsPlace(dish) || p.lexHas(first, first+1, "elsewhere") {
			return i
		}
	}
	at, own, paused := k, false, false
	for at > i {
		j := p.backOver(at, i)
		if j == at {
			break
		}
		own = own || p.lexHas(j, at, "i")
		paused = paused || p.lexHas(j, at, "pause")
		at = j
	}
	switch {
	case at == i:
		return i
	case own, paused && !p.isDet(at-1) && !p.lexHas(at-1, at, "noname"), at < k && p.isCook(at), p.mark(at-1, ",:-"):
		return at
	case act == "did" && (p.is(at-1, digit) || p.lexHas(at-1, at, "number")): // "oven's at one eighty used 200g filo"
		return at
	}
	if _, m := p.longest(at-1, "but", "join", "done"); m > 0 && !p.word(at-1, "with") {
		return at
	}
	return i
}

// backOver steps back from k over a pause, a word of the speaker's or a cook's name.
func (p *parser) backOver(k, i int) int {
	for n := 1; n <= 3 && k-n >= i; n++ {
		if _, m := p.longest(k-n, "i", "pause"); m == n {
			return k - n
		}
	}
	if k > i && p.is(k-1, word) && p.isCook(k-1) {
		return k - 1
	}
	return k
}

// lastComma is where what follows the last comma between i and k begins; i where
// there is none.
func (p *parser) lastComma(i, k int) int {
	for j := k - 1; j > i; j-- {
		if _, paper := p.longest(j-1, "paper", "place", "noname"); p.mark(j, ":") && paper > 0 { // "prep list: 2kg leeks peeled"
			return i
		}
		if p.mark(j, ",:-") {
			return j + 1
		}
	}
	return i
}

func (p *parser) lexHas(i, j int, c class) bool {
	_, m := p.class(i, c)
	return m == j-i
}

// anew is where a clause of its own begins behind what did not happen, after k:
// "if anyone wants the pears have them, I used 3"; p.end where there is none.
func (p *parser) anew(k int) int {
	for j := k; j < p.end; j++ {
		bound := p.mark(j, ",-")
		if ph, m := p.class(j, "but"); m > 0 && ph.words[0] != "then" {
			bound = true
		}
		if p.word(j, "that") || p.word(j, "so") { // "can you put down that I used 4 eggs"
			_, i := p.class(j+1, "i")
			bound = i > 0 || j+1 < p.end && p.isCook(j+1)
		}
		if bound && p.newClause(j+1) && !p.conditional(j+1) && !p.tells(j+1) {
			return j + 1
		}
	}
	return p.end
}

// ownAct is where the speaker goes on to what was done, some words behind what was
// only asked or wished at k: "can everyone hear this I boiled seven eggs"; 0 none.
func (p *parser) ownAct(k int) int {
	for j := k + 2; j < p.end; j++ {
		if p.startsAmount(j) || p.foodAt(j) || p.mark(j, ",") {
			return 0
		}
		if p.word(j, "i") && !p.word(j-1, "that") && !p.lexHas(j-1, j, "if") {
			if _, m := p.class(j+1, "did"); m > 0 && p.startsAmount(j+1+m) {
				return j
			}
			return 0
		}
	}
	return 0
}

// tells says whether the clause at i may tell somebody to do it: "when it boils,
// put the sugar in".
func (p *parser) tells(i int) bool {
	v, m := p.longest(p.idle(i), "did", "do")
	return m > 0 && (v.class == "do" || strings.HasSuffix(v.value, " move"))
}

// conditional says whether the clause at i goes on with what did not happen:
// "if we had time, I'd have used 300g".
func (p *parser) conditional(i int) bool {
	for j := i; j < p.end && !p.mark(j, ","); j++ {
		if _, m := p.class(j, "release"); m > 0 { // "so I don't need the beetroot"
			return false
		}
		if _, m := p.longest(j, "if", "could", "not", "ask"); m > 0 {
			return true
		}
		if _, m := p.class(j, "did"); m > 0 {
			return false
		}
	}
	return false
}

func (p *parser) foodHere(j int) bool {
	if _, m := p.class(j, "share"); m > 0 {
		return true
	}
	return p.foodAt(j)
}

func (p *parser) isShare(j int) bool { _, m := p.class(j, "share"); return m > 0 }

func (p *parser) isDet(j int) bool { _, m := p.class(j, "det"); return m > 0 }
