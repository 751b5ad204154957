package technique

import (
	"slices"
	"strings"
)

// Caution is a short warning, under 90 characters, written "what/what=words" or, where
// it is always said, "words".
type Caution struct {
	Of   []string // foods or kinds that it is said of; nil always
	Says string
}

// Concerns says whether the caution is said where the food is used.
func (c Caution) Concerns(s Subject) bool { return c.Of == nil || slices.ContainsFunc(c.Of, s.Is) }

// cautions reads the caution column.
func (r *row) cautions() (list []Caution) {
	for _, s := range r.list("caution") {
		of, says, found := strings.Cut(s, "=")
		c := Caution{Says: s}
		if found {
			c = Caution{strings.Split(of, "/"), says}
		}
		if c.Says == "" || slices.Contains(c.Of, "") {
			r.fail("caution", "is not words, or what/what=words: "+s)
		}
		list = append(list, c)
	}
	return list
}
