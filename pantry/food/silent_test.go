package food

import (
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// taken gives the lines of a pantry that a phrase is taken to mean without a
// question, as the conversation puts the two indexes together: the pantry
// first, and the catalogue where it knows a food that fits better. More than
// one line is a question.
func taken(pantry *Index, phrase string) []int {
	mine, known := pantry.Find(phrase), Default().Find(phrase)
	if len(mine) == 0 {
		return nil
	}
	top := mine[0].Score
	better := top < 1 && len(known) > 0 && known[0].Score > top+Close
	if top < Sure || better || mine[0].How == "part" && top < 0.9 {
		return nil
	}
	var ids []int
	for _, m := range mine {
		if m.Score > top-Close {
			ids = append(ids, m.ID)
		}
	}
	return ids
}

// kin gives the lines that share a name with a food called so: whoever says
// yoghourt may mean any yoghurt.
func kin(pantry *Index, name string) (ids []int) {
	for _, at := range Default().index.Exact(split(name)) {
		for _, shared := range Default().foods[at].Called() {
			ids = append(ids, pantry.Exact(split(shared))...)
		}
	}
	return ids
}

// checkSilent fails where a slip of a name is taken, without a question, for
// something that the name itself is not taken for.
func checkSilent(t failer, pantry *Index, name string, said string) {
	if said == "" {
		return
	}
	if m := pantry.Find(said); len(m) > 0 && undouble(key(m[0].Name)) == undouble(said) {
		return // "aple", for ale: but for a double letter that is how apple is spelt
	}
	right := slices.Concat(kin(pantry, name), taken(pantry, name))
	ids := taken(pantry, said)
	if len(ids) > 0 && !slices.ContainsFunc(ids, func(id int) bool { return slices.Contains(right, id) }) {
		t.Fatalf("%q for %q is taken for %v; catalogue: %v", said, name, pantry.Find(said), Default().Find(said)[:1])
	}
}

// oneEdit makes one slip of the fingers in a name.
func oneEdit(name string, kind int, r dice) string {
	return spoil(Default().Index(), name, slipKinds[kind].slip, 1, r)
}

const oneEdits = 4 // the first of slipKinds

// A slip of one food never silently becomes another that is in the pantry,
// whether the food itself is there or only in the catalogue.
func TestNoSilentSwap(t *testing.T) {
	foods := Default().Foods()
	rapid.Check(t, func(t *rapid.T) {
		held := rapid.SliceOfNDistinct(rapid.IntRange(0, len(foods)-1), 40, 40, rapid.ID[int]).Draw(t, "held")
		said := rapid.OneOf(rapid.SampledFrom(held), rapid.IntRange(0, len(foods)-1)).Draw(t, "food")
		name := rapid.SampledFrom(foods[said].Called()).Draw(t, "name")
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
		pantry := NewIndex()
		for _, at := range held {
			pantry.Add(at, foods[at].Called()...)
		}
		checkSilent(t, pantry, name, oneEdit(name, rapid.IntRange(0, oneEdits-1).Draw(t, "kind"), r))
	})
}

// The same in a pantry as a kitchen has it, for every name of the catalogue.
func TestNoSilentSwapInStock(t *testing.T) {
	pantry := NewIndex()
	for _, name := range stock {
		for at, f := range Default().Foods() {
			if f.Name == name {
				pantry.Add(at, f.Called()...)
			}
		}
	}
	r := rand.New(rand.NewPCG(7, 7))
	for i, f := range Default().Foods() {
		if testing.Short() && i%5 > 0 {
			continue
		}
		for _, name := range f.Called() {
			for kind := range oneEdits {
				checkSilent(noted{t}, pantry, name, oneEdit(name, kind, r))
			}
		}
	}
}

// noted goes on after a failure.
type noted struct{ *testing.T }

func (n noted) Fatalf(format string, args ...any) { n.Errorf(format, args...) }
