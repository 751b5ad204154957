package food

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"sync"
)

// asktoo.csv holds foods that the law does not count among an allergen, of which a guest with that allergy
// is to be asked for all that.
//
//go:embed asktoo.csv
var askTooCSV string

type askToo struct {
	words    [][]string
	allergen string
	note     string
}

var askTooTable = sync.OnceValue(func() []askToo {
	list, _ := readAskToo() // the table is embedded; a test reads it and names any fault
	return list
})

func readAskToo() (list []askToo, err error) {
	return list, eachRow("asktoo.csv", strings.NewReader(askTooCSV), []string{"words", "allergen", "note", "source"}, func(rec []string) error {
		x := askToo{allergen: rec[1], note: rec[2]}
		if !slices.Contains(allergenTable().names, x.allergen) || x.note == "" || rec[3] == "" {
			return fmt.Errorf("%s: not one of the 14, or without a note or a source", rec[0])
		}
		for w := range strings.SplitSeq(rec[0], ";") {
			x.words = append(x.words, folded(w))
		}
		list = append(list, x)
		return nil
	})
}

// AskToo gives what is to be said of a food to who has an allergy that the law does not count it among: of
// chestnuts and tree nuts; "" nothing. A water chestnut is no chestnut.
func AskToo(name string, allergens []string) string {
	words := folded(name)
	for _, x := range askTooTable() {
		if slices.Contains(allergens, x.allergen) && slices.ContainsFunc(x.words, func(some []string) bool { return standIn(words, some) }) && slices.Contains(Named(name).MayCarry, x.allergen) {
			return x.note
		}
	}
	return ""
}
