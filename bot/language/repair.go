package language

import (
	"slices"
	"strings"

	"scullion/pantry/measure"
)

// mostRepairs bounds the work on one message.
const mostRepairs = 8

// repair takes out what was taken back in the same breath: "used two no three
// lemons", "200 mils of cream no milk", "binned no sorry used 120g", "in the
// bread no not the bread the pizza dough". What follows the words that take it
// back says what is replaced: an amount, an act, a dish, else a food.
func (p *parser) repair() {
	left := mostRepairs
	for i := 1; i < len(p.t) && left > 0; i++ {
		p.start, p.end = p.sentenceStart(i), p.sentenceEnd(i)
		_, m := p.class(i, "repair")
		if m == 0 || i+m >= p.end || i == p.start {
			continue
		}
		from, next := i, i+m
		for {
			if _, k := p.longest(next, "repair", "pause", "i"); k > 0 && next+k < p.end {
				next += k
			} else if p.mark(next, ",") {
				next++
			} else {
				break
			}
		}
		comma := p.mark(from-1, ",-")
		for from > p.start && p.mark(from-1, ",-") {
			from--
		}
		if _, m := p.class(next, "undo"); m > 0 && p.lexHas(next, next+m, "undo") { // "... actually no forget it I haven't put it in yet"
			p.cut(p.start, next+m)
			i, left = 0, left-1
			continue
		}
		switch {
		case p.repairAct(from, next), p.repairAll(from, next), p.repairDish(from, next), p.repairAmount(from, next), !comma && p.repairFood(from, next):
			i, left = 0, left-1
		}
	}
}

func (p *parser) sentenceStart(i int) int {
	for i > 0 && !p.breaks(i-1) {
		i--
	}
	return i
}

// cut takes the tokens from i to j out.
func (p *parser) cut(i, j int) bool {
	p.t = slices.Delete(p.t, i, j)
	p.lex = slices.Delete(p.lex, i, j)
	p.mend = slices.Delete(p.mend, i, j)
	p.long = nil
	p.look()
	return true
}

// repairAct: "binned no sorry used 120g".
func (p *parser) repairAct(from, next int) bool {
	_, m := p.longest(next, "did", "claim")
	if m == 0 {
		return false
	}
	for k := from - 1; k >= p.start; k-- {
		if _, m := p.longest(k, "did", "claim"); m == 0 {
			continue
		}
		for x := k; x < from; x++ {
			if p.foodAt(x) { // a statement of its own
				return false
			}
		}
		return p.cut(k, next)
	}
	return false
}

// repairAll: "got 2 bream 1kg £12 sorry 3 bream 1.5kg £18": all that was said of the same food.
func (p *parser) repairAll(from, next int) bool {
	_, n := p.amount(next)
	k := p.knownLength(next + n)
	if n == 0 || k == 0 {
		return false
	}
	other := false
	for f := from - 1; f > p.start; f-- {
		m := p.knownLength(f)
		if m == 0 {
			continue
		}
		if f+m > from || !p.sameNamed(f, m, next+n, k) {
			other = true
			continue
		}
		if f+m == from || other && !p.over(next+n+k) {
			return false
		}
		end := p.end
		p.end = f
		for at := p.start; at < f; at++ {
			if a, m := p.amount(at); m > 0 && a.How != Unsaid && at+m == f {
				p.end = end
				if !other {
					return p.cut(at, next)
				}
				amount := slices.Clone(p.t[next : next+n]) // "2 trout and 1kg leeks sorry 3 trout"
				p.t = slices.Concat(p.t[:at], amount, p.t[f:from], p.t[next+n+k:])
				p.rewrite()
				p.tag()
				return true
			}
		}
		p.end = end
		return false
	}
	return false
}

// sameNamed says whether the m words from i and the n from j name one food.
func (p *parser) sameNamed(i, m, j, n int) bool {
	was := slices.Clone(p.ids(i, i+m))
	return slices.ContainsFunc(p.ids(j, j+n), func(id int) bool { return slices.Contains(was, id) })
}

// repairDish: "in the bread no not the bread the pizza dough".
func (p *parser) repairDish(from, next int) bool {
	if _, m := p.class(next, "prep"); m == 0 && !p.word(next, "not") {
		return false
	}
	name, at := "", 0
	for k := from - 1; k >= p.start && name == ""; k-- {
		end := p.end
		p.end = from
		if d, n := p.dish(k); n > 0 && k+n == from {
			name, at = d, k
		}
		p.end = end
	}
	if name == "" {
		return false
	}
	if _, n := p.dish(next); n > 0 {
		return p.cut(at, next)
	}
	if p.word(next, "not") {
		k := p.skip(next+1, "det")
		for k < p.end && k-next < 5 && p.is(k, word) && !p.isDet(k) {
			k++
		}
		if p.isDet(k) && !p.lexHas(next+1, next+2, "pron") {
			_, m := p.class(at, "prep")
			return p.cut(at+m, k)
		}
	}
	return false
}

// repairAmount: "used two no three lemons", "two eggs no three", "a kilo of
// chicken no that's wrong 700 grams of chicken".
func (p *parser) repairAmount(from, next int) bool {
	fresh, n := p.amount(next)
	if n == 0 || fresh.How == Unsaid || p.word(next+n, "was") || p.word(next+n, "is") || p.word(next+n, "were") { // "8 sorry, one was hiding"
		return false
	}
	end := p.end
	at, to := 0, 0
	for k := p.start; k < from; k++ {
		p.end = from
		if !p.startsAmount(k) && !p.isShare(k) {
			continue
		}
		if a, m := p.amount(k); m > 0 && a.How != Unsaid {
			at, to = k, k+m
			k += m - 1
		}
	}
	p.end = end
	switch {
	case to == 0:
		return false
	case to >= from: // nothing between: "two no three lemons"
		return p.cut(at, next)
	case fresh.How == Share && n > 1, !p.endsItem(next+n) && (p.foodAt(next+n) || p.is(next+n, word)): // with a food of its own
		return p.cut(at, next)
	}
	tail := append(slices.Clone(p.t[next:next+n]), p.t[to:from]...) // "two eggs no three"
	for k := at + 1; k < to && fresh.How == Pieces; k++ {           // the unit stays
		if u, m := p.unit(k); m > 0 && u.Sort != measure.Counts {
			tail = append(slices.Clone(p.t[next:next+n]), p.t[k:from]...)
			break
		}
	}
	rest := p.t[next+n:]
	p.t = append(append(slices.Clone(p.t[:at]), tail...), rest...)
	p.rewrite()
	p.tag()
	return true
}

// rewrite makes the text that of the tokens, which have changed places.
func (p *parser) rewrite() {
	var b strings.Builder
	end := -1
	for i := range p.t {
		t := &p.t[i]
		if i > 0 && t.from != end {
			b.WriteByte(' ')
		}
		end = t.to
		from := b.Len()
		b.WriteString(t.raw)
		t.from, t.to = from, b.Len()
	}
	p.text = b.String()
}

// repairFood: "cream no milk", "2 red no brown onions".
func (p *parser) repairFood(from, next int) bool {
	if !p.foodAt(next) && !p.word(next+1, "onions") && !p.word(next+1, "onion") {
		return false
	}
	for k := from - 1; k > p.start; k-- {
		if _, m := p.class(k, "prep"); m > 0 { // "in the waldorf no cheese"
			return false
		}
		if u, m := p.unit(k - 1); p.is(k-1, digit) || u != nil && m > 0 || p.word(k-1, "of") || p.isDet(k-1) || p.lexHas(k-1, k, "number") {
			return p.cut(k, next)
		}
	}
	return false
}
