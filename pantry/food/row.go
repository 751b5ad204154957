package food

import (
	"errors"
	"fmt"
	"math"
	"scullion/pantry/measure"
	"slices"
	"strconv"
	"strings"
)

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

// merged gives parts with more of them, of which the later goes before an
// earlier one of the same name.
func merged(parts, more []Part) []Part {
	parts = slices.DeleteFunc(slices.Clone(parts), func(p Part) bool {
		return slices.ContainsFunc(more, func(m Part) bool { return m.Name == p.Name })
	})
	return append(parts, more...)
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
