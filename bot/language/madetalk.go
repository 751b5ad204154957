package language

import (
	_ "embed"
	"regexp"
	"strings"
	"sync"
)

//go:embed madetalk.csv
var madeTalkCSV []byte

var madeTalk = sync.OnceValue(func() *asking { return formsOf("madetalk.csv", madeTalkCSV) })

// What may be said of a dish that was made. Food is what it was called, and need be no dish.
const (
	AboutYield     About = "yield"     // it came to Amount once cooked
	AboutFrozen    About = "frozen"    // all of it that is here was frozen
	AboutThawed    About = "thawed"    // the same, thawed
	AboutCooked    About = "cooked"    // what was made up raw of it was cooked
	AboutLeftOver  About = "leftover"  // so much of it is left over: Amount, or N portions
	AboutBinned    About = "binned"    // N portions of it were thrown away
	AboutBinnedOne About = "binnedone" // the same, counted by its name: "2 roast beef sent back, binned"
	AboutBinnedAll About = "binnedall" // all of it was
	AboutGiven     About = "given"     // N portions of it were given away; Food says to whom as well: "stew to the shelter"
	AboutWeighs    About = "weighs"    // it weighs Amount, which may be said of stock as well
	AboutUsed      About = "used"      // N portions of it were served, sold or used
	AboutUsedOne   About = "usedone"   // the same, counted by its name: "sold 6 scones"
	AboutMade      About = "made"      // N portions of it were made
	AboutLeftOf    About = "leftof"    // how much of it is left, asked
	AboutPlates    About = "plates"    // Amount of it came back on plates; "" of all dishes
)

// ofAny are those whose amount may be a share, or of pieces.
var ofAny = []About{AboutLeftOver, AboutFrozen, AboutThawed, AboutCooked, AboutReturned}

// putAt is when food was put away, which its message tells as well: "in the fridge 19:30".
var putAt = regexp.MustCompile(`(?i),?( in(?:to)? the (?:fridge|freezer|walk in|walk-in|chiller|cold room)),?(?: at| by)? ?\d{1,2}[:.]\d\d ?(?:am|pm)?\.?$`)

// leftAt is when somebody looked what is left: "1.5kg left over at 2pm".
var leftAt = regexp.MustCompile(`(?i)( left(?: over)?),? (?:at \d{1,2}(?:[:.]\d\d)? ?(?:am|pm)?|just now|right now|after service|after lunch|after dinner|at close)\.?$`)

// offPlates is where plate waste came from; behind an amount "off" reads as a slip of "of".
var offPlates = regexp.MustCompile(`(?i)\boff (?:the )?plates\b`)

// MadeTalk reads a message that tells what a dish came to, or what is left of it; nil where it
// does not.
func (r *Reader) MadeTalk(text string) *Question {
	text = offPlates.ReplaceAllString(text, "from the plates")
	text = leftAt.ReplaceAllString(putAt.ReplaceAllString(text, "$1"), "$1")
	q := r.talked(text, madeTalk())
	if name, rest, named := strings.Cut(text, ":"); q == nil && named { // "casserole: 1.2kg back in the fridge"
		q = r.talked(name+" "+rest, madeTalk())
	}
	return q
}
