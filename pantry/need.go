package pantry

import "time"

// NeedKinds lists them all.
var NeedKinds = []NeedKind{NeedAllergy, NeedFood, NeedDiet, NeedHeads, NeedOver}

// NeedKind says what sort of thing a Need is.
type NeedKind string

// The kinds of need.
const (
	NeedAllergy NeedKind = "allergy" // or an intolerance: What are allergens of the EU/UK 14, "+" between
	NeedFood    NeedKind = "food"    // a food that is none of those: What is its name
	NeedDiet    NeedKind = "diet"    // What is "vegan", "vegetarian", or another that no table knows: "halal"
	NeedHeads   NeedKind = "heads"   // how many the table are: Count
	NeedOver    NeedKind = "over"    // no longer: What as above, "" all that was said before of Who
)

// Everyone is the Count of a need that all at the table have.
const Everyone = 1_000_000 // more than any seats

// Need is something said of what somebody may not be given, or does not eat.
type Need struct {
	N       int64     // n of the message it belongs to
	At      time.Time // when that was said
	Who     string    // a guest or a cook, as entries call the cook; "table 4"; "" the table
	Lasting bool      // of a person, until it is said to be over
	Stays   bool      // of a bed, a ward, a class, until it is said to be over; neither: for the service
	Day     Date      // the day it is for; "" from when it was said
	Kind    NeedKind
	What    string
	Count   int    // how many; 0 not said
	Said    string // in words: "nut allergy", "coeliac"
}
