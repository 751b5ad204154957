package technique

import (
	_ "embed"
	"slices"
	"strings"
	"sync"

	"scullion/pantry/food"
)

// Subject is a food in the state it is in. Cooked food has no name of its own
// and other kinds: "leftover rice" is cooked rice, and no rice to boil.
type Subject struct {
	Name  string
	Kinds []string
}

// stateWords in a line's name tell that the food has been cooked already.
var stateWords = []string{"cooked", "leftover", "left over", "boiled", "roast", "roasted", "mashed", "fried", "steamed", "poached", "braised", "grilled", "griddled", "seared"}

// Cooked says whether a line's name tells that its food has been cooked, where
// the food's own name does not say so ("roasted red peppers" are as they come).
// Food that no state stands for is as it comes too: leftover wine is wine.
func Cooked(f *food.Food, item string) bool {
	for _, w := range stateWords {
		if hasFold(item, w) && !hasFold(f.Name, w) {
			return len(cooked(f)) > 0
		}
	}
	return false
}

// BeforeCooking gives a name without the words in front that tell that the food has
// been cooked.
func BeforeCooking(item string) string {
	for {
		cut := false
		for _, w := range stateWords {
			if len(item) > len(w) && strings.EqualFold(item[:len(w)], w) && item[len(w)] == ' ' {
				item, cut = strings.TrimLeft(item[len(w):], " "), true
			}
		}
		if !cut {
			return item
		}
	}
}

// Of gives the subject for a food, cooked already or not.
func Of(f *food.Food, isCooked bool) Subject {
	if !isCooked {
		return Subject{f.Name, f.Kinds}
	}
	return Subject{"", cooked(f)}
}

// cooked gives the kinds of a food that has been cooked; nil where no state
// stands for it.
func cooked(f *food.Food) (kinds []string) {
	for _, s := range states() {
		if slices.ContainsFunc(s.from, Subject{f.Name, f.Kinds}.Is) {
			kinds = append(kinds, s.kind)
		}
	}
	return kinds
}

// Is says whether a word of the technique table, a food or a kind, means the
// subject.
func (s Subject) Is(what string) bool {
	return what != "" && (what == s.Name || slices.Contains(s.Kinds, what))
}

type state struct {
	kind string
	from []string
}

//go:embed states.csv
var statesCSV string

// states reads states.csv: what a kind of food is called once it is cooked.
var states = sync.OnceValue(func() []state {
	var list []state
	err := eachRow("states.csv", strings.NewReader(statesCSV), []string{"kind", "from", "source"}, func(r *row) {
		list = append(list, state{r.must("kind"), r.list("from")})
		r.must("source")
	})
	if err != nil {
		panic(err) // the table is part of the program, and a test reads it
	}
	return list
})

// hasFold is strings.Contains without regard to ASCII case, word being in
// lower case. It does not allocate.
func hasFold(s, word string) bool {
	for i := 0; i+len(word) <= len(s); i++ {
		if strings.EqualFold(s[i:i+len(word)], word) {
			return true
		}
	}
	return false
}
