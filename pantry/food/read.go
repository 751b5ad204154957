package food

import (
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"scullion/pantry/measure"
)

// header is the first line of a food table. Weights in it are grams, densities
// grams per millilitre, refuse per cent of the weight as purchased, energy and
// nutrients per 100 g edible. Lists are parted by ";", parts are "clove=5".
// An empty field is an unknown figure.
var header = []string{
	"name", "names", "general", "group", "kinds", "unit", "shelf", "keeper",
	"piece", "piece_g", "small_g", "large_g", "parts", "cup_g", "tbsp_g", "density",
	"refuse_pct", "refuse_what", "place", "days", "date", "allergens", "check_label", "vegan", "vegetarian",
	"kcal", "protein_g", "fat_g", "carb_g", "fibre_g", "source",
}

// allergens are the EU/UK 14 (Regulation (EU) 1169/2011, Annex II), by short names.
var allergens = []string{
	"gluten cereals", "crustaceans", "eggs", "fish", "peanuts", "soybeans", "milk", "tree nuts",
	"celery", "mustard", "sesame", "sulphites", "lupin", "molluscs",
}

// Read reads a food table; name stands before the line number in errors. The
// first fault ends it: an unknown column, a figure out of range, a name that
// is there twice, a liquid without a density, a row without a source.
func Read(name string, r io.Reader) ([]Food, error) {
	var foods []Food
	taken := map[string]string{}
	err := eachRow(name, r, header, func(rec []string) error {
		f, err := readRow(rec)
		if err != nil {
			return err
		}
		foods = append(foods, f)
		return f.claim(taken)
	})
	if err != nil {
		return nil, err
	}
	return foods, nil
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

// row reads one record field by field and keeps the first fault.
type row struct {
	rec []string
	err error
}

func (r *row) fail(column, why string) {
	if r.err == nil {
		r.err = errors.New(column + ": " + why)
	}
}

func (r *row) text(column string) string { return r.rec[slices.Index(header, column)] }

func (r *row) must(column string) string {
	s := strings.Clone(r.text(column))
	if s == "" {
		r.fail(column, "is empty")
	}
	return s
}

func (r *row) oneOf(column string, allowed ...string) string {
	s := r.text(column)
	if !slices.Contains(allowed, s) {
		r.fail(column, fmt.Sprintf("%q is not one of %q", s, allowed))
	}
	return s
}

// number reads a figure from 0 to most; empty is 0.
func (r *row) number(column, s string, most float64) float64 {
	if s == "" {
		return 0
	}
	n, err := strconv.ParseFloat(s, 64)
	if err != nil || !(n >= 0 && n <= most) {
		r.fail(column, fmt.Sprintf("%q is not a number from 0 to %g", s, most))
		return 0
	}
	return n
}

func (r *row) figure(column string, most float64) float64 {
	return r.number(column, r.text(column), most)
}

func (r *row) whole(column string, most int) int {
	n := r.figure(column, float64(most))
	if n != math.Trunc(n) {
		r.fail(column, "is not a whole number")
	}
	return int(n)
}

// milligrams reads grams, up to 20 kg: no piece of food weighs more.
func (r *row) milligrams(column, s string) measure.Amount {
	return measure.Amount(math.Round(r.number(column, s, 20_000) * 1000))
}

func (r *row) weight(column string) measure.Amount { return r.milligrams(column, r.text(column)) }

func (r *row) list(column string) []string {
	s := r.text(column)
	if s == "" {
		return nil
	}
	items := strings.Split(strings.Clone(s), ";")
	for i, item := range items {
		if item == "" || item != strings.TrimSpace(item) || slices.Contains(items[:i], item) {
			r.fail(column, fmt.Sprintf("item %d, %q, is empty, has space round it, or is there twice", i+1, item))
		}
	}
	return items
}

func (r *row) parts() []Part {
	var parts []Part
	for _, item := range r.list("parts") {
		what, grams, ok := strings.Cut(item, "=")
		mg := r.milligrams("parts", grams)
		if !ok || what == "" || mg == 0 {
			r.fail("parts", fmt.Sprintf("%q is not of the form clove=5", item))
		}
		parts = append(parts, Part{what, mg})
	}
	return parts
}

func readRow(rec []string) (Food, error) {
	r := &row{rec: rec}
	f := Food{
		Name: r.must("name"), Names: r.list("names"), General: r.list("general"),
		Group: r.must("group"), Kinds: r.list("kinds"),
		Shelf:  Shelf(r.oneOf("shelf", string(Crate), string(Cupboard))),
		Keeper: r.oneOf("keeper", "yes", "no") == "yes",
		Piece:  strings.Clone(r.text("piece")), PieceMg: r.weight("piece_g"),
		SmallMg: r.weight("small_g"), LargeMg: r.weight("large_g"), Parts: r.parts(),
		CupMg: r.weight("cup_g"), TbspMg: r.weight("tbsp_g"),
		Density: int64(math.Round(r.figure("density", 3) * 1000)),
		Refuse:  r.whole("refuse_pct", 95), Waste: strings.Clone(r.text("refuse_what")),
		Place: r.oneOf("place", "cupboard", "fridge", "freezer"), Days: r.whole("days", 5000),
		Date: r.oneOf("date", "use-by", "best-before"), Allergen: r.list("allergens"), MayCarry: r.list("check_label"),
		Vegan:    r.oneOf("vegan", "yes", "no", "check label"),
		Meatless: r.oneOf("vegetarian", "yes", "no", "check label"),
		Kcal:     r.figure("kcal", 910), Protein: r.figure("protein_g", 100), Fat: r.figure("fat_g", 100),
		Carb: r.figure("carb_g", 100), Fibre: r.figure("fibre_g", 100), Source: r.must("source"),
	}
	kind, err := measure.ParseKind(r.text("unit"))
	if err != nil {
		r.fail("unit", err.Error())
	}
	f.Unit = kind
	r.check(&f)
	return f, r.err
}

// check looks at what fields say together.
func (r *row) check(f *Food) {
	switch {
	case f.Unit == measure.Millilitre && f.Density == 0:
		r.fail("density", "a food that is poured needs one")
	case f.Days == 0:
		r.fail("days", "must be at least 1")
	case f.SmallMg > 0 && f.PieceMg > 0 && f.SmallMg > f.PieceMg,
		f.LargeMg > 0 && f.PieceMg > 0 && f.LargeMg < f.PieceMg:
		r.fail("piece_g", "must lie between small_g and large_g")
	case f.Protein+f.Fat+f.Carb > 101:
		r.fail("carb_g", "more than 100 g of nutrients in 100 g")
	case f.Vegan == "yes" && f.Meatless != "yes":
		r.fail("vegetarian", "what is vegan is vegetarian")
	case strings.Join(f.Called(), "") != strings.Join(slices.Compact(f.Called()), ""):
		r.fail("names", "one is there twice")
	}
	for _, a := range slices.Concat(f.Allergen, f.MayCarry) {
		if !slices.Contains(allergens, a) {
			r.fail("allergens", fmt.Sprintf("%q is not one of the 14", a))
		}
	}
}
