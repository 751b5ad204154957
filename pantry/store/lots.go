package store

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// A balance keeps its lots as text, a lot a line: date, label (1, and 2 more
// where the piece was weighed, 4 where it is a best-before, 8 times its state), cost, weight of a piece, came, left and number
// of the last use, with commas between. They are read with every kitchen, and this is read ten times faster than JSON.

const lotFields = 7

func sayLots(lots []pantry.Lot) string {
	var b []byte
	for _, l := range lots {
		b = append(b, l.Date...)
		label := int64(0)
		if l.Label {
			label = 1
		}
		if l.Weighed {
			label += 2
		}
		if l.Best {
			label += 4
		}
		label += int64(max(0, slices.Index(food.States, l.State))) << 3
		for _, n := range [lotFields - 1]int64{label, l.Cost, int64(l.PieceMg), int64(l.Came), int64(l.Left), int64(l.Used)} {
			b = append(b, ',')
			b = strconv.AppendInt(b, n, 10)
		}
		b = append(b, '\n')
	}
	return string(b)
}

func readLots(s string) ([]pantry.Lot, error) {
	if s == "" {
		return nil, nil
	}
	lots := make([]pantry.Lot, 0, strings.Count(s, "\n"))
	for len(s) > 0 {
		row, rest, whole := strings.Cut(s, "\n")
		l, ok := readLot(row)
		if !ok || !whole {
			return nil, fmt.Errorf("%q is not a lot", row)
		}
		lots, s = append(lots, l), rest
	}
	return lots, nil
}

func readLot(row string) (l pantry.Lot, ok bool) {
	date, row, ok := strings.Cut(row, ",")
	if !ok {
		return l, false
	}
	var n [lotFields - 1]int64
	for i := range n {
		field, rest, more := strings.Cut(row, ",")
		v, err := strconv.ParseInt(field, 10, 64)
		if err != nil || more == (i == len(n)-1) {
			return l, false
		}
		n[i], row = v, rest
	}
	terms := pantry.LotTerms{Date: pantry.Date(date), Label: n[0]&1 == 1, Weighed: n[0]&2 == 2, Best: n[0]&4 == 4, Cost: n[1], PieceMg: measure.Amount(n[2])}
	if s := n[0] >> 3; s < 0 || s >= int64(len(food.States)) {
		return l, false
	} else if s > 0 {
		terms.State = food.States[s]
	}
	return pantry.Lot{LotTerms: terms, Came: measure.Amount(n[3]), Left: measure.Amount(n[4]), Used: int(n[5])}, true
}
