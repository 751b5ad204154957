package technique

import (
	_ "embed"
	"slices"
	"strings"
	"sync"
)

// Doneness is a row of doneness.csv: between which minutes a food is done, cut as most frames
// cut it, in all the steps of a frame that cook it. Taste asks for them; what safety asks for is
// in safety.csv.
type Doneness struct {
	What        string
	Least, Most float64 // minutes; 0 none
	not         []string
}

//go:embed doneness.csv
var donenessCSV string

// donenesses reads doneness.csv. In frames, ids behind a "-" are those that the row is not for:
// they cut it thinner, or want it soft.
var donenesses = sync.OnceValue(func() []Doneness {
	list, err := readDoneness(donenessCSV)
	if err != nil {
		panic(err) // the table is part of the program, and a test reads it
	}
	return list
})

func readDoneness(text string) (list []Doneness, err error) {
	err = eachRow("doneness.csv", strings.NewReader(text), []string{"what", "frames", "least", "most", "source"}, func(r *row) {
		d := Doneness{What: r.must("what")}
		if not := r.text("frames"); not != "" {
			if !strings.HasPrefix(not, "-") {
				r.fail("frames", "are those that the row is not for, behind a -")
			}
			d.not = strings.Split(strings.TrimPrefix(not, "-"), "/")
		}
		for column, at := range map[string]*float64{"least": &d.Least, "most": &d.Most} {
			if r.text(column) != "" {
				*at = r.number(column, r.text(column), 1, 90)
			}
		}
		if d.Least == 0 && d.Most == 0 {
			r.fail("least", "and most are both empty")
		}
		r.must("source")
		list = append(list, d)
	})
	return list, err
}

// DoneIn gives between which minutes a food is done in a frame, by its own row before those of
// its kinds; 0 none.
func (f *Frame) DoneIn(s Subject) (least, most float64) {
	for _, own := range []bool{true, false} {
		for _, d := range donenesses() {
			if s.Is(d.What) && (d.What == s.Name) == own && !slices.Contains(d.not, f.ID) {
				return d.Least, d.Most
			}
		}
	}
	return 0, 0
}
