package language

import (
	"regexp"
	"strings"
)

// needsSaidSo are words for what somebody cannot eat, as they stand before a table's number.
const needsSaidSo = `((?:[a-z]+ )?allerg(?:y|ies)|coeliacs?|celiacs?|vegans?|veggies?|vegetarians?|gluten free|dairy free|nut free)`

// oneNeed is an allergen before the one who has it, and personsSaid words for that one: "the egg kid".
const (
	oneNeed     = `(nuts?|peanuts?|eggs?|milk|dairy|sesame|soya|fish|shellfish|gluten|celery|mustard)`
	personsSaid = `(?:one|kid|child|lad|girl|boy|lady|gent|man|woman|person|guest|baby|guy|bloke|mum|dad|nan|gran|bride|groom|customer)s?`
)

// Questions about needs that are asked in other words, with those that the tables have.
var askedAlike = []struct {
	words *regexp.Regexp
	as    string
}{
	{regexp.MustCompile(`(?i)^\s*` + needsSaidSo + ` (?:on|at) (?:table |tbl )?\d+\s*[-–,:.]?\s*(?:so )?(?:what|which)(?: (?:puddings?|puds?|desserts?|mains?|starters?|dishes|food))? can (?:they|he|she|it|we give them) (?:have|eat)?\s*\??\s*$`), "what can the $1 have?"},
	{regexp.MustCompile(`(?i)^\s*(?:the )?` + needsSaidSo + ` (?:on|at) (?:table |tbl )?\d+ (?:cant|can't|cannot|can|could) (?:have|eat) (?:the )?([a-z' -]+?),? (?:can|cant|can't|could) (?:they|he|she|it)\s*\??\s*$`), "can the $1 have the $2?"},
	{regexp.MustCompile(`(?i)^\s*can (?:the |a |that )?(?:kid|child|lad|girl|boy|lady|gent|man|woman|one|person|guest|baby|couple|guy|bloke)s? (?:on|at) (?:table |tbl )?(\d+) (have|eat) (.+)$`), "can table $1 $2 $3"},
	{regexp.MustCompile(`(?i)^\s*(?:and |so |but |ok )?can (?:the |that |our )` + oneNeed + `(?:[ -]free| allergy| intolerant)? ` + personsSaid + ` (?:have|eat) (.+)$`), "can the $1 allergy have $2"},
	{regexp.MustCompile(`(?i)^\s*(?:and |so |but |ok )?can (?:the |that |our )` + personsSaid + ` (?:with|who has) (?:the |an? )?` + oneNeed + ` allergy (?:have|eat) (.+)$`), "can the $1 allergy have $2"},
	{regexp.MustCompile(`(?i)^\s*(?:and |so |but |ok )*(?:the |that |our )` + oneNeed + `(?:[ -]free| allergy| intolerant)? ` + personsSaid + `[,:-]?\s+can (?:they|he|she) (?:have|eat) (.+)$`), "can the $1 allergy have $2"},
	{regexp.MustCompile(`(?i)^\s*(?:and |so |but |ok )?(?:what|which)(?: [a-z]+)? can (?:the |that |our )` + oneNeed + `(?:[ -]free| allergy| intolerant)? ` + personsSaid + ` (?:have|eat)\s*\??\s*$`), "what can the $1 allergy have?"},
	{regexp.MustCompile(`(?i)^\s*(?:and |so |but |ok )?(?:what|which) (?:sandwiches|sarnies|soups?|salads?|cakes?|pies|bits) can ((?:table|tbl) ?\d+[a-z]?|t\d+) (?:have|eat)\s*\??\s*$`), "what can $1 have?"},
	{regexp.MustCompile(`(?i)^\s*(?:are there |is there )?any ([a-z ]+?) (?:anywhere )?(?:on|in) the (?:[a-z]+ )?menu(?: today| tonight| tomorrow)?\s*\??\s*$`), "what has $1 in it?"},
	{regexp.MustCompile(`(?i)^\s*(what can (?:the )?[a-z ]+? (?:eat|have)) (?:so far|at the moment|right now|tonight|today|tomorrow|of this|then)\s*\??\s*$`), "$1?"},
	{regexp.MustCompile(`(?i)^\s*(?:what|which) (?:puddings?|puds?|desserts?|mains?|starters?) can (the [a-z ]+?) (?:eat|have)\s*\??\s*$`), "what can $1 have?"},
	{regexp.MustCompile(`(?i)^\s*who(?:'s|’s|s| is| has) (?:got )?(?:an? |any )?(?:allerg(?:y|ies|ic)|needs|dietar(?:y|ies))(?: on| in)?(?: today| tonight| tomorrow| for tomorrow)\s*\??\s*$`), "who has allergies?"},
	{regexp.MustCompile(`(?i)^\s*how much did ((?:the )?(?:[a-z]+ )?(?:wedding|banquet|buffet|function|christening|party|conference|carvery|breakfast|brunch|lunch|dinner)) cost( us)?(.*)$`), "what did $1 cost$3"},
}

// AskedAlike puts a question about needs into the words that are read; what is none stays as it is.
func AskedAlike(text string) string {
	if len(text) > mostHeld {
		return text
	}
	for _, a := range askedAlike {
		if a.words.MatchString(text) {
			return strings.TrimSpace(a.words.ReplaceAllString(text, a.as))
		}
	}
	return text
}

// placeSaid is a table that a question of needs names by its number alone.
var placeSaid = regexp.MustCompile(`(?i)^\s*(?:the )?` + needsSaidSo + ` (?:on|at) (?:table |tbl )?(\d+)\b`)

// NeedOfPlace gives the need and the table of "nut allergy on 4 - what can they have"; "" where none are named so.
func NeedOfPlace(text string) (need, place string) {
	if m := placeSaid.FindStringSubmatch(text); m != nil {
		return strings.ToLower(m[1]), m[2]
	}
	return "", ""
}
