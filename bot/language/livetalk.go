package language

import (
	_ "embed"
	"slices"
	"sync"
)

//go:embed livetalk.csv
var liveTalkCSV []byte

var liveTalk = sync.OnceValue(func() *asking { return formsOf("livetalk.csv", liveTalkCSV) })

// What else may be said and asked of a plan that has begun.
const (
	AboutNextFor  About = "nextfor"  // what a cook does now and next, whom Food names; "" who asks
	AboutHands    About = "hands"    // who is at what, and who has hands
	AboutKitFree  About = "kit"      // whether kit, which Food names, is free, now or at At
	AboutGoesIn   About = "goesin"   // when what Food names is begun
	AboutReadyAt  About = "readyat"  // and when it is ready
	AboutPlate    About = "plate"    // when all is ready
	AboutOnTime   About = "ontime"   // whether that is in time
	AboutLater    About = "later"    // all is wanted N minutes later
	AboutSooner   About = "sooner"   // or sooner
	AboutReadyBy  About = "readyby"  // or at At
	AboutDishFor  About = "dishfor"  // the dish whose number is Food is for N
	AboutNamedFor About = "namedfor" // the dish that Food names is for N
	AboutHeads    About = "heads"    // all dishes are for N
	AboutMoreOf   About = "moreheads"
	AboutFewer    About = "fewerheads"
	AboutJoins    About = "joins"    // a cook comes, whom Food names; "" who says so
	AboutJoinsBy  About = "joinsby"  // somebody comes whose name may be new
	AboutWhoLate  About = "wholate"  // the step of the cook whom Food names takes N minutes more
	AboutWhoDone  About = "whodone"  // or is done
	AboutStarted  About = "started"  // what Food names has begun now
	AboutIsDone   About = "isdone"   // the step that Food names is done
	AboutFewerKit About = "fewerkit" // one, or N, of kit that there is several of, which Food names, broke
	AboutNoPlan   About = "noplan"   // all of the plan is taken back
	AboutLongerIt About = "longerit" // what rang, or is on by itself, takes N minutes more
	AboutOnlyKit  About = "onlykit"  // N of it are left
)

// LiveTalk reads a message that is said while a plan is on, and of it; nil where it is none. Where no plan is, such words
// are of something else.
func (r *Reader) LiveTalk(text string) *Question {
	q := r.talked(text, liveTalk())
	if q != nil { // "the tart's in"
		if base, ok := possessive(q.Food); ok {
			q.Food = base
		}
	}
	return q
}

// whoIs reads a cook's name and "is" or "has" behind it: "bo's", "bo is". It gives the name and how many tokens that takes; 0
// none.
func (p *parser) whoIs(i int) (name string, n int) {
	if !p.is(i, word) || len(p.cooks) == 0 {
		return "", 0
	}
	if base := p.owner(i); base != "" && slices.Contains(p.cooks, base) {
		return base, 1
	}
	if slices.Contains(p.cooks, p.t[i].w) && (p.word(i+1, "is") || p.word(i+1, "has")) {
		return p.t[i].w, 2
	}
	return "", 0
}
