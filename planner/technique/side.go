package technique

import (
	_ "embed"
	"slices"
	"strings"
	"sync"
)

// Side is a technique whose food may stand beside a dish, one row of sides.csv.
type Side struct {
	Name    string   // on the menu, with "{food}" or "{foods}"
	beside  []string // families of frame, and frames
	not     []string // frames of those families that it does not go beside
	with    []string // foods one of which seasons the dish; nil: none need
	without []string // foods none of which seasons it
	never   []string // foods and kinds that are no side this way
}

//go:embed sides.csv
var sidesCSV string

// sides reads sides.csv: by technique, beside what it may stand. Beside names families of
// frame and frames, and with a "-" frames that it does not go beside for all that.
var sides = sync.OnceValue(func() map[string]*Side {
	out := map[string]*Side{}
	err := eachRow("sides.csv", strings.NewReader(sidesCSV), []string{"technique", "name", "beside", "with", "without", "never", "source"}, func(r *row) {
		s := &Side{Name: r.must("name"), with: named(r.text("with")), without: named(r.text("without")), never: r.list("never")}
		for _, b := range r.list("beside") {
			if id, not := strings.CutPrefix(b, "-"); not {
				s.not = append(s.not, id)
			} else {
				s.beside = append(s.beside, b)
			}
		}
		out[r.must("technique")] = s
		r.must("source")
	})
	if err != nil {
		panic(err) // the table is part of the program, and a test reads it
	}
	return out
})

// named splits foods at "/"; nil where there are none.
func named(s string) []string {
	if s == "" {
		return nil
	}
	return strings.Split(s, "/")
}

// Of says whether a food is a side this way.
func (s *Side) Of(f Subject) bool { return !slices.ContainsFunc(s.never, f.Is) }

// SideOf gives how a technique's food stands beside a dish; nil where it does not.
func SideOf(technique string) *Side { return sides()[technique] }

// Beside says whether it may stand beside a dish of a frame that is seasoned with foods of
// those names.
func (s *Side) Beside(f *Frame, seasoned []string) bool {
	has := func(list []string) bool {
		return slices.ContainsFunc(list, func(n string) bool { return slices.Contains(seasoned, n) })
	}
	if !slices.Contains(s.beside, f.ID) && (!slices.Contains(s.beside, f.Family) || slices.Contains(s.not, f.ID)) {
		return false
	}
	return (s.with == nil || has(s.with)) && !has(s.without)
}
