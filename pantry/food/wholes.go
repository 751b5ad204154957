package food

import (
	_ "embed"
	"fmt"
	"strings"
	"sync"
)

// wholes.csv holds names by which an animal, or a half or quarter of it, is counted, and not a cut: no table
// knows what one weighs. A lamb is no leg.

//go:embed wholes.csv
var wholesCSV string

var wholeTable = sync.OnceValue(func() map[string]bool {
	t, _ := readWholes() // the table is embedded; a test reads it and names any fault
	return t
})

func readWholes() (map[string]bool, error) {
	t := map[string]bool{}
	return t, eachRow("wholes.csv", strings.NewReader(wholesCSV), []string{"names", "source"}, func(rec []string) error {
		for name := range strings.SplitSeq(rec[0], ";") {
			if t[key(name)] || rec[1] == "" {
				return fmt.Errorf("%q stands there before, or has no source", name)
			}
			t[key(name)] = true
		}
		return nil
	})
}

// IsWhole says whether one of what is called so is a whole animal or a quarter of one; where it was said to be whole,
// of food that is counted in fillets or joints also that.
func IsWhole(name string, f *Food, said bool) bool {
	return wholeTable()[key(name)] || said && f != nil && (f.Group == "fish" || f.Group == "meat") && f.Piece != ""
}
