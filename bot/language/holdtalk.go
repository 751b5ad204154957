package language

import (
	_ "embed"
	"regexp"
	"slices"
	"strings"
	"sync"
)

//go:embed holdtalk.csv
var holdTalkCSV []byte

var holdTalk = sync.OnceValue(func() *asking { return formsOf("holdtalk.csv", holdTalkCSV) })

// What is asked and said of what dishes and foods hold; holdtalk.csv has the forms. Food is what it
// was called, and need be none; of the second of each pair it is what was spoken of last. Needs has
// what is asked about or said, or what somebody cannot eat.
const (
	AboutAllergens    About = "allergens"
	AboutItsAllergens About = "itsallergens"
	AboutHas          About = "has"
	AboutItHas        About = "ithas"
	AboutWhichHas     About = "which"
	AboutEats         About = "eats"
	AboutWhoEats      About = "whoeats"
	AboutItEats       About = "iteats"
	AboutSaidIn       About = "said"
	AboutItsSaidIn    About = "itssaid"
	AboutUnsaidIn     About = "unsaid"
	AboutWhichEats    About = "whicheats" // which dishes Place, Who or the table may eat
	AboutAnyFree      About = "anyfree"   // of a dish, where it is one: "any gluten free tacos?"
)

// holdWords are what such a message has one of.
var holdWords = []string{"allerg", "contain", " have", "has ", " had ", " got ", "free", "there", "made with", " in ", "can ", "ok for", "okay for", "fine for", "safe for", "suit", "right for", "good for", "which", "who ", " on ", " with ", " over ", "everyone", "fried in", "cooked in", "thickened", "finished with", "made from", "is ", "are "}

// HoldTalk reads a message that asks or tells what a dish holds; nil where it does not. Asked says
// that it is a question.
func (r *Reader) HoldTalk(text string) (q *Question, asked bool) {
	low := strings.ToLower(text)
	if len(text) > mostHeld || !AsksBare(text) && !slices.ContainsFunc(holdWords, func(w string) bool { return strings.Contains(low, w) }) {
		return nil, false
	}
	asked = strings.Contains(text, "?")
	if m := asksFor.FindStringIndex(text); m != nil {
		text, asked = text[m[1]:], true
	}
	if less := whenAsked.ReplaceAllString(text, "$1"); asked || asksEat.MatchString(text) {
		text = less
	}
	var bare []string
	if strings.ContainsAny(text, ",:-–—") {
		bare = bareAsk.FindStringSubmatch(text)
	}
	if bare != nil { // "granola - nuts?"
		text = "does the " + bare[1] + " have " + bare[2] + bare[3] + "?"
		asked = true
	}
	p := r.parser(apartHyphens.Replace(text))
	p.end = len(p.t)
	for p.end > 0 && p.t[p.end-1].sort == mark {
		p.end--
	}
	if p.end == 0 {
		return nil, asked
	}
	p.classesOf(0, p.end)
	at := p.idle(0)
	for _, first := range []string{p.firstAt(at), ""} {
		for _, f := range holdTalk().forms[first] {
			if f.asked && !asked || asked && slices.Contains(tellings, f.about) {
				continue
			}
			if q, end := p.match(f, at); q != nil && end >= p.end && !slices.Contains(nobodys, q.Food) {
				out := *q
				if bare != nil && slices.ContainsFunc(out.Needs, func(n TableNeed) bool { return n.Allergy == "" }) { // "leeks - carrots?"
					continue
				}
				return &out, asked
			}
		}
	}
	return nil, asked
}

// whenAsked is the time behind a question of who may have what, which adds nothing; asksEat begins such a question.
var (
	whenAsked = regexp.MustCompile(`(?i)[ ,]+(?:(?:today|tonight|now|right now|later|this (?:lunch|evening|morning|afternoon)|at (?:lunch|dinner|tea)|for (?:their |her |his )?(?:lunch|dinner|tea|pudding|dessert|main|starter)|please|pls|plz|then|chef|though)[ ,]*)+(\??)\s*$`)
	asksEat   = regexp.MustCompile(`(?i)^\s*(?:and |so |ok )?(?:can|could|may|is|are|does|do|will|would)\b`)
)

// bareAsk is what something is called and what is asked about behind a dash, or behind a comma in words: "granola - nuts?",
// "pesto, is there nuts in it".
var bareAsk = regexp.MustCompile(`(?i)^\s*(?:the )?([a-z][a-z' ]*?)(?:\s*(?:,|\s[-–—]|:)\s*(?:is there|are there|is it|any|has it got|does it have|does it contain|do they have|have they got|whether there is)\s+(?:any )?([a-z ,/&]+?)(?:\s+in(?: it| them| there)?| free)?\s*\??|\s*(?:\s[-–—]|:)\s*([a-z ,/&]+?)\s*\?)\s*$`)

// AsksBare says whether a text asks so.
func AsksBare(text string) bool {
	return strings.ContainsAny(text, ",:-–—") && bareAsk.MatchString(text)
}

// IsThing says whether what something is called is no food: "bill", "the window".
func IsThing(called string) bool {
	list := strings.Fields(strings.ToLower(called))
	return len(list) == 0 || slices.ContainsFunc(holdTalk().words["{things}"].any, func(w []string) bool { return w[0] == list[len(list)-1] })
}

// IsFolk says whether words are for guests and say nothing else of them: "the kids".
func IsFolk(words string) bool {
	return slices.ContainsFunc(holdTalk().words["{folk}"].any, func(w []string) bool { return strings.Join(w, " ") == words })
}

// asksFor is who asks, before what is asked: "customer says is the slaw dairy free", "foh asking if ...".
var asksFor = regexp.MustCompile(`(?i)^\s*(?:a |the |one )?(?:customer|guest|table \w+|bed \w+|room \w+|lady|gent|mum|parent|foh|front of house|waiter|waitress|server|someone|somebody) (?:says|asks|is asking|asking|wants to know|asked|just asked|wants know)(?: if| whether)?,? `)

// tellings are no questions.
var tellings = []About{AboutSaidIn, AboutItsSaidIn, AboutUnsaidIn}

// nobodys are words that name no dish.
var nobodys = strings.Fields("we i you he she they it that this them those these who what anyone somebody someone everyone all everything something anything date")

// mostHeld is how long a message of this sort may be.
const mostHeld = 200

// NamesDish says whether a name has a word for a kind of dish, "leek tart", or is one's: "satay".
func (r *Reader) NamesDish(name string) bool {
	p := r.parser(name)
	p.end = len(p.t)
	p.classesOf(0, p.end)
	return p.namesDish(0, p.end) || p.end > 0 && p.spelt(holdTalk().words["{dishes}"], p.end-1) > 0
}

// SpeaksOfDish says whether a text has a word for a kind of dish in it.
func (r *Reader) SpeaksOfDish(text string) bool {
	p := r.parser(text)
	p.end = len(p.t)
	for i := range p.t {
		if _, m := p.class(i, "dish"); m > 0 {
			return true
		}
	}
	return false
}

// standsNeed says whether what a slot for needs asks for stands at k.
func (p *parser) standsNeed(s step, k int) bool {
	switch s.slot {
	case "{inside}":
		return p.notEaten(k, &TableNeed{}) > 0
	case "{persons}":
		return p.needList(k, &Question{}, ofPersons) > 0
	case "{place}":
		_, n := p.placeAt(k)
		return n > 0
	case "{illness}":
		return p.needList(k, &Question{}, ofIllness) > 0
	}
	return false
}
