package language

import (
	"strings"
)

// verb finds the word for an act in the clause at i: its row, where it stands
// and how long it is. A longer row that says that it did not happen hides it.
func (p *parser) verb(i int) (v *phrase, at, n int) {
	for k := i; k < p.end; k++ {
		if k > i && p.mark(k, ",") && p.newClause(k+1) && !p.bareVerb(k+1) {
			return v, 0, 0
		}
		v, n := p.longest(k, "did", "claim", "release", "unused", "going", "do", "not", "if", "could", "about", "share")
		if n == 0 && k > i && (p.word(k, "is") || p.word(k, "are")) {
			if p.word(k+1, "in") || p.word(k+1, "into") { // "the last of the walnuts are in the brownies"
				return standing, k, 1
			}
		}
		if n == 0 && k > i && p.hadTo(k) {
			if v, n = p.past(k); n > 0 {
				return v, k, n
			}
		}
		if n == 0 {
			continue
		}
		if _, m := p.class(k, "pause"); m > n { // "can't believe I"
			k += m - 1
			continue
		}
		if k > i && v.class == "did" && (p.prepares(k) && !p.endsItem(k+n) || p.mend[k] && p.foodBefore(i, k)) {
			continue
		}
		if u, m := p.class(k+n, "did"); k > i && m > 0 && (p.word(k, "got") || p.word(k, "was") || p.word(k, "were")) && u.value == "use" { // "got roasted"
			return &phrase{words: u.words, class: "going", value: "use"}, k, n + m
		}
		if n := p.toppedTailed(&Item{}, k); n > 0 {
			k += n - 1
			continue
		}
		if c := p.skip(k, "came"); k > i && c > k && p.priceNext(p.skipMark(c, ",")) { // "2kg cod, skinned £30"
			continue
		}
		if v.value == had && !p.ownsAt(k) || strings.HasSuffix(v.value, " said") && !p.startsAmount(p.lead(k+n)) {
			continue
		}
		switch v.class {
		case "do":
			if k != i && !p.hadTo(k) {
				continue
			}
			return v, k, n
		case "did", "claim", "release", "unused", "going":
			if p.knownLength(k) > n {
				continue
			}
			return v, k, n
		case "not", "if", "could":
			if _, m := p.class(k, "unused"); m > 0 {
				continue
			}
			if v.class == "not" && v.value != "" && p.startsAmount(k+n) { // "forgot 50g butter in the tart"
				return &phrase{words: v.words, class: "do", value: v.value}, k, n
			}
			return v, k, n
		default:
			k += n - 1
		}
	}
	return v, 0, 0
}

// past gives the row of a verb in the past for the plain form at i: that of
// "chucked out" for the "chuck out" of "had to chuck out 2 leeks".
func (p *parser) past(i int) (v *phrase, n int) {
	if !p.is(i, word) || p.foodAt(i) && !p.startsAmount(i+1) {
		return noPhrase, 0
	}
	l, w := words(), p.t[i].w
	for _, past := range []string{l.pasts[w], w + "ed", w + "d", w + w[len(w)-1:] + "ed"} {
		for _, ph := range l.first[past] { // longest first
			if ph.class == "did" && p.spells(i, ph.words) {
				return ph, len(ph.words)
			}
		}
	}
	return noPhrase, 0
}

// bareVerb says whether a clause at i has no food of its own: "60g cheddar,
// binned", "200g mushrooms, fried for the toasts".
func (p *parser) bareVerb(i int) bool {
	i = p.skip(p.idle(i), "i")
	_, m := p.class(i, "did")
	if m == 0 || p.toppedTailed(&Item{}, i) > 0 {
		return false
	}
	_, prep := p.class(i+m, "prep")
	return prep > 0 || p.over(i+m)
}

// had is the value of "had", which is an act only behind a cook or a dish.
const had = "use had"

// standing is the row of "is" and "are" before a dish.
var standing = &phrase{words: []string{"went"}, class: "going", value: stands}

// ownsAt says whether "had" at k is an act: "dee's had 4 eggs", "the pie's had
// 650g of the thighs".
func (p *parser) ownsAt(k int) bool {
	if k == 0 || k == p.start || !p.startsAmount(k+1) && !p.isShare(k+1) {
		return false
	}
	_, dish := p.class(k-1, "dish")
	return dish > 0 || p.named(k-2, k) || p.isCook(k-1) || p.owner(k-1) != ""
}

// owner is the cook or dish of "dee's", without the s; "" where there is none.
func (p *parser) owner(i int) string {
	if !p.is(i, word) || !strings.HasSuffix(p.t[i].w, "s") || !strings.ContainsAny(p.t[i].raw, "'’‘`") {
		return ""
	}
	return strings.TrimSuffix(p.t[i].w, "s")
}

// foodBefore says whether a food's name begins between i and k: then a word
// that is no act as it stands, such as "juice", most likely goes with it.
func (p *parser) foodBefore(i, k int) bool {
	for ; i < k; i++ {
		if p.foodAt(i) {
			return true
		}
	}
	return false
}

// prepares says whether a word such as "trimmed" at k tells of the food behind
// an amount: "200g trimmed leeks".
func (p *parser) prepares(k int) bool {
	if p.t[k-1].sort == digit {
		return true
	}
	u, _ := p.unit(k - 1)
	return u != nil
}
