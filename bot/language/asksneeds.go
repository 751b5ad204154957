package language

import (
	"fmt"
	"strings"
)

// AsksNeeds reads by evidence a question of who has needs, in any order of words: "any nut allergies in", "whos got milk
// allergy", "textures?". It begins as a question does, has a mark, or is a list that is asked for; every word must be of a need,
// a place, or add nothing. Place is "" where none is said.
func (r *Reader) AsksNeeds(text string) (place string, ok bool) {
	if len(text) > mostHeld || strings.Contains(text, "://") {
		return "", false
	}
	p := r.asTyped(apartHyphens.Replace(shortWritten(MendNeeds(text))))
	p.end = len(p.t)
	for p.end > 0 && p.t[p.end-1].sort == mark {
		p.end--
	}
	i := 0
	for i < p.end && (p.word(i, "so") || p.word(i, "and") || p.word(i, "ok") || p.word(i, "right") || p.t[i].sort == mark) {
		i++
	}
	if where, m := p.placeAt(i); m > 0 { // "table 4, any allergies"
		place, i = where, p.skipMark(i+m, ",:-")
	}
	n := p.among("{askneeds}", i)
	if n == 0 && !strings.Contains(text, "?") && !p.word(p.end-1, "list") {
		return "", false
	}
	begun := n > 0
	said, general, bare := false, false, false
	for i += n; i < p.end; i += n {
		where := ""
		if where, n = p.placeAt(i); n == 0 {
			where, n = p.spotAt(i)
		}
		if n > 0 {
			if place != "" {
				return "", false
			}
			place = where
			continue
		}
		if v, m := p.number(i); m > 0 && i > 0 && place == "" && v.Den == 1 && p.among("{on}", i-1) > 0 && !p.word(i-1, "for") {
			place, n = fmt.Sprint("table ", v.Num), m
			continue
		}
		q := Question{}
		if _, counted := p.soMany(i, &TableNeed{}); !counted || p.word(i, "a") {
			n = p.needList(i, &q, ofPersons)
			if m := p.needList(i, &q, ofTexture); m > n {
				n, general = m, true
			}
			if n > 0 && (p.word(i-1, "the") || p.word(i-1, "in")) && len(q.Needs) > 0 && IsTexture(q.Needs[0].Diet) { // "what's in the puree"
				return "", false
			}
			if _, short := needShorts()[p.t[i].w]; n == 0 && short {
				n = 1
			}
			said = said || n > 0
			if x := (TableNeed{}); n == 0 {
				if n = p.notEaten(i, &x); x.Allergy == "" || p.knownLength(i) > n { // a food may be asked for
					n = 0
				}
				bare = bare || n > 0 && (p.word(i+n, "list") && p.among("{risky}", i) == n || place != "")
			}
		}
		if n == 0 {
			n = p.among("{needword}", i)
			said, general = said || n > 0, general || n > 0
		}
		if n == 0 {
			n = p.among("{askneedsfill}", i)
		}
		if n == 0 && p.t[i].sort == mark {
			n = 1
		}
		if n == 0 {
			return "", false
		}
	}
	return place, bare || said && (begun || general || p.word(p.end-1, "list"))
}
