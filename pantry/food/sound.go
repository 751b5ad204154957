package food

import "strings"

// spelling is a plain word with what its slips are told by.
type spelling struct {
	word    string
	letters uint64 // which letters it has
	first   byte   // the first of sound
	bare    string // doubled letters once: "brocoli"
	bones   string // no vowels after the first letter: "prsnp"
	sound   string // as it is said: "zukini"
	frame   string // sound with one sign for any vowels: "zakana"
}

func spell(word string) spelling {
	s := spelling{word: word, letters: letters(word), bare: undouble(word), bones: bones(word), sound: sound(word)}
	s.frame = frame(s.sound)
	if s.sound != "" {
		s.first = s.sound[0]
	}
	return s
}

// said are spellings of English words, and of French and Italian ones on an
// English menu, and one way to write how each is said. C is ch and sh.
var said = strings.NewReplacer(
	"tch", "C", "sch", "C", "sh", "C", "cch", "k", "ch", "C", "ck", "k", "cqu", "kw", "qu", "kw", "q", "k", "x", "ks",
	"sce", "se", "sci", "si", "scy", "si", "cci", "Ci", "ce", "se", "ci", "si", "cy", "si", "cc", "k", "c", "k",
	"ph", "f", "gh", "g", "gn", "n", "kn", "n", "wr", "r", "wh", "w", "dg", "j", "ge", "je", "gi", "ji", "z", "s", "h", "",
	"eau", "o", "au", "o", "aw", "o", "oa", "o", "ow", "o", "oo", "u", "ou", "u", "ue", "u", "ew", "u", "eu", "u",
	"ee", "i", "ea", "i", "ie", "i", "ei", "i", "ey", "i", "ai", "a", "ay", "a", "ae", "a", "y", "i",
)

// sound writes a word as it is said, roughly: words that sound alike are
// written alike.
func sound(word string) string {
	s := undouble(said.Replace(word))
	if len(s) > 3 {
		s = strings.TrimSuffix(s, "e")
	}
	return s
}

// frame writes "a" for any vowels of a sound.
func frame(sound string) string {
	b := []byte(sound)
	for i, c := range b {
		if vowel(c) {
			b[i] = 'a'
		}
	}
	return undouble(string(b))
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
