// Package paper prints what a kitchen keeps: dish sheets, to be read, printed, counted with and
// cooked again, and labels for what is put away. It is handed values (account.Sheet, Label) and
// gives text; it does no I/O and knows no clock and no chat.
//
// Start with Markdown, HTML, CSV and JSONLD (a sheet in four forms, all of the same view), Scale
// (a sheet for other portions), ReadJSONLD (a recipe to cook again) and Labels.
//
// Every form escapes what cooks have typed. Allergens and diets are a help, never a clearance,
// and every sheet says so.
package paper

import (
	"cmp"
	"strings"
	"time"

	"scullion/pantry/account"
)

// Options say how a sheet is printed. The zero value prints it as cooked, in UTC.
type Options struct {
	Portions int               // to scale to; 0: as cooked
	Title    string            // a nicer name than the ledger's; "" none
	Names    map[string]string // what cooks are shown as, by what the ledger calls them
	Place    *time.Location    // for times; nil: UTC
	Currency string            // its sign, "£" or "EUR"; "" none
	US       bool              // the US nine allergens beside the EU and UK fourteen
	Storage  string            // how long it keeps and where; "" nobody has said
}

// view is a sheet in words, as every form prints it.
type view struct {
	Title    string
	For      string // "4 portions."
	Made     string // when and by whom
	Portions int    // 0 unknown
	Parts    []row
	Total    row
	Planned  string   // what is of the plan and was not logged; "" none
	Steps    []step   // in order of time
	StepNote string   // of whose amounts they speak; "" nothing to say
	Notes    []string // on scaling
	Yield    string   // before cooking
	Came     string   // once cooked; "" nobody said
	Usual    string   // of what EP is not by what was said; "" nothing
	Cost     string
	Energy   []figure // empty where nothing has figures
	Share    string   // of how much of the weight there are figures
	Lists    []list   // allergens by whose law
	Unknown  string   // what nobody knows the allergens of; "" none
	Diets    []string
	Keeping  []string

	sheet *account.Sheet // as printed
}

// row is one ingredient in words; cells are "" where there is nothing to say.
type row struct {
	Item, AP, EP, APEach, EPEach, Cost string
	Count                              string // "about 2"
	Planned                            bool
}

type step struct {
	At, Do  string
	Planned bool
}

// figure is one of energy and macronutrients; Each is a portion's.
type figure struct{ Name, Dish, Each string }

// list is the allergens by one law.
type list struct {
	Law   string
	Holds []string // "milk (cream, butter)"
	May   []string
	Note  string
}

// caution stands under every list of allergens.
const caution = "This may be incomplete: check labels, and ask who cooked."

// keepSafe stands on every sheet, whatever else is known. UK FSA, USDA FSIS (memory): the
// temperatures and times are left to the local rules.
const keepSafe = "Hot food is held hot and cold food cold. What is left is cooled fast, in shallow trays, and dated. Local food-safety rules and labels come first."

// see puts a sheet into words.
func see(s *account.Sheet, o Options) *view {
	was := s.Portions
	v := &view{Title: cmp.Or(plain(o.Title), capital(plain(s.Dish)), "Dish without a name")}
	if o.Portions > 0 {
		s, v.Notes = Scale(s, o.Portions)
	}
	v.sheet, v.Portions = s, s.Portions
	switch {
	case s.Portions == 0 && s.Covers > 0:
		v.For = "Nobody said for how many; for the " + num(s.Covers) + " covers it is too little each."
	case s.Portions == 0:
		v.For = "Nobody said for how many."
	case s.Covers > 0 && s.Portions == was:
		v.For = "Portions not told: taken as " + num(s.Covers) + ", the covers."
	case s.Covers > 0:
		v.For = portions(s.Portions) + ", scaled from " + num(was) + ", the covers: portions were not told."
	case s.Portions != was:
		v.For = portions(s.Portions) + ", scaled from " + num(was) + "."
	default:
		v.For = portions(s.Portions) + "."
	}
	v.Made = made(s, o)
	v.parts(s, o, was)
	v.steps(s, o)
	v.money(s, o)
	v.energy(s)
	v.allergens(s, o)
	v.Diets = []string{diet("Vegan", s.Vegan, len(s.Parts)), diet("Vegetarian", s.Meatless, len(s.Parts))}
	if len(s.Textures) > 0 {
		v.Diets = append(v.Diets, "Textures asked for: "+strings.Join(s.Textures, ", ")+". Not checked here: test each before it goes out.")
	}
	if o.Storage != "" {
		v.Keeping = append(v.Keeping, plain(o.Storage))
	}
	v.Keeping = append(v.Keeping, keepSafe)
	if s.Portions != was {
		v.StepNote = "As it was cooked for " + num(was) + ": the amounts and times in the steps are of that day."
	}
	return v
}
