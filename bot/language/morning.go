package language

import "slices"

// morning reads a wish about the morning message at i, before "tell us at 9" is taken
// for a timer.
func (p *parser) morning(i int) bool {
	if !p.has.has("call", "timer") && !p.word(i, "morning") {
		return false // the other forms are met among the questions
	}
	if !p.word(i, "morning") { // which is a greeting elsewhere
		i = p.idle(i)
	}
	if !p.is(i, word) {
		return false
	}
	for _, f := range questions().forms[p.t[i].w] {
		if !slices.Contains([]About{AboutMorning, AboutNoMore}, f.about) {
			continue
		}
		if q, end := p.match(f, i); q != nil && end == p.end {
			q.First = len(p.out.Statements) == 0
			p.out.Questions = append(p.out.Questions, q)
			return true
		}
	}
	return false
}
