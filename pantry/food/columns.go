package food

import "math"

// column is one column of a food table: its heading, and how a cell of it that
// is not empty is read into a food.
type column struct {
	name string
	read func(r *row, f *Food)
}

// columns are those that a food table may have, in the order of foods.csv.
// Weights are grams as purchased, densities grams per millilitre, refuse per
// cent of the weight as purchased, energy and nutrients per 100 g edible. Lists
// are parted by ";", parts are "clove=5". An empty cell is an unknown figure.
var columns []column

func init() { // not a literal: the readers name the columns themselves
	columns = []column{
		{"name", func(r *row, f *Food) { f.Name = r.text() }},
		{"names", func(r *row, f *Food) { f.Names = r.list() }},
		{"general", func(r *row, f *Food) { f.General = r.list() }},
		{"group", func(r *row, f *Food) { f.Group = r.text() }},
		{"kinds", func(r *row, f *Food) { f.Kinds = r.list() }},
		{"taste", func(r *row, f *Food) { f.Taste.Marks = r.listOf(tastes) }},
		{"strength", func(r *row, f *Food) { f.Taste.Strength = r.whole(3) }},
		{"raw", func(r *row, f *Food) { f.Taste.Raw = r.oneOf(texturesRaw) }},
		{"cooked", func(r *row, f *Food) { f.Taste.Cooked = r.oneOf(texturesCooked) }},
		{"water", func(r *row, f *Food) { f.Taste.Water = r.oneOf(waters) }},
		{"unit", func(r *row, f *Food) { f.Unit = r.unit() }},
		{"shelf", func(r *row, f *Food) { f.Shelf = Shelf(r.oneOf([]string{string(Crate), string(Cupboard)})) }},
		{"keeper", func(r *row, f *Food) { f.Keeper = r.oneOf([]string{"yes", "no"}) == "yes" }},
		{"piece", func(r *row, f *Food) { f.Piece = r.text() }},
		{"piece_g", func(r *row, f *Food) { f.PieceMg = r.weight() }},
		{"small_g", func(r *row, f *Food) { f.SmallMg = r.weight() }},
		{"large_g", func(r *row, f *Food) { f.LargeMg = r.weight() }},
		{"parts", func(r *row, f *Food) { f.Parts = merged(f.Parts, r.parts()) }},
		{"cup_g", func(r *row, f *Food) { f.CupMg = r.weight() }},
		{"tbsp_g", func(r *row, f *Food) { f.TbspMg = r.weight() }},
		{"density", func(r *row, f *Food) { f.Density = int64(math.Round(r.figure(3) * 1000)) }},
		{"refuse_pct", func(r *row, f *Food) { f.Refuse = r.whole(95) }},
		{"refuse_what", func(r *row, f *Food) { f.Waste = r.text() }},
		{"place", func(r *row, f *Food) { f.Keeps.Place = r.oneOf(places) }},
		{"date", func(r *row, f *Food) { f.Keeps.Date = r.oneOf([]string{"use-by", "best-before"}) }},
		{"cupboard_days", func(r *row, f *Food) { f.Keeps.Cup = r.whole(mostDays) }},
		{"fridge_days", func(r *row, f *Food) { f.Keeps.Fridge = r.whole(mostDays) }},
		{"freezer_days", func(r *row, f *Food) { f.Keeps.Freezer = r.whole(mostDays) }},
		{"allergens", func(r *row, f *Food) { f.Allergen, f.Unasked = r.allergens(), false }},
		{"check_label", func(r *row, f *Food) { f.MayCarry = r.listOf(allergenTable().names) }},
		{"vegan", func(r *row, f *Food) { f.Vegan = r.oneOf(answers) }},
		{"vegetarian", func(r *row, f *Food) { f.Meatless = r.oneOf(answers) }},
		{"why_not", func(r *row, f *Food) { f.WhyNot = r.listOf(whyNots) }},
		{"kcal", func(r *row, f *Food) { f.Kcal, f.Figures = r.figure(910), r.text() != "" }},
		{"protein_g", func(r *row, f *Food) { f.Protein = r.figure(100) }},
		{"fat_g", func(r *row, f *Food) { f.Fat = r.figure(100) }},
		{"carb_g", func(r *row, f *Food) { f.Carb = r.figure(100) }},
		{"fibre_g", func(r *row, f *Food) { f.Fibre = r.figure(100) }},
		{"source", func(r *row, f *Food) { f.Source = r.text() }},
	}
}

// What the cells of some columns may say.
var (
	places  = []string{"cupboard", "fridge", "freezer"}
	answers = []string{"yes", "no", "check label"}
	whyNots = []string{
		"meat", "poultry", "fish", "shellfish", "gelatine", "animal rennet", "animal fat", "milk", "egg", "honey", "anchovy",
		"insect colour", "isinglass", "bone char", "may hold meat stock", "may hold fish", "may hold milk", "may hold egg",
		"may hold animal fat", "may hold gelatine", "may hold honey", "may hold isinglass", "may hold animal rennet", "may hold shellfish",
	}
	tastes = []string{
		"sweet", "sour", "salty", "bitter", "umami", "hot", "fat", "earthy", "grassy", "floral", "smoky", "marine", "nutty", "mild",
	}
	texturesRaw = []string{
		"crisp", "crunchy", "hard", "firm", "soft", "juicy", "leafy", "creamy", "chewy", "crumbly", "flaky", "liquid", "powder", "sticky", "not raw",
	}
	texturesCooked = []string{
		"tender", "soft", "firm", "creamy", "crisp", "crunchy", "juicy", "silky", "flaky", "chewy", "jammy", "melting", "wilted",
		"collapsing", "floury", "sticky", "crumbly", "liquid", "as it is",
	}
	waters = []string{"holds", "weeps", "drinks", "melts", "thickens", "splits", "sets"}
)
