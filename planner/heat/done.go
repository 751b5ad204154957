package heat

import "math"

// Done is when a food is done, by what its middle has been through.
type Done struct {
	// Soft is how many minutes at 100 °C soften it. A minute at less counts for
	// less: a tenth for every 'tenfold' degrees. 0: not by softening.
	Soft float64
	// Core is what the middle must reach, and Hold the minutes it must then stay at
	// or above that. 0: no such rule.
	Core, Hold float64
}

// tenfold is how many degrees make softening ten times as quick. Reviews of
// vegetable softening give activation energies about 100 to 150 kJ/mol, which is
// 18 to 27 degrees near 100 °C: Rao & Lund (1986), J. Food Processing and
// Preservation 10, from memory.
const tenfold = 23

// boiling is as hot as food with water in it gets, whatever is round it.
const boiling = 100

// Minutes gives how long a heating food takes until it is done; +Inf where it
// never is.
func (d Done) Minutes(h *Heating) float64 {
	t := 0.0
	if d.Core > 0 {
		t = h.Until(d.Core)/60 + d.Hold
	}
	if d.Soft > 0 {
		t = max(t, d.softens(h))
	}
	return t
}

// softens adds up what each moment in the middle does, by the trapezium rule.
func (d Done) softens(h *Heating) float64 {
	warm := h.Until(min(80, (h.to+h.from)/2)) / 60
	if math.IsInf(warm, 1) {
		return warm
	}
	rate := func(minutes float64) float64 {
		return math.Pow(10, (min(boiling, h.Middle(minutes*60))-100)/tenfold)
	}
	step := max(warm, 1) / 50
	sum, before := 0.0, rate(0)
	for t := 0.0; t < 24*60; t += step {
		now := rate(t + step)
		if got := (before + now) / 2 * step; sum+got >= d.Soft {
			return t + step*(d.Soft-sum)/got
		} else {
			sum += got
		}
		before = now
	}
	return math.Inf(1)
}
