package language

import (
	"regexp"
	"slices"
	"strings"
)

// thawedWords say of food that it was frozen and thawed before; "frozen then" and the like go with them.
var thawedWords = []string{"thawed", "defrosted", "unfrozen", "de-frosted"}

// freezesAgain are words for freezing what was frozen before.
var freezesAgain = regexp.MustCompile(`(?i)\b(?:re-?froze|re froze|re-?frozen|re-?freezing)\b|\bfroze\b.*\bagain\b`)

// WithoutThawed takes the word from before a name that says it was thawed: "defrosted salmon" is salmon. Was is
// false where there is none.
func WithoutThawed(name string) (rest string, was bool) {
	for {
		first, behind, more := strings.Cut(strings.TrimSpace(name), " ")
		if !more || !slices.Contains(thawedWords, strings.ToLower(first)) {
			return name, was
		}
		name, was = behind, true
	}
}

// FreezesAgain says whether a text tells that what was frozen before is frozen a second time.
func FreezesAgain(text string) bool { return freezesAgain.MatchString(text) }

// BackInFreezer says whether a text tells that something was put back in the freezer.
func BackInFreezer(text string) bool { return backInFreezer.MatchString(text) }

var backInFreezer = regexp.MustCompile(`(?i)\bback (?:in|into|in to|to)(?: the| our)?(?: [a-z]+)? freezer\b`)

// thawedName takes that word from the name of an item.
func (it *Item) thawedName() {
	for len(it.Words) > 1 && slices.Contains(thawedWords, strings.ToLower(it.Words[0])) {
		it.Words, it.Thawed = it.Words[1:], true
		it.Food = strings.Join(it.Words, " ")
		it.Whole, _ = WithoutThawed(it.Whole)
	}
}

// saysThawed says whether one of the words from i to j says that food was thawed.
func (p *parser) saysThawed(i, j int) bool {
	for ; i < j; i++ {
		if slices.Contains(thawedWords, p.t[i].w) {
			return true
		}
	}
	return false
}
