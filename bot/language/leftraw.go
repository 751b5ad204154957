package language

import (
	"regexp"
	"strings"
)

// notCooked are words which tell that food is not cooked yet, beside or behind what is left of it: "600g meatballs
// left uncooked", "600g fishcakes left, not cooked yet", "600g raw burgers left".
var notCooked = regexp.MustCompile(`(?i),?(?:\s+(?:and|but|is|are|still|all|its|it's|theyre|they're|kept))*\s*\b(?:uncooked|un-cooked|raw|unbaked|unfried|ungrilled|not (?:been )?(?:yet )?(?:cooked|baked|fried|grilled|roasted|seared)(?: off| through)?|(?:still |yet )?to (?:be cooked|be baked|be fried|cook|bake|fry|grill)|havent been cooked|haven't been cooked|hasnt been cooked|hasn't been cooked)(?: yet| still)?\b`)

// clauses part a text in what is told of one food and of the next.
var clauses = regexp.MustCompile(`(?i);|&|\+|\n|\band\b`)

// WithoutRaw leaves out the words which tell that food is not cooked; the text itself where there are none.
func WithoutRaw(text string) string {
	return strings.Join(strings.Fields(notCooked.ReplaceAllString(text, "")), " ")
}

// SaysRaw says whether a text tells of food, by the last word of its name in the singular, that it is not cooked.
func SaysRaw(text, last string) bool {
	for _, clause := range clauses.Split(strings.ToLower(text), -1) {
		if strings.Contains(clause, last) && notCooked.MatchString(clause) {
			return true
		}
	}
	return false
}
