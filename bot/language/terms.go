package language

import (
	"cmp"
	"regexp"
	"slices"
	"strings"

	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// terms reads money and dates behind an item.
func (p *parser) terms(it *Item, i int) int {
	j := i
	for j < p.end {
		if p.word(j, "for") && (p.is(j+1, money) || p.coin(j+1) > 0) || (p.word(j, "at") || p.mark(j, "@")) && (p.is(j+1, money) || p.coin(j+1) > 0) {
			j++
		} else if k := p.costWord(j); k > j {
			if j = k; p.is(j, digit) && p.coin(j) == 0 { // "cost 1.50": in what is counted here
				if c, err := p.t[j].val.Of(100); err == nil {
					it.Cost = int64(c)
				}
				j++
				continue
			}
		}
		if it.Cost != 0 && p.priceNext(j) { // "£3, £12 in all": the first is its own
			j = p.priceBeside(it, j)
			continue
		}
		if p.is(j, money) && p.t[j].val.Den != 0 {
			if c, err := p.t[j].val.Of(1); err == nil {
				it.Cost, it.Sign = int64(c), strings.TrimRight(p.t[j].raw, "0123456789., ")
			}
			p.t[j].paid = true
			j++
			continue
		}
		if n := p.poundsSpoken(it, j); n > 0 { // "for one pound eighty"
			j += n
			continue
		}
		if n := p.coin(j); n > 0 {
			w, _ := p.class(j+1, "coin")
			if v, ok := p.t[j].val.Times(w.ratio); ok {
				if c, err := v.Of(1); err == nil {
					it.Cost, it.Sign = int64(c), signOf(w.words[0])
				}
			}
			p.t[j].paid = true
			j += n
			continue
		}
		if n := p.unsignedEach(it, j); n > 0 {
			j += n
			continue
		}
		if n := p.date(it, j); n > 0 {
			j += n
			continue
		}
		if n := p.eachPriced(it, j); n > 0 {
			j += n
			continue
		}
		if n := p.perUnit(it, j); n > 0 {
			j += n
			continue
		}
		if p.word(j, "each") || p.mark(j, ",") && (p.is(j+1, money) || p.isLabel(j+1) || p.coin(j+1) > 0 || p.costWord(j+1) > j+1) {
			j++
			continue
		}
		return j
	}
	return j
}

// poundsSpoken reads "one pound eighty", "for two pounds forty".
func (p *parser) poundsSpoken(it *Item, i int) int {
	j := p.skipWord(p.skipMark(i, ","), "for")
	if p.is(j, digit) {
		return 0
	}
	v, n := p.number(j)
	if n == 0 || v.Den != 1 || !(p.word(j+n, "pound") || p.word(j+n, "pounds") || p.word(j+n, "quid")) {
		return 0
	}
	pence, m := p.number(j + n + 1)
	if m == 0 || pence.Den != 1 || pence.Num >= 100 || !p.endsItem(j+n+1+m) {
		return 0
	}
	it.Cost, it.Sign = v.Num*100+pence.Num, "£"
	return j + n + 1 + m - i
}

// perUnit reads "a kilo", "per litre", "/kg" behind a price, and makes the cost
// that of the whole amount.
func (p *parser) perUnit(it *Item, i int) int {
	if it.Cost == 0 || !(p.word(i, "a") || p.word(i, "per") || p.mark(i, "/")) {
		return 0
	}
	u, m := p.unit(i + 1)
	if m == 0 {
		return 0
	}
	if it.Amount.How == Pieces && p.word(i+1, "dozen") { // "2 dozen eggs £3 a dozen"
		if n, ok := it.Amount.N.Times(measure.Ratio{Num: 1, Den: 12}); ok {
			if cost, err := n.Of(measure.Amount(it.Cost)); err == nil {
				it.Cost, it.Rated = int64(cost), true
			}
		}
		return 1 + m
	}
	if one, err := u.Base(measure.Whole(1)); err == nil && one > 0 && it.Amount.How == Measured && u.To == it.Amount.Kind {
		if cost, err := (measure.Ratio{Num: it.Cost, Den: int64(one)}).Of(it.Amount.Base); err == nil {
			it.Cost, it.Rated = int64(cost), true
		}
	}
	return 1 + m
}

func (p *parser) isLabel(j int) bool { _, m := p.class(j, "label"); return m > 0 }

func (p *parser) coin(i int) int {
	if !p.is(i, digit) || p.t[i].val.Den == 0 {
		return 0
	}
	if w, m := p.class(i+1, "coin"); m > 0 && (w.words[0] != "pound" && w.words[0] != "pounds") {
		return 1 + m
	}
	return 0
}

// unsignedEach reads a price without a sign of which each has so much: "at 0.85 each", "@ 1.20", "2.85 a kilo". It
// has its pence. What "each" says is left for the next to read, but of "@", which says it by itself.
func (p *parser) unsignedEach(it *Item, i int) int {
	j := p.skipMark(i, ",")
	at := p.mark(j, "@")
	if at || p.word(j, "at") {
		j++
	}
	if it.Cost != 0 || it.Amount.How == Unsaid || !p.is(j, digit) || !pence.MatchString(p.t[j].raw) {
		return 0
	}
	counted := it.Amount.How == Pieces || it.Amount.Count.Num > 0
	each := p.word(j+1, "each") || p.word(j+1, "ea") || p.word(j+1, "apiece")
	_, unit := p.unit(j + 2)
	per := (p.word(j+1, "a") || p.word(j+1, "per") || p.mark(j+1, "/")) && unit > 0
	if !(each || per || at && counted && p.endsItem(j+1)) {
		return 0
	}
	c, err := p.t[j].val.Of(100)
	if err != nil || c <= 0 {
		return 0
	}
	it.Cost = int64(c)
	if !each && !per {
		if cost, err := cmp.Or(it.Amount.Count, it.Amount.N).Of(c); err == nil {
			it.Cost, it.Rated = int64(cost), true
		}
	}
	return j + 1 - i
}

// eachPriced reads "each", "apiece", "a bag" behind a price, and makes the cost that of all of
// them. Of cases that hold packs it is a case that costs so much, but where it is said of a bottle.
func (p *parser) eachPriced(it *Item, i int) int {
	if it.Cost == 0 {
		return 0
	}
	n, outer := 0, it.Amount.Outer != ""
	switch {
	case p.word(i, "each") || p.word(i, "apiece") || p.word(i, "ea"): // of what was counted
		n = 1
		if outer && it.Amount.How == Pieces {
			outer = !EachIsPiece(it.Cost, it.Amount)
			it.Each = map[bool]string{true: it.Amount.Outer, false: OnePiece}[outer]
		}
	case (p.word(i, "an") || p.word(i, "a") || p.word(i, "per")) && p.is(i+1, word) && it.Amount.How == Pieces && len(it.Words) > 0 && food.Fold(it.Words[len(it.Words)-1]) == food.Fold(p.t[i+1].w): // "20p an egg"
		n, outer = 2, false
	case !(p.word(i, "a") || p.word(i, "per") || p.mark(i, "/")) || !p.is(i+1, word):
		return 0
	case outer && p.namesUnit(i+1, it.Amount.Outer):
		n = 2
	case !p.mark(i, "/") && p.word(i+1, "piece") || slices.Contains([]string{it.Amount.Part, it.Amount.Pack}, strings.TrimSuffix(p.t[i+1].w, "s")) || outer && it.Amount.Pack == "" && p.isParts(i+1):
		n, outer = 2, false
	default:
		return 0
	}
	count := it.Amount.Count
	if count.Num == 0 && it.Amount.How == Pieces {
		count = it.Amount.N
	}
	if outer {
		count = it.Amount.Outers
	}
	if count.Num > 0 {
		if cost, err := count.Of(measure.Amount(it.Cost)); err == nil {
			it.Cost, it.Rated = int64(cost), true
		}
	}
	return n
}

// leastEach is what a piece costs at the least, in the currency's smallest unit, and what costs less than a whole
// unit of that is no case. The program's own judgement, no source.
const (
	leastEach = 10
	wholeUnit = 100
)

// EachIsPiece says whether a price "each" of pieces that came in cases is that of a piece, which was named last, and
// not of a case: a tray of 30 eggs does not cost 20p, and 30 eggs of £6 no £180.
func EachIsPiece(price int64, a Amount) bool {
	if a.Outers.Num <= 0 || a.N.Num <= 0 {
		return false
	}
	pieces, _ := a.N.Of(1)
	cases, _ := a.Outers.Of(1)
	return pieces > cases && (price < wholeUnit || price*int64(cases) < leastEach*int64(pieces))
}

// namesUnit says whether a word is one for a unit: "ctn" for a carton.
func (p *parser) namesUnit(i int, name string) bool {
	u, m := p.unit(i)
	return m == 1 && u.Name == name
}

// isParts says whether a word is one for what food comes in: "bottle".
func (p *parser) isParts(i int) bool {
	u, m := p.unit(i)
	return m == 1 && u.Sort == measure.Parts
}

// signOf is the sign of the currency that a coin is of.
func signOf(coin string) string {
	switch coin {
	case "euro", "euros":
		return "€"
	case "dollars", "bucks":
		return "$"
	}
	return "£"
}

// date reads "use by fri", "bb 5 march", "use by 5/3", "best before tomorrow".
func (p *parser) date(it *Item, i int) int {
	label, m := p.class(i, "label")
	if m == 0 {
		return 0
	}
	j := i + m
	for p.mark(j, ":") || p.word(j, "date") || p.word(j, "on") || p.word(j, "the") || p.word(j, "this") || p.word(j, "next") {
		j++
	}
	d, n := p.dayGone(j)
	if n == 0 {
		d, n = p.dayAt(j)
	}
	if n == 0 {
		return 0
	}
	it.Date, it.Label, it.Best = d, true, label.value == "best"
	return j + n - i
}

// dayAt reads "tomorrow", "sat", "march 5", 5/3; n is how many tokens it takes, 0 where no day
// stands at i.
func (p *parser) dayAt(i int) (d Day, n int) {
	d.Set = true
	j := i
	for p.word(j, "the") || p.word(j, "this") || p.word(j, "next") {
		j++
	}
	if w, m := p.class(j, "day"); m > 0 {
		d.Days, n = int(w.ratio.Num), m
	} else if w, m := p.class(j, "weekday"); m > 0 {
		d.Weekday, n = int(w.ratio.Num), m
	} else if w, m := p.class(j, "month"); m > 0 && p.is(j+1, digit) { // march 5
		d.Month, d.Dom, n = int(w.ratio.Num), int(p.t[j+1].val.Num), m+1
	} else {
		n = p.calendar(&d, j)
	}
	if n == 0 {
		return Day{}, 0
	}
	return d, j + n - i
}

// standsDay says whether a step wants a day, and one stands at i.
func (p *parser) standsDay(s step, i int) bool {
	if s.slot != "{day}" {
		return false
	}
	_, n := p.dayAt(i)
	return n > 0
}

// calendar reads the 5th, 5 march, 5th of march, 5/3, 05.03, 2026-03-05.
func (p *parser) calendar(d *Day, i int) int {
	if !p.is(i, digit) {
		return 0
	}
	v := p.t[i].val
	if n := p.isoDate(d, i); n > 0 {
		return n
	}
	if strings.Contains(p.t[i].raw, "/") && v.Num <= 31 && v.Den <= 12 { // 5/3: day and month
		d.Dom, d.Month = int(v.Num), int(v.Den)
		return 1
	}
	j := i + 1
	for p.is(j, word) && p.t[j].raw == "th" || p.word(j, "st") || p.word(j, "nd") || p.word(j, "rd") || p.word(j, "of") {
		j++
	}
	if w, m := p.class(j, "month"); m > 0 && v.Den == 1 && v.Num <= 31 {
		d.Dom, d.Month = int(v.Num), int(w.ratio.Num)
		return j + m - i
	}
	if j == i+2 && !p.word(i+1, "of") && v.Den == 1 && v.Num >= 1 && v.Num <= 31 { // the 5th
		d.Dom = int(v.Num)
		return 2
	}
	return 0
}

func (p *parser) isoDate(d *Day, i int) int {
	if !(p.mark(i+1, "-") && p.is(i+2, digit) && p.mark(i+3, "-") && p.is(i+4, digit)) {
		return 0
	}
	y, m, dom := p.t[i].val, p.t[i+2].val, p.t[i+4].val
	if y.Num < 2000 || m.Num < 1 || m.Num > 12 || dom.Num < 1 || dom.Num > 31 {
		return 0
	}
	d.Year, d.Month, d.Dom = int(y.Num), int(m.Num), int(dom.Num)
	return 5
}

// costWord passes "cost", "costing" and the like before a sum of money; a bare number is one where it has
// its pence. It gives i where none stands there.
func (p *parser) costWord(i int) int {
	_, m := p.class(i, "cost")
	if m == 0 {
		return i
	}
	j := i + m
	if p.is(j, money) || p.coin(j) > 0 || p.is(j, digit) && pence.MatchString(p.t[j].raw) && (j+1 >= p.end || p.is(j+1, mark)) {
		return j
	}
	return i
}

// pence is a sum of money with its pence, or cents.
var pence = regexp.MustCompile(`^\d+[.,]\d\d$`)

// bareCost reads a sum without a sign behind what came in: "5kg flour 4.50", ", for 4.50". It has its
// pence, and nothing but another item behind it; m is how many tokens it takes.
func (p *parser) bareCost(it *Item, i int) (m int) {
	j := p.skipMark(i, ",")
	if p.word(j, "for") || p.word(j, "at") {
		j++
	}
	if it.Cost != 0 || it.Amount.How == Unsaid || !p.is(j, digit) || !pence.MatchString(p.t[j].raw) {
		return 0
	}
	if _, joined := p.class(j+1, "join"); j+1 < p.end && !p.mark(j+1, ",+&;/") && joined == 0 && !p.isLabel(j+1) {
		return 0
	}
	c, err := p.t[j].val.Of(100)
	if err != nil || c <= 0 {
		return 0
	}
	it.Cost = int64(c)
	return j + 1 - i
}
