package language

import (
	_ "embed"
	"regexp"
	"sync"
)

//go:embed keeptalk.csv
var keepTalkCSV []byte

//go:embed ruletalk.csv
var ruleTalkCSV []byte

//go:embed datetalk.csv
var dateTalkCSV []byte

var (
	dateTalk = sync.OnceValue(func() *asking { return embedded("datetalk.csv", dateTalkCSV) })
	keepTalk = sync.OnceValue(func() *asking { return embedded("keeptalk.csv", keepTalkCSV) })
	ruleTalk = sync.OnceValue(func() *asking { return embedded("ruletalk.csv", ruleTalkCSV) })
)

// embedded is formsOf where nothing but manners may follow a form.
func embedded(name string, table []byte) *asking {
	f := formsOf(name, table)
	f.whole = true
	return f
}

// What may be asked of the date of food that is here. Food has all its words.
const (
	AboutTill     About = "till"     // whether it keeps until Date
	AboutForDays  About = "fordays"  // whether it keeps for N days more
	AboutTillNext About = "tillnext" // whether it keeps until tomorrow
	AboutStillOK  About = "stillok"  // whether it is within its date
	AboutMaybeOK  About = "maybeok"  // the same, where that is asked of food on hand with a date
	AboutGoesOff  About = "goesoff"  // what its date is
)

// What may be said of how long this kitchen keeps food.
const (
	AboutRule        About = "rule"        // Food is kept for N days at most, in the fridge
	AboutRuleFreezer About = "rulefreezer" // in the freezer
	AboutRuleHours   About = "rulehours"   // for N hours
	AboutRules       About = "rules"       // what the rules are
)

// What may be said of the date on food that came in; Date is the day.
const (
	AboutUseBy     About = "useby"     // of Food
	AboutBestBy    About = "bestby"    // of Food: a best-before
	AboutItsUseBy  About = "itsuseby"  // of what was said last
	AboutItsBestBy About = "itsbestby" // a best-before of that
)

// DateTalk reads a message that says what date is on food; nil where it does not.
func (r *Reader) DateTalk(text string) *Question {
	return r.talked(notDay.ReplaceAllString(opensDate.ReplaceAllString(text, ""), ""), dateTalk())
}

// What stands around a date that is set right: "actually the chicken is use by 4 mar, not 5 mar".
var (
	opensDate = regexp.MustCompile(`(?i)^\s*(?:actually|sorry|no|nope|wait|oops|correction|hang on|hold on|ah|btw|fyi)[,: -]+`)
	notDay    = regexp.MustCompile(`(?i),? (?:and )?not (?:the )?[\w/]+(?: [a-z]{3,9})?[.!]?$`)
)

// KeepTalk reads a message that asks whether food that is here still keeps; nil where it does not.
func (r *Reader) KeepTalk(text string) *Question {
	return r.talked(fromDay.ReplaceAllString(text, " "), keepTalk())
}

// fromDay is when food was made of which is asked whether it keeps: "is the pilau from yesterday ok?"
var fromDay = regexp.MustCompile(`(?i) (?:from|of) (?:yesterday|last night|this morning|this lunch|lunch|earlier|the other day|(?:mon|tues|wednes|thurs|fri|satur|sun)day) `)

// RuleTalk reads a message that tells a house rule, or asks for them; nil where it does neither.
func (r *Reader) RuleTalk(text string) *Question { return r.talked(text, ruleTalk()) }
