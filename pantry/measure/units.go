package measure

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"fmt"
	"io"
	"math/big"
	"strings"
	"sync"
)

// Sort says how a unit measures.
type Sort string

// The sorts of unit.
const (
	Mass   Sort = "mass"
	Volume Sort = "volume"
	Vague  Sort = "vague" // a cook's measure, with a range
	Counts Sort = "count" // so many pieces: dozen
	Parts  Sort = "part"  // weighed by the food itself: clove, bunch, tin
)

// Unit is one row of units.csv.
type Unit struct {
	Name   string
	Sort   Sort
	To     Kind   // what Factor counts in; 0 for counts and parts
	Factor Ratio  // base units of To in one (pieces, for counts); zero for parts
	Low    Amount // bounds of a vague unit, in base units
	High   Amount
	Place  string // "uk" or "us"; "" both
	Source string
}

// Base turns so many of the unit into base units of u.To.
func (u *Unit) Base(n Ratio) (Amount, error) {
	p, ok := n.Times(u.Factor)
	if !ok {
		return 0, ErrTooLarge
	}
	return p.Of(1)
}

// Table finds units by what they are called.
type Table struct {
	byWord map[string][]*Unit
	Units  []*Unit
}

//go:embed units.csv
var unitsCSV []byte

var defaultTable = sync.OnceValue(func() *Table {
	t, err := ReadUnits("units.csv", bytes.NewReader(unitsCSV))
	if err != nil {
		panic(err) // the embedded table is checked by a test
	}
	return t
})

// DefaultUnits is the embedded table.
func DefaultUnits() *Table { return defaultTable() }

// Find gives the unit called word (lower case; two words for "fl oz") in
// place, "uk" or "us"; nil where there is none.
func (t *Table) Find(word, place string) *Unit {
	for _, u := range t.byWord[word] {
		if u.Place == "" || u.Place == place {
			return u
		}
	}
	return nil
}

// ReadUnits reads a table of units. A bad row is refused with file, line and
// reason.
func ReadUnits(name string, r io.Reader) (*Table, error) {
	c := csv.NewReader(r)
	c.Comment = '#'
	header, err := c.Read()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if got, want := strings.Join(header, ","), "unit,aliases,sort,factor,to,low,high,place,source"; got != want {
		return nil, fmt.Errorf("%s:1: the columns are %s, not %s", name, want, got)
	}
	t := &Table{byWord: map[string][]*Unit{}}
	for {
		row, err := c.Read()
		if err == io.EOF {
			return t, nil
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		if err := t.add(row); err != nil {
			line, _ := c.FieldPos(0)
			return nil, fmt.Errorf("%s:%d: %s: %w", name, line, row[0], err)
		}
	}
}

func (t *Table) add(row []string) (err error) {
	u := &Unit{Name: row[0], Sort: Sort(row[2]), Place: row[7], Source: row[8]}
	if u.Name == "" || u.Source == "" {
		return fmt.Errorf("a unit needs a name and a source")
	}
	switch u.Place {
	case "", "uk", "us":
	default:
		return fmt.Errorf("place is uk, us or empty, not %q", u.Place)
	}
	switch u.Sort {
	case Mass, Volume, Vague:
		if u.To, err = ParseKind(row[4]); err != nil {
			return err
		}
		if u.Factor, err = decimal(row[3], 1000); err != nil {
			return err
		}
	case Counts:
		if u.Factor, err = decimal(row[3], 1); err != nil {
			return err
		}
	case Parts:
	default:
		return fmt.Errorf("sort %q is none of mass, volume, vague, count, part", u.Sort)
	}
	if u.Low, u.High, err = bounds(row[5], row[6]); err != nil {
		return err
	}
	if u.Sort == Vague && (u.Low == 0 || u.High < u.Low) {
		return fmt.Errorf("a vague unit needs low and high")
	}
	t.Units = append(t.Units, u)
	names := append([]string{u.Name}, strings.Split(row[1], ";")...)
	for _, w := range names {
		if w == "" {
			continue
		}
		if t.Find(w, u.Place) != nil {
			return fmt.Errorf("%q stands twice", w)
		}
		t.byWord[w] = append(t.byWord[w], u)
	}
	return nil
}

func bounds(low, high string) (Amount, Amount, error) {
	if low == "" && high == "" {
		return 0, 0, nil
	}
	l, err1 := decimal(low, 1000)
	h, err2 := decimal(high, 1000)
	if err1 != nil || err2 != nil {
		return 0, 0, fmt.Errorf("low and high are decimal numbers")
	}
	a, err1 := l.Of(1)
	b, err2 := h.Of(1)
	if err1 != nil || err2 != nil {
		return 0, 0, ErrTooLarge
	}
	return a, b, nil
}

// decimal reads a positive decimal exactly, times scale.
func decimal(s string, scale int64) (Ratio, error) {
	r, ok := new(big.Rat).SetString(s)
	if !ok || r.Sign() <= 0 || strings.ContainsAny(s, "/eE") {
		return Ratio{}, fmt.Errorf("%q is not a decimal above nought", s)
	}
	r.Mul(r, big.NewRat(scale, 1))
	if !r.Num().IsInt64() || !r.Denom().IsInt64() {
		return Ratio{}, fmt.Errorf("%q has too many digits", s)
	}
	return Ratio{r.Num().Int64(), r.Denom().Int64()}, nil
}
