package technique

import "math"

// Minutes gives how long one cook with cold kit takes for so many grams, and
// how much of it is hands-on. A step begins when those it waits for have ended
// and the cook is free. What stands in the fridge or the freezer at the end is
// not waited for.
//
// How times grow with the amount is common practice, no source: an oven load of
// 800 g takes its time, more takes 1.2, 1.35, 1.5 of it; a grill takes 700 g at
// once; a microwave half as much again for each doubling above 450 g, as much less for
// each halving below 250 g, and lots of 1 kg; a pot above 1.2 kg boils 4 minutes later.
func Minutes(steps []Step, grams float64) (total, hands float64) {
	return minutes(steps, func(int) float64 { return grams })
}

// minutes is Minutes where each step has grams of its own.
func minutes(steps []Step, gramsOf func(step int) float64) (total, hands float64) {
	var room [16]float64
	end, free := room[:0], 0.0
	for i, s := range steps {
		start := free
		for _, a := range s.After {
			start = max(start, end[a])
		}
		grams := gramsOf(i)
		h := s.Hands(grams)
		free = start + h
		hands += h
		last := start + s.Minutes(grams)
		end = append(end, last)
		if i == len(steps)-1 && (s.Kit == "freezer" || s.Kit == "fridge") {
			last = free
		}
		total = max(total, last)
	}
	return total, hands
}

// Minutes gives the step's minutes for so many grams, hands-on and unattended.
func (s Step) Minutes(grams float64) float64 {
	return s.Hands(grams) + s.Unattended*growth(s, grams) + late(s, grams)
}

// growth gives the factor on a step's unattended minutes.
func growth(s Step, grams float64) float64 {
	switch {
	case s.Heats():
		return 1
	case s.Kit == "oven":
		loads := [...]float64{1, 1.2, 1.35, 1.5}
		return loads[min(int(math.Max(0, math.Ceil(grams/800)-1)), len(loads)-1)]
	case s.Kit == "grill":
		return float64(s.Lots(grams))
	case s.Kit == "microwave":
		if grams < 250 {
			return math.Max(0.4, math.Pow(1.5, math.Log2(math.Max(grams, 1)/250)))
		}
		lots := math.Max(1, math.Ceil(grams/1000))
		return lots * math.Pow(1.5, math.Max(0, math.Log2(grams/lots/450)))
	}
	return 1
}

// Lots gives in how many lots a grill takes so many grams.
func (s Step) Lots(grams float64) int { return max(1, int(math.Ceil(grams/700))) }

// late gives the minutes that a full pot comes to the boil later.
func late(s Step, grams float64) float64 {
	if s.boils() && s.Unattended > 0 && grams > 1200 {
		return 4
	}
	return 0
}
