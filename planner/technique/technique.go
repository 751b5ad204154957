// Package technique is the catalogue of techniques: ways to treat a food, each
// with its time, kit, amounts, cautions and source.
//
// The table stands in techniques.csv, a row a technique, which a cook can read
// and add to with a file of the same columns. What a food must have before
// anyone may eat it stands apart, in safety.csv, and holds over every
// technique. Start with Default (the embedded table), Of (a food and the state
// it is in) and Technique.Fit (whether the two go together, and how).
//
// Grams are edible weight, raw, unless a line says otherwise; dry goods dry,
// tins drained, mussels and clams in the shell. Minutes are decimal. Cautions
// are a help: the label and the local food-safety rules go before them. Nothing
// here changes after it is read, so all may be shared between goroutines.
package technique

import (
	_ "embed"
	"strings"
	"sync"

	"scullion/pantry/measure"
)

// Families are the families of technique, in the order of a kitchen day.
var Families = []string{
	"raw", "cure", "boil", "pan", "stir-fry", "roast", "grill", "braise", "puree",
	"microwave", "sauce", "scrap", "keep", "sweet", "pulse",
}

// Roles are what a component can do in a dish.
var Roles = []string{"star", "base", "body", "sauce", "crunch", "lift", "green", "sweet", "season"}

// Scarce is the kit that there is only so much of. Other words for kit that a
// step may name (Plenty) are never short.
var (
	Scarce = []string{"ring", "oven", "grill", "microwave", "kettle", "blender"}
	Plenty = []string{"hands", "bench", "fridge", "freezer"}
)

// Heat says how far a technique cooks. Each level includes those below it.
type Heat int

const (
	None    Heat = iota // raw
	Warm                // warmed, or set outside and soft within
	Sear                // outside browned, inside may be underdone
	Through             // hot right through
	Boil                // through, in water at the boil
)

var heats = []string{"none", "warm", "sear", "through", "boil"}

// String gives the level as the tables write it.
func (h Heat) String() string { return heats[h] }

// Technique is one row of techniques.csv.
type Technique struct {
	ID        string // "char-wedges"
	Name      string // as a cook says it
	Family    string // one of Families
	Suits     []Suit
	Never     []Never
	Role      string // one of Roles
	Heat      Heat
	Min, Max  float64 // grams (or ml, for food that is poured) a portion
	Cut       string
	Steps     []Step
	Main      int      // the step that cooks it, or -1
	Times     []Time   // unattended minutes of the main step for certain foods
	Reference string   // what the reference table of cooking times calls it
	Staples   []Staple // what it takes from the cupboard
	Yield     float64  // weight after over weight before
	Holds     []string // "hot 15 min", "fridge 2 d"
	Saves     []string // trimmings that it makes dinner of, "stalk", "leaf", as food.Trimming names them; may be none
	Caution   []Caution
	Title     string // with {food}, or {foods} where several are meant
	How       string // one line for a phone, with {food}, {foods} and {min}, the main step's minutes
	Source    string
}

// Suit is a food or kind that a technique suits; Best marks those for which it
// is what a cook would think of first.
type Suit struct {
	What string
	Best bool
}

// Never is a food or kind that a technique must not be used for. With a Reason
// it is for safety, and naming the food outright does not lift it.
type Never struct{ What, Reason string }

// Time is the main step's unattended minutes for a food or kind.
type Time struct {
	What    string
	Minutes float64
}

// Step is a step of a technique. It holds its kit for Hands plus Unattended
// minutes, and a cook for the first of these only.
type Step struct {
	What       string
	Fixed      float64 // hands-on minutes whatever the amount
	Per100     float64 // further hands-on minutes per 100 g in all
	Unattended float64
	Kit        string // one of Scarce or Plenty
	Temp       int    // C; 0 where none is set
	After      []int  // steps that must have ended
}

// Hands gives the step's hands-on minutes for so many grams.
func (s Step) Hands(grams float64) float64 { return s.Fixed + s.Per100*grams/100 }

// Heats says whether the step only brings kit to heat.
func (s Step) Heats() bool { return strings.HasPrefix(s.What, "heat ") }

// Staple is what a portion takes from the cupboard: the first of Names that is
// there. A name is a food or a kind.
type Staple struct {
	Names  []string
	Amount measure.Amount // for a portion
	Unit   measure.Kind
}

//go:embed techniques.csv
var techniquesCSV string

var defaults = sync.OnceValue(func() []Technique {
	list, err := Read("techniques.csv", strings.NewReader(techniquesCSV))
	if err != nil {
		panic(err) // the table is part of the program, and a test reads it
	}
	return list
})

// Default gives the embedded techniques. The slice belongs to the package: do
// not change it.
func Default() []Technique { return defaults() }
