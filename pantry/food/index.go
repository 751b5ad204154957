package food

import "slices"

// Index finds things by the names people call them: the catalogue's foods, or
// the lines a kitchen holds. Build it once with Add, then read it from any
// number of goroutines.
//
// A name is kept as its folded words (see Fold), each known by a number. Exact
// walks a tree of those numbers; Find scores every name that shares a word, or
// a likely slip of one, with the phrase.
type Index struct {
	words  []string         // number -> folded word
	spelt  []spelling       // number -> what slips of the word are told by
	forms  map[string]int32 // a word, singular or plural -> number
	uses   [][]int32        // number -> names that contain the word
	names  []name
	joined map[string][]int32 // a name's words run together -> names
	steps  map[step]int32     // the tree of names: (node, word) -> node
	ids    [][]int            // node -> ids of the things called that
	order  map[int]int        // id -> how many ids came before it
	most   int
}

type name struct {
	id     int
	text   string // as it was given
	folded []string
	words  []int32 // the numbers of folded
	bonds  []bond  // compounds in it
	first  bool    // the first name that was given for its id
	whole  bool    // no part of it and no short form means it
}

// bond marks words[from:to] as one thing only together: "sweet potato".
type bond struct{ from, to int }

type step struct{ node, word int32 }

// NewIndex gives an empty index.
func NewIndex() *Index {
	return &Index{
		forms:  map[string]int32{},
		joined: map[string][]int32{},
		steps:  map[step]int32{},
		ids:    [][]int{nil},
		order:  map[int]int{},
	}
}

// Add makes id findable by names; id is the caller's own. Several ids may
// share a name: Find then gives them all, in the order they were added. A name
// without a letter or digit is left out.
func (x *Index) Add(id int, names ...string) { x.add(id, false, names) }

// AddWhole is Add for names of which no part and no short form means the thing:
// "soup" is no fish soup, and "bttr" no batter.
func (x *Index) AddWhole(id int, names ...string) { x.add(id, true, names) }

func (x *Index) add(id int, whole bool, names []string) {
	for _, text := range names {
		words := folded(text)
		if len(words) == 0 {
			continue
		}
		n := name{id: id, text: text, folded: words, bonds: bonds(words), whole: whole}
		for i, written := range split(text) {
			w := x.number(words[i])
			n.words = append(n.words, w)
			if _, taken := x.forms[written]; !taken {
				x.forms[written] = w // "lady's" is neither lady nor ladies
			}
		}
		if node := x.grow(n.words); !slices.Contains(x.ids[node], id) {
			x.ids[node] = append(x.ids[node], id)
			x.keep(n)
		}
	}
}

// keep files a name that the index did not have for this id.
func (x *Index) keep(n name) {
	if _, ok := x.order[n.id]; !ok {
		x.order[n.id] = len(x.order)
		n.first = true
	}
	at := int32(len(x.names))
	x.names = append(x.names, n)
	for i, w := range n.words {
		if !slices.Contains(n.words[:i], w) {
			x.uses[w] = append(x.uses[w], at)
		}
	}
	k := join(n.folded)
	x.joined[k] = append(x.joined[k], at)
	x.most = max(x.most, len(n.words))
}

// number gives the number of a folded word, a new one where it has none.
func (x *Index) number(word string) int32 {
	if n, ok := x.forms[word]; ok && x.words[n] == word {
		return n
	}
	n := int32(len(x.words))
	x.words = append(x.words, word)
	x.spelt = append(x.spelt, spell(word))
	x.uses = append(x.uses, nil)
	x.forms[word] = n
	for _, f := range forms(word) {
		if _, taken := x.forms[f]; !taken {
			x.forms[f] = n
		}
	}
	return n
}

// grow walks the tree along words, adding nodes, and gives the last.
func (x *Index) grow(words []int32) int32 {
	node := int32(0)
	for _, w := range words {
		next, ok := x.steps[step{node, w}]
		if !ok {
			next = int32(len(x.ids))
			x.ids = append(x.ids, nil)
			x.steps[step{node, w}] = next
		}
		node = next
	}
	return node
}

// Exact gives the ids of the things called exactly this, singular or plural,
// without any allowance for slips; nil where there is none. A word may hold a
// hyphen. The answer belongs to the index: do not change it.
func (x *Index) Exact(words []string) []int {
	node, ok := int32(0), len(words) > 0
	for i := 0; i < len(words) && ok; i++ {
		node, ok = x.walk(node, plain(words[i]))
	}
	if !ok {
		return nil
	}
	return x.ids[node]
}

// walk takes one plain word, or the parts of a hyphenated one, down the tree.
func (x *Index) walk(node int32, word string) (int32, bool) {
	n, ok := x.forms[word]
	if ok {
		node, ok = x.steps[step{node, n}]
		return node, ok
	}
	for i, r := range word {
		if breaks(r) {
			rest := word[i+len(string(r)):]
			if i > 0 {
				if node, ok = x.walk(node, word[:i]); !ok {
					return 0, false
				}
			}
			if rest == "" {
				return node, i > 0
			}
			return x.walk(node, rest)
		}
	}
	return 0, false
}

// MaxWords gives the number of words in the longest name; the parts of a
// hyphenated word count one by one.
func (x *Index) MaxWords() int { return x.most }

// bonds finds the compounds of words.csv in a name's folded words.
func bonds(words []string) []bond {
	var found []bond
	for from := range words {
		for _, c := range compounds() {
			if to := from + len(c); to <= len(words) && slices.Equal(words[from:to], c) {
				found = append(found, bond{from, to})
			}
		}
	}
	return found
}
