// Package pantry is the ledger: the truth about a kitchen's stock, and nothing
// else. It knows lines (one food each), lots (one delivery each), holds (what
// a cook has asked to keep) and entries (what a cook said happened).
//
// The ledger only grows. An entry belongs to a message; when the message is
// edited, deleted, undone or corrected, a new revision of its entries is
// written and takes the old one's place, at the old one's position in the
// order of things. A balance is a fold over the entries in force, in that
// order: see Line.Apply for one step and Fold for the whole. For every line,
// at all times and to the milligram,
//
//	received + made = used + binned + on hand + variance
//
// where a return counts as a negative use, and variance is what the scales
// (or a cook who used more than there was) say differs from the record.
//
// Package store keeps all of this in SQLite. Nothing here reads the clock or
// does I/O.
package pantry

import (
	"fmt"
	"time"

	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// Act is the kind of an entry.
type Act string

// The eight acts. Amounts are never negative.
const (
	Receive Act = "receive" // a lot came in
	Use     Act = "use"     // went into a dish
	Return  Act = "return"  // put back after a use
	Bin     Act = "bin"     // thrown away; with Trim set, peel and bones, not drawn from stock
	Claim   Act = "claim"   // a cook asks to keep an amount
	Release Act = "release" // a cook gives a claim back
	Count   Act = "count"   // the scales say how much there is
	Make    Act = "make"    // a new food out of others
)

// Acts lists every act.
var Acts = []Act{Receive, Use, Return, Bin, Claim, Release, Count, Make}

// Date is a calendar day, "2026-03-04". The empty Date is none.
type Date string

// DateOf gives the day of t in t's own place.
func DateOf(t time.Time) Date { return Date(t.Format(time.DateOnly)) }

// ParseDate reads "2026-03-04".
func ParseDate(s string) (Date, error) {
	if _, err := time.Parse(time.DateOnly, s); err != nil {
		return "", fmt.Errorf("a date is year-month-day, not %q", s)
	}
	return Date(s), nil
}

// Days gives the whole days from day to d; negative where d is past.
func (d Date) Days(from Date) int {
	a, err1 := time.Parse(time.DateOnly, string(from))
	b, err2 := time.Parse(time.DateOnly, string(d))
	if err1 != nil || err2 != nil {
		return 0
	}
	return int(b.Sub(a).Hours() / 24)
}

// Add gives the day so many days after d; "" where d is none.
func (d Date) Add(days int) Date {
	t, err := time.Parse(time.DateOnly, string(d))
	if err != nil {
		return ""
	}
	return DateOf(t.AddDate(0, 0, days))
}

// Entry is one thing that a cook said happened to one line.
type Entry struct {
	Act    Act
	Line   int64          // the line's id
	Amount measure.Amount // in the line's unit
	Pieces int64          // thousandths of a piece where the cook counted; else 0
	Piece  string         // what was counted where it is not the food itself: "clove"
	Approx bool           // the cook or the conversion was not exact
	Trim   bool           // on a Bin: peel, cores, bones; on a Use: the same, of food that was drawn before
	Dish   string         // the dish it was for, or that it was given away (AwayTo); on a Make, the dish that it is what is left of; "" none
	Cook   string         // who did it
	At     time.Time      // when it was said
	Said   string         // the amount in the cook's words
	Sign   string         // of the currency of Lot.Cost, as it was said: "£"; "" not said
	// Lot is on a Receive or Make; on a Count, its PieceMg is what one piece of what is
	// left weighs. A Count with a State tells no balance: so much of what is there was
	// opened, frozen or thawed, and has this date now.
	Lot LotTerms
}

// LotTerms is what is known of a delivery when it comes in.
type LotTerms struct {
	Date    Date           // when to use it by; "" none
	Best    bool           // Date is a best-before, for quality
	State   food.State     // what was done to it; "" it is as it came
	Label   bool           // Date is from a label or the cook, not the food's usual keeping
	Cost    int64          // in the currency's smallest unit (pence); 0 unknown
	PieceMg measure.Amount // weight of one piece; 0 unknown
	Weighed bool           // PieceMg was weighed, not taken from the tables
}

// Line is one food in a kitchen's pantry, with its balances.
type Line struct {
	ID    int64
	Name  string       // what this kitchen called it when it first came in
	Food  string       // its name in the food catalogue; "" where no table knows it
	Unit  measure.Kind // of every amount on this line
	Shelf food.Shelf

	Received, Made, Used, Binned, Variance measure.Amount // Used and Variance may be negative
	Trimmed                                measure.Amount // recorded beside the balance, never drawn

	Lots  []Lot  // in order of arrival
	Holds []Hold // claims in force, in order of making
}

// Lot is one delivery of a line, and what remains of it.
type Lot struct {
	LotTerms
	Came, Left measure.Amount
	Used       int // number of the last use that drew on it, counting from 1; 0 none
}

// Hold is a claim in force.
type Hold struct {
	Cook, Dish string
	Amount     measure.Amount
}

// OnHand is what is there.
func (l *Line) OnHand() (sum measure.Amount) {
	for i := range l.Lots {
		sum += l.Lots[i].Left
	}
	return sum
}

// Claimed is what cooks have asked to keep. It may be more than is on hand.
func (l *Line) Claimed() (sum measure.Amount) {
	for i := range l.Holds {
		sum += l.Holds[i].Amount
	}
	return sum
}

// Free is what is on hand and not claimed, never less than none.
func (l *Line) Free() measure.Amount { return max(0, l.OnHand()-l.Claimed()) }

// Short is how much more is claimed than is on hand, never less than none.
// Free = OnHand - Claimed + Short.
func (l *Line) Short() measure.Amount { return max(0, l.Claimed()-l.OnHand()) }

// FreeFor is what this cook may use: what is free and what the cook has
// claimed, up to all that is on hand.
func (l *Line) FreeFor(cook string) measure.Amount {
	free := l.OnHand() - l.Claimed()
	for _, h := range l.Holds {
		if h.Cook == cook {
			free += h.Amount
		}
	}
	return max(0, min(free, l.OnHand()))
}

// Balanced says whether the line's account closes.
func (l *Line) Balanced() bool {
	return l.Received+l.Made == l.Used+l.Binned+l.OnHand()+l.Variance
}

// PieceMg is the weight of one piece of what would be drawn next; 0 where no
// lot knows it.
func (l *Line) PieceMg() measure.Amount {
	for _, i := range l.drawOrder() {
		if l.Lots[i].Left > 0 && l.Lots[i].PieceMg > 0 {
			return l.Lots[i].PieceMg
		}
	}
	for i := len(l.Lots) - 1; i >= 0; i-- {
		if l.Lots[i].PieceMg > 0 {
			return l.Lots[i].PieceMg
		}
	}
	return 0
}

// Pieces is about how many pieces are on hand, in thousandths, each lot by the
// weight of its own; 0 where no lot knows it.
func (l *Line) Pieces() (milli int64) {
	usual := l.PieceMg()
	if usual == 0 {
		return 0
	}
	for i := range l.Lots {
		one := l.Lots[i].PieceMg
		if one == 0 {
			one = usual
		}
		milli += int64(l.Lots[i].Left) * 1000 / int64(one)
	}
	return milli
}

// Weighed says whether PieceMg was weighed in this kitchen.
func (l *Line) Weighed() bool {
	mg := l.PieceMg()
	for i := range l.Lots {
		if l.Lots[i].PieceMg == mg && l.Lots[i].Weighed {
			return true
		}
	}
	return false
}

// First is the lot that would be drawn next; false where nothing is left.
func (l *Line) First() (Lot, bool) {
	for _, i := range l.drawOrder() {
		if l.Lots[i].Left > 0 {
			return l.Lots[i], true
		}
	}
	return Lot{}, false
}

// Soonest is the date of the lot that must go first, and whether it is from a
// label; the empty Date where no lot with anything left has one.
func (l *Line) Soonest() (Date, bool) {
	o, _ := l.First()
	return o.Date, o.Label
}
