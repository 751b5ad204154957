package language

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

func binned(dish string) bool { return words().is(dish, "bins") }

// IsPlace says whether what stands where a dish might is a place, a time or a
// paper.
func IsPlace(dish string) bool {
	if dish == "" {
		return false
	}
	last := dish[strings.LastIndexByte(dish, ' ')+1:]
	first, _, _ := strings.Cut(dish, " ")
	return words().is(dish, "place") || words().is(last, "place") || first == "table" && !words().is(strings.TrimSuffix(last, "s"), "dish") || first == "section" || weekday(dish)
}

// noDish says whether what a correction gives for a dish is a person or a thing
// about the house: "that was for gran", "those went in the wash".
func noDish(dish string) bool {
	return words().is(dish, "nodish") || words().is(dish[strings.LastIndexByte(dish, ' ')+1:], "nodish")
}

// weekday says whether a word is a day's name: "thursday's delivery".
func weekday(w string) bool { return words().is(strings.TrimSuffix(plain(w), "s"), "weekday") }

// isPaper says whether a dish phrase is of an order or a list.
func isPaper(dish string) bool {
	return words().is(dish[strings.LastIndexByte(dish, ' ')+1:], "paper") || weekday(dish)
}

// dish reads "in the tart": a prep, and words up to the end of the phrase. Not
// where an amount follows: "in two tablespoons of oil" is one more item.
func (p *parser) dish(i int) (name string, n int) {
	_, m := p.class(i, "prep")
	if m == 0 || p.is(i, digit) && !p.dishFour(i) {
		return "", 0
	}
	if to := p.added(i); to > i && p.over(to) { // "60g flour to thicken it" names no dish
		return "", 0
	}
	j := i + m
	for {
		if ph, d := p.longest(j, "det", "pause", "whose"); d > 0 && !(ph.class == "pause" && p.foodAt(j)) && !(p.lexHas(j, j+1, "whose") && !p.is(j+1, word)) { // "in her rosti", but not "for her"
			j += d
			continue
		}
		break
	}
	if _, m := p.class(j+1, "dish"); p.word(j, "one") && m > 0 { // "all in one saag"
		j++
	}
	if v, m := p.number(j + 1); p.word(j, "dish") && m > 0 && v.Den == 1 { // of a plan
		return fmt.Sprint("dish ", v.Num), j + 1 + m - i
	}
	if p.startsAmount(j) {
		return "", 0
	}
	if _, m := p.longest(j, "day", "weekday"); m > 0 && p.over(j+m) { // "in yoghurt for tmrw" names no dish
		return "", 0
	}
	var list []string
	if m := p.together(j); m > 0 {
		list, j = p.namedTogether(j, m), j+m
	}
	if ph, m := p.class(j, "dish"); m > 2 { // "toad in the hole"
		list, j = append(list, ph.words...), j+m
	}
	for j < p.end && len(list) < 6 {
		t := p.t[j]
		if t.sort == mark && t.w == "-" && p.is(j+1, word) && t.from == p.t[j-1].to {
			j++
			continue
		}
		if t.sort != word {
			break
		}
		if _, m := p.longest(j, "join", "but"); m > 0 && (len(list) == 0 || p.newClause(j+m) || p.startsAmount(j+m) || p.word(j, "plus") || p.word(j, "with") || p.opens(j+m) || p.talks(j, m)) {
			break
		}
		if ph, m := p.longest(j, "stop", "did", "claim", "left", "prep"); m > 0 && !p.mend[j] && !p.dishWord(j) && !(ph.class == "stop" && p.knownLength(j) > m) && !(len(list) == 0 && p.doneFood(j)) { // "in the short rib braise"
			break
		}
		if _, m := p.class(j, "later"); m > 0 && len(list) > 0 { // "for the pie later"
			break
		}
		if len(list) > 0 && (t.w == "this" || t.w == "these" || t.w == "those") { // "in the porridge this morning"
			break
		}
		if t.w == "an" && p.startsAmount(j+1) { // "in the broth an 2 carrots"
			break
		}
		if _, m := p.longest(j, "i", "if", "could", "not", "bid", "habit"); m > 0 {
			break
		}
		if len(list) > 0 && (p.word(j, "theres") || p.word(j, "how") || p.word(j, "what") || p.word(j, "whats")) { // "in the pie how much is left"
			break
		}
		if len(list) > 0 && p.isCook(j) {
			break
		}
		if _, m := p.longest(j, "pause", "notfood"); m > 0 && len(list) > 0 && !(t.w == "pots" && p.over(j+1)) && !p.behindCooked(j) { // "in the fruit pots"
			break
		}
		if len(list) > 0 && p.startsAmount(j) {
			break
		}
		if p.mend[j] { // a word of the dish's own: "crumble"
			t.w = plain(t.raw)
		}
		if t.w == "n" && len(list) > 0 { // mac n cheese
			t.w = "and"
		}
		list = append(list, t.shown())
		j++
	}
	if len(list) == 0 {
		return "", 0
	}
	return strings.Join(list, " "), j - i
}

// IsNobody says whether what stands where a dish might stands for one, or for a
// person: "in mine", "for you". Which dish that is, nobody can tell.
func IsNobody(dish string) bool { return words().is(dish, "pron") }

// talks says whether what a join opens is talk and not the rest of a name: "the
// curry and it's lovely", "the curry but it needs salt".
func (p *parser) talks(j, m int) bool {
	if _, but := p.class(j, "but"); but > 0 {
		return true
	}
	_, n := p.longest(j+m, "stop", "ref", "i", "noname", "pause")
	return n > 0
}

// opens says whether a word stands at i that opens a new item: "some", "the".
func (p *parser) opens(i int) bool {
	_, m := p.longest(i, "some", "share", "det")
	return m > 0
}

// doneFood says whether a dish is named at i by what was done to its food: "in the dressed salmon".
func (p *parser) doneFood(i int) bool {
	_, m := p.class(i, "did")
	return m == 1 && p.isDet(i-1) && strings.HasSuffix(p.t[i].w, "ed") && (p.foodAt(i+1) || p.lexHas(i+1, i+2, "dish"))
}

// dishWord are words for treatments that begin a dish's name: "roast veg".
func (p *parser) dishWord(i int) bool {
	_, m := p.class(i, "cooked")
	_, other := p.longest(i+1, "prep", "join")
	return m > 0 && p.is(i+1, word) && other == 0
}

// behindCooked says whether a food stands at i behind a word for how it is cooked: "roast duck".
func (p *parser) behindCooked(i int) bool {
	_, m := p.class(i-1, "cooked")
	return m > 0 && p.foodAt(i)
}

// named says whether the words from i to k are a dish that has one name here whatever it is
// called: "staff tea".
func (p *parser) named(i, k int) bool {
	ph, m := p.class(i, "dish")
	return m == k-i && m > 0 && ph.value != ""
}

// DishName gives what a dish is called here whatever it is called: "staff meal" for "staff tea".
func DishName(said string) string {
	list := strings.Fields(said)
	if len(list) == 0 {
		return said
	}
	for _, ph := range words().first[list[0]] {
		if ph.class == "dish" && ph.value != "" && strings.Join(ph.words, " ") == said {
			return ph.value
		}
	}
	return said
}

// IsCourse says whether a dish is called by no more than its place in a meal: "the main".
func IsCourse(dish string) bool { return words().is(dish, "course") }

// IsPack says whether a part of a food is a pack with its weight printed on it: "tin".
func IsPack(part string) bool { return words().is(part, "packed") }

// IsOuter says whether a part of a food is what packs come in: "case".
func IsOuter(part string) bool { return words().is(part, "outer") }

// IsState says whether a word tells in what state food is: "leftovers".
func IsState(w string) bool { return words().is(w, "state") }

// NamesDish says whether a phrase ends in a word for a kind of dish: "fish pie".
func NamesDish(phrase string) bool {
	list := strings.Fields(strings.ToLower(phrase))
	return len(list) > 0 && words().is(list[len(list)-1], "dish")
}

// PackHolds says whether one pack of a drink may hold so many millilitres: a bottle 750.
func PackHolds(pack string, ml int64) bool {
	for _, ph := range words().first[pack] {
		if ph.class == "packed" && len(ph.words) == 1 && slices.Contains(strings.Fields(ph.value), strconv.FormatInt(ml, 10)) {
			return true
		}
	}
	return false
}
