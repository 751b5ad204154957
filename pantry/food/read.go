package food

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"scullion/pantry/measure"
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
	if cells["density"] != "" { // it goes before the model's cup and spoon
		f.CupMg, f.TbspMg = 0, 0
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
	case f.Vegan == "yes" && slices.ContainsFunc(f.Allergen, ofAnimals):
		at("vegan", "what holds "+strings.Join(f.Allergen, ", ")+" is not")
	case twice(f.Called()):
		at("names", "one is there twice")
	}
}

// ofAnimals says whether an allergen is an animal or comes from one.
func ofAnimals(allergen string) bool {
	return slices.Contains([]string{"milk", "eggs", "fish", "crustaceans", "molluscs"}, allergen)
}

func twice(names []string) bool {
	for i, n := range names {
		if slices.Contains(names[:i], n) {
			return true
		}
	}
	return false
}
