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
	Taste    Taste        // how it tastes and feels; zero where nobody has said
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
	Refuse   int            // published refuse, per cent of AP; see Edible for what a kitchen makes of it
	Waste    string         // what that refuse is: "tops, root end and skin"
	Trim     []Trimming     // what comes off it, and whether that is dinner
	Keeps    Keeping        // how long, and where
	Allergen []string       // of the EU/UK 14, what it holds by nature: "gluten cereals", "milk", "tree nuts", ...
	MayCarry []string       // allergens that such food often carries: look at the label
	Unasked  bool           // nobody has said what allergens it holds: unknown, not none
	Vegan    string         // "yes", "no" or "check label"
	Meatless string         // fit for vegetarians: "yes", "no" or "check label"
	WhyNot   []string       // why it is not, or may not be: "milk", "animal rennet", "may hold fish"
	Figures  bool           // Kcal and the next four are known; salt has none of any
	Kcal     float64        // per 100 g edible, as are the next four
	Protein  float64
	Fat      float64
	Carb     float64 // by difference: fibre is in it
	Fibre    float64
	Covered  float64 // of the weight, how much the figures are of, from 0 to 1, where food was made of some without; 0 all
	Source   string  // where the figures come from
}

// Part is a way to count a food other than by whole pieces.
type Part struct {
	Name string         // "clove", "sprig", "bunch", "stick"
	Mg   measure.Amount // weight of one, AP
}

// Keeping is how long a food usually keeps, unopened and uncut, in whole days;
// 0 means that it is not kept there, or that no figure is known.
type Keeping struct {
	Place   string // where it usually stands: "cupboard", "fridge" or "freezer"
	Date    string // "use-by" (safety: the shorter published figure) or "best-before" (quality: the middle)
	Days    int    // in Place
	Cup     int    // in the cupboard
	Fridge  int
	Freezer int // for quality alone
}

// Taste is how a food tastes and feels, by the words of the columns' lists in
// columns.go. All of it is common practice, no source.
type Taste struct {
	Marks    []string // one to three, the leading one first: "sweet", "earthy"
	Strength int      // 1 carries others, 2 is heard, 3 takes over
	Raw      string   // texture as it comes: "crisp"; "not raw" where it must not be eaten so
	Cooked   string   // texture when cooked: "silky", "as it is"
	Water    string   // what its water does: "holds", "weeps", "drinks", ...
}
