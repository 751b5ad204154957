package language

import (
	"fmt"
	"slices"
	"strings"

	"scullion/pantry/measure"
)

// told reads what more is said of an amount behind its food, which ends before
// k, and that the weight is of prepared food. It gives where that ends.
func (p *parser) told(it *Item, i, k int, before bool) int {
	k += p.except(&it.Amount, k)
	k = p.tellMore(it, i, k, before)
	if it.Amount.How != Unsaid {
		if n := p.prepBehind(k); n > 0 {
			it.Amount.EP = true
			k += n
		}
	}
	return k
}

// prepBehind reads that a weight is that of prepared food: "peeled weight",
// ", trimmed,", "weight after peeling".
func (p *parser) prepBehind(i int) int {
	j := i
	if p.mark(j, ",") {
		j++
	}
	if p.word(j, "weight") && p.word(j+1, "after") && (p.word(j+2, "peeling") || p.word(j+2, "trimming") || p.word(j+2, "prep")) {
		return j + 3 - i
	}
	_, m := p.class(j, "prepared")
	if m == 0 {
		return 0
	}
	j += m
	switch {
	case p.word(j, "weight"):
		j++
	case j-m == i || !p.mark(j, ","): // "500g potatoes peeled" may go on
		return 0
	}
	if p.mark(j, ",") {
		j++
	}
	return j - i
}

// tellMore reads an amount where none stood before the food, the weight of what
// was counted, or the number of what was weighed.
func (p *parser) tellMore(it *Item, i, k int, before bool) int {
	a := &it.Amount
	if n := p.casesOf(a, i, k); n > 0 {
		return k + n
	}
	if n := p.traysOf(a, k); n > 0 {
		return k + n
	}
	switch {
	case a.How == Unsaid && !before:
		b, n := p.behind(k)
		if n == 0 && p.amountsBehind(i) {
			b, n = p.amount(k)
			p.behindTo = k + n
		}
		if n > 0 { // "leeks 300g", "eggs: 6"
			*a = b
			if c, m := p.inAll(k + n); m > 0 && b.How == Pieces && b.Part == "" { // "leeks - 5 - 1.1kg"
				c.Both, c.Count = true, b.N
				*a = c
				n += m
			}
			return k + n
		}
	case a.How == Pieces && a.Part != "" && a.N == measure.Whole(1):
		if b, n := p.inAll(k); n > 0 { // "a crate of leeks, 5kg"
			*a = b
			return k + n
		}
	case a.How == Pieces && a.N.Den == 1 && words().is(a.Part, "packed"):
		b, n := p.inAll(k)
		switch {
		case n > 0 && p.total(k, k+n): // "2 boxes of leeks, 10kg in all"
			*a = b
			return k + n
		case n > 0 && b.Count == a.N: // "6 tins of tomatoes, 6 x 400g" says it twice
			b.Pack = a.Part
			*a = b
			return k + n
		case n > 0: // "6 tins of tomatoes, 400g"
			end := p.ofEach(a, b, i, k+n)
			a.Perhaps = true
			return end
		}
	case a.How == Pieces && a.Part != "" && a.Part != "piece":
		if b, n := p.inAll(k); n > 0 { // "2 bunches of carrots, 1.1kg"
			*a = b
			return k + n
		}
	case a.How == Pieces:
		if b, n := p.inAll(k); n > 0 { // "5 leeks, 1.1 kg"
			b.Both, b.Count = true, a.N
			*a = b
			return k + n
		}
	case a.How == Measured && a.Count.Num == 0:
		if c, n := p.numberOf(k); n > 0 { // "1.1 kg leeks, 5 of them"
			a.Both, a.Count = true, c
			return k + n
		}
	}
	if b, n := p.each(k); n > 0 && a.How == Pieces && a.N.Den == 1 { // "6 tins of tomatoes, 400g each"
		return p.ofEach(a, b, i, k+n)
	}
	return k
}

// casesOf makes cases that are counted before k those of the packs behind them: "6 cases of wine, 6 x
// 750ml". It gives how many tokens that takes.
func (p *parser) casesOf(a *Amount, i, k int) int {
	if a.How != Pieces || a.N.Den != 1 || !IsOuter(a.Part) {
		return 0
	}
	j := k
	for p.mark(j, ",:-=/@") || p.word(j, "of") {
		j++
	}
	each, n := p.amount(j)
	if n == 0 || each.How != Measured || each.Count.Num == 0 || each.Both || p.total(j, j+n+3) {
		return 0
	}
	e := j + n
	if p.word(e, "each") || p.word(e, "ea") || p.word(e, "apiece") {
		e++
	}
	if !p.endsItem(e) {
		return 0
	}
	all, m := p.outer(Amount{}, a.N, a.Part, each, i, e)
	if m == 0 {
		return 0
	}
	if all.Said = a.Said + " x " + each.Said; all.Count.Den == 1 && all.Count.Num > 0 {
		one := int64(all.Base) / all.Count.Num / 1000 // g or ml
		all.Said = strings.TrimSpace(fmt.Sprint(all.Count.Num, " x ", one, all.Kind, " ", all.Pack))
	}
	*a = all
	return e - k
}

// traysOf makes trays that are counted before k those of so many pieces, as the trade writes it: "3 trays of
// eggs 30s". It gives how many tokens that takes.
func (p *parser) traysOf(a *Amount, k int) int {
	j := p.skipMark(k, ",")
	if a.How != Pieces || a.N.Den != 1 || a.Part == "" || a.Part == "piece" || !p.is(j, digit) || !p.word(j+1, "s") || p.t[j].to != p.t[j+1].from {
		return 0
	}
	n, ok := a.N.Times(p.t[j].val)
	if !ok || p.t[j].val.Den != 1 || p.t[j].val.Num < 2 || !p.endsItem(j+2) {
		return 0
	}
	a.Said = fmt.Sprintf("%s of %d", a.Said, p.t[j].val.Num)
	a.Outer, a.Outers, a.N, a.Part = a.Part, a.N, n, ""
	return j + 2 - k
}

// amountsBehind says whether from i on each food has its amount behind it, with no
// comma between: "mackerel 150g potato 400g lemon 1 in the fishcakes".
func (p *parser) amountsBehind(i int) bool {
	for n := 0; ; n++ {
		k := p.knownLength(p.skip(i, "det"))
		if k == 0 {
			return false
		}
		i = p.skip(i, "det") + k
		_, m := p.amount(i)
		if m == 0 {
			return false
		}
		i += m
		if _, prep := p.class(i, "prep"); prep > 0 || i >= p.end || p.mark(i, ",") {
			return n > 0
		}
	}
}

// total says whether a word from i to j says that a weight is of all.
func (p *parser) total(i, j int) bool {
	for ; i < j; i++ {
		if p.word(i, "total") || p.word(i, "totalling") || p.word(i, "all") || p.word(i, "altogether") {
			return true
		}
	}
	return false
}

// ofEach makes an amount that was counted one of so much each, ending before k.
func (p *parser) ofEach(a *Amount, each Amount, i, k int) int {
	all, n := p.multiply(Amount{}, a.N, each, i, k)
	if n > 0 {
		all.Said, all.Pack = a.Said+" x "+each.Said, a.Part
		if IsPack(a.Part) { // which can be read again: "3 x 2.55kg tin"
			all.Said = fmt.Sprint(a.N.Num, " x ", each.Said, " ", a.Part)
		}
		*a = all
	}
	return k
}

// each reads "400g each" behind a counted food.
func (p *parser) each(i int) (a Amount, n int) {
	j, of := i, false
	for p.mark(j, ",@") || p.word(j, "at") || p.word(j, "of") {
		of = of || p.word(j, "of")
		j++
	}
	a, m := p.plain(j)
	if m == 0 {
		return a, 0
	}
	a.Said = p.text[p.t[j].from:p.t[j+m-1].to]
	switch {
	case p.word(j+m, "each") || p.word(j+m, "apiece") || p.word(j+m, "ea"):
		m++
	case !of:
		return a, 0
	}
	return a, j + m - i
}

// inAll reads the weight of what was counted, behind it: ", 1.1 kg", "(1.1 kg)",
// of which the layout leaves no brackets, "weighing 1.1 kg in total".
func (p *parser) inAll(i int) (a Amount, n int) {
	j := i
	for p.mark(j, ",:-=/") {
		j++
	}
	for p.word(j, "weighing") || p.word(j, "weigh") || p.word(j, "total") || p.word(j, "totalling") || p.word(j, "thats") || p.word(j, "which") || p.word(j, "is") {
		j++
	}
	about := p.skip(j, "about")
	if !p.startsAmount(about) {
		return a, 0
	}
	a, m := p.amount(about)
	a.Approx = a.Approx || about > j
	j = about + m
	if m == 0 || a.How != Measured || a.Vague() || p.word(j, "each") || p.word(j, "apiece") || p.word(j, "ea") {
		return a, 0
	}
	if p.mark(j, ",") {
		if _, prep := p.class(j+1, "prep"); prep > 0 { // "2 leeks, 430g, in the tart"
			j++
		}
	}
	for p.word(j, "in") && (p.word(j+1, "all") || p.word(j+1, "total")) || p.word(j, "total") || p.word(j, "altogether") {
		j++
		if p.word(j, "all") || p.word(j, "total") {
			j++
		}
	}
	if !p.endsItem(j) {
		return a, 0
	}
	return a, j - i
}

// numberOf reads how many of what was weighed, behind it: ", 5 of them", "(5)".
func (p *parser) numberOf(i int) (v measure.Ratio, n int) {
	j := i
	for p.mark(j, ",:-") {
		j++
	}
	v, m := p.number(j)
	if m == 0 || v.Den != 1 || v.Num == 0 {
		return v, 0
	}
	j += m
	switch {
	case p.word(j, "of") && (p.word(j+1, "them") || p.word(j+1, "em")):
		j += 2
	case m == 1 && p.endsItem(j) && strings.HasSuffix(p.text[:p.t[j-1].from], "("): // the layout leaves no brackets
	default:
		return v, 0
	}
	return v, j - i
}

// behind reads an amount after its food, where nothing but an end follows it.
func (p *parser) behind(i int) (a Amount, n int) {
	j := i
	if p.mark(j, ":-=,") || p.word(j, "x") {
		j++
	}
	if !p.startsAmount(j) {
		return a, 0
	}
	p.after = true
	a, n = p.amount(j)
	p.after = false
	if _, m := p.inAll(j + n); n > 0 && a.How == Pieces && a.Part == "" && m > 0 { // "leeks x5 1.1kg"
		return a, j + n - i
	}
	if j == i && (p.word(j, "a") || p.word(j, "an")) && !p.foodEnds(i) { // "bought them a pint"
		return Amount{}, 0
	}
	if n == 0 || a.How == Share || !p.endsItem(j+n) && !p.dishEnds(j+n) {
		return Amount{}, 0
	}
	if p.foodAt(j + n) {
		return Amount{}, 0
	}
	return a, j + n - i
}

// partBehind makes "3 garlic cloves", whose words end before k, three cloves of
// garlic, and "2 celery stalks" no trim: what is counted is a part of the food.
// "Salmon fillets" may be its name as well, so the amount is marked as loose.
func (p *parser) partBehind(it *Item, j, k int) {
	a := &it.Amount
	last := k - 1
	if a.How != Pieces || a.Part != "" || last <= j {
		return
	}
	u, n := p.unit(last)
	if n != 1 || !p.known(j, last-j) || p.known(j, k-j) && !p.sameFood(j, last, k) || u.Sort != measure.Parts && u.Sort != measure.Vague {
		return
	}
	if p.known(j, k-j) {
		it.Whole = p.text[p.t[j].from:p.t[last].to]
	}
	words := p.t[j:last]
	it.Words, it.Trim, it.Off = nil, false, ""
	for _, t := range words {
		if t.sort == word {
			it.Words = append(it.Words, t.raw)
		}
	}
	it.Food = strings.Join(it.Words, " ")
	a.Part, a.Loose = u.Name, true
	if u.Sort == measure.Vague { // "2 thyme sprigs"
		a.Part = ""
		said := a.Said
		*a, _ = p.units(Amount{}, a.N, u, j, last)
		a.Said = said
	}
}

// sameFood says whether the words from i to j and those from i to k are names
// of one food.
func (p *parser) sameFood(i, j, k int) bool {
	short := slices.Clone(p.ids(i, j))
	return slices.ContainsFunc(p.ids(i, k), func(id int) bool { return slices.Contains(short, id) })
}

// ids are those of the foods that the words from i to j name.
func (p *parser) ids(i, j int) []int {
	var words []string
	for ; i < j; i++ {
		words = append(words, p.t[i].raw)
	}
	return p.foods.Exact(words)
}
