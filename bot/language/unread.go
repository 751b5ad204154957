package language

import (
	"slices"
	"strings"

	"scullion/pantry/measure"
)

// unread gives, as typed, the first part of a message that tells nothing but what came in, which has a weight
// or a volume of its own and is of no food that was read: nothing of a delivery may be lost without a word. ""
// where there is none.
func (p *parser) unread() string {
	if len(p.out.Questions) > 0 || len(p.out.Statements) == 0 || slices.ContainsFunc(p.out.Statements, func(s Statement) bool { return s.Act != "receive" || len(s.Items) == 0 }) {
		return ""
	}
	p.end = len(p.t)
	for from := 0; from < len(p.t); {
		to := from
		for to < len(p.t) && !p.mark(to, ",+&;") && !p.breaks(to) && !(to > from && p.word(to, "and")) {
			to++
		}
		for from < to && !p.is(from, digit) { // "got 5kg"
			from++
		}
		if p.startsUnread(from, to) {
			return strings.TrimSpace(p.text[p.t[from].from:p.t[to-1].to])
		}
		from = max(from, to) + 1
	}
	return ""
}

// startsUnread says whether a list's part from i to k begins with a weight or a volume, and words behind it
// say of what, none of which was read.
func (p *parser) startsUnread(i, k int) bool {
	v, n := p.number(i)
	if n == 0 || v.Den == 0 || i+n >= k {
		return false
	}
	u, m := p.unit(i + n)
	if m == 0 || u.Sort != measure.Mass && u.Sort != measure.Volume || i+n+m >= k || !p.is(i+n+m, word) {
		return false
	}
	return !slices.ContainsFunc(p.t[i:k], func(t token) bool { return t.read || t.paid })
}
