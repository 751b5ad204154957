package language

import (
	"fmt"
	"strings"
)

// SwapHeard reads two places that change with each other, in any order of words: "seat 5 has swapped with seat 8 on table
// 1", "swap t1 s5 and t1 s8". Every word must be a place, a word for that or one that adds nothing.
func (r *Reader) SwapHeard(text string) (a, b string, ok bool) {
	if len(text) > mostHeld || strings.Contains(text, "?") {
		return "", "", false
	}
	p := r.asTyped(text)
	p.end = len(p.t)
	swaps, kinds := false, 0
	var places []string
	for i := 0; i < p.end; {
		place, n := p.placeAt(i)
		switch {
		case n > 0:
			kinds++
			places = append(places, strings.Split(place, placeMark)...)
		case p.among("{swapword}", i) > 0:
			n, swaps = p.among("{swapword}", i), true
		case p.among("{swapfill}", i) > 0:
			n = p.among("{swapfill}", i)
		case p.t[i].sort == mark:
			n = 1
		case p.is(i, digit) && p.t[i].val.Den == 1: // "booth 3 and 7", "4 and 7 have swapped"
			kind := "table"
			if len(places) > 0 {
				kind = strings.TrimRight(places[len(places)-1], " 0123456789")
			}
			places, n = append(places, fmt.Sprint(kind, " ", p.t[i].val.Num)), 1
		default:
			return "", "", false
		}
		i += n
	}
	if !swaps || kinds == 0 && p.among("{swapword}", 0) > 0 { // "swap 1 and 3" is of the dishes of a plan
		return "", "", false
	}
	table, left := "", places[:0:0]
	for _, place := range places { // the table that seats are said to be at, before them or behind
		if t := tableOf(place); t != "" {
			table = t
		}
	}
	for _, place := range places {
		switch {
		case isSeat(place) && table != "":
			left = append(left, table+" "+place)
		case place == table && len(places) > 2: // it is where the seats are
		default:
			left = append(left, place)
		}
	}
	if len(left) != 2 || left[0] == left[1] {
		return "", "", false
	}
	return left[0], left[1], true
}
