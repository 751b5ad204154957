package language

import (
	_ "embed"
	"slices"
	"sync"
)

// Plan is what a service was asked to be: "plan 3 dishes for 2 in 30 minutes, two cooks,
// no oven". Zero is what was not said.
type Plan struct {
	Limits  // Portions are of each dish
	Dishes  int
	Cooks   int
	Cold    int      // so many of them cold, at least
	Sweet   int      // so many of them sweet
	Until   string   // "18:30": ready by then
	Either  bool     // of Until: morning or evening was not said
	UseUp   []string // foods, to the last gram
	Unlike  []string // ways of cooking and kinds of dish that are not wanted: "fried", "soup"
	Lighter bool
	Meal    string // that the service is called by: "lunch"
	NextDay bool   `json:",omitempty"` // Until is of tomorrow
}

// said says whether it says anything that a plan may be held to.
func (a Plan) said() bool {
	return a.Limits.Said() || a.Dishes+a.Cooks+a.Cold+a.Sweet+len(a.UseUp)+len(a.Unlike) > 0 || a.Until != "" || a.Lighter
}

// Over gives this wish, and the one before where this says nothing.
func (a Plan) Over(before Plan) Plan {
	if a.Minutes == 0 && a.Until == "" {
		a.Until, a.Either = before.Until, before.Either
	}
	if a.Until == "" || a.Minutes > 0 {
		a.Limits = a.Limits.Over(before.Limits)
	} else {
		a.Limits = a.Limits.Over(before.Limits)
		a.Minutes = 0
	}
	for _, n := range []struct{ mine, its *int }{{&a.Dishes, &before.Dishes}, {&a.Cooks, &before.Cooks}, {&a.Cold, &before.Cold}, {&a.Sweet, &before.Sweet}} {
		if *n.mine == 0 {
			*n.mine = *n.its
		}
	}
	a.UseUp = append(a.UseUp, before.UseUp...)
	a.Unlike = append(a.Unlike, before.Unlike...)
	a.Lighter = a.Lighter || before.Lighter
	return a
}

// Plan reads a message that asks for a plan. Ok says that it does: "plan" alone, or with how
// many dishes, for how many, or by when.
func (r *Reader) Plan(text string) (a Plan, ok bool) {
	p := r.parser(text)
	if len(p.t) == 0 {
		return a, false
	}
	p.end = len(p.t)
	p.classesOf(0, p.end)
	at, _ := p.opening(p.idle(0))
	_, m := p.class(at, "planning")
	if m == 0 {
		return a, false
	}
	a = p.planned(at + m)
	return a, a.Dishes > 0 || a.Portions > 0 || a.Minutes > 0 || a.Until != "" || p.strange == 0
}

// PlanChange reads a message that says nothing but what a plan is to be held to: "no oven,
// two cooks".
func (r *Reader) PlanChange(text string) (a Plan, ok bool) {
	p := r.parser(text)
	if len(p.t) == 0 || len(p.t) > mostChangeWords {
		return a, false
	}
	p.end = len(p.t)
	p.classesOf(0, p.end)
	a = p.planned(p.idle(0))
	return a, a.said() && p.strange == 0
}

// mostChangeWords is more than a change of a plan has.
const mostChangeWords = 24

// planned reads all that is said of a plan from i on; strange counts the words that say
// nothing of it.
func (p *parser) planned(i int) (a Plan) {
	a.Limits = p.limits()
	p.strange = 0
	for i < p.end {
		n := p.planWord(i, &a)
		if n == 0 {
			n = p.limit(i, nil)
		}
		if n == 0 {
			sec, m, unit := p.lasts(i)
			if n = m; !unit {
				n = 0
			}
			if n > 0 && a.Minutes == 0 {
				a.Minutes = sec / 60
			}
		}
		if n == 0 {
			if _, m := p.longest(i, "pause", "join", "det", "prep", "trail", "of", "about", "but", "request"); m > 0 {
				n = m
			} else if p.t[i].sort == mark {
				n = 1
			}
		}
		if n == 0 {
			p.strange++
			n = 1
		}
		i += n
	}
	if a.Cold > 0 {
		a.Serve = ""
	}
	return a
}

// spanAt gives how many tokens "30 minutes" takes at i.
func (p *parser) spanAt(i int) int {
	if _, n, unit := p.lasts(i); n > 0 && unit {
		return n
	}
	return 0
}

// planWord reads one thing that a plan is held to at i, and gives how many tokens it
// takes; 0 none.
func (p *parser) planWord(i int, a *Plan) int {
	if p.word(i, "by") || p.word(i, "before") {
		if c, n := p.clock(i+1, true); n > 0 {
			a.Until, a.Either = c.at, c.either
			return 1 + n
		}
	}
	if v, m := p.number(i + 1); (p.word(i, "for") || p.is(i, digit) && p.t[i].raw == "4") && m > 0 && v.Den == 1 && v.Num >= 1 && v.Num <= 500 && p.spanAt(i+1) == 0 && a.Portions == 0 {
		a.Portions = int(v.Num)
		return 1 + m
	}
	if n := p.usedUp(i, a); n > 0 {
		return n
	}
	if n := p.unlike(i, a); n > 0 {
		return n
	}
	if w, m := p.class(i, "planhow"); m > 0 {
		switch w.value {
		case "lighter":
			a.Lighter = true
		case "alone":
			a.Cooks = 1
		}
		return m
	}
	j := p.skipWord(p.skipWord(i, "at"), "least")
	n, k := 1, j
	if v, m := p.number(j); m > 0 && v.Den == 1 && v.Num >= 1 && v.Num <= 50 {
		n, k = int(v.Num), j+m
	} else if p.isDet(j) {
		k = j + 1
	}
	w, m := p.class(k, "planof")
	if m == 0 || k == i { // "dishes for 2"
		return 0
	}
	switch w.value {
	case "dish":
		a.Dishes = n
	case "main": // and nothing sweet, unless that is said too
		if a.Dishes = n + a.Sweet; a.Sweet == 0 {
			a.Unlike = append(a.Unlike, "sweet")
		}
	case "cook":
		a.Cooks = n
	case "cold":
		a.Cold = n
	case "sweet":
		a.Sweet = n
		if at := slices.Index(a.Unlike, "sweet"); at >= 0 { // beside the mains
			a.Unlike, a.Dishes = append(a.Unlike[:at:at], a.Unlike[at+1:]...), a.Dishes+n
		}
	}
	return k + m - i
}

// usedUp reads "use all the cauliflower", "finish the leeks".
func (p *parser) usedUp(i int, a *Plan) int {
	_, m := p.class(i, "planuse")
	if m == 0 {
		return 0
	}
	j := i + m
	for {
		k := p.skip(j, "det")
		for _, w := range []string{"all", "of", "up"} {
			k = p.skipWord(k, w)
		}
		if k == j {
			break
		}
		j = k
	}
	n := p.knownLength(j)
	if n == 0 {
		return 0
	}
	a.UseUp = append(a.UseUp, p.asSaid(j, n))
	return j + n - i
}

// asSaid gives n words as they were said.
func (p *parser) asSaid(i, n int) string { return p.text[p.t[i].from:p.t[i+n-1].to] }

// unlike reads "nothing fried", "no soup".
func (p *parser) unlike(i int, a *Plan) int {
	j := i
	for _, w := range []string{"nothing", "no", "not", "without", "none"} {
		if p.word(j, w) {
			j++
			break
		}
	}
	if j == i {
		return 0
	}
	w, m := p.class(p.skipWord(j, "more"), "planway")
	if m == 0 {
		return 0
	}
	a.Unlike = append(a.Unlike, w.value)
	return p.skipWord(j, "more") + m - i
}

//go:embed plantalk.csv
var planTalkCSV []byte

var planTalk = sync.OnceValue(func() *asking { return formsOf("plantalk.csv", planTalkCSV) })

// What may be said of a plan that was shown.
const (
	AboutAgain   About = "again"   // another one
	AboutStay    About = "stay"    // dish N and the Others stay, the rest is planned again
	AboutSwap    About = "swap"    // dish N goes, another comes
	AboutDrop    About = "drop"    // dish N goes, or the one that Food names
	AboutPalette About = "palette" // not in that palette: of dish N, of all where N is 0
	AboutAccept  About = "accept"  // begin it
	AboutWhyNot  About = "whynot"  // why a food is not in it
	AboutDish    About = "dish"    // how dish N is made

	// And of one that has begun.
	AboutDone   About = "done"   // the cook is done with the step that was on
	AboutLonger About = "longer" // what Food names takes N minutes more
	AboutLate   About = "late"   // the cook's step takes N minutes more
	AboutDown   About = "down"   // kit, which Food names, is broken
	AboutBack   About = "back"   // and mended
	AboutLeaves About = "leaves" // a cook goes, whom Food names; "" who says so
)

// PlanTalk reads a message that is about a plan that was shown; nil where it is not.
func (r *Reader) PlanTalk(text string) *Question { return r.talked(text, planTalk()) }

// firstAt is the word by which forms are found, or the number: "86 the tart".
func (p *parser) firstAt(i int) string {
	if p.is(i, digit) {
		return p.t[i].raw
	}
	if p.is(i, word) {
		return p.t[i].w
	}
	return ""
}
