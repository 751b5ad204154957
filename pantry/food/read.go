package food

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"scullion/pantry/measure"
)

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
		{"parts", func(r *row, f *Food) { f.Parts = r.parts() }},
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
		{"kcal", func(r *row, f *Food) { f.Kcal = r.figure(910) }},
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

const mostDays = 5000

// Header gives the headings of every column a food table may have.
func Header() []string {
	var names []string
	for _, c := range columns {
		names = append(names, c.name)
	}
	return names
}

// Read reads a food table; name stands before the line number in errors. Its
// first line names the columns: "name", and any others of Header in any order.
// What it leaves out is unknown; a food without an answer on allergens is
// Unasked ("none" is an answer). The first fault ends it: an unknown column, a
// figure out of range, a name that is there twice, a liquid without a density.
func Read(name string, r io.Reader) ([]Food, error) {
	var foods []Food
	taken := map[string]string{}
	err := eachFood(name, r, Header(), func(cells map[string]string) error {
		f, err := readCells(cells, nil)
		foods = append(foods, f)
		if err == nil {
			err = f.claim(taken)
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	return foods, nil
}

// eachFood goes through a food table that has some of the known columns.
func eachFood(name string, r io.Reader, known []string, do func(cells map[string]string) error) error {
	in := csv.NewReader(r)
	in.Comment = '#'
	head, err := in.Read()
	if err == io.EOF {
		return fmt.Errorf("%s: is empty; its first line names the columns, as in: name,parts,allergens", name)
	}
	if err == nil {
		err = checkHeader(head, known)
	}
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	for {
		rec, err := in.Read()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		cells := map[string]string{}
		for i, c := range rec {
			cells[head[i]] = c
		}
		if err := do(cells); err != nil {
			line, _ := in.FieldPos(0)
			return fmt.Errorf("%s:%d: %w", name, line, err)
		}
	}
}

func checkHeader(head, known []string) error {
	for i, h := range head {
		switch {
		case !slices.Contains(known, h):
			return fmt.Errorf("there is no column %q; known are %s", h, strings.Join(known, ", "))
		case slices.Contains(head[:i], h):
			return fmt.Errorf("the column %q is there twice", h)
		}
	}
	if !slices.Contains(head, "name") {
		return errors.New(`the column "name" is missing`)
	}
	return nil
}

// claim enters the food's names in taken, and refuses one that is there.
func (f *Food) claim(taken map[string]string) error {
	for _, n := range f.own() {
		k := key(n)
		if k == "" {
			return fmt.Errorf("%q is no name", n)
		}
		if other, ok := taken[k]; ok {
			return fmt.Errorf("%q is a name of %s already", n, other)
		}
		taken[k] = f.Name
	}
	return nil
}

// unsaid is a food of which nothing has been said.
func unsaid() Food {
	return Food{Group: "own", Unit: measure.Gram, Shelf: Crate, Unasked: true, Vegan: "check label", Meatless: "check label",
		Keeps: Keeping{Place: "fridge", Date: "best-before"}}
}

// readCells reads a food from its cells, by the headings of their columns. It
// has from model, which may be nil, all that the cells do not say.
func readCells(cells map[string]string, model *Food) (Food, error) {
	f := unsaid()
	if model != nil {
		f = model.copied()
		f.Names, f.General, f.Source = nil, nil, "like "+model.Name+", as this kitchen says"
		f.Unasked = true // what it holds must be said of it itself
		f.Vegan, f.Meatless = "check label", "check label"
	}
	r := &row{}
	for _, c := range columns {
		s := cells[c.name]
		if s != strings.TrimSpace(s) {
			r.column = c.name
			r.fail(fmt.Sprintf("space around %q", s))
		}
		if s == "" {
			continue
		}
		r.column, r.cell = c.name, s
		c.read(r, &f)
	}
	if r.column = "name"; f.Name == "" {
		r.fail("is empty")
	}
	if f.Source == "" {
		f.Source = "this kitchen's own"
	}
	f.Keeps.Days = map[string]int{"cupboard": f.Keeps.Cup, "fridge": f.Keeps.Fridge, "freezer": f.Keeps.Freezer}[f.Keeps.Place]
	r.check(&f)
	return f, r.err
}

// copied is a food that may be changed without changing f.
func (f *Food) copied() Food {
	c := *f
	c.Names, c.General, c.Parts = slices.Clone(f.Names), slices.Clone(f.General), slices.Clone(f.Parts)
	return c
}

// row reads one record cell by cell and keeps the first fault.
type row struct {
	column, cell string
	err          error
}

func (r *row) fail(why string) {
	if r.err == nil {
		r.err = errors.New(r.column + ": " + why)
	}
}

// text gives the cell as it stands.
func (r *row) text() string { return strings.Clone(r.cell) }

func (r *row) oneOf(allowed []string) string {
	if !slices.Contains(allowed, r.cell) {
		r.fail(fmt.Sprintf("%q is not one of %s", r.cell, strings.Join(allowed, ", ")))
	}
	return strings.Clone(r.cell)
}

// number reads a figure from 0 to most.
func (r *row) number(s string, most float64) float64 {
	n, err := strconv.ParseFloat(s, 64)
	if err != nil || !(n >= 0 && n <= most) {
		r.fail(fmt.Sprintf("%q is not a number from 0 to %g", s, most))
		return 0
	}
	return n
}

func (r *row) figure(most float64) float64 { return r.number(r.cell, most) }

func (r *row) whole(most int) int {
	n := r.figure(float64(most))
	if n != math.Trunc(n) {
		r.fail("is not a whole number")
	}
	return int(n)
}

// milligrams reads grams, up to 20 kg: no piece of food weighs more.
func (r *row) milligrams(s string) measure.Amount {
	return measure.Amount(math.Round(r.number(s, 20_000) * 1000))
}

func (r *row) weight() measure.Amount { return r.milligrams(r.cell) }

func (r *row) unit() measure.Kind {
	kind, err := measure.ParseKind(r.cell)
	if err != nil {
		r.fail(err.Error())
	}
	return kind
}

func (r *row) list() []string {
	items := strings.Split(strings.Clone(r.cell), ";")
	for i, item := range items {
		if item == "" || item != strings.TrimSpace(item) || slices.Contains(items[:i], item) {
			r.fail(fmt.Sprintf("item %d, %q, is empty, has space round it, or is there twice", i+1, item))
		}
	}
	return items
}

func (r *row) listOf(allowed []string) []string {
	items := r.list()
	for _, item := range items {
		if !slices.Contains(allowed, item) {
			r.fail(fmt.Sprintf("%q is not one of %s", item, strings.Join(allowed, ", ")))
		}
	}
	return items
}

// allergens reads a list of them, or "none".
func (r *row) allergens() []string {
	if r.cell == "none" {
		return nil
	}
	return r.listOf(allergenTable().names)
}

func (r *row) parts() []Part {
	var parts []Part
	for _, item := range r.list() {
		what, grams, ok := strings.Cut(item, "=")
		if !ok || what == "" {
			r.fail(fmt.Sprintf("%q is not of the form clove=5", item))
			break
		}
		mg := r.milligrams(grams)
		if mg == 0 {
			r.fail(fmt.Sprintf("a %s weighs something", what))
		}
		parts = append(parts, Part{what, mg})
	}
	return parts
}

// check looks at what cells say together.
func (r *row) check(f *Food) {
	at := func(column, why string) { r.column = column; r.fail(why) }
	switch {
	case f.Unit == measure.Millilitre && f.Density == 0:
		at("density", "a food that is poured needs one")
	case f.SmallMg > 0 && f.PieceMg > 0 && f.SmallMg > f.PieceMg,
		f.LargeMg > 0 && f.PieceMg > 0 && f.LargeMg < f.PieceMg:
		at("piece_g", "must lie between small_g and large_g")
	case f.Protein+f.Fat+f.Carb > 101:
		at("carb_g", "more than 100 g of nutrients in 100 g")
	case f.Vegan == "yes" && f.Meatless != "yes":
		at("vegetarian", "what is vegan is vegetarian")
	case twice(f.Called()):
		at("names", "one is there twice")
	}
}

func twice(names []string) bool {
	for i, n := range names {
		if slices.Contains(names[:i], n) {
			return true
		}
	}
	return false
}
