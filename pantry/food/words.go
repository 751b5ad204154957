package food

import (
	"strings"
	"sync"
	"sync/atomic"
	"unicode"

	"github.com/gertd/go-pluralize"
	"golang.org/x/text/unicode/norm"
)

// Fold gives the form under which a word is looked up: lower case, without
// accents and apostrophes, in the singular. "Goat's" and "goats" both become
// "goat", "crème" becomes "creme", "leaves" becomes "leaf".
func Fold(word string) string { return singular(plain(word)) }

// maxWordBytes is the longest word that is looked at; no food has a longer one.
const maxWordBytes = 48

// plain lowers a word and takes off accents and apostrophes. A word that is
// plain already, as nearly all are, is given back without a copy.
func plain(word string) string {
	for i := 0; i < len(word); i++ {
		if c := word[i]; c >= 0x80 || c >= 'A' && c <= 'Z' || c == '\'' || c == '`' {
			return plainSlow(word)
		}
	}
	return word
}

func plainSlow(word string) string {
	var b strings.Builder
	for _, r := range norm.NFKD.String(word) {
		switch {
		case unicode.Is(unicode.Mn, r), apostrophe(r):
		case r == 'ß':
			b.WriteString("ss")
		case r == 'œ', r == 'Œ':
			b.WriteString("oe")
		case r == 'æ', r == 'Æ':
			b.WriteString("ae")
		case r == 'ø', r == 'Ø':
			b.WriteByte('o')
		default:
			b.WriteRune(unicode.ToLower(r))
		}
	}
	return b.String()
}

func apostrophe(r rune) bool {
	switch r {
	case '\'', '`', '’', '‘', 'ʼ', '´':
		return true
	}
	return false
}

// breaks says whether a rune parts words. Apostrophes do not.
func breaks(r rune) bool {
	return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.Is(unicode.M, r) && !apostrophe(r)
}

// split gives the plain words of a phrase; they are not yet singular. A word
// that is too long to be a food, or empty without its apostrophes, is left out.
func split(phrase string) []string {
	words := strings.FieldsFunc(phrase, breaks)
	kept := words[:0]
	for _, w := range words {
		if len(w) > maxWordBytes {
			continue
		}
		if w = plain(w); w != "" && !strings.ContainsFunc(w, breaks) {
			kept = append(kept, w)
		}
	}
	return kept
}

// folded gives the words of a phrase as Fold does.
func folded(phrase string) []string {
	words := split(phrase)
	for i, w := range words {
		words[i] = singular(w)
	}
	return words
}

// key is the look-up form of a name: "Goat's  cheeses" is "goat cheese".
func key(name string) string { return strings.Join(folded(name), " ") }

// The pluralising library matches a word against some hundred patterns, so what
// it says is kept, and a message's words that can only be regular are not asked about. The stores
// stop growing at maxKept words: chat text must not fill the memory.
const maxKept = 1 << 15

type kept struct {
	words sync.Map // string -> string
	n     atomic.Int64
}

func (k *kept) get(word string, make func(string) string) string {
	if v, ok := k.words.Load(word); ok {
		return v.(string)
	}
	made := make(word)
	if k.n.Load() < maxKept {
		k.n.Add(1)
		k.words.Store(strings.Clone(word), made)
	}
	return made
}

var (
	grammar   = sync.OnceValue(newGrammar)
	singulars kept
	plurals   kept
)

// newGrammar is the library's, in which a pavlova is not taken for several ova.
func newGrammar() *pluralize.Client {
	g := pluralize.NewClient()
	g.AddIrregularRule("pavlova", "pavlovas")
	return g
}

// Plural gives the plural of a name, as it is said to a cook: of its last word.
func Plural(name string) string {
	return plurals.get(name, func(n string) string { return grammar().Plural(n) })
}

// singular takes a plain word. Words of up to three letters are left alone
// unless plurals.csv has them: "cos" and "gas" are no plurals.
func singular(word string) string {
	if s, ok := tables().singular[word]; ok {
		return s
	}
	if len(word) <= 3 || word[len(word)-1] != 's' { // geese and feet are in plurals.csv
		return word
	}
	return singulars.get(word, func(w string) string { return grammar().Singular(w) })
}

// forms gives the spellings under which a plain singular is met in a message.
func forms(word string) []string {
	all := []string{word}
	if listed := tables().plurals[word]; listed != nil {
		return append(all, listed...)
	}
	switch {
	case len(word) < 3:
		return all
	case len(word) > 3 && strings.IndexByte("bcdgklmnprtwaeiu", word[len(word)-1]) >= 0 && !strings.HasSuffix(word, "se"): // Lebanese
		return append(all, word+"s")
	}
	return append(all, Plural(word))
}
