package food

import (
	"cmp"
	"math/bits"
	"slices"
	"strings"

	"github.com/hbollon/go-edlib"
)

// How far the letters of a phrase may be from a name's, all words run together,
// for Likely: one slip in a short name, two in a long one.
const (
	shortName = 4 // letters; less are too few to tell anything by
	longName  = 7
	twiceLong = 10 // letters in which two slips tell still: "gotes cheese"
	tooFar    = 3
	leastLost = 3 // "mlk", "chz": what is left where letters are dropped
	mostLost  = 2 // letters dropped beside the vowels: "crots"
	leastSung = 6 // "Spanish" for spinach: so many letters with one sign for any vowels
)

// Likely gives the ids of the names that a phrase is nearest to by its letters:
// words wrong by a key or two ("leke", "demons"), parted or run together ("cauli
// flower"), without their vowels ("mlk") or as they sound ("Spanish"). It asks
// for less than Find does to be sure, so it is for a phrase that must be one of
// the few things in the index. None are given where the catalogue has another
// name that is nearer; where strict, one that is as near.
func (x *Index) Likely(phrase string, strict bool) []int {
	said := saidAs(phrase)
	ids, least := x.nearest(said)
	if all := Default().index; x != all && len(ids) > 0 && all.rivals(x, said, least, strict) {
		return nil
	}
	return ids
}

// IsSlip says whether a folded word is another, or one slip away from it. In
// three letters only two that are swapped may be one: "rde" is red, "bed" is not.
func IsSlip(said, word string) bool {
	s, n := spell(said), len(word)
	switch {
	case said == word:
		return true
	case n == shortName-1 && len(said) == n:
		return s.letters == letters(word) && edlib.OSADamerauLevenshteinDistance(said, word) == 1
	}
	return n >= shortName && len(said) >= shortName-1 && s.slipsFrom(word, min(n, longName-1)) == 1
}

// IsSlipOf says whether a phrase is a name but for one key, or but for vowels
// and doubled letters: "paers", "cheder".
func IsSlipOf(phrase, name string) bool {
	said, w := spell(join(folded(phrase))), spell(join(folded(name)))
	return IsSlip(said.word, w.word) || IsSlip(join(split(phrase)), join(split(name))) ||
		len(said.word) > shortName && undouble(said.bones) == undouble(w.bones) && len(undouble(w.bones)) >= shortName
}

// Likely gives the food that a long phrase must be a slip of: but for a key it is
// one of its names ("gotes cheese"), and it is no English of its own. Words that
// are a food's stay as they are: "beet mince" may be anything, but it is no beef mince.
func (c *Catalogue) Likely(phrase string) (*Food, bool) {
	said := saidAs(phrase)
	if len(said) == 0 || len(said[0].word) < longName {
		return nil, false
	}
	ids, _ := c.index.nearest(said)
	if len(ids) == 0 {
		return nil, false
	}
	f := c.foods[ids[0]]
	if !slices.ContainsFunc(f.Called(), func(n string) bool { return IsTypo(phrase, n) }) {
		return nil, false
	}
	for _, w := range split(phrase) {
		if c.index.knows(w) && !slices.ContainsFunc(f.Called(), func(n string) bool { return slices.Contains(folded(n), singular(w)) }) {
			return nil, false
		}
	}
	return f, true
}

// IsTypo says whether a phrase that is no English is a name but for a slip of the
// keys behind its first letter: one, or two in a long name; or but for doubled
// letters and a vowel ("cheder"). What voice typing made of a name is that name.
func IsTypo(phrase, name string) bool {
	w := join(folded(name))
	words := split(phrase)
	if heard, ok := hear(words); ok && !slices.Equal(heard, words) && IsTypo(strings.Join(heard, " "), name) {
		return true
	}
	said := join(busy(folded(phrase)))
	switch {
	case said == w, len(said) >= leastLost && said == bones(said) && said == bones(w):
		return true
	case IsPlain(phrase), min(len(said), len(w)) < shortName, said[0] != w[0]:
		return false
	}
	d := edlib.OSADamerauLevenshteinDistance(said, w)
	for _, many := range forms(w) { // "potatose"
		d = min(d, edlib.OSADamerauLevenshteinDistance(join(busy(words)), many))
	}
	s, n := spell(said), spell(w)
	switch {
	case min(len(said), len(w)) == shortName: // "laek" is leek, "lerk" may be anything
		return d == 1 && (s.letters == n.letters || s.bare == n.bare)
	case s.bare == n.bare:
		return true
	case min(len(said), len(w)) >= twiceLong:
		return d <= 2
	}
	return d == 1 || d == 2 && undouble(s.bones) == undouble(n.bones)
}

// shortAlias is the most letters of a word that one wrong letter makes another of:
// "marg" is no murg.
const shortAlias = 5

// IsNear says whether a phrase is near a name of something that is there, as
// Index.Likely has it: own, if it is what that is called here. Another name of a few
// letters must have all of the phrase's or the other way round.
func IsNear(phrase, name string, own bool) bool {
	said, w := saidAs(phrase), join(folded(name))
	if len(said) == 0 {
		return false
	}
	if !own && len(w) <= shortAlias {
		has := letters(w)
		said = slices.DeleteFunc(said, func(s spelling) bool { return s.letters&^has != 0 && has&^s.letters != 0 })
	}
	return len(said) > 0 && (slipsAway(said, w) < tooFar ||
		slices.ContainsFunc(said, func(s spelling) bool { return len(s.word) >= shortName && strings.HasPrefix(w, s.word) }))
}

// IsAnother says whether a word is a food's name by the catalogue, or English for
// food, so that it is no slip of another's.
func IsAnother(word string) bool {
	words := split(word)
	return len(words) == 1 && (len(Default().index.Exact(words)) > 0 || foodNouns()[words[0]] || foodNouns()[singular(words[0])])
}

// TrimmingLike gives the trimming that a word is a slip of: "peelngs".
func (f *Food) TrimmingLike(said string) (Trimming, bool) {
	said = key(said)
	if len(said) <= shortName {
		return Trimming{}, false
	}
	for _, t := range f.Trim {
		for _, n := range append([]string{t.Name}, t.Names...) {
			if IsSlip(said, key(n)) {
				return t, true
			}
		}
	}
	return Trimming{}, false
}

// saidAs gives the letters of a phrase as they may be meant: as they stand, and
// with foods in the place of what voice typing made of them.
func saidAs(phrase string) []spelling {
	words := split(phrase)
	if len(words) == 0 || len(words) > maxPhraseWords {
		return nil
	}
	said := []spelling{spell(join(busy(words)))}
	add := func(words []string) {
		if s := join(words); s != said[0].word {
			said = append(said, spell(s))
		}
	}
	add(busy(folded(phrase)))
	if heard, ok := hear(words); ok {
		add(busy(heard))
	}
	return said
}

// nearest gives the ids of the names that need the fewest slips, in the order
// in which they were added, and how many those are.
func (x *Index) nearest(said []spelling) (ids []int, least int) {
	least = tooFar
	add := func(names []int32) {
		for _, at := range names {
			if id := x.names[at].id; !slices.Contains(ids, id) {
				ids = append(ids, id)
			}
		}
	}
	for key, names := range x.joined {
		n := slipsAway(said, key)
		switch {
		case n > least || n == tooFar:
			continue
		case n < least:
			ids, least = ids[:0], n
		}
		add(names)
	}
	if least == tooFar-1 { // "chicks" may be chicken or chickpeas
		for key, names := range x.joined {
			if slices.ContainsFunc(said, func(s spelling) bool { return len(s.word) >= shortName && strings.HasPrefix(key, s.word) }) {
				add(names)
			}
		}
	}
	slices.SortFunc(ids, func(a, b int) int { return cmp.Compare(x.order[a], x.order[b]) })
	return ids, least
}

// rivals says whether x has a name that other does not, which is nearer than
// least or, where strict, as near.
func (x *Index) rivals(other *Index, said []spelling, least int, strict bool) bool {
	if strict {
		least++
	}
	for key := range x.joined {
		if other.joined[key] == nil && slipsAway(said, key) < least {
			return true
		}
	}
	return false
}

// slipsAway gives how many slips make the nearest of said of a name's letters;
// tooFar where that is too many.
func slipsAway(said []spelling, name string) int {
	least := tooFar
	for i := range said {
		least = min(least, said[i].slipsFrom(name, len(said[0].word)))
	}
	return least
}

// slipsFrom counts the slips that make s of a name; length is that of the word
// as it was typed, in the plural.
func (s *spelling) slipsFrom(name string, length int) int {
	allow := 1
	if min(length, len(name)+1) >= longName {
		allow = 2
	}
	switch {
	case s.word == name:
		return 0
	case length >= shortName && abs(len(s.word)-len(name)) <= allow && bits.OnesCount64(s.letters^letters(name)) <= 2*allow:
		differ := bits.OnesCount64(s.letters ^ letters(name))
		if d := edlib.OSADamerauLevenshteinDistance(s.word, name); d <= allow && (d < 2 || differ < 3 || min(length, len(name)+1) > longName) { // "carnitas" are no carote
			return d
		}
	}
	if len(s.word) < leastLost || len(name) < shortName || s.word[0] != name[0] {
		return tooFar
	}
	w := spell(name)
	switch {
	case s.lost(&w), len(s.word) > shortName && undouble(s.bones) == undouble(w.bones) && len(undouble(w.bones)) >= shortName, len(s.frame) >= leastSung && undouble(s.frame) == undouble(w.frame):
		return 2
	}
	return tooFar
}

// lost says whether s is what is left of w where letters were dropped: all its
// vowels ("bttr", "chz"), or one or two letters of a short word ("crot").
func (s *spelling) lost(w *spelling) bool {
	if s.word == s.bones && (undouble(w.bones) == s.bare || undouble(bones(w.sound)) == undouble(s.sound)) {
		return true
	}
	return len(s.word) >= shortName && len(w.word)-len(s.word) <= mostLost && within(s.word, w.word)
}

// within says whether all letters of a stand in b, in their order.
func within(a, b string) bool {
	for i := 0; i < len(a); i++ {
		at := strings.IndexByte(b, a[i])
		if at < 0 {
			return false
		}
		b = b[at+1:]
	}
	return true
}
