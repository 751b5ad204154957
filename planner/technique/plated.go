package technique

import (
	_ "embed"
	"strings"
	"sync"
)

//go:embed plated.csv
var platedCSV string

// plated is a row of plated.csv: what a gram of raw food weighs on the plate, cooked in
// its own juice or in water (wet), or with the juice driven off (dry).
type plated struct{ wet, dry float64 }

var platedAs = sync.OnceValue(func() map[string]plated {
	out := map[string]plated{}
	err := eachRow("plated.csv", strings.NewReader(platedCSV), []string{"what", "wet", "dry", "source"}, func(r *row) {
		out[r.must("what")] = plated{r.number("wet", r.text("wet"), 0.1, 6), r.number("dry", r.text("dry"), 0.1, 6)}
		r.must("source")
	})
	if err != nil {
		panic(err) // the table is part of the program, and a test reads it
	}
	return out
})

//go:embed drinks.csv
var drinksCSV string

// drinks reads drinks.csv: by frame, the role that swells with the liquid that the frame
// names, and not with water that is poured away.
var drinks = sync.OnceValue(func() map[string]string {
	out := map[string]string{}
	err := eachRow("drinks.csv", strings.NewReader(drinksCSV), []string{"frame", "role", "source"}, func(r *row) {
		out[r.must("frame")] = r.must("role")
		r.must("source")
	})
	if err != nil {
		panic(err) // the table is part of the program, and a test reads it
	}
	return out
})

// Drinks gives the role that swells with the frame's own liquid; -1 none.
func (f *Frame) Drinks() int {
	if role, ok := drinks()[f.ID]; ok {
		return f.Role(role)
	}
	return -1
}

// Steamed is what is left of the liquid that something in the frame drinks: the rest goes
// off as steam. Common practice, no source.
const Steamed = 0.8

// Plated gives what a gram of raw edible food in a role weighs on the plate: rice swells,
// roots shrink in the oven. What is baked loses half of what it loses in a pan. Food that
// the table does not know keeps its weight, and so does what drinks the frame's own liquid,
// which is weighed with that.
func (f *Frame) Plated(role int, s Subject) float64 {
	if f.Roles[role].Heat == None || role == f.Drinks() {
		return 1
	}
	p, ok := platedAs()[s.Name]
	for _, k := range s.Kinds {
		if !ok {
			p, ok = platedAs()[k]
		}
	}
	switch {
	case !ok:
		return 1
	case f.Family == "fry" || f.Family == "roast" || f.Family == "bread":
		return p.dry
	case f.Family == "bake":
		return (p.wet + p.dry) / 2
	}
	return p.wet
}
