package technique

import (
	_ "embed"
	"strings"
	"sync"
)

// Swap is a food that does instead of one that seasons or binds a dish.
type Swap struct {
	By    string  // the food that does as well
	Times float64 // how much of it for one of what it stands for
}

//go:embed swaps.csv
var swapsCSV string

// swaps reads swaps.csv: by food, what does instead, the best first.
var swaps = sync.OnceValue(func() map[string][]Swap {
	out := map[string][]Swap{}
	err := eachRow("swaps.csv", strings.NewReader(swapsCSV), []string{"what", "by", "times", "source"}, func(r *row) {
		out[r.must("what")] = append(out[r.must("what")], Swap{By: r.must("by"), Times: r.number("times", r.text("times"), 0.01, 10)})
		r.must("source")
	})
	if err != nil {
		panic(err) // the table is part of the program, and a test reads it
	}
	return out
})

// Swaps gives what does instead of a food, the best first; nil where nothing does. The
// slice belongs to the package: do not change it.
func Swaps(food string) []Swap { return swaps()[food] }
