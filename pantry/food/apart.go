package food

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"sync"
)

// apart.csv holds the words of a name that make what is called so another thing than what is
// called the same without them, beside those of freefrom.csv. A row is one meaning; its kind is
// texture (of what is made for somebody who cannot chew or swallow), diet, or dish (only of
// dishes: plain flour is flour).

//go:embed apart.csv
var apartCSV string

// mark is what a word of a name sets apart.
type mark struct {
	name string // the first words of its row
	kind string
}

var markTable = sync.OnceValue(func() map[string]mark {
	t, _ := readMarks() // the tables are embedded; a test reads them and names any fault
	return t
})

func readMarks() (map[string]mark, error) {
	t := map[string]mark{}
	add := func(cell, kind string) error {
		all := strings.Split(cell, ";")
		for _, w := range all {
			if t[key(w)].name != "" || len(folded(w)) > mostNameWords {
				return fmt.Errorf("%q stands there before, or is too long", w)
			}
			t[key(w)] = mark{strings.Clone(all[0]), kind}
		}
		return nil
	}
	err := eachRow("freefrom.csv", strings.NewReader(freeFromCSV), []string{"words", "free_of", "check_label", "source"}, func(rec []string) error {
		return add(rec[0], "free")
	})
	if err != nil {
		return t, err
	}
	return t, eachRow("apart.csv", strings.NewReader(apartCSV), []string{"words", "kind", "source"}, func(rec []string) error {
		if !slices.Contains([]string{"texture", "diet", "dish"}, rec[1]) {
			return fmt.Errorf("%q is no kind", rec[1])
		}
		return add(rec[0], strings.Clone(rec[1]))
	})
}

// SetApart gives what the words of a dish's name set it apart by: what is not in it, whose diet or
// which texture it is made for, sorted. Two dishes are not the same where that differs, though the
// rest of their names is. A texture as the last word is a thing ("apple puree"), but for "pureed" and its like.
func SetApart(name string) (marks []string) {
	each(name, func(m mark) { marks = addOnce(marks, m.name) })
	slices.Sort(marks)
	return marks
}

// ApartInStock is SetApart for food as it is bought: without textures, which are as often what was
// just done to it ("200g minced carrots"), and without "plain".
func ApartInStock(name string) (marks []string) {
	each(name, func(m mark) {
		if m.kind == "free" || m.kind == "diet" {
			marks = addOnce(marks, m.name)
		}
	})
	slices.Sort(marks)
	return marks
}

// HasTexture says whether a name tells of a texture.
func HasTexture(name string) (has bool) {
	each(name, func(m mark) { has = has || m.kind == "texture" })
	return has
}

func each(name string, do func(mark)) {
	words := folded(name)
	for i := 0; i < len(words); {
		m, n := markAt(words[i:])
		if n > 0 && (m.kind != "texture" || i+n < len(words) || strings.HasSuffix(words[i], "ed")) {
			do(m)
		}
		i += max(1, n)
	}
}

func markAt(words []string) (m mark, n int) {
	for n := min(len(words), mostNameWords); n > 0; n-- {
		if m, ok := markTable()[strings.Join(words[:n], " ")]; ok {
			return m, n
		}
	}
	return m, 0
}
