package language

import "scullion/pantry/measure"

// count reads a stocktake at i: 86 leeks, out of leeks, no leeks left, leeks
// all gone; 450 g leek left, there's 450 g leek left; leeks weigh 450 g,
// weighed the leeks and it's 450 g. 0 where it is none of these.
func (p *parser) count(i int) int {
	for _, at := range []int{i, p.skip(i, "i")} {
		for _, f := range countForms {
			if f.needs != "" && !p.has.has(f.needs) {
				continue
			}
			if j := f.read(p, at); j > at {
				return j
			}
		}
	}
	return 0
}

// countForms are the forms of a stocktake, and the class of word without which
// none of that form can be.
var countForms = []struct {
	needs class
	read  func(*parser, int) int
}{
	{"", (*parser).noneLeft},
	{"none", (*parser).out86},
	{"", (*parser).amountLeft},
	{"", (*parser).foodWeighs},
	{"", (*parser).weighed},
}

// names reads one or more names of foods, each known to the letter or at the
// end of what is said, that nothing else follows up to stop.
func (p *parser) names(i int) (items []Item, j int) {
	s := Statement{Act: "count"}
	j = i
	for j < p.end {
		k := p.skip(p.skipOf(j), "det")
		it := Item{}
		e := p.food(&it, k)
		if _, m := p.class(k, "notfood"); m > 0 || e == k || it.Food == "" {
			return nil, i
		}
		it.Amount = Amount{How: Share, N: measure.Ratio{Num: 0, Den: 1}, Said: "none"}
		s.Items = append(s.Items, it)
		j = e
		if n := p.joint(j); n > j && !p.newClause(n) && p.foodAt(p.skip(n, "det")) && !p.weighsAt(p.skip(n, "det")) {
			j = n
			continue
		}
		break
	}
	return s.Items, j
}

// stocktake reads a sentence that only heads one, whose list the next sentences
// are: "Stock take. Carrots 720g. Leeks 510g." 0 where it is none.
func (p *parser) stocktake(i int) int {
	v, m := p.class(i, "did")
	next := i + m
	if m == 0 || v.value != "count" || next != p.end {
		return 0
	}
	for next < len(p.t) && p.breaks(next) {
		if p.t[next].w == "?" {
			return 0
		}
		next++
	}
	end := p.end
	p.end = len(p.t)
	lists := p.startsAmount(next) || p.foodAt(next)
	p.end = end
	if !lists {
		return 0
	}
	p.open = &Statement{Act: "count"}
	return p.end
}

// weighsAt says whether the food at i begins a count of its own: "86 spinach, and
// the yoghurt's down to 120g".
func (p *parser) weighsAt(i int) bool {
	_, m := p.class(i+p.knownLength(i), "weigh")
	return m > 0
}

func (p *parser) skipOf(i int) int { return p.skip(i, "of") }

// over says whether the clause ends at j.
func (p *parser) over(j int) bool {
	for j < p.end {
		if p.mark(j, ",") || p.word(j, "til") || p.word(j, "till") || p.word(j, "until") {
			return true
		}
		if _, m := p.longest(j, "pause", "stop"); m > 0 {
			j += m
			continue
		}
		_, m := p.longest(j, "but", "join")
		return m > 0
	}
	return true
}

// inPlace says whether only a place stands between i and the end of the clause:
// "no leeks left in the walk-in".
func (p *parser) inPlace(i int) bool {
	dish, n := p.dish(i)
	return n > 0 && (IsPlace(dish) || words().is(dish, "holder")) && p.over(i+n)
}

func (p *parser) counted(items []Item, j int) int {
	if n := len(p.out.Statements); n > 0 && len(items) == 1 && items[0].Amount.How == Share { // "butter don finish, no butter left"
		if s := p.out.Statements[n-1]; s.Act == "count" && len(s.Items) == 1 && s.Items[0].Food == items[0].Food && s.Items[0].Amount == items[0].Amount {
			return p.afterAct(j)
		}
	}
	p.say(Statement{Act: "count", Items: items})
	p.open = nil
	return p.afterAct(j)
}

// noneLeft: "no leeks left", "leeks all gone", "none of the leeks left".
func (p *parser) noneLeft(i int) int {
	at := i
	for _, w := range []string{"theres", "there", "is", "are"} {
		at = p.skipWord(at, w)
	}
	at = p.skip(p.skip(at, "there"), "i")
	if p.word(at, "no") || p.word(at, "zero") {
		if p.word(at+1, "more") {
			at++
		}
		if items, j := p.names(at + 1); len(items) > 0 {
			_, m := p.class(j, "left")
			if (m > 0 || (at > i || p.word(at, "zero")) && p.known(at+1, j-at-1)) && (p.over(j+m) || m > 0 && p.inPlace(j+m)) {
				return p.counted(items, j+m)
			}
		}
		return 0
	}
	k := p.skip(i, "det")
	if !p.is(k, word) {
		return 0
	}
	if !p.has.has("allgone") {
		return 0
	}
	if n, m := p.goneAt(k); m > 0 {
		items, j := p.names(i)
		if len(items) > 0 && j == n && p.over(j+m) {
			return p.counted(items, j+m)
		}
	}
	return 0
}

// goneAt looks for "all gone" within the next few words.
func (p *parser) goneAt(i int) (at, n int) {
	for k := i + 1; k < min(p.end, i+7); k++ {
		if ph, m := p.class(k, "allgone"); m > 0 && (ph.value == "" || p.owner(k-1) != "" && p.closes(k+m)) { // "the cream's finished", but "milk's gone up"
			return k, m
		}
	}
	return 0, 0
}

// closes says whether a clause ends at i at once, or but for a word to people.
func (p *parser) closes(i int) bool {
	if !p.is(i, word) {
		return true
	}
	_, m := p.longest(i, "pause", "join", "but")
	return m > 0
}

// out86: "86 leeks", "we're out of leeks".
func (p *parser) out86(i int) int {
	_, m := p.class(i, "none")
	if m == 0 {
		return 0
	}
	items, j := p.names(i + m)
	if len(items) == 0 {
		return 0
	}
	if _, l := p.class(j, "left"); l > 0 {
		j += l
	}
	if !p.over(j) && !p.inPlace(j) {
		return 0
	}
	return p.counted(items, j)
}

// amountLeft: "there's 450 g leek left", "450 g of leek left", "2 lemons left".
func (p *parser) amountLeft(i int) int {
	if !p.has.has("left", "there") {
		return 0
	}
	j, sure := i, false
	for {
		if ph, m := p.class(j, "there"); m > 0 {
			sure = sure || ph.value == "count sure"
			j += m
			continue
		}
		break
	}
	wrong := p.wrong
	s := Statement{Act: "count"}
	k := p.itemsOnly(&s, j)
	p.wrong = wrong
	if k == j || len(s.Items) == 0 {
		return 0
	}
	_, m := p.class(k, "left")
	if _, lack := p.class(k, "lack"); lack > 0 { // "still 3 pears short"
		return 0
	}
	if m == 0 && !(sure && (p.over(k) || p.inPlace(k))) || j == i && p.t[k].w == "in" {
		return 0
	}
	for x := range s.Items {
		it := &s.Items[x]
		it.Ref = it.Ref || it.Food == "" && len(p.out.Statements) > 0      // "used 200g spinach, there's 90g left"
		if topic, ok := p.topicBefore(i); it.Food == "" && !it.Ref && ok { // "put the beetroot on the scales, 385g left"
			it.Food, it.Words = topic.Food, topic.Words
		}
		if it.Food == "" && !it.Ref || it.Amount.How != Measured && it.Amount.How != Pieces {
			return 0
		}
	}
	return p.counted(s.Items, k+m)
}

// foodWeighs: "leeks weigh 450 g", "the carrots weigh 840 g now".
func (p *parser) foodWeighs(i int) int {
	if !p.has.has("weigh", "be", "left") {
		return 0
	}
	it := Item{}
	k := p.skip(i, "det")
	if k == i+1 && (p.word(i, "a") || p.word(i, "an")) { // "a leek weighs 240 g"
		k = i
	}
	some, m := p.amount(k) // "3 leeks weigh 700 g"
	if m > 0 && (some.How != Pieces || some.Part != "") {
		return 0
	}
	e := p.food(&it, k+m)
	if m == 0 && (p.word(k, "they") || p.word(k, "it")) { // "got 5 leeks, they weigh 1.1kg"
		it = Item{Ref: true}
		e = k + 1
	}
	if e == k+m {
		return 0
	}
	_, w := p.class(e, "weigh")
	if _, left := p.class(e, "left"); left > 0 && w == 0 && m == 0 { // "spinach left 120g only", "carrots left: 300g"
		if k := p.skipMark(e+left, ":-"); p.startsAmount(k) {
			w = k - e
		}
	}
	is := w == 0 && (p.word(e, "is") || p.word(e, "are"))
	if is { // "leeks are 240g each", "an aubergine is 310g"
		w = 1
	}
	if w == 0 {
		return 0
	}
	if p.word(e, "check") { // "flour check: 620g left"
		if w = p.skipMark(e+w, ":-") - e; w == 1 || !p.foodAt(k) || p.lexHas(k, e+1, "did") { // and no "stock check:"
			return 0
		}
	}
	a, n := p.amount(e + w)
	if n == 0 || a.How != Measured && (a.How != Pieces || m > 0) {
		return 0
	}
	j := e + w + n
	if is && (a.How != Measured || m == 0 && !p.word(j, "each") && !p.word(j, "apiece")) {
		return 0
	}
	switch {
	case a.How != Measured:
	case p.word(j, "each") || p.word(j, "apiece") || p.word(j, "ea"):
		a.Both, a.Sample, a.Count = true, true, measure.Whole(1)
		j++
	case m > 0:
		a.Both, a.Sample, a.Count = true, true, some.N
	}
	if p.word(j, "per") || p.word(j, "a") || p.word(j, "an") || p.word(j, "more") || p.word(j, "less") { // "weighs two ounces per inch"
		return 0
	}
	it.Amount = a
	return p.counted([]Item{it}, j)
}

// weighed: "weighed the mushrooms and it's 310 g".
func (p *parser) weighed(i int) int {
	if !p.word(i, "weighed") && !p.word(i, "checked") && !p.word(i, "counted") && !p.word(i, "recounted") && !p.word(i, "reweighed") {
		return 0
	}
	it := Item{}
	some, m := p.amount(i + 1) // "weighed a lemon: 120 g"
	if m > 0 && (some.How != Pieces || some.Part != "") {
		return 0
	}
	k := p.skip(i+1+m, "det")
	e := p.food(&it, k)
	if e == k || it.Food == "" || p.lexHas(k, e, "place") { // "checked the fridge, there are 3 lemons left"
		return 0
	}
	e = p.joint(e)
	for e < p.end && (p.word(e, "its") || p.word(e, "it") || p.word(e, "is") || p.word(e, "theyre") || p.word(e, "theres") || p.word(e, "there") || p.word(e, "they") || p.word(e, "are") || p.word(e, "we") || p.word(e, "have") || p.word(e, "comes") || p.word(e, "to") || p.mark(e, ":-=")) {
		e++
	}
	a, n := p.amount(e)
	if n == 0 || a.How != Measured && (a.How != Pieces || m > 0) {
		return 0
	}
	if m > 0 {
		a.Both, a.Sample, a.Count = true, true, some.N
	}
	it.Amount = a
	return p.counted([]Item{it}, e+n)
}
