package language

import (
	_ "embed"
	"strings"
	"sync"
)

//go:embed dishheads.csv
var dishHeadsCSV string

// dishHeads are the names of dishheads.csv.
var dishHeads = sync.OnceValue(func() (names []string) {
	for _, row := range strings.Split(dishHeadsCSV, "\n") {
		if row = strings.TrimSpace(row); row != "" && row[0] != '#' {
			names = append(names, row)
		}
	}
	return names
})

// mostHeadWords is of how many words the name of a dish at the head of its list may be.
const mostHeadWords = 6

// headEnds gives where the name of a dish at i ends that heads its list under a colon: "cod and chips:", "rice
// & peas for 40:", "calzone x8:". named says that a name of dishheads.csv is in it, or foods that go together.
// i where there is none.
func (p *parser) headEnds(i int) (end int, named bool) {
	var said []string
	j, joined := i, false
	for j < p.end && j-i < mostHeadWords && (p.is(j, word) || p.mark(j, "&") && j > i) {
		if j > i && (p.manyFor(j) > 0 || p.manyTimes(j) > 0) {
			break
		}
		w := strings.ToLower(p.t[j].raw)
		if p.mark(j, "&") {
			w = "and"
		}
		joined = joined || j > i && w == "and" && (p.foodEnds(j) || p.lexHas(j-1, j, "dish")) && (p.foodAt(j+1) || p.lexHas(j+1, j+2, "dish"))
		said = append(said, w)
		j++
	}
	if j == i || !p.mark(j+p.manyFor(j)+p.manyTimes(j), ":") {
		return i, false
	}
	name := " " + strings.Join(said, " ") + " "
	for _, h := range dishHeads() {
		if strings.Contains(name, " "+h+" ") {
			return j, true
		}
	}
	if joined && p.namesDish(i, j) {
		return j, true
	}
	return i, false
}

// manyFor is how many tokens "for 40", "for 12 people tonight" takes at i, before a colon; 0 where it is none.
func (p *parser) manyFor(i int) int {
	v, n := p.number(i + 1)
	if !p.word(i, "for") || n == 0 || v.Den != 1 || v.Num < 1 || v.Num > mostHeads {
		return 0
	}
	_, m := p.class(i+1+n, "heads")
	_, today := p.class(i+1+n+m, "sofar")
	return 1 + n + m + today
}

// manyTimes is how many tokens "x8" takes at i, before a colon; 0 where it is none.
func (p *parser) manyTimes(i int) int {
	if p.word(i, "x") && p.is(i+1, digit) && p.t[i+1].val.Den == 1 && p.t[i+1].val.Num > 0 && p.t[i+1].val.Num <= mostHeads && p.mark(i+2, ":") {
		return 2
	}
	return 0
}
