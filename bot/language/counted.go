package language

import (
	"regexp"
	"strings"
)

// A kitchen that cooks for a class or a coach is told numbers, not orders: "class 3: 2 nut, 1 egg" is of
// what they cannot have. For a table it is one where another need stands beside it: "covers: 40, 2 vegan,
// 1 nut".
var (
	groups     = regexp.MustCompile(`(?i)^\s*(?:class|year|yr|y|form|reception|nursery|pre-?school|creche|playgroup|school|pupils|kids|children|hikers|walkers|campers|scouts|cubs|guides|coach party|coach|wedding|function|holiday club|breakfast club)\b`)
	groupNeeds = regexp.MustCompile(`(?i)\b(vegans?|vegetarians?|veggies?|coeliacs?|celiacs?|allerg\w+|halal|kosher|diabetics?)\b`)
	countedOf  = regexp.MustCompile(`(?i)((?:^|[\s,:])(?:\d{1,2}|an?|one|two|three|four|five|six)(?:\s?x)?\s+)(nuts?|peanuts?|eggs?|milk|dairy|gluten|fish|shellfish|soya|sesame|celery|mustard|lupin)\b(\s*(?:$|[,.;]|and\b|&|\d))`)
	coversOf   = regexp.MustCompile(`(?i)^\s*(?:covers|guests|heads|pax)\s*[:=]?\s*(\d{1,3})\s*[,:]\s*`)
)

// countedNeeds writes numbers with the bare word of an allergen behind as allergies, where they are.
func countedNeeds(text string) string {
	if m := coversOf.FindStringSubmatch(text); m != nil && groupNeeds.MatchString(text) {
		text = "table of " + m[1] + ": " + text[len(m[0]):]
	}
	if !groups.MatchString(text) && !(groupNeeds.MatchString(text) && saysSeated.MatchString(text)) {
		return text
	}
	for range strings.Count(text, " ") { // the end of one match begins the next
		next := countedOf.ReplaceAllString(text, "$1$2 allergy$3")
		if next == text {
			break
		}
		text = next
	}
	return text
}

// saysSeated is what a list of those at a table begins with.
var saysSeated = regexp.MustCompile(`(?i)^\s*(?:the |a )?(?:table|party|group|covers|booking|wedding)\b`)
