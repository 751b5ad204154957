package planner

import "slices"

// What carries a dish is held where a dish stands on it: nobody begins a noodle salad without
// noodles.

// carried is from which share of its energy on food carries a dish: it is held then, or the
// dish is not offered where the cupboard is stocked. The planner's own judgement, no source.
const carried = 0.25

// ofBatter is from how many mg a portion on eggs and milk make a batter. The planner's own
// judgement, no source.
const ofBatter = 28_000

// lacksWhatCarries says whether food that carries a dish, but for bread beside it or beside
// eggs, is held by nobody: the noodles, the bread of a dip, the eggs and milk of a batter.
func (k *kitchen) lacksWhatCarries(x *plate) bool {
	sum, lacks, beside := 0.0, 0.0, 0.0
	for _, s := range slices.Concat(x.staples, x.bought) {
		f := k.foodOf(s)
		if s.line >= 0 || f == nil || s.Names[0] == "water" || slices.ContainsFunc(s.Names, alwaysThere) {
			continue
		}
		if s.role == 0 && s.Amount >= ofBatter && isOf(f, "egg", "milk") {
			return true
		}
		kcal := s.Amount.Units() * f.Kcal / 100
		if (x.bread && s.role == 0 || x.frame.Family == "egg") && isOf(f, "bread", "flatbread") {
			beside += kcal
			continue
		}
		if isOf(f, larder...) {
			lacks += kcal
		}
	}
	if lacks == 0 {
		return false
	}
	sum = x.kcalAt(x.most, -1)/float64(x.portions) - beside
	return lacks > carried*sum
}
