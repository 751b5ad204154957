package planner

import (
	"math"

	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/planner/technique"
)

// animals are kinds whose amounts are as purchased: bones and shells go into
// the pan with the rest.
var animals = []string{
	"poultry", "mince", "tender cut", "stewing cut", "sausage", "offal", "game",
	"white fish", "oily fish", "shellfish",
}

// edibleShare gives the edible share of a food's weight as purchased: all but what is
// not food. Leek greens, broccoli stalk and scrubbed peel are dinner.
func edibleShare(f *food.Food, cooked bool) float64 {
	if cooked || isOf(f, animals...) || isOf(f, "egg") {
		return 1
	}
	return max(0.1, f.Edible().Float())
}

// usualPortions is the most portions an idea is for where none are asked.
const usualPortions = 4

// portions gives how many portions so much edible weight makes, and how much of
// it they take. Less than the least for one portion will do only for what is
// strewn or spooned over, and then down to half of it.
func portions(t *technique.Technique, free float64, asked int) (n int, grams float64, ok bool) {
	if free < t.Min {
		small := t.Role == "season" || t.Role == "lift" || t.Role == "crunch"
		return 1, free, small && free >= 1 && free >= t.Min/2
	}
	n = asked
	if n == 0 {
		n = min(max(1, int(math.Round(2*free/(t.Min+t.Max))), int(math.Ceil(free/t.Max))), usualPortions)
	}
	n = min(n, int(free/t.Min))
	return n, taken(t, free, n), true
}

// taken gives what n portions take: all that is there, up to the most for a
// portion. A line is finished if 15 in 100 more will do it (common practice, no
// source), so that no scrap is left behind.
func taken(t *technique.Technique, free float64, n int) float64 {
	if top := float64(n) * t.Max; free > top*1.15 {
		return top
	}
	return free
}

// drawn gives the amount as purchased for so much edible weight, in figures that
// a cook would say: all there is, whole eggs, else rounded down.
func (l *line) drawn(grams float64) measure.Amount {
	ap := grams / l.share
	if measure.Amount(ap*1000) >= l.Free-500 {
		return l.Free
	}
	if l.whole {
		return max(l.pieces(measure.Amount(ap*1000)), min(l.Free, l.Food.PieceMg))
	}
	step := 1.0
	switch {
	case ap >= 100:
		step = 10
	case ap >= 20:
		step = 5
	}
	return min(l.Free, max(1, measure.Amount(math.Floor(ap/step)*step*1000)))
}

// pieces rounds down to whole pieces.
func (l *line) pieces(a measure.Amount) measure.Amount {
	return a - a%l.Food.PieceMg
}
