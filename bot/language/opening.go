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
	scale measure.Ratio // "half that"
}

// opens reads the words that open a correction.
func (p *parser) openedBy(i int) (o opening, j int) {
	j = i
	if p.mark(i, "*") && i == 0 { // "*200g": the chat's own way to correct
		j, o.any, o.meant = i+1, true, true
	}
	if k := p.weighedAgain(i); k > i {
		j = k
	}
	for {
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
