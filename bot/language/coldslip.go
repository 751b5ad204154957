package language

import (
	"regexp"
	"strings"
	"sync"
)

// coldSlips are misspelt words for what keeps food cold, by the word that is meant: the classes "slip ..." of hazard.csv.
var coldSlips = sync.OnceValue(func() map[string]string {
	all := map[string]string{}
	for w, list := range hazardWords() {
		for _, p := range list {
			if meant, ok := strings.CutPrefix(p.class, "slip "); ok {
				all[w] = meant
			}
		}
	}
	return all
})

var lettersOnly = regexp.MustCompile(`[A-Za-z]+`)

// MendCold gives a text with a misspelt fridge, freezer or chiller spelt as it is meant.
func MendCold(text string) string {
	return lettersOnly.ReplaceAllStringFunc(text, func(w string) string {
		if len(w) < 5 {
			return w
		}
		low := strings.ToLower(w)
		if meant := coldSlips()[low]; meant != "" {
			return meant
		}
		if meant := coldSlips()[strings.TrimSuffix(low, "s")]; meant != "" {
			return meant + "s"
		}
		return w
	})
}
