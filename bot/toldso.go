package bot

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"scullion/bot/language"
)

// What is told of heat and cold in other words, as the tables of language have it: toldso.csv.

//go:embed toldso.csv
var toldSoCSV string

// toldForm is a row of toldso.csv.
type toldForm struct {
	is *regexp.Regexp
	as string
}

// toldSlots are the slots of its patterns.
var toldSlots = strings.NewReplacer(
	"{food}", `(?P<food>[a-z][a-z' -]{1,40}?)`,
	"{n}", `(?P<n>\d{2,3}(?:\.\d)? ?(?:c|f|°c|°f|°|degrees(?: c| f)?)?)`,
	"{d}", `(?P<d>\d{2,3})`,
	"{hot}", `(?P<n>(?:[3-9]\d|1\d\d)(?:\.\d)? ?(?:c|f|°c|°f|°|degrees(?: c| f)?)?)`,
	"{hotplace}", `(?:on|in|at|under) (?:the |our )?(?:pass|line|hot ?plate|servery|lamps?|heat lamps?|side|stove|hob|counter|buffet|bain(?: marie)?|warmer|pot|pan|hot cupboard|oven|hatch|trolley)`,
	"{left}", `(?:on|in|by|at) (?:the |our |a )?(?:side|sides|counter|bench|worktop|stove|hob|floor|sun|van|car|yard|rack|trolley|window|windowsill|room temp|room temperature|dry store|prep table|back door)`,
	"{fridge}", `(?:fridge|walk[- ]?in|chiller|cooler|cold ?room|reach[- ]?in|lowboy|blast(?: chiller)?)`,
	"{h}", `(?P<h>\d{1,2}) ?(?:hours?|hrs?|h)`,
	"{place}", `(?P<place>(?:out )?(?:on|in|by|at) (?:the |our |a )?(?:side|sides|counter|bench|worktop|stove|hob|cooker|pass|table|floor|sun|truck|van|car|lorry|yard|rack|trolley|kitchen|window|windowsill|oven|pan|pot|rice cooker|room temp|room temperature|dry store|prep table|back door)|out)`,
	"{when}", `(?P<when>(?:over ?night|all night|all day|all morning|all afternoon|last night|yesterday|since (?:yesterday|last night|this morning|lunch|breakfast|noon|midday)|through the night|for (?:about |over )?\d{1,2}(?:\.\d)? ?(?:hours?|hrs?|h)|(?:about |over )?\d{1,2}(?:\.\d)? ?(?:hours?|hrs?|h)|since \d{1,2}(?:[:.]\d\d)? ?(?:am|pm)?))`,
)

var toldForms = sync.OnceValue(func() (list []toldForm) {
	c := csv.NewReader(strings.NewReader(toldSoCSV))
	c.Comment, c.FieldsPerRecord = '#', 2
	rows, err := c.ReadAll()
	if err != nil {
		panic(fmt.Sprintf("toldso.csv: %v", err))
	}
	for _, row := range rows[1:] {
		list = append(list, toldForm{regexp.MustCompile("(?i)" + toldSlots.Replace(row[0])), row[1]})
	}
	return list
})

// toldHint is a word that every such text has: it is looked for first.
var toldHint = regexp.MustCompile(`(?i)\b(?:re-?heat\w*|warmed|heated|hold\w*|cooked|made|done|boiled|roasted|thaw\w*|defrost\w*|left|after|back|rest\w*|warm|sitting|hot|still|smel\w*|pongs?|niffs?|delivery|truck|van|lorry|at|took|from|between|stood|standing|sat|out|sits|nuked|microwaved|zapped|pinged|in|into|cold|lukewarm|luke|tepid|been|pink|raw|bloody|reads|was|sour|rancid|rank|off)\b`)

// proving is dough that stands on purpose.
var proving = regexp.MustCompile(`(?i)\b(?:dough|starter|sourdough|poolish|biga|brioche)s?(?:'s)? (?:[a-z]+ ){0,2}?(?:stood|sat|sitting|standing|out|still)\b`)

// toldSo puts a text into the words of the tables; other text stays as it is.
func toldSo(text string) string {
	text = fromOven(language.MendCold(text))
	if !toldHint.MatchString(text) || len(text) > longest/20 || proving.MatchString(text) {
		return text
	}
	said := strings.TrimRight(strings.TrimSpace(text), ".! ")
	for _, f := range toldForms() {
		if m := f.is.FindStringSubmatchIndex(said); m != nil {
			return string(f.is.ExpandString(nil, f.as, said, m))
		}
	}
	if m := fromTill.FindStringSubmatch(said); m != nil {
		from, _ := strconv.Atoi(m[2])
		till, _ := strconv.Atoi(m[3])
		if n := (till - from + 12) % 12; n > 0 && from <= 23 && till <= 23 {
			return fmt.Sprintf("%s left out for %d hours", m[1], n)
		}
	}
	return text
}

// fromTill is food that stood out from one hour to another, a begun one whole.
var fromTill = regexp.MustCompile(`(?i)^(?:the )?([a-z][a-z' -]*?) (?:(?:was|were|been|left|sat|stood|is|are|has|have) )*(?:out|on the (?:side|counter|bench|pass|buffet|table|stove|hob))(?: on the (?:side|counter|bench|pass|buffet|table))? (?:from|between) (\d{1,2})(?:[:.]\d\d)? ?(?:am|pm)? ?(?:to|till|til|until|and|-) ?(\d{1,2})(?:[:.]\d\d)? ?(?:am|pm)?$`)

// tenths are degrees with a decimal, of what is probed hot: they count as the whole degree below.
var tenths = regexp.MustCompile(`\b((?:[3-9]\d|1\d\d))\.\d(\D|$)`)

func wholeDegrees(text string) string {
	if !strings.Contains(text, ".") || coldTold.MatchString(text) || weightTold.MatchString(strings.ToLower(text)) {
		return text
	}
	return tenths.ReplaceAllString(text, "$1$2")
}

// ovenLeft is what food came out of, in a text that tells what a probe showed of it: an oven's degrees are none of the food's.
var (
	ovenLeft  = regexp.MustCompile(`(?i),? (?:(?:just|straight|fresh|is|has|was|now|came|come|coming|comes|taken|pulled) )*(?:out of|out|off|from) (?:of )?(?:the |our )?(?:ovens?|grill|fryer|bbq|smoker|hob|water ?bath|tandoor|combi)\b`)
	coreAfter = regexp.MustCompile(`(?i)\b(?:core|probed?|temp|middle|centre|center|reads|internal)\b|\b(?:at|its|only|just) (?:[4-9]\d|1[0-2]\d) ?[cf]?[.! ]*$`)
)

func fromOven(text string) string {
	m := ovenLeft.FindStringIndex(text)
	if m == nil || m[0] == 0 || !coreAfter.MatchString(text[m[1]:]) {
		return text
	}
	return text[:m[0]] + text[m[1]:]
}
