package terminal

import (
	"slices"
	"strings"
)

// mostOffers is how many completions are offered at once.
const mostOffers = 40

// complete finds words that go on from what stands left of the cursor, which
// is at rune pos. The longest run of words that begins one of them is taken,
// so that "used 2 brown on" finds "brown onion". Head and tail are the parts of
// the line that stay.
func complete(line string, pos int, words []string) (head string, offers []string, tail string) {
	r := []rune(line)
	left, tail := string(r[:pos]), string(r[pos:])
	for _, at := range wordStarts(left) {
		begun := strings.ToLower(left[at:])
		for _, w := range words {
			if strings.HasPrefix(strings.ToLower(w), begun) {
				offers = append(offers, w)
			}
		}
		if len(offers) > 0 {
			slices.Sort(offers)
			offers = slices.Compact(offers)
			return left[:at], offers[:min(len(offers), mostOffers)], tail
		}
	}
	return left, nil, tail
}

// wordStarts lists where words begin, first to last; none where the text ends
// in a space, as nothing has been begun there.
func wordStarts(s string) (at []int) {
	if s == "" || strings.HasSuffix(s, " ") {
		return nil
	}
	for i := range s {
		if s[i] != ' ' && (i == 0 || s[i-1] == ' ' || s[i-1] == ',') {
			at = append(at, i)
		}
	}
	return at[max(0, len(at)-6):]
}
