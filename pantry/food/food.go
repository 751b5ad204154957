// Package food is the food catalogue: what a kitchen's foods are called, what
// a piece weighs, how long they keep, what they carry. It also finds a food by
// what people call it.
//
// The figures stand in foods.csv, a row a food, which a cook can read; every
// row names its source. Start with Default (the embedded catalogue) and
// Catalogue.Find (a food by name); Read and New make a catalogue of a cook's
// own table. Index does the finding, and also finds a kitchen's lines by their
// names. A Catalogue and an Index are read-only once they have been built and
// may then be shared between goroutines.
//
// Allergens, dates and diets are a help, never a clearance: the label on the
// packet and the local food-safety rules go before anything in the table.
package food

import "scullion/pantry/measure"

// Shelf says whether a food counts as crate (must be used up) or cupboard
// (keeps; drawn on freely, not counted for waste).
type Shelf string

const (
	Crate    Shelf = "crate"
	Cupboard Shelf = "cupboard"
)

// Food is one row of the catalogue. Weights are milligrams as purchased (AP)
// unless a field says otherwise; zero means that no figure is known.
type Food struct {
	Name     string       // UK name in the singular: "leek", "goat's cheese"
	Names    []string     // what else it alone is called: US, regional, menu words, short forms
	General  []string     // words that it may share with other foods: "onion"; the usual food has the first row
	Group    string       // "allium", "root vegetable", "cheese", ...
	Kinds    []string     // marks that techniques ask for: "hard root", "soft herb", ...
	Unit     measure.Kind // Millilitre for food that is poured, else Gram
	Shelf    Shelf        // where it usually stands
	Keeper   bool         // keeps so well that carrying it over is not waste
	Piece    string       // what one of it is called where that is not its name: "bulb", "tin", "stick"
	PieceMg  measure.Amount
	SmallMg  measure.Amount
	LargeMg  measure.Amount
	Parts    []Part         // pieces of a piece, or other ways to count it
	CupMg    measure.Amount // one US cup (236.588 ml) of it
	TbspMg   measure.Amount // one US tablespoon (14.787 ml) of it
	Density  int64          // milligrams per millilitre (water 1000); 0 unknown
	Refuse   int            // usual refuse, per cent of AP
	Waste    string         // what that refuse is: "tops, root end and skin"
	Place    string         // "cupboard", "fridge" or "freezer"
	Days     int            // usual days it keeps there: the shorter of the source's figures for a use-by, their middle for a best-before
	Date     string         // "use-by" (safety) or "best-before" (quality)
	Allergen []string       // of the EU/UK 14, what it holds by nature: "gluten cereals", "milk", "tree nuts", ...
	MayCarry []string       // allergens that such food often carries: look at the label
	Vegan    string         // "yes", "no" or "check label"
	Meatless string         // fit for vegetarians: "yes", "no" or "check label"
	Kcal     float64        // per 100 g edible, as are the next four
	Protein  float64
	Fat      float64
	Carb     float64
	Fibre    float64
	Source   string // where the figures come from
}

// Part is a way to count a food other than by whole pieces.
type Part struct {
	Name string         // "clove", "sprig", "bunch", "stick"
	Mg   measure.Amount // weight of one, AP
}
