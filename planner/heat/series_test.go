package heat

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// First eigenvalues and coefficients: Çengel & Ghajar, Heat and Mass Transfer,
// table 4-2, from memory, to the four figures it prints.
func TestFirstTerms(t *testing.T) {
	for _, want := range []struct {
		biot float64
		of   [3][2]float64 // slab, cylinder, sphere
	}{
		{0.1, [3][2]float64{{0.3111, 1.0161}, {0.4417, 1.0246}, {0.5423, 1.0298}}},
		{1, [3][2]float64{{0.8603, 1.1191}, {1.2558, 1.2071}, {1.5708, 1.2732}}},
		{10, [3][2]float64{{1.4289, 1.2620}, {2.1795, 1.5677}, {2.8363, 1.9249}}},
		{math.Inf(1), [3][2]float64{{1.5708, 1.2732}, {2.4048, 1.6021}, {3.1416, 2.0000}}},
	} {
		for shape, w := range want.of {
			s := NewSeries(Shape(shape), want.biot)
			if math.Abs(s.zeta[0]-w[0]) > 6e-5 || math.Abs(s.coef[0]-w[1]) > 6e-4 {
				t.Errorf("shape %d, Biot %g: %.4f %.4f, not %v", shape, want.biot, s.zeta[0], s.coef[0], w)
			}
		}
	}
}

// Every eigenvalue solves its equation, they rise, and none is left out: there is
// one in each interval between those for no and for infinite Biot numbers.
func TestEigenvalues(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shape := Shape(rapid.IntRange(0, 2).Draw(t, "shape"))
		biot := math.Pow(10, rapid.Float64Range(-3, 3).Draw(t, "log Biot"))
		s := NewSeries(shape, biot)
		for n, z := range s.zeta {
			if n > 0 && z <= s.zeta[n-1] {
				t.Fatalf("%d does not rise: %v", n, s.zeta[:n+1])
			}
			if off := math.Abs(shape.balance(z, biot)) / (1 + z + biot); off > 1e-9 {
				t.Fatalf("%d: %g is off by %g", n, z, off)
			}
		}
	})
}

// At the very beginning the sum of the series must give the first temperature
// back, everywhere inside; at the surface it heats first.
func TestBeginsWhole(t *testing.T) {
	for shape := Slab; shape <= Sphere; shape++ {
		for _, biot := range []float64{0.05, 0.7, 4, 60, math.Inf(1)} {
			s := NewSeries(shape, biot)
			for _, x := range []float64{0, 0.3, 0.6} {
				if got := s.Theta(shortest, x); math.Abs(got-1) > 1e-5 {
					t.Errorf("shape %d, Biot %g, x %g: %.7f", shape, biot, x, got)
				}
			}
			if a, b := s.Theta(0.1, 0), s.Theta(0.1, 1); a <= b {
				t.Errorf("shape %d, Biot %g: the middle %g is ahead of the surface %g", shape, biot, a, b)
			}
		}
	}
}

// The series against another way altogether: finite differences in small steps.
func TestAgainstDifferences(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shape := Shape(rapid.IntRange(0, 2).Draw(t, "shape"))
		biot := math.Pow(10, rapid.Float64Range(-1, 1.5).Draw(t, "log Biot"))
		fo := rapid.Float64Range(0.05, 0.8).Draw(t, "Fourier")
		got, want := NewSeries(shape, biot).Theta(fo, 0), differences(shape, biot, fo)
		if math.Abs(got-want) > 0.004 {
			t.Fatalf("shape %d, Biot %g, Fourier %g: %.4f by the series, %.4f by differences", shape, biot, fo, got, want)
		}
	})
}

// differences heats a body of 60 shells, explicitly, and gives what is left in the
// middle. Each shell's heat is kept account of, so the shape is in the areas and
// volumes alone.
func differences(shape Shape, biot, fo float64) float64 {
	const n = 60
	power := float64(shape) // areas go with r to that power
	area := func(r float64) float64 { return math.Pow(r, power) }
	volume := func(a, b float64) float64 { return (math.Pow(b, power+1) - math.Pow(a, power+1)) / (power + 1) }
	dr := 1.0 / n
	theta := make([]float64, n)
	for i := range theta {
		theta[i] = 1
	}
	dt := 0.2 * dr * dr
	flow := make([]float64, n+1)
	for at := 0.0; at < fo; at += dt {
		for i := 1; i < n; i++ {
			flow[i] = area(float64(i)*dr) * (theta[i-1] - theta[i]) / dr
		}
		flow[n] = theta[n-1] / (1/biot + dr/2)
		for i := range theta {
			theta[i] -= dt * (flow[i+1] - flow[i]) / volume(float64(i)*dr, float64(i+1)*dr)
		}
	}
	return theta[0] + (theta[0]-theta[1])/8
}
