package heat

import "math"

// Body is a piece of food, by its outer measures in metres. It is a brick of up to
// three pairs of faces, a cylinder, a cylinder cut to a length, or a ball; what is
// left 0 is so long that no heat comes from there. Its temperature is the product
// of those of the slabs and the cylinder that it is cut from.
type Body struct {
	Faces [3]float64 // distances between faces that take heat; 0 none
	Round float64    // diameter of a cylinder; 0 none
	Ball  float64    // diameter of a ball; 0 none. A ball has nothing else
}

// Slice, Stick, Cube, Coin and Whole give the cuts of a kitchen, by the measure a cook
// would name, in metres.
func Slice(thick float64) Body { return Body{Faces: [3]float64{thick}} }

// Stick is long, and square across.
func Stick(across float64) Body { return Body{Faces: [3]float64{across, across}} }

// Cube has one measure.
func Cube(edge float64) Body { return Body{Faces: [3]float64{edge, edge, edge}} }

// Coin is a slice cut across something round.
func Coin(thick, across float64) Body { return Body{Faces: [3]float64{thick}, Round: across} }

// Whole is what is round all over.
func Whole(across float64) Body { return Body{Ball: across} }

// Medium is what a body is put into.
type Medium struct {
	Celsius float64
	Film    float64 // W/m²K into the surface; +Inf: the surface is at once as hot
}

// Stuff is what leads the heat: alpha = k/(ρ c).
type Stuff struct {
	K     float64 // W/mK
	Alpha float64 // m²/s
}

// Heating is a body on its way to a medium's temperature.
type Heating struct {
	from, to float64
	parts    []part
}

// part is one factor of a product solution.
type part struct {
	*Series
	rate float64 // Fourier numbers per second
}

// Heat gives how a body, from one temperature all through, heats or cools.
func Heat(b Body, s Stuff, from float64, m Medium) *Heating {
	h := &Heating{from: from, to: m.Celsius}
	add := func(shape Shape, across float64) {
		if across > 0 {
			half := across / 2
			h.parts = append(h.parts, part{NewSeries(shape, m.Film*half/s.K), s.Alpha / (half * half)})
		}
	}
	if b.Ball > 0 {
		add(Sphere, b.Ball)
		return h
	}
	for i, f := range b.Faces {
		if i > 0 && f == b.Faces[0] && f > 0 { // a cube's three are one
			h.parts = append(h.parts, h.parts[0])
			continue
		}
		add(Slab, f)
	}
	add(Cylinder, b.Round)
	return h
}

// Middle gives the temperature in the middle after so many seconds, °C.
func (h *Heating) Middle(seconds float64) float64 { return h.At(seconds, 0) }

// At gives the temperature at x of the way from the middle to the surface in each
// direction, °C.
func (h *Heating) At(seconds, x float64) float64 {
	theta := 1.0
	for _, p := range h.parts {
		theta *= p.Theta(p.rate*seconds, x)
	}
	return h.to + (h.from-h.to)*theta
}

// Until gives the seconds until the middle is at a temperature; +Inf where it
// never is.
func (h *Heating) Until(celsius float64) float64 { return h.until(celsius, 0) }

func (h *Heating) until(celsius, x float64) float64 {
	past := func(t float64) bool {
		if h.to >= h.from {
			return h.At(t, x) >= celsius
		}
		return h.At(t, x) <= celsius
	}
	if past(0) {
		return 0
	}
	if len(h.parts) == 0 || !(celsius < h.to && h.to > h.from || celsius > h.to && h.to < h.from) {
		return math.Inf(1)
	}
	low, high := 0.0, 1.0
	for !past(high) {
		if low, high = high, 2*high; high > 1e9 {
			return math.Inf(1)
		}
	}
	for range 50 {
		if mid := (low + high) / 2; past(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return high
}
