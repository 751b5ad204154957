package food

import (
	_ "embed"
	"strings"
	"sync"
)

//go:embed plain.txt
var plainTXT string

// plainWords are English words that come near a food's name: "bears" are no
// pears. See TestPlainWords for where they come from.
var plainWords = sync.OnceValue(func() map[string]bool { return WordList(plainTXT) })

//go:embed foodnouns.txt
var foodNounsTXT string

// foodNouns are English words for food that no name of the catalogue holds:
// "batter", "praline". See TestFoodNouns for where they come from.
var foodNouns = sync.OnceValue(func() map[string]bool { return WordList(foodNounsTXT) })

// WordList reads a list of words, one a line; lines that begin with # are talk.
func WordList(text string) map[string]bool {
	list := map[string]bool{}
	for line := range strings.Lines(text) {
		if w := strings.TrimSpace(line); w != "" && w[0] != '#' {
			list[w] = true
		}
	}
	return list
}

// IsPlain says whether all words of a phrase are English ones or stand in a
// food's name, so that it need not be a slip of another food.
func IsPlain(phrase string) bool {
	for _, w := range split(phrase) {
		if !plainWords()[w] && !plainWords()[singular(w)] && !Default().index.knows(w) && !Default().index.knows(singular(w)) {
			return false
		}
	}
	return true
}
