package language

import (
	"strings"

	"scullion/pantry/measure"
)

// unit reads a unit at i: one word or two.
func (p *parser) unit(i int) (*measure.Unit, int) {
	t := measure.DefaultUnits()
	if !p.is(i, word) {
		return nil, 0
	}
	if p.is(i+1, word) {
		if u := t.Find(p.t[i].w+" "+p.t[i+1].w, p.place); u != nil {
			return u, 2
		}
	}
	if u := t.Find(p.t[i].w, p.place); u != nil {
		return u, 1
	}
	if u := t.Find(strings.TrimSuffix(p.t[i].w, "s"), p.place); u != nil && len(p.t[i].w) > 3 {
		return u, 1
	}
	return nil, 0
}

// amount reads an amount at i. n is how many tokens it takes, with an "of"
// behind it; 0 where there is none. A number that cannot be an amount is
// noted in p.wrong and gives none.
func (p *parser) amount(i int) (a Amount, n int) {
	j := i
	for {
		if _, m := p.class(j, "about"); m > 0 {
			a.Approx = true
			j += m
		} else if p.word(j, "the") && p.word(j+1, "other") && p.startsAmount(j+2) && !p.isShare(j) { // "the other 300g"
			j += 2
		} else if p.word(j, "the") && (p.is(j+1, digit) || p.lexHas(j+1, j+2, "number")) { // "used the 3 eggs"
			j++
		} else if p.word(j, "between") {
			j++
			p.between = true
			defer func() { p.between = false }()
		} else if p.word(j, "the") && p.isShareAt(j+1) || p.word(j, "another") && p.startsAmount(j+1) {
			j++
		} else {
			break
		}
	}
	if s, m := p.share(j); m > 0 && s.N == measure.Whole(1) && p.is(j+m, digit) { // "the remaining 100g"
		j += m
	} else if m > 0 {
		s.Approx = a.Approx
		return p.done(s, i, j+m)
	}
	v, m := p.number(j)
	if m == 0 {
		return p.wordAmount(a, i, j)
	}
	j += m
	if v.Den == 0 || p.glued(j) {
		p.wrong = "that number cannot be read as an amount"
		if p.t[j-1].less {
			p.wrong = "an amount cannot be less than nothing"
		}
		return Amount{}, 0
	}
	if p.mark(j, "%") && v.Num <= 100*v.Den { // 50% of the cream
		a.How = Share
		a.N, _ = v.Times(measure.Ratio{Num: 1, Den: 100})
		return p.done(a, i, j+1)
	}
	if hi, m := p.rangeEnd(j); m > 0 {
		if v.Den == 1 && hi.Den == 1 && v.Num < 10 && hi.Num >= 100 && p.is(j+1, word) { // "two to three hundred"
			v.Num *= 100
		}
		if sum, ok := v.Plus(hi); ok {
			v, _ = sum.Times(measure.Ratio{Num: 1, Den: 2})
			a.Approx = true
		}
		j += m
	}
	return p.numbered(a, v, i, j)
}

// numbered goes on after a number v that ended before j.
func (p *parser) numbered(a Amount, v measure.Ratio, i, j int) (Amount, int) {
	if w := p.t[min(j, len(p.t)-1)]; j < len(p.t) && (w.w == "x" || w.w == "times" || w.w == "lots" && p.word(j+1, "of")) {
		k := j + 1
		if w.w == "lots" {
			k++
		}
		if each, m := p.plain(k); m > 0 && v.Den == 1 {
			return p.multiply(a, v, each, i, k+m)
		}
	}
	if p.word(j, "x") { // 12x eggs
		j++
	}
	if each, m := p.plain(j); m > 0 && v.Den == 1 && v.Num <= 200 && (p.is(j, digit) || each.Base >= 100_000) && !p.after { // 3 1kg bags of
		return p.multiply(a, v, each, i, j+m)
	}
	if u, m := p.unit(j); m > 0 && p.word(j+m, "of") && v.Den == 1 && IsOuter(u.Name) { // 6 cases of 6 x 750ml
		if each, n := p.amount(j + m + 1); n > 0 && each.How == Measured && each.Count.Num > 0 && !each.Both {
			return p.outer(a, v, u.Name, each, i, j+m+1+n)
		}
	}
	if u, m := p.unit(j); m > 0 && u.Sort == measure.Parts && p.word(j+m, "of") && v.Den == 1 { // 3 packs of 250g
		if each, n := p.plain(j + m + 1); n > 0 {
			return p.multiply(a, v, each, i, j+m+1+n)
		}
		if each, n := p.number(j + m + 1); n > 0 && each.Den == 1 && p.foodAt(j+m+1+n) { // 2 trays of 30 eggs
			a.How, a.Outer, a.Outers = Pieces, u.Name, v
			a.N, _ = v.Times(each)
			return p.done(a, i, j+m+1+n)
		}
	}
	if k := p.skipMark(j, "-"); p.word(k, "odd") || p.word(k, "ish") { // "200-odd grams"
		a.Approx = true
		j = k + 1
	}
	size, k := p.size(j)
	k = p.skipMark(k, "-")
	if f, m := p.class(k, "fraction"); m > 0 && v.Den == 1 && v.Num > 0 && f.ratio.Num*v.Num <= f.ratio.Den { // 3 quarters
		v = measure.Ratio{Num: f.ratio.Num * v.Num, Den: f.ratio.Den}
		k += m
	}
	if v.Num < v.Den { // half a kilo, 3/4 of a cup
		l := p.skipWord(k, "of")
		if p.word(l, "a") || p.word(l, "an") {
			if u, m := p.unit(p.skip(l+1, "size")); m > 0 {
				return p.units(a, v, u, i, p.skip(l+1, "size")+m)
			}
			a.How, a.N = Pieces, v
			return p.done(a, i, l+1)
		}
		if p.fractionIsShare(k) {
			a.How, a.N = Share, v
			return p.done(a, i, p.skip(p.skipWord(k, "of"), "det"))
		}
	}
	if u, m := p.unit(k); m > 0 && p.unitFits(u, k, m) {
		a.Size = packSize(u, size)
		return p.units(a, v, u, i, k+m)
	}
	a.How, a.N, a.Size = Pieces, v, size
	return p.done(a, i, k)
}

// size passes words for a size and gives the last that tells: small, large. A
// word that a food's name begins with is left: "little gem".
func (p *parser) size(i int) (size string, next int) {
	for {
		w, m := p.class(i, "size")
		if m == 0 || p.foodAt(i) {
			return size, i
		}
		if w.value != "" {
			size = w.value
		}
		i += m
	}
}

// packSize is the size of packs that come in several, "" of what else is counted: "2 big tins".
func packSize(u *measure.Unit, size string) string {
	if IsPack(u.Name) {
		return size
	}
	return ""
}

// isUnit says whether a word alone is a unit: "2 pieces".
func (p *parser) isUnit(w string) bool {
	return measure.DefaultUnits().Find(strings.ToLower(w), p.place) != nil
}

// unitFits keeps a unit's word from swallowing a food's: "2 heads" are pieces
// of something, but "6 pots" with nothing after may be pots.
func (p *parser) unitFits(u *measure.Unit, i, n int) bool {
	if u.Sort == measure.Parts {
		// "3 garlic cloves" never comes here; "2 leaf spinach" is no leaf.
		return p.word(i+n, "of") || !p.known(i, n+1)
	}
	if u.Sort == measure.Counts { // "three pairs for the trifle" are pears, misheard
		_, half := p.andFraction(i + n)
		return !p.endsItem(i+n) || half > 0
	}
	return true
}

// units finishes an amount of v units ending before j: "and a half", "4 oz".
func (p *parser) units(a Amount, v measure.Ratio, u *measure.Unit, i, j int) (Amount, int) {
	if f, m := p.andFraction(j); m > 0 {
		v, _ = v.Plus(f)
		j += m
	}
	if raw := p.t[i].raw; v.Den == 1 && v.Num >= 1000 && strings.Count(raw, ",") == 1 && (u.Name == "kilogram" || u.Name == "litre") { // "1,250 kg" is a decimal comma
		v = measure.Ratio{Num: v.Num, Den: 1000}
	}
	switch u.Sort {
	case measure.Counts:
		n, ok := v.Times(u.Factor)
		if !ok {
			return Amount{}, 0
		}
		a.How, a.N = Pieces, n
		return p.done(a, i, j)
	case measure.Parts:
		a.How, a.N, a.Part = Pieces, v, u.Name
		return p.done(a, i, j)
	}
	sum, ok := v.Times(u.Factor)
	if u.Sort == measure.Vague {
		a.Approx = true
		a.Low, a.High = u.Low, u.High
		a.Unit, a.N = u.Name, v
	}
	if more, u2, m := p.compound(u, j); m > 0 { // 1 lb 4 oz
		if extra, fits := more.Times(u2.Factor); fits {
			sum, ok = sum.Plus(extra)
		}
		j += m
	}
	base, err := sum.Of(1)
	if !ok || err != nil {
		p.wrong = "that is more than a kitchen holds"
		return Amount{}, 0
	}
	if a.Low > 0 {
		a.Low, _ = v.Of(a.Low)
		a.High, _ = v.Of(a.High)
	}
	a.How, a.Base, a.Kind = Measured, base, u.To
	a, n := p.done(a, i, j)
	if part, m := p.unit(i + n); m > 0 && part.Sort == measure.Parts && p.stillOn(i+n) == 0 && (p.word(i+n+m, "of") || part.Name != "leaf" && !p.known(i+n, m+1) && !p.lexHas(i+n, i+n+m, "trim")) { // a 400g tin of
		a.Count, a.Pack = measure.Whole(1), part.Name
		return p.done(a, i, i+n+m)
	}
	return a, n
}

// compound reads the smaller half of "1 lb 4 oz", "2 pounds and 3 ounces".
func (p *parser) compound(u *measure.Unit, i int) (v measure.Ratio, u2 *measure.Unit, n int) {
	if v, n := p.number(i); u.Name == "kilogram" && n == 1 && p.is(i, digit) && v.Den == 1 && v.Num >= 50 && v.Num < 1000 && p.word(i+1, "of") { // "1 kilo 200 of potatoes"
		return v, measure.DefaultUnits().Find("g", p.place), 1
	}
	smaller := map[string]string{"pound": "ounce", "kilogram": "gram", "stone": "pound", "litre": "millilitre"}[u.Name]
	if smaller == "" {
		return v, nil, 0
	}
	j := p.skipWord(i, "and")
	v, m := p.number(j)
	if m == 0 || v.Den == 0 {
		return v, nil, 0
	}
	u2, k := p.unit(j + m)
	if k == 0 || u2.Name != smaller {
		return v, nil, 0
	}
	return v, u2, j + m + k - i
}

// plain reads a number and a unit of mass or volume, and nothing more.
func (p *parser) plain(i int) (a Amount, n int) {
	v, n := p.number(i)
	if n == 0 || v.Den == 0 {
		return a, 0
	}
	u, m := p.unit(i + n)
	if m == 0 || u.Sort != measure.Mass && u.Sort != measure.Volume {
		return a, 0
	}
	base, err := u.Base(v)
	if err != nil {
		return a, 0
	}
	return Amount{How: Measured, Base: base, Kind: u.To}, n + m
}

// multiply is "2 x 400g [tins] [of]".
func (p *parser) multiply(a Amount, v measure.Ratio, each Amount, i, j int) (Amount, int) {
	base, err := v.Of(each.Base)
	if err != nil {
		p.wrong = "that is more than a kitchen holds"
		return Amount{}, 0
	}
	a.How, a.Base, a.Kind, a.Count = Measured, base, each.Kind, v
	a.Approx = a.Approx || each.Approx
	if u, m := p.unit(j); m > 0 && u.Sort == measure.Parts {
		a.Pack = u.Name
		j += m
	}
	return p.done(a, i, j)
}

// outer is so many cases of each, which is itself so many packs: "6 cases of 6 x 750ml".
func (p *parser) outer(a Amount, v measure.Ratio, name string, each Amount, i, j int) (Amount, int) {
	base, err := v.Of(each.Base)
	count, ok := v.Times(each.Count)
	if err != nil || !ok {
		p.wrong = "that is more than a kitchen holds"
		return Amount{}, 0
	}
	a.How, a.Base, a.Kind, a.Count, a.Pack, a.Outer, a.Outers = Measured, base, each.Kind, count, each.Pack, name, v
	return p.done(a, i, j)
}

// wordAmount reads amounts that begin without a number: half a kilo, a pinch
// of, a leek, some.
func (p *parser) wordAmount(a Amount, i, j int) (Amount, int) {
	if f, m := p.class(j, "fraction"); m > 0 {
		return p.numbered(a, f.ratio, i, j+m)
	}
	whole := p.word(j, "the") && p.word(j+1, "whole") && !p.foodAt(j+1) // one, not all there is: "the whole cauliflower"
	if p.word(j, "a") || p.word(j, "an") || p.word(j, "one") || whole {
		if f, m := p.class(j+1, "fraction"); m > 0 {
			return p.numbered(a, f.ratio, i, j+1+m)
		}
		if p.is(j+1, digit) { // a 400g tin of
			if each, m := p.amount(j + 1); m > 0 && each.How == Measured {
				each.Approx = each.Approx || a.Approx
				return p.done(each, i, j+1+m)
			}
		}
		k := p.skip(j+1, "size")
		if _, m := p.class(j, "some"); m > 0 {
			a.Some = true
			return p.done(a, i, j+m)
		}
		if u, m := p.unit(k); m > 0 && u.Sort == measure.Parts && p.word(k+m, "of") && (p.is(k+m+1, digit) || p.lexHas(k+m+1, k+m+2, "number")) { // "a box of 20 pears"
			if all, n := p.amount(k + m + 1); n > 0 && (all.How == Pieces || all.How == Measured) {
				return p.done(all, i, k+m+1+n)
			}
		}
		if u, m := p.unit(k); m > 0 && p.unitFits(u, k, m) && (p.word(k+m, "of") || p.word(k+m, "and") || u.Sort != measure.Vague || k+m == p.end) {
			size, _ := p.size(j + 1)
			a.Size = packSize(u, size)
			return p.units(a, measure.Whole(1), u, i, k+m)
		}
		if !p.is(k, word) {
			return a, 0
		}
		a.How, a.N, a.Article = Pieces, measure.Whole(1), true
		a.Size, k = p.size(j + 1)
		if k == p.end { // "a big" what?
			k = j + 1
		}
		return p.done(a, i, k)
	}
	if _, m := p.class(j, "some"); m > 0 {
		a.Some = true
		return p.done(a, i, j+m)
	}
	k := p.skip(j, "size")
	if u, m := p.unit(k); m > 0 && p.lexHas(k+m, k+m+1, "of") { // glug of oil, pint of milk
		return p.units(a, measure.Whole(1), u, i, k+m)
	}
	return a, 0
}

// share reads a share of what is on hand: the rest of, all the, half the; all
// but 100 g of the; of a weight, "half the 350g", that much of it.
func (p *parser) share(i int) (a Amount, n int) {
	s, m := p.class(i, "share")
	if m == 0 {
		return a, 0
	}
	j := i + m
	if s.value == "but" { // "all but 100g of the butter"
		less, k := p.amount(j)
		if k == 0 || less.How == Share || less.How == Unsaid {
			return a, 0
		}
		return Amount{How: Share, N: measure.Whole(1), Less: &less}, j + k - i
	}
	j = p.skip(j, "det")
	if all, n := p.class(j, "share"); n > 0 && all.value == "1/1" && s.value != "1/1" { // "a third of the remaining", "half of what's left of"
		j = p.skip(j+n, "det")
	}
	if s.ratio.Den == 0 { // "most of": not a figure
		a.Some = true
		return a, j - i
	}
	first := p.t[i].w
	if first == "half" && m == 1 && !p.fractionIsShare(i+1) {
		return a, 0
	}
	if (p.word(j-1, "a") || p.word(j-1, "an")) && j > i+m { // half of a kilo
		return a, 0
	}
	if of, k := p.plain(j); k > 0 && j > i+1 { // "half the 350g of cheddar"
		if base, err := s.ratio.Of(of.Base); err == nil {
			of.Base = base
			return of, j + k - i
		}
	}
	a.How, a.N = Share, s.ratio
	return a, j - i
}

// except reads what was kept of a share, behind its food: "all of the penne
// except 120g".
func (p *parser) except(a *Amount, i int) (n int) {
	if a.How != Share || a.Less != nil || !p.word(i, "except") && !p.word(i, "bar") && !p.word(i, "but") && !p.word(i, "minus") {
		return 0
	}
	less, m := p.amount(p.skipWord(i+1, "for"))
	if m == 0 || less.How == Share || less.How == Unsaid {
		return 0
	}
	a.Less = &less
	return p.skipWord(i+1, "for") + m - i
}

func (p *parser) isShareAt(i int) bool {
	s, m := p.class(i, "share")
	return m > 0 && (s.value != "1/1" || m > 1)
}

// fractionIsShare tells "half the milk", "half of it" (a share) from "half a
// leek", "½ lemon", "half kilo" (an amount).
func (p *parser) fractionIsShare(i int) bool {
	j := p.skipWord(i, "of")
	if p.word(j, "a") || p.word(j, "an") {
		return false
	}
	if j > i {
		return true
	}
	_, m := p.class(j, "det")
	return m > 0
}

// done ends an amount at j, taking "of" and words about the weighing with it.
func (p *parser) done(a Amount, i, j int) (Amount, int) {
	a.Said = p.text[p.t[i].from:p.t[min(j, len(p.t))-1].to]
	if p.word(j, "each") && p.word(j+1, "of") {
		a.Each = true
		j++
	}
	for {
		if _, m := p.class(j, "of"); m > 0 {
			j += m
			if k := p.skip(j, "det"); k > j && a.How != Share { // "150g of the 350g cheddar", "one of the two tins of"
				j = p.pastTotal(&a, j, k)
			}
		} else if _, m := p.class(j, "pause"); m > 0 && a.How != Unsaid && !p.known(j, 1) {
			j += m
		} else {
			break
		}
	}
	if a.How == Share || a.How == Measured {
		j = p.skip(j, "det")
	}
	if _, m := p.class(j, "prepared"); m > 0 && a.How != Unsaid {
		a.EP = true
		j += m
		if _, m := p.class(j+1, "did"); m > 0 && p.word(j, "and") { // "peeled and diced"
			j += 1 + m
		}
	}
	return a, j - i
}

// pastTotal passes the amount there was, of which only so much is meant, at k; it
// gives j where none stands there.
func (p *parser) pastTotal(a *Amount, j, k int) int {
	if _, m := p.plain(k); m > 0 {
		return k + m
	}
	v, m := p.number(k)
	if m == 0 || v.Den != 1 {
		return j
	}
	if u, n := p.unit(k + m); n > 0 && u.Sort == measure.Parts {
		a.Part = u.Name
		m += n
	}
	return k + m
}
