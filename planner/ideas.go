// Package planner turns what a kitchen has free into things to do with it.
//
// Ideas gives single ideas, best first, quickly enough to be asked after every
// message. The package is pure: it is handed values and gives values back,
// reads no clock and no store, and the same input gives the same answer. The
// techniques, their times and their cautions come from package technique,
// whose safety rules hold over all that is ranked here.
//
// Amounts are base units as purchased, minutes are whole and rounded up.
package planner

import (
	"math"

	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// Undated is Days for stock that has no date.
const Undated = math.MaxInt32

// Usual is the minutes an idea may take where none are asked.
const Usual = 45

// Stock is one line of the pantry with what is free of it.
type Stock struct {
	Item  string     // what the kitchen calls it
	Food  *food.Food // nil: no table knows it, and there are no ideas for it
	Free  measure.Amount
	Unit  measure.Kind
	Crate bool           // must be used up
	Days  int            // days left to its date, negative when past; Undated when none
	Each  measure.Amount // what one weighs, where that is known here; 0 the catalogue's
}

// Ask is what is to be thought about.
type Ask struct {
	Stock    []Stock
	Minutes  int            // 0: Usual
	Kit      map[string]int // kit at hand; nil: DefaultKit. What needs kit that is not there is left out
	Focus    string         // the Item to use; "" any
	Portions int            // 0: what the amount is good for, four at most
	Turned   []Choice       // turned down: not offered
	Menu     []Choice       // what is being made in this service: the like of it ranks lower
	Needs    Needs          // of the table
	Serve    Serve          // hot or cold
	Most     int            // 0, or more than twelve: twelve
}

// Choice is a technique that a cook has chosen, or turned down, for a line.
type Choice struct {
	Technique string // id, of a frame too
	Item      string // "" any
	Palette   string // id; "" none
}

// Serve says how food is to come to the table.
type Serve string

// The ways; "" is any.
const (
	Hot  Serve = "hot"
	Cold Serve = "cold"
)

// Use is an amount of a line, or of something in the cupboard.
type Use struct {
	Item   string
	Amount measure.Amount
	Unit   measure.Kind
	Each   measure.Amount // what one weighs, of food that is counted under its own name; 0 none
	Role   string         // of a dish: what it does there, "base"; "" no more than a staple
	Cut    string         // "slices of 5 mm"; "" as it is
}

// Idea is one thing to do now.
type Idea struct {
	Title     string // "charred leek wedges, mustard dressing"
	Technique string // id, of a frame where Palette or several Uses with a Role are given
	Palette   string // id, of a dish
	Role      string // what it would be in a dish: "star", "base", "crunch"
	How       string // one line
	Uses      []Use  // lines drawn on, the main one first; never more than is free
	Cupboard  []Use  // staples besides, held or not; water is left out
	Steps     []Step // in the order in which one cook does them
	Minutes   int    // from cold kit to the plate, one cook
	HandsOn   int
	Kit       []string // scarce kit, "ring", "oven"
	Portions  int
	Allergens []string // of the EU/UK 14 that its foods carry by nature; not a clearance
	Cautions  []string
	Why       []Reason
	Score     float64 // the product of Why. The first few are put before others to differ from each other
}

// most ideas given for one asking.
const most = 12

// Ideas gives things to do with what is free, best first; nil when nothing is.
// The first few differ in technique family, and in food where several are free.
// Food past a use-by date is never used.
func Ideas(a Ask) []Idea {
	k := newKitchen(a)
	n := most
	if a.Most > 0 {
		n = min(n, a.Most)
	}
	return k.write(k.pick(append(k.candidates(), k.dishes()...), n))
}

// DefaultKit gives the kit of a common kitchen.
func DefaultKit() map[string]int {
	return map[string]int{"ring": 4, "oven": 1, "grill": 1, "microwave": 1, "kettle": 1, "blender": 1}
}
