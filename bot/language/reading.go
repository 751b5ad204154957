// Package language reads what cooks type: text in, what was said out. It knows
// acts, amounts, food phrases and dish phrases; it knows no stock and writes
// nothing. Which line of the pantry "leek" is, is for package bot to say.
//
// How it works. The text is cut into tokens (token.go, layout.go); what was run
// together comes apart, what was stuttered is said once (hear.go). Each word
// looks itself up in words.csv (lexicon.go, tag.go, slip.go, look.go), which says what words do:
// "used" tells of an act, "in" opens a dish, "dont" means it did not happen. What
// was taken back in the same breath is taken out (repair.go). Foods are known by
// the Foods that the caller hands in. The parser (parse.go) then goes through the
// sentence clause by clause, finds the word for the act in each (verb.go), and has
// one method for each form:
//
//	clause = [people] [who] act items [dish]       used 300g leek in the tart   act.go, need.go, subject.go
//	       | dish [who] act items                  for the stew I used: 2 carrots
//	       | items act [dish]                      half the milk went in the sauce   gone.go
//	       | items dish, dish ":" items            300g leek in the tart        verbless.go
//	       | "made" items "from" items             made 600ml stock from ...    made.go
//	       | "86" food, food "left" ...            a stocktake                  count.go
//	       | "undo", "make that" item ...          a correction                 undo.go, opening.go, correct.go
//	       | "another 40g", "and" items ...        what goes on from the last   again.go
//	       | "timer" time name, call time, "stop" timer ...           timer.go, wish.go, wishend.go, stop.go, lasts.go, clock.go, timername.go
//	items  = item { join item }                                                 items.go
//	item   = [amount] food [money] [date]                                       item.go, amount.go, number.go, weighed.go, terms.go
//	dish   = prep words                                                         dish.go
//
// Two things keep it honest. What stands before the act must be understood
// (subject.go): "my gran used 6 eggs" is a story, and so is what a word of the
// classes not, if, could or habit stands in (story.go); a clause of its own behind a comma
// or a "but" is read again by itself. And an "it" or a bare amount is only what
// was named in the same message (topic.go), else the caller's to say.
//
// Questions are a table of their own (questions.csv, forms.go, question.go, asked.go), and so is what
// is said of who cannot eat what (table.csv, table.go, needlist.go). What it
// cannot read as one of these, it leaves: silence is the answer to talk that is
// not about stock. Answer (answer.go) reads a message as the answer to a
// question that the bot has asked.
//
// A worked example: "okay so I used two no three hundred grams of leak in the uh
// tart". Tokens: okay so I used two no three hundred grams of leak in the uh
// tart; hear drops "uh". "no" is a repair between two amounts, so the first goes:
// "used three hundred grams". "okay so" is a pause and "I" a speaker, so what
// stands before "used" names nobody else and forbids nothing: the act is a use.
// amount reads "three hundred" by the number rows, "grams" by units.csv, and
// skips "of": 300,000 mg. The food phrase runs to the next word that cannot be in
// one, "in": "leak". "in" is a prep, and no amount follows, so a dish comes: skip
// "the", "tart". The result is one Statement{Act: use, Dish: "tart"} with one
// Item{300 g, "leak"}; that leak is leek is found by the food index later.
//
// To teach it a word, add a row to words.csv.
package language

import (
	"scullion/pantry/measure"
)

// Foods tells which sequences of words name a food, exactly or in the plural.
type Foods interface {
	Exact(words []string) []int
	MaxWords() int
}

// Reader reads messages. It is safe for use from any goroutine.
type Reader struct {
	Foods Foods
	Place string   // "uk" or "us": what a pint and a cup are
	Cooks []string // names of the kitchen's cooks, in lower case
}

// Reading is what a message says.
type Reading struct {
	Statements []Statement
	Questions  []*Question
	Undo       int    // how many of the cook's last messages to take back
	UndoFood   string // only the last one about this food; "" any
	UndoNear   bool   // only what the cook said just before: "forget it"
	Amend      *Amend
	Again      *Again
	Teaching   *Teaching
	Timer      *Timer // a wish to be called, to be told of timers, or to stop one; nil none
	Back       *Item  // what came back from the table; nil none
	Unpriced   string // a price that is of no one food of what came in: "£12"; "" none
	Unread     string // a part of a delivery that was not read, as typed: "3kg hake tailpieces in ice"; "" none
	Unclear    string // a number behind a weight that may be a count or a price: "42 behind the haddock"; "" none
	Wrong      string // why a number in it cannot be an amount; "" if none is so
	Acted      bool   // a word for an act stands in it
}

// Statement is one act.
type Statement struct {
	Act    string // receive, use, return, bin, claim, release, count, make
	Verb   string // the word for it: "chopped"
	Who    string // who did it, if not the speaker: "cem"
	Dish   string // "" none
	Items  []Item
	From   []Item // of a make: what was drawn for it
	Trim   bool   // of a bin: all of it is trim
	Heads  int    // of a use: for how many the dish is; 0 not said
	Only   bool   // of a claim: this much and no more
	Doubt  bool   // an order, a wish or hearsay: ask before writing it down
	Thrown bool   // the word for the act is one of throwing: "chucked"
	Mended bool   // the word for the act was a slip of the keys
	State  string // of a count: what was done to how it is kept: "opened", "frozen", "thawed"; it tells no balance
	Away   bool   // of a use: it left the house, and Dish says to whom
	Loose  bool   // the word for the act is said of other things as well: "put", "threw"
}

// Item is an amount of a food.
type Item struct {
	Amount Amount
	Food   string // as typed; "" where none is named
	Ref    bool   // "it", "them", "more": the food named before
	More   bool   // so much more of it
	Words  []string
	Dish   string // the dish of this item alone, where the statement has several
	Trim   bool   // peel, bones: the food's trim, not the food
	Off    string // the word for that trim: "tops"
	Thawed bool   // it was frozen and thawed before, as its words say
	Frozen bool   // of what came in: it came frozen, as was said behind its name
	Came   bool   // it was said to have come off: "300g fat off the beef"
	Whole  string // Food with the word for the part behind it, where that is its name as well: "salmon fillets"
	Best   bool   // Date was called a best-before
	Cost   int64  // in the currency's smallest unit; 0 none
	Sign   string // of the currency: "£"; "" not said
	Rated  bool   // Cost was said by the unit, or of each: it goes with the amount
	Each   string // what "each" was taken for, of pieces that came in cases: OnePiece, or Amount.Outer; "" it is no doubt
	Date   Day
	Label  bool // Date was called a use-by date or the like
}

// How says what an amount counts.
type How byte

// The ways to say an amount.
const (
	Unsaid   How = iota // no amount
	Measured            // Base, of Kind
	Pieces              // N pieces, or N of Part
	Share               // N of what is on hand
)

// Amount is how much of something.
type Amount struct {
	How     How
	Base    measure.Amount // Measured
	Kind    measure.Kind   // Measured
	N       measure.Ratio  // Pieces, Share
	Part    string         // Pieces: "clove", "tin"; "" whole ones
	Count   measure.Ratio  // Measured, and counted as well: how many (5 leeks, 1.1 kg; 2 x 400g tins)
	Pack    string         // Measured as so many packs of so much each: "tin"
	Sample  bool           // Both, and weighed to learn what one weighs: "3 leeks weigh 700 g"
	Outer   string         // of packs or pieces that came in cases: "case", "tray"
	Outers  measure.Ratio  // and in how many of them
	Perhaps bool           // of Pack: nobody has said whether the weight is of each or of all
	Both    bool           // the cook counted first, and gave the weight of all: 5 leeks, 1.1 kg
	Size    string         // Pieces: "small", "large"; "" the usual
	Unit    string         // Measured in a vague unit: "handful"; N says how many of them
	Some    bool           // Unsaid, by a word that says so: "some"
	Approx  bool           // about, or a vague measure
	EP      bool           // weighed after trimming
	Loose   bool           // Part stood behind the food's name, and may be a part of it: "salmon fillets"
	Article bool           // one, by no more than "a"
	Less    *Amount        // of a Share: all but this
	Each    bool           // of each of the foods that follow
	Said    string         // in the cook's words
	Low     measure.Amount // bounds of a vague measure or a range; 0 none
	High    measure.Amount
}

// Vague says whether the amount is a cook's measure: a handful.
func (a Amount) Vague() bool { return a.High > 0 }

// Day is a date as said; Set false means none.
type Day struct {
	Set     bool
	Days    int // from today, where Weekday, Month and Dom are 0
	Weekday int // 1 Monday to 7 Sunday, the next one from today, and Days from that
	Year    int // 0 this year or the next
	Month   int // 1 to 12
	Dom     int // day of the month; without Month, of that which is nearest
}

// Amend is a correction of what was last said.
type Amend struct {
	Amount Amount        // How Unsaid: not the amount
	Unit   string        // "" not the unit alone: "kg not lb"
	Scale  measure.Ratio // so many times what was said: "half that"; Den 0 none
	Food   string        // "" not the food
	Dish   string        // "" not the dish
	Act    string        // "" not the act: "I mean I binned it"
	Not    string        // what it was not, in words: "not the stew"
	Named  bool          // Food is the food of the entry, not what it should be: "the leek should've been 250g"
	Bare   bool          // Food may be a word of a name and no more: "no, brown"
	Near   bool          // it says so little that it only counts right behind what it corrects: "8 sorry"
}

// Again is a message that goes on from its cook's last entry: "another 40g",
// "and 6 lemons", "same again for the soup". What it leaves out is as there.
type Again struct {
	Items []Item // what more; without a food, of the same
	Same  bool   // as much as before; an item, if any, has no amount
	Dish  string // "" the dish of the last entry
	There bool   // "in it": only where there is such a dish
	Went  bool   // it or that went into Dish, and nothing more was used
}

// About says what a question is about.
type About string

// The questions that are answered; questions.csv has their forms.
const (
	AboutLeft     About = "left"
	AboutFree     About = "free"
	AboutFood     About = "food"
	AboutHolder   About = "holder"
	AboutUser     About = "user"
	AboutIdeas    About = "ideas"
	AboutWith     About = "with"
	AboutPlan     About = "plan"
	AboutNext     About = "next"
	AboutTime     About = "time"
	AboutMore     About = "more"
	AboutDo       About = "do"    // begin the idea shown as number N, the last one where N is 0; for the dish Food
	AboutHow      About = "how"   // how it is made, and all that it takes
	AboutWhy      About = "why"   // why it stands where it does
	AboutNot      About = "not"   // it is turned down
	AboutSmall    About = "small" // how small to cut it
	AboutHelp     About = "help"
	AboutWeight   About = "weight"  // what one weighs
	AboutKeep     About = "keep"    // how long it keeps
	AboutFreeze   About = "freeze"  // whether it freezes
	AboutTrim     About = "trim"    // what comes off it, and whether that is dinner
	AboutHolds    About = "holds"   // allergens and diets
	AboutCard     About = "card"    // all that is known of it
	AboutGoes     About = "goes"    // what must go today
	AboutMorning  About = "morning" // to be told that each day, at At
	AboutNoMore   About = "nomorning"
	AboutCool     About = "cool"   // how to cool it
	AboutReheat   About = "reheat" // how to reheat it
	AboutThaw     About = "thaw"
	AboutOut      About = "out"      // how long it may stand out
	AboutRefreeze About = "refreeze" // whether it may be frozen again
	AboutConvert  About = "convert"  // an amount of it in another unit
	aboutTalk     About = "talk"     // nothing of ours: "how much time is left"
	aboutTimers   About = "timers"   // which timers run; the reading has a Timer instead
)

// Shown are the questions about an idea that was shown.
var Shown = []About{AboutDo, AboutHow, AboutWhy, AboutNot}

// Question is something asked of the bot.
type Question struct {
	About  About
	Food   string
	Words  []string
	Also   []string // other foods that are asked about in the same breath
	First  bool     // nothing was said before it
	Here   bool     // it asks what there is: "how much leek is left", not "how many leeks"
	Amount Amount
	Limits               // what the answer is held to
	At     string        // a clock time, "09:00"; "" none
	Either bool          // of At: morning or evening was not said, and At is below 12:00
	Date   Day           // until when; not set where it was not said
	N      int           // the number asked about: "why 2", "do 2 for the soup"; 0 none
	Others []int         // and those: "do 1 and 3"
	Size   Size          // of a piece
	Method string        // "boil", "steam", "roast", "poach", "microwave"; "" not said
	Plain  bool          // no question word: "ideas?", "leeks?"
	Off    string        // of a food's trim: "tops"
	State  string        // "raw", "cooked", "opened": what was said of the food, if it was
	To     *measure.Unit // of a conversion: into what; nil the base unit

	Needs []TableNeed // what somebody cannot eat
	Heads int         // how many the table are, where that stands among Needs
	Cost  int64       // what food cost, in the currency's smallest unit: all of it, or a unit To, or one Each
	Sign  string      // of its currency; "" not said
	Each  bool
	Outer string   // of what Each is, where that is a case of packs: "case"
	Who   []string // names of guests
	Place string   // where guests are: "table 5", "bed 3"; who got what was given away: "the hostel"; a fridge: "fridge 2"
	Hours int      // for how many hours food was at N degrees; 0 not said
	Began string   // when food began to cool, a clock time; "" not said
	Since int      // for how many minutes it has cooled; 0 not said
}
