// Package heat reckons how long food takes to cook through, and how small to cut
// it so that it is done in the minutes there are.
//
// Heat goes into food by conduction: series.go has the exact solutions for a slab,
// a cylinder and a ball, body.go makes a cook's cuts of them, done.go says when
// the middle is done, by what it has been through: so many minutes near 100 °C
// that soften it, or a temperature that safety asks for. What a food leads and
// needs is in foods.csv, what a method gives in methods.csv. Start with HowLong
// and HowSmall.
//
// These are sums about one piece in plenty of water, steam or hot air. They do not
// know a crowded pot, a hob that cannot keep up, or a tough old root: a cook
// judges when food is done, and where safety depends on it a probe does.
//
// Measures are in metres, temperatures in °C, times of answers in minutes. All is
// pure, and may be shared between goroutines.
package heat

import "math"

// Cut is a way of cutting.
type Cut string

// The cuts. Their size is the measure that matters: the edge of a cube, the
// thickness of a slice, the width across a stick, the diameter of what is left
// whole.
const (
	AsCube  Cut = "cube"
	AsSlice Cut = "slice"
	AsStick Cut = "stick"
	AsWhole Cut = "whole"
)

func (c Cut) body(size float64) Body {
	switch c {
	case AsSlice:
		return Slice(size)
	case AsStick:
		return Stick(size)
	case AsWhole:
		return Whole(size)
	}
	return Cube(size)
}

// HowLong gives the minutes that a food cut to a size, in metres, takes by a
// method; +Inf where it is never done so. Oven is its temperature in °C, 0 the
// usual.
func HowLong(f *Food, m *Method, cut Cut, size, oven float64) float64 {
	return f.Done.Minutes(Heat(cut.body(size), f.Stuff, f.From, m.medium(f, oven)))
}

// The sizes that a knife cuts to, in metres.
const (
	Thinnest = 0.001
	Thickest = 0.15
)

// HowSmall gives the largest size, in metres, of a cut that is done in so many
// minutes; 0 where not even the thinnest is.
func HowSmall(f *Food, m *Method, cut Cut, minutes, oven float64) float64 {
	done := func(size float64) bool { return HowLong(f, m, cut, size, oven) <= minutes }
	switch {
	case !done(Thinnest):
		return 0
	case done(Thickest):
		return Thickest
	}
	low, high := Thinnest, Thickest
	for high-low > 0.0002 {
		if mid := (low + high) / 2; done(mid) {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// medium gives what a method puts round a food. Food that must soften stays in an
// oven until its surface, wet and giving off steam, has long been held back: only
// a part of the oven's excess over 100 °C counts for it.
func (m *Method) medium(f *Food, oven float64) Medium {
	t := m.Celsius
	if m.Dry && oven > 0 {
		t = oven
	}
	if m.Dry && f.Done.Soft > 0 {
		t = boiling + m.Share*max(0, t-boiling)
	}
	return Medium{t, m.Film}
}

// Microwave gives the minutes for so many grams of a food that softens, cut up and
// covered, at full power: those to bring it to 100 °C, and those that soften it.
// Watts are as on the oven's label, which a small load takes up only in part: 0.9
// of them where the load is 450 g or more, less below (fitted to a maker's guide
// in the reference of cooking times). It then stands covered for some minutes,
// which soften as well. 0 where the food is not done by softening.
func Microwave(f *Food, grams, watts float64) float64 {
	if f.Done.Soft == 0 || grams <= 0 || watts <= 0 {
		return 0
	}
	taken := 0.9 * math.Min(1, 0.6+0.4*grams/450)
	joules := grams / 1000 * f.Capacity() * (boiling - f.From)
	return joules/(watts*taken)/60 + max(0, f.Done.Soft-standing)
}

// standing is what 5 minutes under a lid off the heat do, in minutes at 100 °C
// (fitted to the same guide, which has cut vegetables stand so long).
const standing = 2

// density of wet food in kg/m³, near enough for all of the table (1000 to 1085).
const density = 1040

// Capacity gives the specific heat, J/kgK, from what leads the heat.
func (f *Food) Capacity() float64 { return f.K / (f.Alpha * density) }
