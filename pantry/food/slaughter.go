package food

import "strings"

// slaughters are words that say how an animal was killed: the food is the same, with the same allergens and dates.
var slaughters = []string{"halal", "kosher"}

// Slaughtered gives the word of a name that says how the animal was killed; "" none.
func Slaughtered(name string) string {
	for _, w := range strings.Fields(strings.ToLower(name)) {
		for _, s := range slaughters {
			if w == s {
				return s
			}
		}
	}
	return ""
}

// WithoutSlaughter leaves that word out of a name.
func WithoutSlaughter(name string) string {
	word := Slaughtered(name)
	if word == "" {
		return name
	}
	var words []string
	for _, w := range strings.Fields(name) {
		if !strings.EqualFold(w, word) {
			words = append(words, w)
		}
	}
	return strings.Join(words, " ")
}
