package language

import (
	"strings"

	"scullion/pantry/measure"
)

// hear mends the words before they are looked up: slips and words run together
// come apart, hesitations go, and so does what was begun twice.
func (p *parser) hear() {
	p.t = p.apart(p.t)
	p.t = stutters(p.t)
}

// apart mends slips, cuts words that were run together and drops hesitations.
func (p *parser) apart(t []token) []token {
	l := words()
	var list []token
	for i := 0; i < len(t); i++ {
		w := t[i]
		if !p.comesApart(t, i) {
			if list != nil {
				list = append(list, w)
			}
			continue
		}
		if list == nil {
			list = append(make([]token, 0, len(t)+8), t[:i]...)
		}
		switch {
		case w.sort == word && i+1 < len(t) && t[i+1].sort == digit && w.to == t[i+1].from && l.slips[w.w+t[i+1].raw] != "": // "in2", "b4"
			w.w, w.to, w.raw = l.slips[w.w+t[i+1].raw], t[i+1].to, p.text[w.from:t[i+1].to]
			i++
		case w.sort == digit && i+1 < len(t) && t[i+1].sort == word && w.to == t[i+1].from && l.slips[w.raw+t[i+1].w] != "": // "2day"
			w.sort, w.w, w.to, w.raw = word, l.slips[w.raw+t[i+1].w], t[i+1].to, p.text[w.from:t[i+1].to]
			i++
		case w.sort == word && w.w == "w" && i+1 < len(t) && t[i+1].w == "/" && w.to == t[i+1].from: // "w/ 2 onions"
			w.w, w.to = "with", t[i+1].to
			w.raw = w.w
			i++
		case w.sort == digit && w.raw == "2" && isTo(t, i):
			w.sort, w.w = word, "to"
		case w.sort == word && l.slips[w.w] != "":
			w.w = l.slips[w.w]
			for {
				first, rest, more := strings.Cut(w.w, " ")
				if !more {
					break
				}
				part := w
				part.w, part.raw, w.w = first, first, rest
				list = append(list, part)
			}
			if strings.Contains(l.slips[t[i].w], " ") || p.foods != nil && p.foods.Exact([]string{w.w}) != nil { // "egs"
				w.raw = w.w
			}
		case w.sort == word && i+1 < len(t) && l.sounds[w.w] != "" && p.soundsLike(t, i):
			w.w = l.sounds[w.w]
		case w.sort == word && (w.w == "d" || w.w == "ed") && i > 0 && t[i-1].raw == "86": // "86'd"
			continue
		case w.sort == word && l.is(w.w, "um"):
			continue
		case w.sort == word && i > 0 && t[i-1].sort == digit && t[i-1].to == w.from && l.mistyped[w.w] != "" && p.foodIs(t, i+1) && !(l.is(w.w, "span") && timed(t)): // "300h leek"
			w.w = l.mistyped[w.w]
			w.raw = w.w
		case w.sort == word && i > 0 && t[i-1].sort == digit && t[i-1].to == w.from && w.w[0] == 'o' && measure.DefaultUnits().Find(w.w[1:], p.place) != nil: // "15og"
			if v, ok := list[len(list)-1].val.Times(measure.Whole(10)); ok {
				list[len(list)-1].val = v
				w.w, w.raw, w.from = w.w[1:], w.raw[1:], w.from+1
				list[len(list)-1].to = w.from
			}
		case w.sort == word && i > 0 && t[i-1].sort == digit && t[i-1].to == w.from && !l.known[w.w]:
			if cut := p.unitEnd(w); cut > 0 { // "300gleek"
				unit := w
				unit.w, unit.raw, unit.to = w.w[:cut], w.raw[:cut], w.from+cut
				list = append(list, unit)
				w.w, w.raw, w.from = w.w[cut:], w.raw[cut:], w.from+cut
			}
		}
		list = append(list, w)
	}
	if list == nil {
		return t
	}
	return list
}

// timed says whether a word for a timer stands in it: then "1h stock" is an hour.
func timed(t []token) bool {
	l := words()
	for i := range t {
		if t[i].sort == word && (l.is(t[i].w, "timer") || l.is(l.typo(t[i].w), "timer")) {
			return true
		}
	}
	return false
}

// comesApart says whether a token may be one of those that apart changes.
func (p *parser) comesApart(t []token, i int) bool {
	l, w := words(), &t[i]
	glued := i > 0 && t[i-1].to == w.from && t[i-1].sort == digit || i+1 < len(t) && w.to == t[i+1].from && t[i+1].sort != mark
	if w.sort == digit {
		return glued || w.raw == "2"
	}
	return w.sort == word && (glued || l.slips[w.w] != "" || l.sounds[w.w] != "" || l.is(w.w, "um") || w.w == "w" || w.w == "d" || w.w == "ed")
}

// soundsLike says whether a word such as "won", "ate", "to" or "for" at i is a
// number as it was heard: behind an act, with a unit, a hundred or a food behind.
func (p *parser) soundsLike(t []token, i int) bool {
	l := words()
	next := t[i+1]
	if next.sort == word && i == 0 {
		return l.is(next.w, "times")
	}
	if p.countable(next) && p.counts(t[i-1].w, t[i].w) {
		return true
	}
	if next.sort != word || !l.is(t[i-1].w, "did") && !l.is(t[i-1].w, "claim") && !l.is(t[i-1].w, "i") {
		return false
	}
	if l.is(next.w, "times") {
		return true
	}
	if t[i].w == "to" || t[i].w == "for" || p.foods == nil {
		return false
	}
	return p.foods.Exact([]string{next.raw}) != nil || i+2 < len(t) && p.foods.Exact([]string{next.raw, t[i+2].raw}) != nil
}

// counts says whether a word behind another is a number as it was heard, where a
// food in the plural follows: "cracked to eggs", "flour and for eggs", "save me to
// lemons", "there's ate eggs left".
func (p *parser) counts(before, heard string) bool {
	l := words()
	switch heard {
	case "to":
		return before == "and" || before == "theres" || before == "me" || before == "out" || l.is(before, "did") || l.is(before, "claim")
	case "for":
		return before == "and"
	case "ate":
		return before == "theres"
	}
	return false
}

// countable says whether a word is the plural of a food.
func (p *parser) countable(t token) bool {
	return t.sort == word && p.foods != nil && strings.HasSuffix(t.w, "s") && !strings.HasSuffix(t.w, "ss") && p.foods.Exact([]string{t.raw}) != nil
}

// isTo says whether the figure 2 at i is the word "to": "had 2 bin", "down 2 600g".
func isTo(t []token, i int) bool {
	if i == 0 || i+1 >= len(t) || t[i-1].sort != word {
		return false
	}
	l := words()
	if t[i+1].w == "the" || t[i+1].w == "my" { // "added 100ml cream 2 the chowder"
		return true
	}
	if t[i+1].sort == digit {
		return t[i-1].w == "down" || l.slips[t[i-1].w] == "down"
	}
	return l.is(t[i-1].w, "to") && t[i+1].sort == word && l.is(t[i+1].w, "bare")
}

// foodIs says whether the word at i is a food's name.
func (p *parser) foodIs(t []token, i int) bool {
	return i < len(t) && t[i].sort == word && p.foods != nil && p.foods.Exact([]string{t[i].raw}) != nil
}

// unitEnd finds the end of a unit that a word begins with, where a food's name
// follows it; 0 where there is none.
func (p *parser) unitEnd(w token) int {
	if p.foods == nil || len(w.w) != len(w.raw) || p.foods.Exact([]string{w.w}) != nil {
		return 0
	}
	for n := min(len(w.w)-2, 6); n > 0; n-- {
		if measure.DefaultUnits().Find(w.w[:n], p.place) != nil && p.foods.Exact([]string{w.w[n:]}) != nil {
			return n
		}
	}
	return 0
}

// mostStutter is how many words may be said twice over.
const mostStutter = 4

// stutters drops what was begun and begun again: "in the in the shortbread",
// "used two hundred used two hundred grams", "a hundred a hundred and fifty".
func stutters(t []token) []token {
	var list []token
	for i := 0; i < len(t); {
		n := stutter(t[i:])
		if n == 0 {
			if list != nil {
				list = append(list, t[i])
			}
			i++
			continue
		}
		if list == nil {
			list = append(make([]token, 0, len(t)), t[:i]...)
		}
		i += n
	}
	if list == nil {
		return t
	}
	return list
}

// stutter is how many words t begins with that come again at once.
func stutter(t []token) int {
	if l := words(); t[0].sort == word && l.is(t[0].w, "did") { // "I used the I used 300 mils"
		for n := 2; n <= 3 && n < len(t); n++ {
			if t[n].sort == word && t[n].w == t[0].w && (l.is(t[n-1].w, "i") || l.is(t[n-1].w, "det")) && (n == 2 || l.is(t[1].w, "det") || l.is(t[1].w, "i")) {
				return n
			}
		}
	}
	for n := min(mostStutter, len(t)/2); n > 0; n-- {
		same := true
		for k := 0; k < n && same; k++ {
			same = t[k].sort == word && t[n+k].sort == word && t[k].w == t[n+k].w
		}
		if same && !(n == 1 && !twice(t)) {
			return n
		}
	}
	return 0
}

// twice says whether a single word that comes again was said again, and is not
// two: "four four hundred gram tins", "bye bye".
func twice(t []token) bool {
	l := words()
	if l.is(t[0].w, "number") {
		return len(t) > 2 && (t[2].sort != word || !l.is(t[2].w, "times"))
	}
	return l.is(t[0].w, "det") || l.is(t[0].w, "prep") || l.is(t[0].w, "of") || l.is(t[0].w, "join") || l.is(t[0].w, "did") || l.is(t[0].w, "i")
}
