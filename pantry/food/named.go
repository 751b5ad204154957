package food

import (
	_ "embed"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"

	"scullion/pantry/measure"
)

// A food that no table knows still says something by its name: "fish stock" is
// of fish. namewords.csv says which words of a name bring which allergens;
// freefrom.csv which take some off, as "gluten free" does.

//go:embed namewords.csv
var nameWordsCSV string

//go:embed freefrom.csv
var freeFromCSV string

// brings is what words of a name say of the fourteen.
type brings struct {
	holds, may []string
	free       []string // taken off what other words bring
}

type nameTables struct {
	words, free map[string]brings // by their folded words
}

var nameTable = sync.OnceValue(func() *nameTables {
	t, _ := readNameTables() // the tables are embedded; a test reads them and names any fault
	return t
})

func readNameTables() (*nameTables, error) {
	t := &nameTables{map[string]brings{}, map[string]brings{}}
	err := eachRow("namewords.csv", strings.NewReader(nameWordsCSV), []string{"words", "allergens", "check_label", "source"}, func(rec []string) error {
		return t.add(t.words, rec, brings{holds: allergensIn(rec[1]), may: allergensIn(rec[2])})
	})
	if err != nil {
		return t, err
	}
	return t, eachRow("freefrom.csv", strings.NewReader(freeFromCSV), []string{"words", "free_of", "check_label", "source"}, func(rec []string) error {
		return t.add(t.free, rec, brings{free: allergensIn(rec[1]), may: allergensIn(rec[2])})
	})
}

func allergensIn(cell string) (list []string) {
	for _, a := range strings.Split(cell, ";") {
		list = addOnce(list, strings.Clone(a))
	}
	return list
}

// add files a row under each of its words; rows of the same words add up.
func (t *nameTables) add(to map[string]brings, rec []string, b brings) error {
	if rec[3] == "" {
		return errors.New(rec[0] + ": without a source")
	}
	for _, a := range slices.Concat(b.holds, b.may, b.free) {
		if !slices.Contains(allergenTable().names, a) {
			return fmt.Errorf("%q is not one of the 14", a)
		}
	}
	for _, w := range strings.Split(rec[0], ";") {
		k := key(w)
		if k == "" {
			return fmt.Errorf("%q is no word", w)
		}
		was := to[k]
		was.join(b)
		to[k] = was
	}
	return nil
}

func (b *brings) join(o brings) {
	for _, a := range o.holds {
		b.holds = addOnce(slices.Clip(b.holds), a)
	}
	for _, a := range o.may {
		b.may = addOnce(slices.Clip(b.may), a)
	}
	for _, a := range o.free {
		b.free = addOnce(slices.Clip(b.free), a)
	}
}

// Named gives a food of which its name is all that is known: what its words say
// that it holds and may carry, and nobody has said more (Unasked). "Coconut milk
// soup" holds no milk by its name, "vegan cheese" may, for its label says.
func Named(name string) *Food {
	f := unsaid()
	f.Name, f.Unit = name, measure.Gram
	words := folded(name)
	var free, all brings
	var left []string
	for i := 0; i < len(words); {
		if b, n := longest(nameTable().free, words[i:]); n > 0 {
			free.join(b)
			i += n
			continue
		}
		left = append(left, words[i])
		i++
	}
	for i := 0; i < len(left); {
		b, n := longest(nameTable().words, left[i:])
		if c, m := longest(catalogueBrings(), left[i:]); m > n {
			b, n = c, m
		}
		all.join(b)
		i += max(1, n)
	}
	for _, a := range all.holds {
		if !slices.Contains(free.free, a) {
			f.Allergen = append(f.Allergen, a)
		}
	}
	all.may = slices.DeleteFunc(all.may, func(a string) bool { return slices.Contains(free.free, a) })
	f.fitByName()
	for _, a := range slices.Concat(all.may, free.may) {
		if !slices.Contains(f.Allergen, a) {
			f.MayCarry = addOnce(f.MayCarry, a)
		}
	}
	return &f
}

// FreeBy gives the allergens that words of a name take off: of "gf flour" gluten cereals.
func FreeBy(name string) []string {
	var free brings
	words := folded(name)
	for i := range words {
		b, _ := longest(nameTable().free, words[i:])
		free.join(b)
	}
	return free.free
}

// fitByName says of a named food for whom it is not, by what it holds.
func (f *Food) fitByName() {
	for _, a := range f.Allergen {
		switch a {
		case "fish":
			f.Vegan, f.Meatless, f.WhyNot = "no", "no", addOnce(f.WhyNot, "fish")
		case "crustaceans", "molluscs":
			f.Vegan, f.Meatless, f.WhyNot = "no", "no", addOnce(f.WhyNot, "shellfish")
		case "milk":
			f.Vegan, f.WhyNot = "no", addOnce(f.WhyNot, "milk")
		case "eggs":
			f.Vegan, f.WhyNot = "no", addOnce(f.WhyNot, "egg")
		}
	}
}

// catalogueBrings is what the catalogue's foods hold, by the names that are theirs alone.
var catalogueBrings = sync.OnceValue(func() map[string]brings {
	t := map[string]brings{}
	for _, f := range Default().Foods() {
		if len(f.Allergen) > 0 && f.Group != prepared {
			for _, n := range f.own() {
				t[key(n)] = brings{holds: f.Allergen}
			}
		}
	}
	return t
})

// longest gives what the most of the first words that stand in a table together
// say, and how many those are.
func longest(table map[string]brings, words []string) (b brings, n int) {
	for n := min(len(words), mostNameWords); n > 0; n-- {
		if b, ok := table[strings.Join(words[:n], " ")]; ok {
			return b, n
		}
	}
	return brings{}, 0
}

// mostNameWords is the most words of a row of namewords.csv.
const mostNameWords = 4
