package technique

import (
	_ "embed"
	"strings"
	"sync"
)

//go:embed made.csv
var madeCSV string

// made reads made.csv: how a palette that is a sauce, or a thing of its own, is made of its
// foods, "{foods}", in the step that it goes in with.
var made = sync.OnceValue(func() map[string]string {
	out := map[string]string{}
	err := eachRow("made.csv", strings.NewReader(madeCSV), []string{"palette", "told", "source"}, func(r *row) {
		out[r.must("palette")] = r.must("told")
		r.must("source")
	})
	if err != nil {
		panic(err) // the table is part of the program, and a test reads it
	}
	return out
})

// Made tells how a palette is made of its foods, "{foods}"; "" where they go in each by itself.
func (p *Palette) Made() string { return made()[p.ID] }
