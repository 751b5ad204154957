package bot

import (
	_ "embed"
	"strings"
	"sync"

	"scullion/pantry/food"
)

//go:embed shelfkept.csv
var shelfKeptCSV string

// shelfKept are the words of shelfkept.csv.
var shelfKept = sync.OnceValue(func() (list []string) {
	for line := range strings.Lines(shelfKeptCSV) {
		if !strings.HasPrefix(line, "#") && strings.TrimSpace(line) != "words" {
			list = append(list, strings.Split(strings.TrimSpace(line), ";")...)
		}
	}
	return list
})

// mayNeedFridge says whether a food is prepared food of which no table knows that it keeps out: it is taken to need a fridge.
func mayNeedFridge(f *food.Food) bool {
	if f == nil || f.Group != "prepared" {
		return false
	}
	name := " " + strings.ToLower(f.Name) + " "
	for _, w := range shelfKept() {
		if w != "" && strings.Contains(name, " "+w+" ") {
			return false
		}
	}
	return true
}
