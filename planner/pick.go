package planner

import (
	"math"

	"scullion/pantry/measure"
	"scullion/planner/technique"
)

// candidate is an idea before it is written down.
type candidate struct {
	line     int
	fit      *fit
	portions int
	amount   measure.Amount // as purchased
	minutes  float64
	hands    float64
	score    float64
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
			if f := &l.fits[j]; f.page.kit&^k.kit == 0 {
				if c, ok := k.candidate(i, f); ok {
					out = append(out, c)
				}
			}
		}
	}
	return out
}

// candidate takes as many portions as the minutes allow.
func (k *kitchen) candidate(i int, f *fit) (candidate, bool) {
	l := &k.lines[i]
	free := l.Free.Units() * l.share
	n, grams, ok := portions(f.Technique, free, k.asked)
	for ; ok && n > 0; n-- {
		c := candidate{line: i, fit: f, portions: n, amount: l.drawn(grams)}
		c.minutes, c.hands = technique.Minutes(f.Steps, c.amount.Units()*l.share)
		if math.Ceil(c.minutes) <= k.minutes {
			c.score = k.score(&c)
			return c, true
		}
		grams = taken(f.Technique, free, n-1)
	}
	return candidate{}, false
}

// varied is how many of the first ideas must not be alike.
const varied = 4

// pick chooses the n best, so that they differ: the first few in family and, as
// far as there are foods, in food; the later ones pay for what is there already.
func (k *kitchen) pick(all []candidate, n int) []candidate {
	var out []candidate
	foods := make([]int, len(k.lines))
	families := make([]int, len(technique.Families))
	for len(out) < n {
		at, score := best(all, foods, families, len(out) < varied)
		if at < 0 {
			break
		}
		c := &all[at]
		c.taken = true
		foods[c.line]++
		families[c.fit.page.family]++
		picked := *c
		picked.score = score
		if len(out) > 0 {
			picked.score = math.Min(score, out[len(out)-1].score)
		}
		out = append(out, picked)
	}
	return out
}

// best gives the best candidate not taken. Where the first ones must differ, a
// new family in a new food goes before a new family, and that before any other.
func best(all []candidate, foods, families []int, differ bool) (at int, score float64) {
	at = -1
	rank := -1
	for i := range all {
		c := &all[i]
		if c.taken {
			continue
		}
		food, family := foods[c.line], families[c.fit.page.family]
		r := 0
		if differ && family == 0 {
			r = 1
			if food == 0 {
				r = 2
			}
		}
		if r < rank {
			continue
		}
		s := c.score * paid(food, 0.6) * paid(family, 0.7)
		if r > rank || s > score {
			at, score, rank = i, s, r
		}
	}
	return at, score
}

// paid gives price to the power of times.
func paid(times int, price float64) float64 {
	p := 1.0
	for range times {
		p *= price
	}
	return p
}
