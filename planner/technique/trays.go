package technique

import (
	_ "embed"
	"strings"
	"sync"
)

//go:embed trays.csv
var traysCSV string

// trays reads trays.csv: how many times its minutes a dish takes in an oven with so many
// dishes in it.
var trays = sync.OnceValue(func() []float64 {
	times := []float64{0}
	err := eachRow("trays.csv", strings.NewReader(traysCSV), []string{"dishes", "times", "source"}, func(r *row) {
		if int(r.number("dishes", r.text("dishes"), 1, 9)) != len(times) {
			r.fail("dishes", "are not counted from one")
		}
		times = append(times, r.number("times", r.text("times"), 1, 3))
		r.must("source")
	})
	if err != nil {
		panic(err) // the table is part of the program, and a test reads it
	}
	return times
})

// Crowded gives how many times its unattended minutes a dish takes in an oven with so
// many dishes in it, itself counted; more than the table has count as its last.
func Crowded(dishes int) float64 { return trays()[min(max(dishes, 1), len(trays())-1)] }
