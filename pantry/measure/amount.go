// Package measure holds units and amounts: exact conversion to base units, and
// how a cook says an amount.
//
// Base units are whole numbers: milligrams for food that is weighed,
// microlitres for food that is poured. Everything a cook types ("1½ lb",
// "2 x 400g", "half a pint") is kept as an exact fraction (Ratio) until it is
// turned into base units once, by Unit.Base, rounding half away from zero.
//
// Start with ReadUnits (the table), Table.Find (a unit by what it is called)
// and Say (an amount as a cook would say it).
package measure

import (
	"errors"
	"math/bits"
)

// Amount is a quantity in base units: milligrams (Gram) or microlitres
// (Millilitre). Which of the two is said by the line it belongs to.
type Amount int64

// Kind is what an amount counts.
type Kind byte

const (
	Gram       Kind = 'g' // Amount in milligrams
	Millilitre Kind = 'm' // Amount in microlitres
)

// String gives the unit's name in the program's JSON: "g" or "ml".
func (k Kind) String() string {
	if k == Millilitre {
		return "ml"
	}
	return "g"
}

// ParseKind reads "g" or "ml".
func ParseKind(s string) (Kind, error) {
	switch s {
	case "g":
		return Gram, nil
	case "ml":
		return Millilitre, nil
	}
	return 0, errors.New(`a unit is "g" or "ml", not "` + s + `"`)
}

// Units gives the amount in grams or millilitres, for JSON and for people.
func (a Amount) Units() float64 { return float64(a) / 1000 }

// Most is the largest amount one entry may carry: two tonnes. A kitchen never
// takes in more at once, so a larger figure is a slip.
const Most Amount = 2_000_000_000

// ErrTooLarge is returned for an amount over Most.
var ErrTooLarge = errors.New("more than a kitchen holds")

// Ratio is an exact non-negative fraction. Den is never zero in a valid one.
type Ratio struct{ Num, Den int64 }

// Whole makes a ratio of a whole number.
func Whole(n int64) Ratio { return Ratio{n, 1} }

// Zero says whether the ratio is nought.
func (r Ratio) Zero() bool { return r.Num == 0 }

// Float gives the nearest float64.
func (r Ratio) Float() float64 { return float64(r.Num) / float64(r.Den) }

// Plus adds two ratios; ok is false where the sum does not fit.
func (r Ratio) Plus(o Ratio) (sum Ratio, ok bool) {
	a, ok1 := mul(r.Num, o.Den)
	b, ok2 := mul(o.Num, r.Den)
	d, ok3 := mul(r.Den, o.Den)
	if !ok1 || !ok2 || !ok3 || a > maxInt-b {
		return Ratio{}, false
	}
	return Ratio{a + b, d}.reduced(), true
}

// Times multiplies two ratios; ok is false where the product does not fit.
func (r Ratio) Times(o Ratio) (product Ratio, ok bool) {
	r, o = r.reduced(), o.reduced()
	x, y := Ratio{r.Num, o.Den}.reduced(), Ratio{o.Num, r.Den}.reduced()
	n, ok1 := mul(x.Num, y.Num)
	d, ok2 := mul(x.Den, y.Den)
	return Ratio{n, d}, ok1 && ok2
}

// Of gives r × a, rounded half away from zero. An amount over Most is
// ErrTooLarge.
func (r Ratio) Of(a Amount) (Amount, error) {
	hi, lo := bits.Mul64(uint64(r.Num), uint64(a))
	lo, carry := bits.Add64(lo, uint64(r.Den)/2, 0)
	hi += carry
	if hi >= uint64(r.Den) {
		return 0, ErrTooLarge
	}
	q, _ := bits.Div64(hi, lo, uint64(r.Den))
	if q > uint64(Most) {
		return 0, ErrTooLarge
	}
	return Amount(q), nil
}

const maxInt = int64(^uint64(0) >> 1)

func mul(a, b int64) (int64, bool) {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	return int64(lo), hi == 0 && lo <= uint64(maxInt)
}

func (r Ratio) reduced() Ratio {
	a, b := r.Num, r.Den
	for b != 0 {
		a, b = b, a%b
	}
	if a <= 1 {
		return r
	}
	return Ratio{r.Num / a, r.Den / a}
}
