package bot

import (
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// pronouns point to food that was spoken of.
var pronouns = []string{"it", "they", "them", "that", "this", "those", "these", "that lot", "this lot"}

func isPronoun(said string) bool {
	return slices.Contains(pronouns, strings.ToLower(strings.TrimSpace(said)))
}

// mostPointed is how many of a cook's messages back food is looked for that a pronoun points to.
const mostPointed = 6

// pointed puts what the cook who said m logged last before it, where a question about food that was warm names it only
// by "it": a dish by its name, else the food. The question may be nil.
func (t *turn) pointed(q *language.Question, m *pantry.Message) error {
	if q == nil || !isPronoun(q.Food) {
		return nil
	}
	for m, err := range t.back(m.Cook, m, mostPointed, m.At.Add(-spokenLong)) {
		if err != nil {
			return err
		}
		if m.Gone {
			continue
		}
		if m.Rev == 0 {
			if told := t.abuse(m.Text); told != nil && told.Food != "" && !isPronoun(told.Food) { // it was spoken of
				q.Food = told.Food
				return nil
			}
			continue
		}
		entries, err := t.book.InForce(m)
		if err != nil {
			return err
		}
		if len(entries) == 0 {
			continue
		}
		e := entries[len(entries)-1]
		if q.Food = t.k.Line(e.Line).Name; e.Act == pantry.Use && e.Dish != "" {
			if _, away := pantry.Away(e.Dish); !away {
				q.Food = e.Dish
			}
		}
		return nil
	}
	return nil
}
