package food

import (
	_ "embed"
	"fmt"
	"strconv"
	"strings"
	"sync"

	"scullion/pantry/measure"
)

// pieces.csv holds what one weighs of what is bought and made by the piece, whatever is in it:
// a pasty is a pasty. Names are the last words of what such food is called. The weights are
// guesses, to be told as such, until somebody weighs one.

//go:embed pieces.csv
var piecesCSV string

var pieceTable = sync.OnceValue(func() map[string]measure.Amount {
	t, _ := readPieces() // the table is embedded; a test reads it and names any fault
	return t
})

func readPieces() (map[string]measure.Amount, error) {
	t := map[string]measure.Amount{}
	return t, eachRow("pieces.csv", strings.NewReader(piecesCSV), []string{"names", "grams", "source"}, func(rec []string) error {
		n, err := strconv.ParseUint(rec[1], 10, 32)
		if err != nil || n == 0 || rec[2] == "" {
			return fmt.Errorf("%q g is no weight, or has no source", rec[1])
		}
		for name := range strings.SplitSeq(rec[0], ";") {
			if t[key(name)] != 0 || len(folded(name)) > mostNameWords {
				return fmt.Errorf("%q stands there before, or is too long", name)
			}
			t[key(name)] = measure.Amount(n) * 1000
		}
		return nil
	})
}

// Piece gives about how many mg one weighs of food that is counted and is called so: of a
// "steak pasty" as of any pasty. 0 where nothing of that name is sold by the piece.
func Piece(name string) measure.Amount {
	words := folded(name)
	for from := range words {
		if mg := pieceTable()[strings.Join(words[from:], " ")]; mg > 0 {
			return mg
		}
	}
	return 0
}

// EndsInFood says whether the last word of a phrase is a word for food: "chicken pie", "big shop".
func EndsInFood(phrase string) bool {
	words := split(phrase)
	if len(words) == 0 {
		return false
	}
	last := words[len(words)-1]
	one := singular(last)
	return foodNouns()[last] || foodNouns()[one] || Default().index.knows(last) || Default().index.knows(one) || pieceTable()[one] > 0 || len(nameTable().words[one].holds) > 0
}
