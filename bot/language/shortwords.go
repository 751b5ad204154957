package language

import (
	_ "embed"
	"strings"
	"sync"
)

//go:embed shortwords.csv
var shortWordsCSV string

// shortWords are the words of shortwords.csv in full, those of "any" and those of "behind".
var shortWords = sync.OnceValue(func() map[string]map[string]string {
	by := map[string]map[string]string{"any": {}, "behind": {}}
	for _, line := range strings.Split(shortWordsCSV, "\n") {
		if f := strings.Split(strings.TrimSpace(line), ","); len(f) == 3 && by[f[0]] != nil {
			by[f[0]][f[1]] = f[2]
		}
	}
	return by
})

// LongWords writes short words in full: "rice pud" is rice pudding, and no pudding rice. IsFood says whether a word is the
// name of a food.
func LongWords(text string, isFood func(string) bool) string {
	list, changed, before := strings.Split(text, " "), false, ""
	for i, w := range list {
		bare := strings.ToLower(strings.TrimRight(w, "?!.,;:"))
		end := w[len(strings.TrimRight(w, "?!.,;:")):]
		long := shortWords()["any"][bare]
		if long == "" && before != "" && shortWords()["behind"][bare] != "" && isFood(before) {
			long = shortWords()["behind"][bare]
		}
		if long != "" {
			list[i], changed = long+end, true
		}
		if before = bare; end != "" {
			before = ""
		}
	}
	if !changed {
		return text
	}
	return strings.Join(list, " ")
}
