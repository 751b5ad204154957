package food

import (
	_ "embed"
	"fmt"
	"strings"
	"sync"
)

// dishof.csv holds names that a food and a dish made of it share: lasagne is built of the sheets that
// are called so, a chilli is no pod. What is cooked or served by such a name is the dish, and what the
// food holds says little of it.

//go:embed dishof.csv
var dishOfCSV string

var dishOfTable = sync.OnceValue(func() map[string]bool {
	t, _ := readDishOf() // the table is embedded; a test reads it and names any fault
	return t
})

func readDishOf() (map[string]bool, error) {
	t := map[string]bool{}
	return t, eachRow("dishof.csv", strings.NewReader(dishOfCSV), []string{"names", "source"}, func(rec []string) error {
		if rec[1] == "" {
			return fmt.Errorf("%s: without a source", rec[0])
		}
		for name := range strings.SplitSeq(rec[0], ";") {
			if _, ok := Default().Food(name); !ok {
				return fmt.Errorf("no food is called %q", name)
			}
			t[key(name)] = true
		}
		return nil
	})
}

// IsDishOf says whether a name that a food has is also that of a dish made of it: "lasagne", "dal".
func IsDishOf(name string) bool { return dishOfTable()[key(name)] }
