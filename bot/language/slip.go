package language

import (
	_ "embed"
	"slices"
	"strings"
	"sync"

	"scullion/pantry/food"
)

//go:embed plain.txt
var plainTXT string

// addSwaps notes a word of four letters or more as it is when two are swapped, but
// for the first.
func (l *lexicon) addSwaps(w string) {
	for i := 1; i+1 < len(w) && len(w) >= 4; i++ {
		if w[i] != w[i+1] && w[i] < 0x80 && w[i+1] < 0x80 {
			l.swaps[w[:i]+w[i+1:i+2]+w[i:i+1]+w[i+2:]] = w
		}
	}
}

func (l *lexicon) addNear(w string) {
	for _, d := range append(less(w), w) {
		if !slices.Contains(l.near[d], w) {
			l.near[d] = append(l.near[d], w)
		}
	}
}

// plainWords are words of their own that are a slip away from another: "pulled"
// is not "pulsed". See TestPlainWords for where they come from.
var plainWords = sync.OnceValue(func() map[string]bool { return food.WordList(plainTXT) })

// less gives w without each of its letters in turn.
func less(w string) []string {
	list := make([]string, 0, len(w))
	for i := range w {
		list = append(list, w[:i]+w[i+1:])
	}
	return list
}

// mend gives the word of an act that w is one slip away from (a letter left
// out, put in, changed, or two swapped), the longest if there are several; ""
// where there is none.
func (l *lexicon) mend(w string) string {
	if plainWords()[w] {
		return ""
	}
	return l.slipOf(w)
}

// addTypos notes how a thumb misses the words of class often: a letter lost,
// doubled, swapped with the next, or the key beside it.
func (l *lexicon) addTypos() {
	l.typos = map[string]string{}
	for _, w := range l.often {
		for _, s := range misses(w) {
			if was, ok := l.typos[s]; ok && was != w {
				l.typos[s] = ""
			} else if !l.known[s] && l.slips[s] == "" {
				l.typos[s] = w
			}
		}
	}
}

// misses gives the ways to miss a word by one key. Of words of two letters only
// the swap is one: the rest are other words.
func misses(w string) (list []string) {
	for i := range w {
		if i+1 < len(w) && w[i] != w[i+1] {
			list = append(list, w[:i]+w[i+1:i+2]+w[i:i+1]+w[i+2:])
		}
		if len(w) < 3 {
			continue
		}
		list = append(list, w[:i]+w[i:i+1]+w[i:])
		if len(w) > 4 || i > 0 {
			list = append(list, w[:i]+w[i+1:])
		}
		if i == 0 && w != "the" { // people seldom miss the first, and "dave" is no "save"
			continue
		}
		for _, k := range beside[w[i]] {
			list = append(list, w[:i]+string(k)+w[i+1:])
		}
	}
	return list
}

// beside gives the keys that lie beside each on the keyboard most thumbs use.
var beside = map[byte]string{
	'q': "wa", 'w': "qesa", 'e': "wrds", 'r': "etfd", 't': "rygf", 'y': "tuhg", 'u': "yijh", 'i': "uokj", 'o': "iplk", 'p': "ol",
	'a': "qwsz", 's': "awedxz", 'd': "serfcx", 'f': "drtgvc", 'g': "ftyhbv", 'h': "gyujnb", 'j': "huikmn", 'k': "jiolm", 'l': "kop",
	'z': "asx", 'x': "zsdc", 'c': "xdfv", 'v': "cfgb", 'b': "vghn", 'n': "bhjm", 'm': "njk",
}

// missed says whether the word at i may be "put" or "used" by a wrong key, and
// stands as those do: "pit 200g carrots in the pie".
func (p *parser) missed(i int) bool {
	return p.is(i, word) && (oneSlip(p.t[i].w, "put") || oneSlip(p.t[i].w, "used") || p.word(i, "out")) && (p.startsAmount(i+1) || p.isShare(i+1))
}

// typo gives the frequent word that w is a slip of; "" where there is none.
func (l *lexicon) typo(w string) string {
	if plainWords()[w] {
		return ""
	}
	return l.typos[w]
}

// unswapped gives the word that w is with two letters swapped, whatever it does:
// "muhc", "frmo"; "" none.
func (l *lexicon) unswapped(w string) string {
	if plainWords()[w] {
		return ""
	}
	return l.swaps[w]
}

// slipOf is mend for a word that may be one of its own.
func (l *lexicon) slipOf(w string) string {
	if len(w) < 4 || len(w) > 14 {
		return ""
	}
	found := ""
	for _, d := range append(less(w), w) {
		for _, c := range l.near[d] {
			if len(c) > len(found) && oneSlip(w, c) {
				found = c
			}
		}
	}
	return found
}

// mendCorrection gives the word of a correction that w is with two letters
// swapped or one left out; "" where there is none. Other slips would make too
// much of other words: "scrape that" is no "scrap that".
func (l *lexicon) mendCorrection(w string) string {
	for _, c := range l.amends {
		if len(w) <= len(c) && oneSlip(w, c) && (len(w) < len(c) || swapped(w, c)) {
			return c
		}
	}
	return ""
}

// swapped says whether a and b, of one length, have the same letters.
func swapped(a, b string) bool {
	for i := range a {
		if strings.Count(a, a[i:i+1]) != strings.Count(b, a[i:i+1]) {
			return false
		}
	}
	return true
}

// oneSlip says whether a and b are one slip apart. The first letter must be
// the same: people seldom miss it, and "fried" is not "dried".
func oneSlip(a, b string) bool {
	if a[0] != b[0] || a == b {
		return false
	}
	i := 0
	for i < len(a) && i < len(b) && a[i] == b[i] {
		i++
	}
	switch {
	case len(a) == len(b):
		return a[i+1:] == b[i+1:] || i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
	case len(a)+1 == len(b):
		return a[i:] == b[i+1:]
	case len(a) == len(b)+1:
		return a[i+1:] == b[i:]
	}
	return false
}
