package language

import (
	"regexp"
	"strings"
)

var (
	needFiller = regexp.MustCompile(`(?i),?\b(?:also|as well|aswell|too|now|still|oh|no wait|wait|actually|sorry)\b,?`)
	needAdd    = regexp.MustCompile(`(?i)^\s*(?:add|plus|and) (?:another )?(.+?) (?:to|in|for) (?:the )?((?:class|year|table|ward|bed|room) ?\w+|\d{1,2}[a-f])\s*$`)
	needOne    = regexp.MustCompile(`(?i)\bthe (nuts?|egg|milk|dairy|sesame|soya|fish|shellfish|gluten|celery|mustard) (?:one|kid|allergy)\b`)
	needMore   = regexp.MustCompile(`(?i)\banother\b`)
)

// LessFiller gives what is said of a need without the words that lead on from what was said before: "7b also has an egg
// allergy now", "add 2 halal to class 9a", "7b still has the nut one". It is the text itself where there are none.
func LessFiller(text string) string {
	s := needFiller.ReplaceAllString(text, " ")
	s = needMore.ReplaceAllString(needOne.ReplaceAllString(s, "1 $1 allergy"), "1")
	s = strings.Join(strings.Fields(s), " ")
	return needAdd.ReplaceAllString(s, "$2: $1")
}
