package food

import (
	"math/bits"
	"strings"

	"github.com/hbollon/go-edlib"
)

// likeness is a word of the index that a written word may be.
type likeness struct {
	word int32
	like float64 // 1: it is that word
	how  string  // "" for the word itself, "slip", "short" or "sound"
}

const (
	likeSound   = 0.88 // what voice typing made of a food: sure only in the right place
	likeBegin   = 0.90 // "cauli"
	likeBones   = 0.90 // "prsnp": the vowels are left out
	likeDouble  = 0.92 // "brocolli": only doubled letters differ
	wrongLetter = 0.04 // "floor" for flour: one letter for another is less like a slip than one lost or swapped
)

// near gives the words of the index that a plain word may be: the word itself
// alone where the index has it, nothing where the word is another food, and
// else the likely slips and short forms of it.
func (x *Index) near(word string) []likeness {
	if n, ok := x.forms[word]; ok {
		return []likeness{{n, 1, ""}}
	}
	one := singular(word)
	if n, ok := x.forms[one]; ok {
		return []likeness{{n, 1, ""}}
	}
	if len(word) < 3 || len(word) > maxWordBytes || tables().idle[word] || x.knows(word) || x.knows(one) {
		return nil
	}
	var found []likeness
	set, bare, bone := letters(word), undouble(word), bones(word)
	for n, w := range x.words {
		if bits.OnesCount64(set^x.sets[n]) > 4 && !begins(w, one) && w[0] != word[0] {
			continue
		}
		if l := like(word, one, bare, bone, w, bits.OnesCount64(set^x.sets[n])); l.like > 0 {
			l.word = int32(n)
			found = append(found, l)
		}
	}
	return found
}

// like compares a written word with a word of the index. apart is the number
// of letters that only one of them has.
func like(word, one, bare, bone, w string, apart int) likeness {
	best := likeness{}
	if begins(w, one) {
		best = likeness{like: likeBegin, how: "short"}
	}
	if len(word) <= 3 || len(w) <= 3 {
		return best
	}
	if len(bone) > 3 && bone == bones(w) && w[0] == word[0] {
		best = likeness{like: likeBones, how: "short"}
	}
	if s := slip(word, one, bare, w, apart); s > 0 {
		best = likeness{like: max(s, best.like), how: "slip"}
	}
	return best
}

// begins says whether w begins with a short form of at least three letters.
func begins(w, short string) bool {
	return len(short) >= 3 && len(w) >= len(short)+2 && strings.HasPrefix(w, short)
}

// slip gives how like two words of four letters or more are: 1 less the share
// of letters that would have to be changed, or 0 where that is too many.
func slip(word, one, bare, w string, apart int) float64 {
	if bare == undouble(w) || undouble(one) == undouble(w) {
		return likeDouble
	}
	least := 0.0
	for _, as := range [2]string{word, one} {
		if as == one && one == word && least > 0 {
			break
		}
		n := max(len(as), len(w))
		allow := 1
		if n >= 7 {
			allow = 2
		}
		if as[0] != w[0] {
			allow--
		}
		if allow == 0 && n >= 6 && as[len(as)-1] == w[len(w)-1] {
			allow = 1
		}
		if allow == 0 || abs(len(as)-len(w)) > allow || as == word && apart > 2*allow+1 {
			continue
		}
		if d := edlib.OSADamerauLevenshteinDistance(as, w); d <= allow {
			is := 1 - float64(d)/float64(n)
			if len(as) == len(w) && d == 1 && letters(as) != letters(w) {
				is -= wrongLetter
			}
			least = max(least, is)
		}
	}
	return least
}

func abs(n int) int {
	if n < 0 {
		return -n
	}
	return n
}

// letters gives the set of a word's letters and digits as bits.
func letters(word string) uint64 {
	var set uint64
	for i := 0; i < len(word); i++ {
		switch c := word[i]; {
		case c >= 'a' && c <= 'z':
			set |= 1 << (c - 'a')
		default:
			set |= 1 << (26 + c%32)
		}
	}
	return set
}

// undouble writes doubled letters once.
func undouble(word string) string {
	for i := 1; i < len(word); i++ {
		if word[i] == word[i-1] {
			b := []byte(word[:i])
			for ; i < len(word); i++ {
				if word[i] != word[i-1] {
					b = append(b, word[i])
				}
			}
			return string(b)
		}
	}
	return word
}

// bones leaves out the vowels after the first letter.
func bones(word string) string {
	b := make([]byte, 0, len(word))
	for i := 0; i < len(word); i++ {
		if i == 0 || !strings.ContainsRune("aeiou", rune(word[i])) {
			b = append(b, word[i])
		}
	}
	return string(b)
}
