package language

import (
	_ "embed"
	"slices"
	"strings"
	"sync"

	"scullion/pantry/food"
)

// nameAt gives how many tokens a guest's name takes at i: a cook's, a word that is no other
// here, or any behind "guest".
func (p *parser) nameAt(i int, q *Question) int {
	if !p.is(i, word) {
		return 0
	}
	if n := p.among("{mister}", i); n > 0 && p.is(i+n, word) && p.among("{is}", i+n) == 0 { // "Mrs Brown"
		q.Who = append(q.Who, p.asSaid(i, n+1))
		return n + 1
	}
	raw := strings.TrimSpace(p.t[i].raw)
	w := p.t[i].w
	if base := p.owner(i); base != "" {
		w, raw = base, raw[:len(base)]
	}
	cook := slices.Contains(p.cooks, w)
	if !cook && !p.word(i-1, "guest") && !p.strangerAt(i, w) && p.among("{names}", i) != 1 {
		return 0
	}
	q.Who = append(q.Who, raw)
	return 1
}

// callsFood says whether one of some words is a food.
func (p *parser) callsFood(said string) bool {
	return slices.ContainsFunc(strings.Fields(strings.ToLower(said)), func(w string) bool { return p.knownWords([]string{w}) || words().is(w, "dish") })
}

// diets says whether needs are diets alone, which food has as well: "vegan".
func (x *TableTalk) diets() bool {
	return !slices.ContainsFunc(x.Needs, func(n TableNeed) bool { return n.Diet == "" })
}

// isFoodName says whether a name is that of a food as well.
func isFoodName(w string) bool {
	return slices.ContainsFunc(tableForms().words["{names}"].any, func(name []string) bool { return name[0] == strings.ToLower(w) })
}

// nameIs gives how many tokens "dee is", "dee has got" or "dee's" takes at i.
func (p *parser) nameIs(i int, q *Question) int {
	n := p.nameAt(i, q)
	if n == 0 {
		return 0
	}
	is := p.among("{is}", i+n)
	if is == 0 && p.owner(i) == "" {
		return 0
	}
	return n + is
}

// someone says whether words in front of what somebody is ill by may be of a person: "oliver", "new lad"; not
// "nobody" or "is anyone".
func (p *parser) someone(said string) bool {
	if said = strings.ToLower(said); strings.HasSuffix(said, " and") || strings.HasSuffix(said, " or") { // "kiwi and banana allergy"
		return false
	}
	return !slices.ContainsFunc(strings.Fields(said), func(w string) bool {
		for _, slot := range []string{"{other}", "{risky}", "{rarely}", "{ill}", "{bad}"} { // "bed 4 diabetic soft diet"
			if slices.ContainsFunc(tableForms().words[slot].any, func(need []string) bool { return len(need) == 1 && need[0] == w }) {
				return true
			}
		}
		if words().is(w, "diet") || words().is(w, "allergen") || p.knownWords([]string{w}) && !isFoodName(w) { // "t29 tomato egg allergy"
			return true
		}
		return slices.ContainsFunc(tableForms().words["{nobody}"].any, func(no []string) bool { return no[0] == w }) || w == "my" || w == "your"
	})
}

// nameOnly is a name of one word or two as it was said; "" of words that say who without a name: "new lad".
func nameOnly(said string) string {
	list := strings.Fields(strings.ToLower(said))
	for len(list) > 1 && slices.Contains([]string{"has", "is", "have", "with", "got"}, list[len(list)-1]) { // "mr hughes has", a nut allergy
		list = list[:len(list)-1]
	}
	if len(list) == 2 && IsTitle(list[0]) { // "mr byrne"
		return strings.Join(list, " ")
	}
	if len(list) > 2 || slices.ContainsFunc(list, func(w string) bool {
		return slices.Contains(noGuests(), w) || len(words().first[w]) > 0 || tableForms().known[w]
	}) {
		return ""
	}
	return strings.Join(list, " ")
}

// IsTitle says whether a word is one before a name: "mr".
func IsTitle(w string) bool {
	return slices.ContainsFunc(tableForms().words["{mister}"].any, func(x []string) bool { return x[0] == strings.ToLower(w) })
}

// strangerAt says whether a word may be the name of somebody: it is no food, no word that
// is known here and no plain English.
func (p *parser) strangerAt(i int, w string) bool {
	l := words()
	if len([]rune(w)) < 2 || len(l.first[w]) > 0 || tableForms().known[w] || questions().known[w] || p.knownWords([]string{w}) || food.IsPlain(w) || slices.Contains(noGuests(), w) {
		return false
	}
	return p.knownLength(i) == 0
}

//go:embed noguests.txt
var noGuestsTXT string

// noGuests are words that are nobody's name; see the head of noguests.txt.
var noGuests = sync.OnceValue(func() (list []string) {
	for line := range strings.Lines(noGuestsTXT) {
		if !strings.HasPrefix(line, "#") {
			list = append(list, strings.Fields(line)...)
		}
	}
	return list
})
