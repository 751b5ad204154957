package food

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"sync"
)

// diets.csv says what is not eaten, or asked about first, by diets that foods.csv has no column
// for: halal, kosher, no pork. It never clears a food: what no row fits is not said to be fit.
// The first row of a diet that fits a food counts. by: "word" of the food's name or the line's,
// "group" of foods.csv, "why" (a mark of its why_not), "allergen" that it holds by nature, "diet"
// (all rows of that one). fit: "no", "ask", "apart" (not in one dish with what has that as its
// why), "" nothing against it here. Certifiers differ, and who keeps to a diet decides.

//go:embed diets.csv
var dietsCSV string

// What a food is to a diet.
const (
	NotFit = "no"
	AskFit = "ask"   // such food may be fit or not: the label or the supplier says
	apart  = "apart" // not in one dish with some other food
	allOf  = "diet"  // a row that stands for those of another diet
)

// dietRow is a row of diets.csv.
type dietRow struct {
	by, what, fit, why string
	words              []string // of by "word", folded
}

var dietRows = sync.OnceValue(func() map[string][]dietRow {
	rows, err := readDiets()
	if err != nil {
		return nil // the table is embedded; a test reads it and names any fault
	}
	return rows
})

func readDiets() (map[string][]dietRow, error) {
	all := map[string][]dietRow{}
	err := eachRow("diets.csv", strings.NewReader(dietsCSV), []string{"diet", "by", "what", "fit", "why", "source"}, func(rec []string) error {
		r := dietRow{by: strings.Clone(rec[1]), what: strings.Clone(rec[2]), fit: strings.Clone(rec[3]), why: strings.Clone(rec[4])}
		if !slices.Contains([]string{"word", "group", "why", "allergen", allOf}, r.by) || !slices.Contains([]string{NotFit, AskFit, apart, ""}, r.fit) || r.what == "" || r.fit != "" && r.why == "" || rec[5] == "" {
			return fmt.Errorf("%q cannot be read", rec)
		}
		if r.by == "word" {
			r.words = folded(r.what)
		}
		all[rec[0]] = append(all[strings.Clone(rec[0])], r)
		return nil
	})
	return all, err
}

// KnowsDiet says whether the table knows a diet.
func KnowsDiet(diet string) bool { return len(dietRows()[diet]) > 0 }

// ByDiet says what a food that a line calls so is to a diet: NotFit or AskFit and why, "" where
// the table has nothing against it, which is no clearance. F may be nil.
func ByDiet(diet string, f *Food, called string) (fit, why string) {
	names := [][]string{folded(called)}
	if f != nil {
		names = append(names, folded(f.Name))
	}
	for _, r := range dietRows()[diet] {
		switch {
		case r.fit == apart:
		case r.by == allOf:
			part, because := ByDiet(r.what, f, called)
			if part == NotFit {
				return part, because
			}
			if fit == "" {
				fit, why = part, because
			}
		case r.isOf(f, names) && (r.fit == NotFit || fit == ""):
			return r.fit, r.why
		}
	}
	return fit, why
}

// Apart says which of a diet's foods that are not for one dish a food is: "meat" is kept from
// "milk". "" it is none of them.
func Apart(diet string, f *Food) (is, from string) {
	if f == nil {
		return "", ""
	}
	for _, r := range dietRows()[diet] {
		if r.fit == apart && r.isOf(f, nil) {
			for _, o := range dietRows()[diet] {
				if o.fit == apart && o.why != r.why {
					return o.why, r.why
				}
			}
		}
	}
	return "", ""
}

// isOf says whether a row is of a food with these names.
func (r *dietRow) isOf(f *Food, names [][]string) bool {
	if r.by == "word" {
		return slices.ContainsFunc(names, func(n []string) bool { return standIn(n, r.words) })
	}
	switch {
	case f == nil:
		return false
	case r.by == "group":
		return f.Group == r.what
	case r.by == "allergen":
		return slices.Contains(f.Allergen, r.what)
	}
	return slices.Contains(f.WhyNot, r.what)
}
