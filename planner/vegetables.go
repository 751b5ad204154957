package planner

import (
	"slices"

	"scullion/pantry/food"
)

// vegetableGroups are the groups of food that count as vegetables on a plate: UK NHS, 5 A
// Day, by which pulses and fruit count and potatoes do not.
var vegetableGroups = []string{
	"allium", "root vegetable", "leaf", "fruiting vegetable", "brassica", "squash", "mushroom", "pod or fresh pulse",
	"sprout or sea vegetable", "frozen vegetable", "stem vegetable", "tinned vegetable", "tinned pulse", "dried pulse", "fruit", "tinned fruit",
}

// isFresh says whether a food is a vegetable other than a pulse or a seasoning.
func isFresh(f *food.Food) bool {
	return isVegetable(f) && !isOf(f, "tinned pulse", "dried pulse", "cooked pulse", "aromatic", "citrus")
}

// isVegetable says whether a food counts as one.
func isVegetable(f *food.Food) bool {
	return slices.Contains(vegetableGroups, f.Group) && !slices.Contains(f.Kinds, "starchy root")
}
