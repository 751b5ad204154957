package language

import (
	"strings"

	"scullion/pantry/measure"
)

// correction reads "undo" and "make that 200g", "I meant celeriac", "no, 200",
// "that was for the soup". 0 where it is neither.
func (p *parser) correction(i int) int {
	if i == p.start {
		p.mendCorrection(i)
	}
	if j := p.undo(i); j > 0 {
		return j
	}
	if p.end-i > mostMended && !p.has.has("amend", "not", "pause", "repair") && !p.mark(i, "*") {
		return 0
	}
	wrong := p.wrong
	for _, form := range corrections {
		p.amending = Amend{}
		if j := form(p, &p.amending, i); j > 0 {
			a := p.amending
			p.out.Amend = &a
			return p.end
		}
	}
	p.wrong = wrong
	return 0
}

// corrections are the forms of one.
var corrections = []func(*parser, *Amend, int) int{(*parser).opened, (*parser).closed, (*parser).apologised, (*parser).notThis, (*parser).thisNot, (*parser).forThisNot}

// mostMended is how long a sentence may be for a slip in a correction to be
// mended.
const mostMended = 6

// mendCorrection mends slips of the words of corrections at the beginning of a
// short sentence: "mkae taht 90g", "udno".
func (p *parser) mendCorrection(i int) {
	if p.end-i > mostMended {
		return
	}
	l := words()
	for k := i; k < min(i+3, p.end); k++ {
		t := &p.t[k]
		if t.sort != word || len(t.w) < 4 || l.known[t.w] || p.known(k, 1) || p.mend[k] {
			continue
		}
		if w := l.mendCorrection(t.w); w != "" {
			t.w = w
			p.relook(i, k+1)
		}
	}
}

// opened reads a correction that words open: "sorry, 200g", "no it was the
// yoghurt I binned", "I meant the pie, not the tart".
func (p *parser) opened(a *Amend, i int) int {
	o, j := p.openedBy(i)
	if k := p.entryNamed(a, o, j); k > 0 {
		return k
	}
	if !o.any {
		return 0
	}
	if o.scale.Den > 0 {
		a.Scale, a.Near = o.scale, true
		return p.ends(j)
	}
	if k := p.unitOnly(a, j); k > 0 {
		return k
	}
	j = p.corrected(a, j)
	if o.bare && (a.Food != "" || a.Dish != "" || a.Amount.How == Unsaid) { // "only used 200g butter in the mash" is news
		return 0
	}
	if j = p.negated(a, j); a.Not != "" {
		o.meant = true
	}
	if f := strings.Fields(a.Food); o.meant && a.Dish == "" && len(f) > 0 && a.Amount.How == Unsaid && words().is(strings.ToLower(f[len(f)-1]), "dish") && !p.knownWords(f) { // "sorry, meant the risotto"
		a.Dish, a.Food = strings.ToLower(a.Food), ""
	}
	if o.dish && a.Dish == "" {
		a.Dish, a.Food = strings.ToLower(a.Food), ""
	}
	bare := a.Amount.How == Unsaid
	if noDish(a.Dish) || !p.over(j) || o.named || p.talkBehind(j) && !p.mayTrail(a, i) || a.empty() {
		return 0
	}
	if a.Amount.Article && a.Food == "" { // "that was a good one"
		return 0
	}
	if !o.meant && a.Act != "" && o.comma && j == p.end { // "no wait, I binned it"
		a.Near = true
		return p.end
	}
	if !o.meant && bare { // "no leeks in mine"
		if !o.comma || j < p.end || a.Dish != "" || a.Act != "" {
			return 0
		}
		a.Near = !p.known(j-len(strings.Fields(a.Food)), len(strings.Fields(a.Food)))
		a.Bare = a.Near // "no, brown"
	}
	a.Near = a.Near || p.talkBehind(j)
	return p.end
}

// closed reads a correction whose words stand behind it: "chickpeas I mean, not
// lentils".
func (p *parser) closed(a *Amend, i int) int {
	if !p.has.has("closing") {
		return 0
	}
	j := p.corrected(a, p.skip(i, "pause"))
	if j == i || a.empty() {
		return 0
	}
	w, m := p.class(j, "closing")
	if m == 0 {
		j = p.skipMark(j, ",") // "binned, I mean, not used"
		if w, m = p.class(j, "closing"); m == 0 || w.value != "" {
			return 0
		}
	}
	switch {
	case w.value == "amount" && a.Amount.How == Unsaid:
		return 0
	case w.value == "near":
		if j+m < p.end && !p.mark(j+m, ",") || a.Amount.How != Measured && !p.knownWords(strings.Fields(a.Food)) {
			return 0
		}
		a.Near = true
	}
	return p.ends(p.negated(a, j+m))
}

func (a *Amend) empty() bool {
	return a.Food == "" && a.Dish == "" && a.Act == "" && a.Amount.How == Unsaid
}

// ends gives p.end where the clause ends at j; else 0.
func (p *parser) ends(j int) int {
	if p.over(j) {
		return p.end
	}
	return 0
}

// talkBehind says whether more is said behind a comma.
func (p *parser) talkBehind(j int) bool {
	for ; j < p.end; j++ {
		if p.mark(j, ",") {
			return true
		}
	}
	return false
}

// leastWeight is from where a bare number is one that a scale has shown: nobody
// counts so many (common practice, no source).
const leastWeight = 30

// mayTrail says whether a correction is plain enough for talk to stand behind
// it: "should be 250g, only one pack", "*lemons, can't type today"; but "make
// that 5, gratin needs an hour".
func (p *parser) mayTrail(a *Amend, i int) bool {
	bare := a.Amount.How == Pieces && a.Amount.Part == "" && a.Food == "" && a.Amount.N.Num >= leastWeight*a.Amount.N.Den
	return a.Amount.How == Measured || bare || p.mark(i, "*") && p.foodAt(i+1)
}

// corrected reads what should have been said.
func (p *parser) corrected(a *Amend, j int) int {
	if p.word(j, "only") || p.word(j, "just") { // "actually only 60g"
		j++
	}
	if amount, m := p.amount(j); m > 0 {
		a.Amount, j = amount, j+m
	} else {
		j = p.skip(j, "det")
	}
	if k := p.didIt(a, j); k > j {
		return k
	}
	it := Item{}
	if _, m := p.class(j, "amend"); m > 0 && a.Amount.How != Unsaid { // "250 actually"
		return j
	}
	if k := p.food(&it, j); k > j && it.Food != "" {
		a.Food, j = it.Food, k
	} else if _, m := p.class(j, "ref"); m > 0 && a.Amount.How != Unsaid {
		j += m
	}
	if dish, m := p.dish(j); m > 0 {
		a.Dish, j = dish, j+m
	}
	if a.Food != "" && a.Dish == "" && a.Amount.How == Unsaid { // "the yoghurt I binned"
		j = p.didIt(a, j)
	}
	return j
}

// didIt reads an act that was another: "I binned it". It gives j where there is none.
func (p *parser) didIt(a *Amend, j int) int {
	k := p.skip(j, "i")
	if p.foodAt(k) {
		return j
	}
	v, m := p.longest(k, "did", "claim")
	act, _, _ := strings.Cut(v.value, " ")
	if m == 0 || act != "use" && act != "bin" && act != "claim" {
		return j
	}
	end := p.skip(k+m, "ref")
	if end == k+m && k+m < p.end && a.Food == "" && !p.word(end, "not") || !p.over(end) && !p.word(end, "not") {
		return j
	}
	a.Act = act
	return end
}

// negated reads "not the stew", ", not 3": what it was not.
func (p *parser) negated(a *Amend, j int) int {
	k := j
	if p.mark(k, ",") {
		k++
	}
	if !p.word(k, "not") || a.empty() {
		return j
	}
	k = p.skip(p.skip(k+1, "prep"), "det")
	if _, m := p.class(k, "did"); !p.startsAmount(k) && (m == 0 || p.foodAt(k)) { // "used not binned" is the same entry
		a.Not, _ = p.name(k, mostNameWords)
	}
	return p.end
}

// unitOnly reads "kg not lb" and, behind words that open a correction, "kg".
func (p *parser) unitOnly(a *Amend, j int) int {
	u, m := p.unit(j)
	if m == 0 || u.Sort != measure.Mass && u.Sort != measure.Volume {
		return 0
	}
	k := j + m
	if p.mark(k, ",") {
		k++
	}
	if p.word(k, "not") {
		if _, n := p.unit(k + 1); n > 0 {
			k += 1 + n
		}
	}
	if k < p.end && !p.over(k) {
		return 0
	}
	a.Unit, a.Near = u.Name, true
	return p.end
}

// entryNamed reads a correction that says which entry it is about: "the leek
// should've been 250g", "make the cheddar 150g".
func (p *parser) entryNamed(a *Amend, o opening, j int) int {
	j = p.skip(j, "det")
	n := p.knownLength(j)
	if n == 0 {
		return 0
	}
	k := j + n
	w, m := p.class(k, "amend")
	switch {
	case o.named:
	case m > 0 && w.value == "" && strings.HasPrefix(w.words[0], "should"):
		k += m
	case o.any && (p.word(k, "was") || p.word(k, "were")):
		k++
	default:
		return 0
	}
	amount, m := p.amount(k)
	if m == 0 || amount.How != Measured && amount.How != Pieces || amount.Article {
		return 0
	}
	k += m
	if _, other := p.class(k, "notfood"); other > 0 || !p.over(k) || p.talkBehind(k) && amount.How != Measured {
		return 0
	}
	for x := j; x < j+n; x++ {
		a.Food = strings.TrimSpace(a.Food + " " + p.t[x].raw)
	}
	a.Amount, a.Named = amount, true
	return p.end
}

// apologised reads an amount that is taken for another by the word behind it: "8
// sorry, one was hiding".
func (p *parser) apologised(a *Amend, i int) int {
	amount, m := p.amount(i)
	if m == 0 || amount.How != Measured && amount.How != Pieces || amount.Article {
		return 0
	}
	for k := i + 1; k <= i+m; k++ { // an amount takes a pause behind it along
		if w, n := p.class(k, "amend"); n > 0 && w.value == "no" && !p.startsAmount(k+n) {
			a.Amount, a.Near = amount, true
			return p.ends(max(k+n, i+m))
		}
	}
	return 0
}

// notThis reads "not 200, 120" and "not the soup, the pie".
func (p *parser) notThis(a *Amend, i int) int {
	if !p.word(i, "not") || i > 0 {
		return 0
	}
	for k := i + 1; k < p.end && k < i+6; k++ {
		if !p.mark(k, ",") {
			continue
		}
		at := p.skip(p.skip(p.skip(k+1, "pause"), "prep"), "det")
		if was, m := p.amount(i + 1); m > 0 && i+1+m == k && was.How != Unsaid {
			if now, n := p.amount(at); n > 0 && at+n == p.end && now.How != Unsaid {
				a.Amount, a.Near = now, true
				return p.end
			}
			return 0
		}
		not, end := p.name(p.skip(p.skip(i+1, "prep"), "det"), mostNotWords)
		food, e := p.name(at, mostNotWords)
		if not == "" || end != k || food == "" || e < p.end {
			return 0
		}
		a.Food, a.Not = food, not
		return p.end
	}
	return 0
}

// thisNot reads "200g not 300g", "kg not lb" and "brown not red", with nothing
// else in the message.
func (p *parser) thisNot(a *Amend, i int) int {
	if i > 0 || p.end < len(p.t) {
		return 0
	}
	a.Near = true
	if amount, m := p.amount(i); m > 0 && amount.How != Unsaid {
		if !p.word(i+m, "not") {
			return 0
		}
		if _, n := p.amount(i + m + 1); n == 0 || p.skip(i+m+1+n, "pause") < p.end {
			return 0
		}
		a.Amount = amount
		return p.end
	}
	if j := p.unitOnly(a, i); j > 0 {
		if p.end > i+1 {
			return j
		}
		a.Unit = ""
		return 0
	}
	food, j := p.name(p.skip(i, "det"), mostNotWords)
	if food == "" || !p.word(j, "not") {
		return 0
	}
	not, k := p.name(p.skip(j+1, "det"), mostNotWords)
	if not == "" || p.skip(k, "pause") < p.end {
		return 0
	}
	a.Food, a.Not = food, not
	return p.end
}

// forThisNot reads "for the soup, not the stew".
func (p *parser) forThisNot(a *Amend, i int) int {
	if !p.has.has("not") {
		return 0
	}
	dish, m := p.dish(i)
	if m == 0 || !p.mark(i+m, ",") || !p.word(i+m+1, "not") {
		return 0
	}
	a.Dish = dish
	return p.ends(p.negated(a, i+m))
}

// name gives the words at i that may be the name of something, in lower case;
// "" for none, or for more than most.
func (p *parser) name(i, most int) (string, int) {
	j := i
	for p.is(j, word) && !p.word(j, "not") {
		if _, m := p.longest(j, "pause", "stop", "i"); m > 0 && !p.foodAt(j) {
			break
		}
		j++
	}
	if j == i || j-i > most {
		return "", i
	}
	return strings.ToLower(p.text[p.t[i].from:p.t[j-1].to]), j
}

// mostNotWords is how many words each side of "brown not red" may have.
const mostNotWords = 3
