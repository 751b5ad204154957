package language

import (
	"slices"
)

// isName says whether a word may be the name of a cook who has not spoken yet:
// not a word that means something else.
func (p *parser) isName(i int) bool {
	if _, m := p.class(i, "noname"); m > 0 || len(p.t[i].w) < 2 || p.startsAmount(i) {
		return false
	}
	for _, ph := range p.lex[i] {
		if len(ph.words) == 1 && ph.class != "place" && ph.class != "size" && ph.class != "dish" {
			return false
		}
	}
	return true
}

// isCook says whether the word is the name of a cook of this kitchen.
func (p *parser) isCook(i int) bool { return slices.Contains(p.cooks, p.t[i].w) }

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
	for j < k {
		if ph, m := p.longest(j, "i", "pause", "about"); m > 0 && !(ph.class != "i" && p.foodAt(j)) {
			j += m
			continue
		}
		if p.mark(j, ",:-") {
			j++
			continue
		}
		if _, m := p.class(p.skip(j, "det"), "noname"); m > 0 && p.isDet(j) && !p.isShare(j) {
			return 0, false // "my gran"
		}
		if p.is(j, word) && s.Who == "" && (p.isCook(j) || j == k-1 && follows && p.isName(j)) {
			s.Who = p.t[j].w
			j++
			continue
		}
		if s.Who == "" && s.Dish == "" {
			if dish, m := p.dish(j); m > 0 && j+m < k {
				s.Dish, j = dish, j+m
				continue
			}
		}
		if p.startsAmount(j) || p.foodHere(j) || p.isDet(j) {
			at := p.skip(p.items(s, j), "i")
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

func (p *parser) foodHere(j int) bool {
	if _, m := p.class(j, "share"); m > 0 {
		return true
	}
	return p.foodAt(j)
}

func (p *parser) isShare(j int) bool { _, m := p.class(j, "share"); return m > 0 }

func (p *parser) isDet(j int) bool { _, m := p.class(j, "det"); return m > 0 }
