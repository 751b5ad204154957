package language

import (
	"slices"
	"strings"
)

// howCame passes what is said of goods behind the item that came in, before j, how they came or
// whence or what for ("on ice", ", fresh,", "from the market", "for tomorrow"), and reads the price
// or date behind it. It is passed as well where one more item follows. It gives j where it is no such.
func (p *parser) howCame(it *Item, j int) int {
	k := p.asides(j)
	if k == j {
		return j
	}
	it.Thawed = it.Thawed || p.saysThawed(j, k)
	it.Frozen = it.Frozen || p.saysFrozen(j, k)
	if it.Cost == 0 && p.priceNext(p.skipMark(k, ",-")) || !it.Date.Set && p.isLabel(p.skipMark(k, ",-")) {
		if e := p.terms(it, p.skipMark(k, ",-")); e > k {
			return p.howCame(it, e)
		}
	}
	if k == p.end && p.skip(p.skipMark(j, ",-"), "came") == k { // ", free"
		return k
	}
	if next := p.joint(k); next > k && p.startsAmount(next) && !p.newClause(next) {
		return k
	}
	return j
}

// asides passes all that is said at i of how goods came.
func (p *parser) asides(i int) int {
	for {
		at := p.skipMark(i, ",-")
		k := p.skip(at, "came")
		if k == at {
			k = p.whence(at)
		}
		if k == at {
			return i
		}
		i = k
	}
}

// whence passes "on the bone", "from the market", "for tomorrow" up to a mark, a price or a word that
// tells of more than the goods.
func (p *parser) whence(i int) int {
	_, m := p.longest(i, "prep", "from")
	if m == 0 && (p.word(i, "off") || p.word(i, "by") || p.word(i, "via")) {
		m = 1
	}
	if m == 0 || p.word(i, "to") || p.is(i, digit) {
		return i
	}
	j := i + m
	for n := 0; j < p.end && n < 5 && p.is(j, word); n++ {
		if p.startsAmount(j) && !p.isDet(j) || p.priceNext(j) || p.isLabel(j) || n > 0 && p.skip(j, "came") > j {
			break
		}
		if _, m := p.longest(j, "prep", "from", "join", "but"); m > 0 && n > 0 {
			break
		}
		if _, m := p.longest(j, "i", "if", "could", "not", "ask", "claim", "release", "left"); m > 0 {
			return i
		}
		j++
	}
	if j == i+m {
		return i
	}
	return j
}

// priceNext says whether at i a price stands, and nothing that it is the price of behind it: "£102",
// "for £9 each", but not "£5 voucher".
func (p *parser) priceNext(i int) bool {
	j := i
	for _, w := range []string{"for", "at"} {
		j = p.skipWord(j, w)
	}
	j = p.costWord(j)
	switch n := p.coin(j); {
	case p.is(j, money) && p.t[j].val.Den != 0:
		j++
	case n > 0:
		j += n
	default:
		return false
	}
	if j >= p.end || p.t[j].sort != word || p.isLabel(j) || p.endsItem(j) || p.startsAmount(j) {
		return true
	}
	return slices.ContainsFunc([]string{"each", "apiece", "a", "per", "total", "all", "off", "by", "via", "altogether"}, func(w string) bool { return p.word(j, w) })
}

// priceBeside passes a price at i behind that of the item, which counts: "£3 a kilo, £9", "£3, £12 in
// all".
func (p *parser) priceBeside(it *Item, i int) int {
	beside := Item{Amount: it.Amount}
	j := p.terms(&beside, i)
	_, m := p.class(j, "sum")
	for k := i; k < j; k++ { // what is not the same price nobody has put down
		p.t[k].paid = p.t[k].paid && (m > 0 || beside.Cost == it.Cost)
	}
	return j + m
}

// ofAll reads at j, behind the price of the last item, that it is the price of all of them, and
// takes it from that one. It gives where that ends.
func (p *parser) ofAll(items []Item, j int) int {
	_, m := p.class(j, "sum")
	last := len(items) - 1
	if items[last].Cost == 0 || m == 0 || !p.over(j+m) && !p.endsItem(j+m) {
		if before := p.sumBefore(j); before == 0 || items[last].Cost == 0 {
			return j
		}
	}
	if last > 0 && items[last-1].Cost == 0 {
		items[last].Cost, items[last].Sign = 0, ""
		for k := j - 1; k >= 0 && k >= j-3; k-- {
			p.t[k].paid = false
		}
	}
	return j + m
}

// sumBefore says whether a word before the price that ends at j says that it is of all: "total £12".
func (p *parser) sumBefore(j int) int {
	for k := j - 1; k > p.start && k >= j-4; k-- {
		if p.is(k, money) {
			for from := k - 3; from < k; from++ {
				if _, m := p.class(max(from, 0), "sum"); from >= p.start && m > 0 && p.skipWord(from+m, "for") == k {
					return m
				}
			}
		}
	}
	return 0
}

// plainName takes what is said of how food came from behind its name: "hake fresh" is hake. Where it
// makes another food, it goes before: "tomatoes tinned".
func (p *parser) plainName(it *Item) {
	for n := 1; n < len(it.Words); n++ {
		name, how := it.Words[:n], it.Words[n:]
		if !p.knownWords(name) || !words().is(strings.ToLower(strings.Join(how, " ")), "came") || p.knownWords(it.Words) {
			continue
		}
		if other := append(slices.Clone(how), name...); p.knownWords(other) {
			name = other
		}
		it.Thawed = it.Thawed || slices.ContainsFunc(how, func(w string) bool { return slices.Contains(thawedWords, strings.ToLower(w)) })
		it.Frozen = it.Frozen || slices.ContainsFunc(how, func(w string) bool { return strings.EqualFold(w, "frozen") }) && !it.Thawed
		it.Words, it.Food = name, strings.Join(name, " ")
		return
	}
}

// saysFrozen says whether the words from i to k tell that food came frozen, and not that it was thawed since or is
// for the freezer.
func (p *parser) saysFrozen(i, k int) bool {
	frozen := slices.ContainsFunc(p.t[i:k], func(t token) bool { return strings.EqualFold(t.raw, "frozen") })
	return frozen && !p.saysThawed(i, k) && !slices.ContainsFunc(p.t[i:k], func(t token) bool { return t.w == "not" || t.w == "never" || t.w == "be" || t.w == "previously" })
}

// unpriced gives the first sum of money of a message that tells what came in, which is of none of it
// alone; "" where there is none.
func (p *parser) unpriced() string {
	if !slices.ContainsFunc(p.out.Statements, func(s Statement) bool { return s.Act == "receive" && len(s.Items) > 0 }) {
		return ""
	}
	for _, t := range p.t {
		if t.sort == money && t.val.Num > 0 && !t.paid {
			return t.raw
		}
	}
	return ""
}
