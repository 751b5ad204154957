package language

import (
	"scullion/pantry/measure"
)

// opening is what the words say that open a correction.
type opening struct {
	any   bool          // there are such words
	meant bool          // and they speak of something that was said: not a mere "no"
	dish  bool          // of the dish: "wrong dish"
	named bool          // a food's name and what it should be follow: "make the cheddar"
	comma bool          // a comma stands behind them
	bare  bool          // only an amount may follow: "I only used"
	scale measure.Ratio // "half that"
}

// openedBy reads the words that open a correction.
func (p *parser) openedBy(i int) (o opening, j int) {
	j = i
	if p.mark(i, "*") && i == 0 { // "*200g": the chat's own way to correct
		j, o.any, o.meant = i+1, true, true
	}
	if k := p.weighedAgain(i); k > i {
		j = k
	}
	for {
		if _, u := p.class(j, "undo"); u > 0 { // "scratch that it was five"
			if k := p.skipMark(j+u, ","); p.amends(k) {
				j = k
				continue
			}
		}
		if _, m := p.longest(j, "amend", "pause"); m > 0 {
			if w, a := p.class(j, "amend"); a == m {
				o.say(w)
			}
			o.comma = false
			j += m
			continue
		}
		if o.any && p.mark(j, ",:-") && !(p.mark(j, "-") && p.is(j+1, digit) && p.t[j].to == p.t[j+1].from) {
			o.comma = true
			if j++; p.word(j, "its") { // "misread the scale, it's 450g"
				j++
			}
			continue
		}
		return o, j
	}
}

// amends says whether words that open a correction stand at i and an amount or a
// food follows: "make it 3", but "it was fine".
func (p *parser) amends(i int) bool {
	w, m := p.class(i, "amend")
	return m > 0 && w.value != "no" && (p.startsAmount(i+m) || p.foodAt(p.skip(i+m, "det")))
}

// say notes one row of the words that open a correction.
func (o *opening) say(w *phrase) {
	o.any = true
	switch {
	case w.value == "no":
		return
	case w.ratio.Den > 0:
		o.scale = w.ratio
	case w.value == "dish":
		o.dish = true
	case w.value == "named":
		o.named = true
	case w.value == "amount":
		o.bare = true
	}
	o.meant = true
}

// weighedAgain passes "weighed them now," before a correction that says so: "make
// that 350g", "it was 300".
func (p *parser) weighedAgain(i int) int {
	if !p.word(i, "weighed") && !p.word(i, "checked") && !p.word(i, "counted") {
		return i
	}
	for k := i + 1; k < min(p.end, i+8); k++ {
		if p.is(k, digit) || p.foodAt(k) {
			return i
		}
		if p.mark(k, ",") {
			if w, m := p.class(p.skip(k+1, "pause"), "amend"); m > 0 && w.value == "" {
				return k + 1
			}
			return i
		}
	}
	return i
}
