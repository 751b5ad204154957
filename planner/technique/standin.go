package technique

import (
	_ "embed"
	"slices"
	"strings"
	"sync"
)

// standIn is a food that may take the place of others in frames that do not name it: sea
// bream is cooked as sea bass is.
type standIn struct {
	as   []string
	only []string // frames; nil all but those in not
	not  []string
}

//go:embed standins.csv
var standInsCSV string

// standIns reads standins.csv: by food, what it may stand for. Frames are those it may do so
// in, or with a "-" before them those it may not; empty is all.
var standIns = sync.OnceValue(func() map[string]standIn {
	out := map[string]standIn{}
	err := eachRow("standins.csv", strings.NewReader(standInsCSV), []string{"what", "as", "frames", "source"}, func(r *row) {
		s := standIn{as: r.list("as")}
		for _, f := range r.list("frames") {
			if id, not := strings.CutPrefix(f, "-"); not {
				s.not = append(s.not, id)
			} else {
				s.only = append(s.only, f)
			}
		}
		if len(s.only) > 0 && len(s.not) > 0 {
			r.fail("frames", "either those where it may, or those where it may not")
		}
		if _, twice := out[r.must("what")]; twice {
			r.fail("what", "is there already: "+r.text("what"))
		}
		out[r.text("what")] = s
		r.must("source")
	})
	if err != nil {
		panic(err) // the table is part of the program, and a test reads it
	}
	return out
})

// standsIn says whether a food stands for one that a role names.
func (f *Frame) standsIn(role int, s Subject) bool {
	in, ok := standIns()[s.Name]
	if !ok || slices.Contains(in.not, f.ID) || len(in.only) > 0 && !slices.Contains(in.only, f.ID) {
		return false
	}
	return slices.ContainsFunc(f.Roles[role].Suits, func(x Suit) bool { return slices.Contains(in.as, x.What) })
}
