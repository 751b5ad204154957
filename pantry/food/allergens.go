package food

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"sync"
)

// The tables name allergens as the EU and UK do, fourteen of them. The United
// States name nine. allergens.csv pairs them; us_foods.csv says where the food
// decides: which cereal it is of, and which nuts only the US list has.

//go:embed allergens.csv
var allergensCSV string

//go:embed us_foods.csv
var usFoodsCSV string

type allergenTables struct {
	names []string          // the fourteen, in the order of Annex II
	us    map[string]string // EU and UK name -> US name; "" where it is none of the nine
	foods []usFood          // the first that fits a food's names decides
}

// usFood is one row of us_foods.csv.
type usFood struct {
	words    []string // folded, found side by side in a name of the food
	allergen string   // the EU and UK name that it explains; "" for a food that has none
	us       string   // the US name; "" for none
}

var allergenTable = sync.OnceValue(func() *allergenTables {
	t, _ := readAllergens() // the tables are embedded; a test reads them and names any fault
	return t
})

func readAllergens() (*allergenTables, error) {
	t := &allergenTables{us: map[string]string{}}
	err := eachRow("allergens.csv", strings.NewReader(allergensCSV), []string{"allergen", "us", "note", "source"}, t.addName)
	if err != nil {
		return t, err
	}
	return t, eachRow("us_foods.csv", strings.NewReader(usFoodsCSV), []string{"words", "allergen", "us", "note", "source"}, t.addFood)
}

func (t *allergenTables) addName(rec []string) error {
	name := strings.Clone(rec[0])
	if name == "" || rec[3] == "" || slices.Contains(t.names, name) {
		return fmt.Errorf("%q is empty, without a source, or there twice", name)
	}
	t.names = append(t.names, name)
	t.us[name] = strings.Clone(rec[1])
	return nil
}

func (t *allergenTables) addFood(rec []string) error {
	row := usFood{folded(rec[0]), strings.Clone(rec[1]), strings.Clone(rec[2])}
	if len(row.words) == 0 || rec[4] == "" {
		return fmt.Errorf("%q needs words and a source", rec[0])
	}
	if row.allergen == "" && row.us == "" || row.allergen != "" && !slices.Contains(t.names, row.allergen) {
		return fmt.Errorf("%q is not one of the 14", row.allergen)
	}
	t.foods = append(t.foods, row)
	return nil
}

// Allergens lists the fourteen of the EU and UK, in the order of Annex II.
func Allergens() []string { return slices.Clone(allergenTable().names) }

// US gives the US names of allergens under their EU and UK names: of the nine
// major food allergens, those that these fall under. Gluten cereals become
// "wheat (check label)", since US law names wheat alone; Food.USAllergens looks
// at the food as well. Sulphites are none of the nine, but US labels declare
// them too. A name that is none of the fourteen is passed over.
func US(allergens []string) []string {
	var us []string
	for _, a := range allergens {
		us = addOnce(us, allergenTable().us[a])
	}
	return us
}

// USAllergens gives the US names of what the food holds by nature (Allergen):
// "milk", "crustacean shellfish", "wheat", "tree nuts", ... Where the food's
// names do not tell whether its cereal is wheat it is "wheat (check label)".
// For what such a food often carries ask US(f.MayCarry). As with every
// allergen here the label goes before it.
//
// Sources: Regulation (EU) 1169/2011 Annex II; the US Food Allergen Labeling
// and Consumer Protection Act of 2004 and FASTER Act of 2021.
func (f *Food) USAllergens() []string {
	var us []string
	names := f.marks()
	for _, a := range f.Allergen {
		if is, ok := usByFood(names, a); ok {
			us = addOnce(us, is)
		} else {
			us = addOnce(us, allergenTable().us[a])
		}
	}
	only, _ := usByFood(names, "") // on the US list alone
	return addOnce(us, only)
}

// marks gives the folded words of all that tells what the food is made of. The
// general words are left out: "bread" is also what a bread of rice is called.
func (f *Food) marks() [][]string {
	var marks [][]string
	for _, m := range slices.Concat(f.own(), f.Kinds, []string{f.Group}) {
		marks = append(marks, folded(m))
	}
	return marks
}

// usByFood gives the US name that a food's own names decide for an allergen.
func usByFood(marks [][]string, allergen string) (us string, ok bool) {
	for _, row := range allergenTable().foods {
		if row.allergen == allergen && slices.ContainsFunc(marks, row.within) {
			return row.us, true
		}
	}
	return "", false
}

// within says whether the row's words stand side by side among words.
func (row usFood) within(words []string) bool { return standIn(words, row.words) }

// standIn says whether some words stand side by side among words.
func standIn(words, some []string) bool {
	for i := range words {
		if len(words)-i >= len(some) && slices.Equal(words[i:i+len(some)], some) {
			return true
		}
	}
	return false
}

func addOnce(list []string, s string) []string {
	if s == "" || slices.Contains(list, s) {
		return list
	}
	return append(list, s)
}
