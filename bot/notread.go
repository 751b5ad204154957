package bot

import (
	"fmt"
	"regexp"
	"strings"

	"scullion/bot/language"
)

// Figures and food in words that nothing reads: they are told to be unread, as silence would be taken for having
// counted them.

var (
	figure       = regexp.MustCompile(`(?i)(?:^|[^\w.£$€])(\d[\d.,]*) ?(kgs?|kilos?|g|grams?|l|lt|ltr|litres?|liters?|ml|lbs?|oz|pints?|tins?|cans?|boxes|packs?|bags?|trays?|tubs?|bunch(?:es)?|bottles?|jars?)?(?: of)?(?: the)? ([a-z][a-z' -]*)?`)
	figureBehind = regexp.MustCompile(`(?i)([a-z][a-z' -]*?)[:,]? (\d[\d.,]*) ?(kgs?|kilos?|g|grams?|l|lt|ltr|litres?|liters?|ml|lbs?|oz|pints?)\b`)
	// noNews are words by which figures are a question, a wish, or of another day.
	noNews  = regexp.MustCompile(`(?i)\?|^\s*(?:who|whose|what|whats|what's|when|where|why|how|hows|can|could|would|should|shall|is|are|am|do|does|did|will|any|have we|has|which|ideas?|plan|remind|timer|set|wake)\b|\b(?:if|would|could|should|might|maybe|perhaps|wish|remember|order|ordering|ordered|tomorrow|tmrw|yesterday|last (?:week|night|year|month|time)|next (?:week|time|year)|going to|gonna|want|wants|need|needs|recipe|says|said|reckon|think|thinks|bet|diet|lost|weigh(?:s|ed)? in|at home|my|her|his|mum|mums|dad|kids?|joke|imagine|usually|always|never|every|each day|a week|a year|a month|a night|a day|per|calories|pounds|rip off|shopping|list|forgot to|whoever|someone|prepped by|2moro|tmr|tomoz|prep ?(?:list)? ?[:-]|monday|tuesday|wednesday|thursday|friday|saturday|sunday)\b`)
	weighed = regexp.MustCompile(`(?i)^(?:kgs?|kilos?|g|grams?|l|lt|ltr|litres?|liters?|ml|lbs?|oz|pints?)$`)
)

// leastFigures is how many figures of food a message has at least that is told to be unread, one of them a weight; mostOther
// how many words besides, over those of a heading.
const (
	leastFigures = 2
	mostOther    = 2
)

// listHead is what heads a list: "salad bar:", "choc torte -".
var listHead = regexp.MustCompile(`^\s*([a-z][a-z' &]{1,40}?)\s*(?::| - )\s*`)

// figuresUnread answers a list of figures and food that nothing read: a list says little else.
func (t *turn) figuresUnread(r Reply) Reply {
	if r.Kind != Silent || t.m.Delete || t.m.Press != nil || len(t.m.Text) > longest/10 || noNews.MatchString(t.m.Text) {
		return r
	}
	first, figures, weights := "", 0, 0
	note := func(amount, unit, name string, held bool) {
		if name == "" {
			return
		}
		figures++
		if held && weighed.MatchString(unit) {
			weights++
		}
		if first == "" || held && weights == 1 {
			first = strings.TrimSpace(amount+unit) + " " + name
		}
	}
	for _, m := range figure.FindAllStringSubmatch(t.m.Text, 40) {
		name, held := t.foodAhead(m[3])
		note(m[1], m[2], name, held)
	}
	if figures == 0 {
		for _, m := range figureBehind.FindAllStringSubmatch(t.m.Text, 40) {
			name, held := t.foodBehind(m[1])
			note(m[2], m[3], name, held)
		}
	}
	if weights == 0 || figures < leastFigures || t.otherWords(t.m.Text) > mostOther {
		return r
	}
	return Reply{Kind: Error, Text: fmt.Sprintf(`Not read, so nothing was written. Say what became of it, like "used %s in the pie", "got %[1]s", "binned %[1]s" or "%[1]s left".`, first)}
}

// otherWords counts the words of a list that are no food, figure or unit, and stand under no heading.
func (t *turn) otherWords(text string) (n int) {
	text = strings.ToLower(text)
	if m := listHead.FindStringIndex(text); m != nil {
		text = text[m[1]:]
	}
	words := strings.Fields(strings.NewReplacer(",", " ", ";", " ", "+", " ", "&", " ", "/", " ").Replace(text))
	for i := 0; i < len(words); {
		w := strings.Trim(words[i], ".!()")
		if w == "" || startsFigure.MatchString(w) || smallInList.MatchString(w) || weighed.MatchString(w) {
			i++
			continue
		}
		if name, _ := t.foodAhead(strings.Join(words[i:min(i+3, len(words))], " ")); name != "" {
			i += len(strings.Fields(name))
			continue
		}
		n++
		i++
	}
	return n
}

var (
	startsFigure = regexp.MustCompile(`^[£$€@]?\d`)
	smallInList  = regexp.MustCompile(`^(?:a|an|the|of|and|with|in|for|on|to|x|tins?|cans?|box(?:es)?|packs?|bags?|trays?|tubs?|bunch(?:es)?|bottles?|jars?|each|fresh|large|small|chopped|diced|sliced|more|also|plus|then)$`)
)

// foodAhead gives the food that words begin with, three words at most, and whether some of it is on hand; "" none.
func (t *turn) foodAhead(words string) (name string, held bool) {
	list := strings.Fields(strings.ToLower(words))
	for n := min(3, len(list)); n > 0; n-- {
		phrase := strings.Join(list[:n], " ")
		h := t.ear.find(phrase)
		if !h.exact || h.sound || h.short || h.food == nil && len(h.lines) == 0 || language.IsPlace(phrase) {
			continue
		}
		return phrase, len(h.lines) > 0 && h.lines[0].OnHand() > 0
	}
	return "", false
}

// foodBehind is foodAhead of the words that others end in.
func (t *turn) foodBehind(words string) (name string, held bool) {
	list := strings.Fields(words)
	for n := min(3, len(list)); n > 0; n-- {
		phrase := strings.Join(list[len(list)-n:], " ")
		if name, held = t.foodAhead(phrase); name == strings.ToLower(phrase) {
			return name, held
		}
	}
	return "", false
}

// What may hurt somebody and is not read is never passed over.
var (
	saysRisk    = regexp.MustCompile(`(?i)\b(?:power ?cut|danger zone|under ?cooked|(?:chicken|turkey|duck|pork|burgers?|sausages?|mince|birds?|poultry)\b.* raw in the middle|pink (?:inside|near the bone)|(?:came|was|were) back pink|smells? (?:off|bad|wrong|sour|fishy)|stood out|sat out|left out|(?:been|was|were) out (?:since|for|on|all|about|\d)|out on the (?:side|counter|pass)|melted in the|refr[eo]\w+|(?:had|having) a reaction|contaminat\w+|same (?:spoon|board|knife|fryer|oil|tongs)|dripped on)\b`)
	saysAllergy = regexp.MustCompile(`(?i)\b(?:allerg\w*|alerg\w*|coeliacs?|celiacs?|intoleran\w*|anaphyla\w*|epi ?pen)\b`)
	saysDiet    = regexp.MustCompile(`(?i)\b(?:vegans?|veggies?|vegetarians?|halal|kosher|gf|gluten|nuts?|dairy|milk|eggs?|sesame|celery|mustard|soya|shellfish|allergens?|pregnant|preg)\b`)
	saysSeat    = regexp.MustCompile(`(?i)\b(?:(?:table|class|year|yr|bed|room|ward|tbl|cover|seat)s? ?\d{1,3}[a-z]?|t\d{1,2}|\d{1,2}[a-f]|bride|groom)\b`)
	saysClass   = regexp.MustCompile(`(?i)\b(?:(?:class|year|yr) ?\d{1,3}[a-z]?|\d{1,2}[a-f])\b`)
	saysOwn     = regexp.MustCompile(`(?i)\b(?:my|mine|i'?m|i am|mum|dad|sister|brother|wife|husband|boyfriend|girlfriend|dog|cat|cats|work|mondays?|homework|idiots?|joke)\b`)
	saysHolds   = regexp.MustCompile(`(?i)\b(?:has|have|got|contains?|holds?|eat|in it|in the|ok for|okay for|safe for|free|vegan|veggie|vegetarian|halal|kosher)\b`)
	coldFailed  = regexp.MustCompile(`(?i)\b(?:fridge|freezer|chiller|walk ?-?in|cold room)[a-z0-9 ]{0,12} (?:broke|packed|died|failed|was off|is off|went off|went down|is down|was down|is broken)\b|\bpower ?cut\b`)
	asksThis    = regexp.MustCompile(`(?i)\?|^\s*(?:and |so |but |ok |right )*(?:can|could|is|are|does|do|did|any|what|whats|what's|which|who|whos|how many|list|sheet|print|show)\b`)
)

// riskUnread answers what nothing read and may hurt somebody: food that was warm or raw, a fridge that failed, what
// somebody is allergic to.
func (t *turn) riskUnread(r Reply) Reply {
	if r.Kind != Silent || t.m.Delete || t.m.Press != nil || len(t.m.Text) > longest/10 || saysOwn.MatchString(t.m.Text) {
		return r
	}
	text := t.m.Text
	name, _ := t.foodIn(strings.ToLower(text), false)
	seated := saysSeat.MatchString(text)
	holds := name != "" && !saysDiet.MatchString(name) && saysHolds.MatchString(text)
	switch {
	case strings.Contains(text, "://"), coldTold.MatchString(text) && !coldFailed.MatchString(text):
		return r
	case coldFailed.MatchString(text) && !asksThis.MatchString(text):
		var err error
		if r.Text, err = t.sayColdFailed(strings.Contains(strings.ToLower(coldFailed.FindString(text)), "freezer"), 0); err != nil {
			return r
		}
	case saysRisk.MatchString(text) && name != "":
		r.Text = `Not read. Food that was too warm, is not cooked through, smells, or touched what somebody is allergic to is kept back; in doubt it is binned. I understand "the curry stood out 3 hours", "the fridge is at 12c", "chicken probed at 76", "binned 2kg prawns". Your own food-safety plan and local rules go first.`
	case asksThis.MatchString(text) && (saysAllergy.MatchString(text) || saysDiet.MatchString(text)) && (holds || seated):
		r.Text = `Not read, and silence is no clearance. Ask like "does the curry hold nuts?", "is the curry vegan?", "what can table 4 eat?", "table?" or "allergens". Check every label.`
	case !asksThis.MatchString(text) && (seated && saysAllergy.MatchString(text) || saysClass.MatchString(text) && saysDiet.MatchString(text)):
		r.Text = notKept
	default:
		return r
	}
	r.Kind = Answer
	return r
}
