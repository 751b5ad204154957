package technique

import (
	_ "embed"
	"math/bits"
	"strings"
	"sync"
)

// Clash says how ill two foods go together in one dish.
type Clash int

// The degrees. Unusual is for a cook to ask for; never is refused. Both are about
// taste: what safety forbids is in safety.csv.
const (
	Fine Clash = iota
	Unusual
	NeverTogether
)

type clash struct {
	a, b string
	how  Clash
}

//go:embed clashes.csv
var clashesCSV string

// clashes reads clashes.csv: pairs of foods or kinds.
var clashes = sync.OnceValue(func() []clash {
	var list []clash
	err := eachRow("clashes.csv", strings.NewReader(clashesCSV), []string{"a", "b", "how", "source"}, func(r *row) {
		how := Unusual
		if r.oneOf("how", []string{"unusual", "never"}) == "never" {
			how = NeverTogether
		}
		r.must("source")
		list = append(list, clash{r.must("a"), r.must("b"), how})
	})
	if err != nil {
		panic(err) // the table is part of the program, and a test reads it
	}
	return list
})

// Sides notes in which rows of clashes.csv a food stands, so that many pairs are
// looked at quickly: a bit a row, for either side.
type Sides struct{ a, b []uint64 }

// SidesOf gives a food's.
func SidesOf(s Subject) Sides {
	n := (len(clashes()) + 63) / 64
	x := Sides{make([]uint64, n), make([]uint64, n)}
	for i, c := range clashes() {
		if s.Is(c.a) {
			x.a[i/64] |= 1 << (i % 64)
		}
		if s.Is(c.b) {
			x.b[i/64] |= 1 << (i % 64)
		}
	}
	return x
}

// With says how ill two foods go together.
func (x Sides) With(y Sides) Clash {
	worst := Fine
	for w := range x.a {
		for met := x.a[w]&y.b[w] | x.b[w]&y.a[w]; met != 0; met &= met - 1 {
			worst = max(worst, clashes()[w*64+bits.TrailingZeros64(met)].how)
		}
	}
	return worst
}
