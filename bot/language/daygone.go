package language

// dayGone reads a day that is over, as the date on a label may be: "yesterday", "last friday".
func (p *parser) dayGone(i int) (d Day, n int) {
	d.Set = true
	switch w, m := p.class(i+1, "weekday"); {
	case p.word(i, "yesterday"):
		d.Days = -1
		return d, 1
	case p.word(i, "last") && m > 0:
		d.Weekday, d.Days = int(w.ratio.Num), -7
		return d, 1 + m
	}
	return Day{}, 0
}

// datesLabel says whether a date on a label stands right before i: "use by", "ub on the".
func (p *parser) datesLabel(i int) bool {
	for i > 1 && (p.word(i-1, "date") || p.word(i-1, "on") || p.word(i-1, "the") || p.mark(i-1, ":")) {
		i--
	}
	for k := max(0, i-4); k < i; k++ {
		if _, m := p.class(k, "label"); m > 0 && k+m == i {
			return true
		}
	}
	return false
}
