package food

import "slices"

// Tells says whether one of the food's names has these words side by side, in the singular or
// the plural: "tomatoes" of "tinned tomato". What a food is made of its names need not tell.
func (f *Food) Tells(words string) bool {
	some := folded(words)
	return len(some) > 0 && slices.ContainsFunc(f.Called(), func(name string) bool { return standIn(folded(name), some) })
}
