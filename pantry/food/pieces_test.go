package food

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"scullion/pantry/measure"
)

func TestPieceTable(t *testing.T) {
	if _, err := readPieces(); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]measure.Amount{
		"steak pasties": 225_000, "muffins": 113_000, "blueberry muffin": 113_000, "mince pies": 60_000, "apple pie": 200_000,
		"mistakes": 0, "pie dish": 0, "leeks": 0, "": 0, "burger": 113_000, "veggie burgers": 70_000, "pastéis de nata": 70_000, "wine": 0,
	} {
		if got := Piece(name); got != want {
			t.Errorf("one of %q is %d mg, not %d", name, got, want)
		}
	}
	for phrase, want := range map[string]bool{"chicken pie": true, "fish stew": true, "tomato soup": true, "goulash": true, "lasagne": true, "paint": false, "phone calls": false, "": false} {
		if EndsInFood(phrase) != want {
			t.Errorf("%q ends in food: %v", phrase, !want)
		}
	}
}

// Weights of pieces that name USDA SR28 are among its measures of that food.
func TestPiecesAgainstSR28(t *testing.T) {
	weights := sr28Measures(t)
	number := regexp.MustCompile(`^SR28 (\d{5}) `)
	compared := 0
	for line := range strings.Lines(piecesCSV) {
		f := strings.SplitN(line, ",", 3)
		if len(f) < 3 {
			t.Fatalf("%q", line)
		}
		m := number.FindStringSubmatch(strings.Trim(strings.TrimSpace(f[2]), `"`))
		if m == nil {
			continue
		}
		compared++
		mg := Piece(strings.Split(f[0], ";")[0])
		if !slices.ContainsFunc(weights[m[1]], func(g float64) bool { return math.Abs(g-mg.Units()) < 0.5 }) {
			t.Errorf("%s: %g g is no measure of SR28 %s: %v", f[0], mg.Units(), m[1], weights[m[1]])
		}
	}
	if compared < 15 {
		t.Errorf("only %d compared", compared)
	}
}
