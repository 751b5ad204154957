package language

import (
	"regexp"
	"strings"
)

// OnePlace is a regular expression of a numbered place in a sentence about needs: "table 5", "t5".
const OnePlace = `(?:(?:table|tbl|bed|room|rm|seat|booth|cover|year|yr|class|ward|bay|order|ticket|check) ?\d{1,3}[a-z]?|t\d{1,3}|y\d{1,2})`

// needSaid puts ways in which needs are told over the pass into the words that table.csv has.
var needSaid = []struct {
	re *regexp.Regexp
	to string
}{
	{regexp.MustCompile(`(?i)^\s*(?:needs?|note|nb|fyi|heads up)\s*[:,-]\s*(the )?(` + OnePlace + `)\b`), "$2"},
	{regexp.MustCompile(`(?i)^\s*(?:and|also|oh and|plus|oh)\s+(` + OnePlace + `)\b`), "$1"},
	{regexp.MustCompile(`(?i)^(\s*` + OnePlace + `)[,:]? (?:also|and also|additionally) (no|cant|can't|doesnt|doesn't|without)\b`), "$1 $2"},
	{regexp.MustCompile(`(?i)^(\s*` + OnePlace + `\b[^,;.\n]*?)[, ]+(?:too|as well|aswell|either)\s*[.!]*$`), "$1"},
	{regexp.MustCompile(`(?i)\b(?:just |have just |has just )?(?:(?:walked|came|come|sat|turned) (?:in|down|up)|just in|arrived|just arrived|seated)(?: on| at)? (` + OnePlace + `)\b`), "on $1"}, // "coeliac just walked in table 3"
	{regexp.MustCompile(`(?i)^(\s*(?:\d{1,3}|one|two|three|four|five|six)\s*x?\s*(?:gf|df|nf|ef|vg|ve|vgn|veg|veggies?|pb|coel|coeliacs?|vegans?)) on (\d{1,3})\s*$`), "$1 on table $2"},          // "two gf on 5"
	{regexp.MustCompile(`(?i)^(\s*(?:gf|df|nf|ef|vgn|coel|coeliac|vegan|preggers|preg)) on (\d{1,3})\s*$`), "$1 on table $2"},
}

// inAt is a name of whom somebody says that they are in, and behind it what they cannot eat, of "he" or "she".
var inAt = regexp.MustCompile(`(?i)^\s*([a-z][a-z']*)(?:'s| is|s) (?:in|on|coming|booked)\b[\w :]*?(,|;|\.| and)\s*(?:he|she|they)('s|’s|'re| is| are| has| have| can'?t | cannot )`)

// leftPlace is a place whose guests have left with who sits there now behind it: "table 9 left, new people no allergies".
var leftPlace = regexp.MustCompile(`(?i)^(\s*(` + OnePlace + `)\b[\w ]*?)[,;.]?\s+(?:and )?(?:the )?(?:new|next) (?:people|guests|lot|ones|party|covers|customers|table)(?: in| on it| there| now| sat| have| has| with| is| are|:|,)*\s+(.+)$`)

// noneOfThese is a place with several foods that it is not to have: "table 12, no eggs, no flour and no milk in hers please,
// allergies".
var noneOfThese = regexp.MustCompile(`(?i)^\s*(` + OnePlace + `)\b[,:]?\s+(no [a-z]+(?:\s*(?:,| and|, and| &| or)\s*no [a-z]+)+)(?: in (?:hers|his|theirs|it|them|their food))?(?:,? please)?(?:,? (?:allerg(?:y|ies|ic)))?\s*[.!]?$`)

var betweenNone = regexp.MustCompile(`(?i)\s*(?:,| and|, and| &| or)\s*no `)

// plainNeeds puts a text about needs into the words that table.csv has.
func plainNeeds(text string) string {
	if m := noneOfThese.FindStringSubmatch(text); m != nil {
		text = m[1] + ": " + betweenNone.ReplaceAllString(m[2], ", no ")
	}
	for _, s := range needSaid {
		text = s.re.ReplaceAllString(text, s.to)
	}
	if m := inAt.FindStringSubmatchIndex(text); m != nil {
		text = text[:m[4]] + ". " + text[m[2]:m[3]] + text[m[6]:]
	}
	if m := leftPlace.FindStringSubmatch(text); m != nil {
		if text = m[1] + ". " + m[2] + ": " + m[3]; noneAtAll.MatchString(m[3]) { // of new guests without needs there is nothing to keep
			text = m[2] + ": none"
		}
	}
	return text
}

// noneAtAll says that guests have no needs.
var noneAtAll = regexp.MustCompile(`(?i)^(?:no|nil|zero|without) (?:allerg(?:y|ies)|needs|dietar(?:y|ies)|intolerances|requirements)[\w ]*[.!]*\s*$`)

// askedBehind is a question, or what they had, behind what is said of a place's needs: "table 3 no dairy what pudding can
// they have", "table 1 celery allergy and they had the jus".
var askedBehind = regexp.MustCompile(`(?i)^(.*?\b(` + OnePlace + `)\b.*?)[,.;]?\s+(?:and |but |so |- )?(?:` +
	`(?:they|she|he)(?:'ve|’ve| have| has|ve)? (?:already |just |all )?(?:had|ate|eaten|got|ordered|want|wants|wanted|having|are having|is having|would like|fancy|asked for) (?:the |a |an |some |\d{1,3} )?([a-z' ,-]+?)` +
	`|can (?:they|she|he) (?:have|eat) (?:the |a |an |some |\d{1,3} )?([a-z' ,-]+?)` +
	`|((?:what|which|any)\b[a-z' ]*\b(?:can|could|may) (?:they|she|he|we|i) (?:have|eat|do|give|offer|get)[a-z' ]*))\s*[?.!]*$`)

// AskedBehind parts what a text says of a place's needs from what it asks, or tells that they had, behind it, each as a
// question of its own; none where it does not. Had says that they were given it already.
func (r *Reader) AskedBehind(text string) (need string, asks []string, had bool) {
	m := askedBehind.FindStringSubmatch(text)
	if m == nil {
		return text, nil, false
	}
	place := m[2]
	if list, rest := r.Table(m[1]); len(list) == 0 || rest != "" {
		return text, nil, false
	}
	if m[5] != "" {
		return m[1], []string{"what can " + place + " eat?"}, false
	}
	for _, dish := range eachDish.Split(m[3]+m[4], -1) {
		if dish = strings.TrimPrefix(strings.TrimSpace(dish), "the "); dish != "" {
			asks = append(asks, "can "+place+" eat the "+dish+"?")
		}
	}
	return m[1], asks, m[3] != "" && wasGiven.MatchString(text)
}

var (
	eachDish = regexp.MustCompile(`\s*,\s*|\s+and\s+`)
	wasGiven = regexp.MustCompile(`(?i)\b(?:they|she|he)(?:'ve|’ve| have| has|ve)? (?:already |just |all )?(?:had|ate|eaten)\b`)
)
