package language

import (
	_ "embed"
	"regexp"
	"slices"
	"strings"
	"sync"
)

//go:embed abusetalk.csv
var abuseTalkCSV []byte

var abuseTalk = sync.OnceValue(func() *asking { return embedded("abusetalk.csv", abuseTalkCSV) })

// What may be told of food that was not kept as it must be. Food has its words.
const (
	AboutStood      About = "stood"      // too warm, for long
	AboutStoodHours About = "stoodhours" // for N hours
	AboutFridgeAt   About = "fridgeat"   // the fridge was at N degrees C
	AboutFridge     About = "fridge"     // the fridge failed
	AboutFreezer    About = "freezer"
	AboutCameWarm   About = "camewarm" // came in at N degrees C
	AboutSmells     About = "smells"
	AboutProbed     About = "probed" // N degrees C in the middle
	AboutHeldAt     About = "heldat" // kept hot at N degrees C
	AboutCooled     About = "cooled" // it took N hours to cool
)

// abuseWords are what such a message has one of.
var abuseWords = []string{"came ", "arrived", "turned up", "delivered", "warm", "undercounter", "left", " out", "sat ", "stood", "fridge", "walk", "cold", "chiller", "freezer", "smell", "slimy", "mould", "look", "taste", "prob", "temp", "core", "reached", "is only", "came out at", "held", "kept at", "chill", "holding", "trolley", "cupboard", "bain", "only ", "cool"}

// forHours is how long food was held at a temperature, told with it: "at 52c for 3 hours", "2.5 hrs at 55".
var forHours = regexp.MustCompile(`(?i),? (?:for )?(?:about |over |nearly )?\d{1,2}(?:\.\d)? ?(?:hours?|hrs?|h)\b`)

// amountApart is how much of it there is, between commas: "custard, 800ml, been sat on the pass since 1". The answer
// does not go by it.
var amountApart = regexp.MustCompile(`(?i)^((?:the )?[a-z][a-z' ]*),? (?:(?:about|bout|say) )?\d+(?:\.\d+)? ?(?:ml|l|litres?|liters?|kg|g|lb|oz|portions?),`)

// sinceOff tells from when the hours are, behind them: "out 2 hrs since it came off".
var sinceOff = regexp.MustCompile(`(?i)(\d ?(?:hours?|hrs?|h)),? since (?:it|they) (?:came|come) (?:off|out)(?: (?:of )?(?:the )?(?:heat|oven|hob|stove|grill|pass))?`)

// AbuseTalk reads a message that tells that food stood warm, smells off or was not hot enough, or
// that a fridge or freezer failed; nil where it does not.
func (r *Reader) AbuseTalk(text string) *Question {
	low := strings.ToLower(text)
	if len(text) > mostHeld || !slices.ContainsFunc(abuseWords, func(w string) bool { return strings.Contains(low, w) }) {
		return nil
	}
	text = sinceOff.ReplaceAllString(amountApart.ReplaceAllString(text, "$1 "), "$1")
	q := r.talked(strings.ReplaceAll(text, ",", " "), abuseTalk())
	if q == nil { // the temperature is what the answer goes by
		if without := forHours.ReplaceAllString(text, ""); without != text {
			if q = r.talked(strings.ReplaceAll(without, ",", " "), abuseTalk()); q != nil && q.About != AboutHeldAt {
				q = nil
			}
		}
	}
	if q != nil {
		q.Food = strings.TrimSuffix(strings.TrimSuffix(q.Food, "'s"), "’s")
	}
	return q
}
