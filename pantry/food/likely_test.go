package food

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// In a pantry as a kitchen has it Likely finds what Find asks about, and takes
// few slips of other foods for what is there.
func TestLikely(t *testing.T) {
	pantry := NewIndex()
	for _, name := range stock {
		for at, f := range Default().Foods() {
			if f.Name == name {
				pantry.Add(at, f.Called()...)
			}
		}
	}
	for k, kind := range slipKinds[:oneEdits] {
		r, n, right := rand.New(rand.NewPCG(9, uint64(k))), 0, 0
		for range 20 {
			for _, name := range stock {
				said := spoil(pantry, name, kind.slip, 1, r)
				if said == "" || pantry.Exact(split(name)) == nil {
					continue
				}
				n++
				if ids := pantry.Likely(said, false); len(ids) == 1 && slices.Contains(pantry.Exact(split(name)), ids[0]) {
					right++
				}
			}
		}
		t.Logf("%s: %d of %d", kind.name, right, n)
		if 100*right < 90*n {
			t.Errorf("%s: only %d of %d", kind.name, right, n)
		}
	}
}

func TestLikelyPhrases(t *testing.T) {
	x := NewIndex()
	for i, n := range []string{"leek", "chicken", "chickpea", "goat's cheese", "butter", "milk", "spinach", "celeriac", "egg"} {
		x.Add(i, n)
	}
	for said, want := range map[string][]int{
		"leke": {0}, "chicks": {1, 2}, "gotes cheese": {3}, "bttr": {4}, "mlk": {5}, "Spanish": {6}, "rggs": {8},
		"celery": nil, "swedes": nil, "legs": nil, "minutes": nil, "": nil, "celey": nil,
	} {
		if got := x.Likely(said, false); !slices.Equal(got, want) {
			t.Errorf("Likely(%q) = %v, want %v", said, got, want)
		}
	}
	if got := x.Likely("beer", true); got != nil {
		t.Errorf("what comes in as beer is %v", got)
	}
}
