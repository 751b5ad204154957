package planner

import (
	"math"
	"slices"

	"scullion/pantry/measure"
	"scullion/planner/technique"
)

// candidate is an idea before it is written down.
type candidate struct {
	line     int
	fit      *fit  // nil: a dish
	dish     *dish // nil: a technique
	page     *page
	portions int
	amount   measure.Amount // as purchased
	minutes  float64
	hands    float64
	speaks   [factors]float64 // what speaks for it
	score    float64          // their product
	taken    bool
}

// candidates gives every technique for every line that kit and minutes allow.
func (k *kitchen) candidates() []candidate {
	var out []candidate
	for i := range k.lines {
		l := &k.lines[i]
		if !l.focus {
			continue
		}
		for j := range l.fits {
			if f := &l.fits[j]; f.page.kit&^k.kit == 0 && k.serves(f.page) && !k.isTurned(f.ID, l) {
				if c, ok := k.candidate(i, f); ok && k.rescuesAny(&c) && k.allows(&c) {
					out = append(out, c)
				}
			}
		}
	}
	return out
}

// rescuesAny says whether a candidate takes any of what must be used up. Where there
// is such food, eggs on toast from the cupboard are no help with it; who names a
// food of the cupboard gets ideas for it.
func (k *kitchen) rescuesAny(c *candidate) bool {
	if !k.crate || k.lines[c.line].Crate {
		return true
	}
	for i := range c.fit.page.staples {
		if h := k.holder(c, i); h >= 0 && k.lines[h].Crate {
			return true
		}
	}
	return false
}

// candidate takes as many portions as the minutes allow, and what is held of the staples
// that make the dish.
func (k *kitchen) candidate(i int, f *fit) (candidate, bool) {
	l := &k.lines[i]
	free := l.Free.Units() * l.share
	n, grams, ok := portions(f.Technique, free, k.asked)
	for ; ok && n > 0; n-- {
		c := candidate{line: i, fit: f, page: f.page, portions: n, amount: l.drawn(grams)}
		c.minutes, c.hands = technique.Minutes(f.Steps, c.amount.Units()*l.share)
		if math.Ceil(c.minutes) <= k.minutes && (n == 1 || !k.short(&c)) {
			k.rate(&c)
			c.score = scoreOf(&c.speaks)
			return c, true
		}
		grams = taken(f.Technique, free, n-1)
	}
	return candidate{}, false
}

// varied is how many of the first ideas must not be alike.
const varied = 4

// list is what has been picked so far.
type list struct {
	picked   []candidate
	foods    []int // how often each line was taken
	families []int // how often each family was
}

// pick chooses the n best, so that they differ: the first few in family and, as
// far as there are foods, in food; the later ones pay for what is there already.
func (k *kitchen) pick(all []candidate, n int) []candidate {
	out := &list{foods: make([]int, len(k.lines)), families: make([]int, len(technique.Families)+len(technique.FrameFamilies))}
	for len(out.picked) < n {
		at := out.best(all)
		if at < 0 {
			break
		}
		c := &all[at]
		c.taken = true
		picked := *c
		picked.speaks[differs] = out.price(c)
		picked.score = scoreOf(&picked.speaks)
		out.foods[c.line]++
		out.families[c.page.family]++
		out.picked = append(out.picked, picked)
	}
	return out.picked
}

// best gives the best candidate not taken. Where the first ones must differ, a
// new family in a new food goes before a new family, and that before any other.
func (p *list) best(all []candidate) (at int) {
	at = -1
	rank, score := -1, 0.0
	for i := range all {
		c := &all[i]
		if c.taken {
			continue
		}
		r := 0
		if len(p.picked) < varied && p.families[c.page.family] == 0 && !p.hasLike(c) {
			r = 1
			if p.foods[c.line] == 0 {
				r = 2
			}
		}
		if r < rank || r == rank && c.score <= score { // the price is never above 1
			continue
		}
		if s := c.score * p.price(c); r > rank || s > score {
			at, score, rank = i, s, r
		}
	}
	return at
}

// hasLike says whether a plate of the same form with the same food is there already.
func (p *list) hasLike(c *candidate) bool {
	return slices.ContainsFunc(p.picked, func(o candidate) bool { return o.page.forms&c.page.forms != 0 && o.shares(c) })
}

// shares says whether two candidates have a food in common: the one that an idea is
// about, or any in a dish.
func (c *candidate) shares(o *candidate) bool {
	return c.has(o.line) || o.has(c.line)
}

func (c *candidate) has(line int) bool {
	return c.line == line || c.dish != nil && slices.ContainsFunc(c.dish.parts, func(p part) bool { return p.line == line })
}

// price is what a candidate pays for being like those picked already: in food, in
// family, in form, in seasoning. Two omelettes are one too many, and of one food
// they are one thing twice.
func (p *list) price(c *candidate) float64 {
	w := paid(p.foods[c.line], 0.6) * paid(p.families[c.page.family], 0.7)
	for i := range p.picked {
		o := &p.picked[i]
		switch {
		case o.page == c.page:
			w *= 0.25
		case o.page.tastesLike(c.page) && o.shares(c):
			w *= 0.5
		case o.page.tastesLike(c.page):
			w *= 0.8
		}
		if o.line == c.line && o.page.family == c.page.family {
			w *= 0.6
			if o.page.role == c.page.role {
				w *= 0.6
			}
		}
		if o.page != c.page && o.page.forms&c.page.forms != 0 {
			w *= 0.6
			if o.shares(c) {
				w *= 0.5
			}
		}
	}
	return w
}

// paid gives price to the power of times.
func paid(times int, price float64) float64 {
	p := 1.0
	for range times {
		p *= price
	}
	return p
}
