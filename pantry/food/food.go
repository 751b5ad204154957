// Package food is the food catalogue: what a kitchen's foods are called, what
// a piece weighs, how long they keep, what they carry. It also finds a food by
// what people call it.
//
// The figures stand in foods.csv, a row a food, which a cook can read; every
// row names its source. Start with Default (the embedded catalogue) and
// Catalogue.Find (a food by name). A Catalogue is read-only after it has been
// built and may be shared between goroutines.
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
	Names    []string     // what else it is called: US, regional, menu words, short forms
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
	Days     int            // usual days it keeps there
	Date     string         // "use-by" (safety) or "best-before" (quality)
	Allergen []string       // of the EU/UK 14, by their names in allergens.csv
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
