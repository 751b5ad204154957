package language

import "strings"

// stillOn reads at i what is still on food, or off it, as it comes: "shell on", "bone-in", "skin off". It
// gives how many tokens that takes; 0 where it is none, or where what stands there is where food went:
// "2kg bone in the soup".
func (p *parser) stillOn(i int) int {
	if p.is(i, word) && strings.Contains(p.t[i].w, "-") && words().is(strings.ReplaceAll(p.t[i].w, "-", " "), "came") { // "shell-on"
		return 1
	}
	n := 1
	if p.mark(i+1, "-") {
		n = 2
	}
	if i+n >= p.end || !p.is(i, word) || !(p.word(i+n, "on") || p.word(i+n, "in") || p.word(i+n, "off") || p.word(i+n, "out")) || !words().is(p.t[i].w+" "+p.t[i+n].w, "came") {
		return 0
	}
	next := i + n + 1
	if p.lexHas(next, next+1, "dish") || !p.endsItem(next) && !p.foodAt(next) && !p.startsAmount(next) || p.isDet(next) {
		return 0
	}
	return n + 1
}
