package language

import (
	"strings"
)

// askedFoods reads the foods that are asked about, up to what the next of the
// form wants, and gives how many tokens they take.
func (p *parser) askedFoods(q *Question, i int, next []step) int {
	e := p.askedFood(q, i, next)
	if e == i {
		return 0
	}
	switch q.About {
	case AboutFood, AboutHolder, AboutUser, AboutWith, AboutTime:
		for !p.nextStep(e, next) {
			k := p.joint(e)
			if k == e {
				k = p.skipWord(e, "or")
			}
			other := Question{}
			x := p.skip(k, "det")
			if _, m := p.amount(x); k == e || !p.foodAt(p.skip(x+m, "det")) {
				break
			}
			k = p.askedFood(&other, k, next)
			q.Also, e = append(q.Also, other.Food), k
		}
	}
	return e - i
}

// nextStep says whether one of the steps stands at i, up to the first that may
// not be left out.
func (p *parser) nextStep(i int, next []step) bool {
	for _, s := range next {
		if p.spelt(s, i) > 0 {
			return true
		}
		if !s.opt {
			return false
		}
	}
	return false
}

// askedFood reads one food that is asked about into q and gives where it ends.
func (p *parser) askedFood(q *Question, i int, next []step) int {
	it := Item{}
	k := i
	if m := p.cutSize(k, nil); m > 0 { // "2 cm carrots"
		k += m
	} else if a, m := p.amount(k); m > 0 {
		q.Amount, k = a, k+m
	}
	k = p.skip(p.skip(k, "some"), "det")
	for p.word(k, "any") || p.word(k, "still") || (p.word(k, "that") || p.word(k, "those")) && p.word(k-1, "of") {
		k++
	}
	if p.isState(k) && !p.foodAt(k) {
		q.State, k = p.t[k].w, k+1
	} else if _, m := p.class(k, "did"); m > 0 && !p.foodAt(k) { // "roasted beetroot"
		q.State, k = p.t[k].w, k+m
	} else if p.is(k, word) && p.dishWord(k) && !p.foodAt(k) { // "roast potatoes"
		q.State, k = p.t[k].w, k+1
	}
	e := p.foodUpTo(&it, k, next)
	if e == k || it.Food == "" {
		return i
	}
	if _, m := p.longest(k, "noname", "place", "notfood"); m == e-k && !p.known(k, m) && q.About != aboutTimers { // "have we got a table for six"
		return i
	}
	if last := len(it.Words) - 1; !p.known(k, e-k) { // "how much butter's left"
		if w, ok := possessive(it.Words[last]); ok {
			it.Words[last] = w
			it.Food = strings.Join(it.Words, " ")
		}
	}
	q.Food, q.Words, q.Off = it.Food, it.Words, it.Off
	if p.isState(e-1) && len(it.Words) > 1 { // "cassava raw"
		q.State, q.Words = p.t[e-1].w, it.Words[:len(it.Words)-1]
		q.Food = strings.Join(q.Words, " ")
	}
	return e
}

// possessive takes the "'s" off a word.
func possessive(w string) (string, bool) {
	for _, s := range []string{"'s", "’s", "'S"} {
		if b, ok := strings.CutSuffix(w, s); ok {
			return b, true
		}
	}
	return w, false
}

// foodUpTo reads a food phrase that ends before the next step of a form.
func (p *parser) foodUpTo(it *Item, i int, next []step) int {
	end := p.end
	for k := i + 1; k < p.end; k++ {
		if p.nextStep(k, next) || p.word(k, "or") {
			p.end = k
			break
		}
	}
	e := p.food(it, i)
	p.end = end
	return e
}

// minutes finds "twenty minutes", "10 min" anywhere in the message; 0 none.
func (p *parser) minutes() int {
	end := p.end
	p.end = len(p.t)
	defer func() { p.end = end }()
	for i := range p.t {
		v, n := p.number(i)
		if n == 0 || v.Den == 0 || p.isWished(i) {
			continue
		}
		j := i + n
		scale := int64(0)
		switch {
		case p.word(j, "min") || p.word(j, "mins") || p.word(j, "minutes") || p.word(j, "minute") || p.word(j, "m"):
			scale = 1
		case p.word(j, "h") || p.word(j, "hr") || p.word(j, "hrs") || p.word(j, "hour") || p.word(j, "hours"):
			scale = 60
		}
		if m := v.Num * scale / v.Den; scale > 0 && m > 0 && m <= 24*60 {
			return int(m)
		}
	}
	return 0
}

// without finds "no oven", "without the oven": kit that is not at hand.
func (p *parser) without() (kit []string) {
	end := p.end
	p.end = len(p.t)
	defer func() { p.end = end }()
	for i := range p.t {
		if !p.word(i, "no") && !p.word(i, "without") {
			continue
		}
		switch j := p.skip(i+1, "det"); {
		case p.word(j, "oven"), p.word(j, "grill"), p.word(j, "microwave"), p.word(j, "kettle"), p.word(j, "blender"):
			kit = append(kit, p.t[j].w)
		case p.word(j, "hob"), p.word(j, "hobs"), p.word(j, "ring"), p.word(j, "rings"), p.word(j, "stove"):
			kit = append(kit, "ring")
		}
	}
	return kit
}
