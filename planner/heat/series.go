package heat

import "math"

// Shape is one of the three bodies whose heating in one direction has an exact
// solution.
type Shape int

// The shapes. A slab is thin against its width, a cylinder against its length.
const (
	Slab Shape = iota
	Cylinder
	Sphere
)

// Series is the exact solution for a body that is put, all at one temperature,
// into a medium of another: the sum of its eigenfunctions. Lengths are shares of
// the half thickness or radius L, times are Fourier numbers αt/L².
//
// Source: Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed., chapters 3, 7
// and 9, from memory; the same in Çengel & Ghajar, Heat and Mass Transfer, ch. 4.
type Series struct {
	shape Shape
	zeta  [terms]float64 // eigenvalues
	coef  [terms]float64
}

// terms are enough for every Fourier number from shortest on: the last one there
// is below 1e-12.
const (
	terms    = 40
	shortest = 0.002
)

// NewSeries gives the solution for a Biot number hL/k, from 0.0001 up; +Inf is a
// surface that takes the medium's temperature at once.
func NewSeries(shape Shape, biot float64) *Series {
	s := &Series{shape: shape}
	for n := range s.zeta {
		z := shape.root(n, max(biot, 1e-4))
		s.zeta[n], s.coef[n] = z, shape.coef(z)
	}
	return s
}

// Theta gives how much of the first difference from the medium is left, 1 to 0,
// at x (0 the middle, 1 the surface) after the Fourier number fo. Below a Fourier
// number of 0.002 it gives 1, which is right to 1e-5 for x up to 0.7.
func (s *Series) Theta(fo, x float64) float64 {
	if fo < shortest {
		return 1
	}
	sum := 0.0
	for n, z := range s.zeta {
		e := math.Exp(-z * z * fo)
		if e < 1e-15 {
			break
		}
		sum += s.coef[n] * e * s.shape.form(z*x)
	}
	return min(1, max(0, sum))
}

// root finds the n-th eigenvalue, n from 0, between where it must lie.
func (s Shape) root(n int, biot float64) float64 {
	low, high := s.bracket(n)
	if math.IsInf(biot, 1) {
		return high
	}
	for range 60 {
		mid := (low + high) / 2
		if s.balance(mid, biot)*s.sign(n) < 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}

// bracket gives what the n-th eigenvalue lies between: its values for a Biot
// number of none and of infinity.
func (s Shape) bracket(n int) (low, high float64) {
	switch s {
	case Slab:
		return float64(n) * math.Pi, (float64(n) + 0.5) * math.Pi
	case Sphere:
		return float64(n) * math.Pi, float64(n+1) * math.Pi
	}
	return besselZero(1, n), besselZero(0, n+1)
}

// balance is zero at an eigenvalue: what is led to the surface is what the medium
// takes.
func (s Shape) balance(z, biot float64) float64 {
	switch s {
	case Slab:
		return z*math.Sin(z) - biot*math.Cos(z)
	case Cylinder:
		return z*math.J1(z) - biot*math.J0(z)
	}
	return (1-biot)*math.Sin(z) - z*math.Cos(z)
}

// sign is that of balance just below the upper end of the n-th bracket.
func (s Shape) sign(n int) float64 {
	if n%2 == 0 {
		return 1
	}
	return -1
}

func (s Shape) coef(z float64) float64 {
	switch s {
	case Slab:
		return 4 * math.Sin(z) / (2*z + math.Sin(2*z))
	case Cylinder:
		j0, j1 := math.J0(z), math.J1(z)
		return 2 / z * j1 / (j0*j0 + j1*j1)
	}
	return 4 * (math.Sin(z) - z*math.Cos(z)) / (2*z - math.Sin(2*z))
}

// form is the eigenfunction.
func (s Shape) form(zx float64) float64 {
	switch {
	case s == Slab:
		return math.Cos(zx)
	case s == Cylinder:
		return math.J0(zx)
	case zx < 1e-9:
		return 1
	}
	return math.Sin(zx) / zx
}

// besselZero gives the n-th zero of J0 or J1, counted from 1; the 0th of J1 is 0.
// McMahon's first terms are the guess, Newton's rule does the rest.
func besselZero(order, n int) float64 {
	if n == 0 {
		return 0
	}
	b := (float64(n) - 0.25) * math.Pi
	x := b + 1/(8*b)
	if order == 1 {
		b = (float64(n) + 0.25) * math.Pi
		x = b - 3/(8*b)
	}
	for range 8 {
		if order == 0 {
			x += math.J0(x) / math.J1(x)
		} else {
			x -= math.J1(x) / (math.J0(x) - math.J1(x)/x)
		}
	}
	return x
}
