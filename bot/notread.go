package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// What may hurt somebody and is not read is never passed over.
var (
	saysRisk    = regexp.MustCompile(`(?i)\b(?:power ?cut|danger zone|under ?cooked|(?:chicken|turkey|duck|pork|burgers?|sausages?|mince|birds?|poultry)\b.* raw in the middle|pink (?:inside|near the bone)|(?:came|was|were) back pink|smells? (?:off|bad|wrong|sour|fishy)|stood out|sat out|left out|(?:been|was|were) out (?:since|for|on|all|about|\d)|out on the (?:side|counter|pass)|melted in the|refr[eo]\w+|(?:had|having) a reaction|contaminat\w+|same (?:spoon|board|knife|fryer|oil|tongs)|dripped on)\b`)
	saysAllergy = regexp.MustCompile(`(?i)\b(?:allerg\w*|alerg\w*|coeliacs?|celiacs?|intoleran\w*|anaphyla\w*|epi ?pen)\b`)
	saysDiet    = regexp.MustCompile(`(?i)\b(?:vegans?|veggies?|vegetarians?|halal|kosher|gf|gluten|nuts?|dairy|milk|eggs?|sesame|celery|mustard|soya|shellfish|allergens?|pregnant|preg)\b`)
	saysSeat    = regexp.MustCompile(`(?i)\b(?:(?:table|class|year|yr|bed|room|ward|tbl|cover|seat|order|ticket|check|booth|bay)s? ?\d{1,3}[a-z]?|t\d{1,2}|\d{1,2}[a-f]|bride|groom)\b`)
	saysClass   = regexp.MustCompile(`(?i)\b(?:(?:class|year|yr) ?\d{1,3}[a-z]?|\d{1,2}[a-f])\b`)
	saysOwn     = regexp.MustCompile(`(?i)\b(?:my|mine|i'?m|i am|mum|dad|sister|brother|wife|husband|boyfriend|girlfriend|dog|cat|cats|work|mondays?|homework|idiots?|joke)\b`)
	saysHolds   = regexp.MustCompile(`(?i)\b(?:has|have|got|contains?|holds?|eat|in it|in the|ok for|okay for|safe for|free|vegan|veggie|vegetarian|halal|kosher)\b`)
	coldFailed  = regexp.MustCompile(`(?i)\b(?:fridge|freezer|chiller|walk ?-?in|cold room)[a-z0-9 ]{0,12} (?:broke|packed|died|failed|was off|is off|went off|went down|is down|was down|is broken)\b|\bpower ?cut\b`)
	whoMayHave  = regexp.MustCompile(`(?i)^\s*(?:and |so |but |ok )?(?:is|are) \b.*\b(?:ok|okay|safe|fine|alright|suitable) (?:for|with)\b|\b(?:can|could|may|should) (?:[a-z']+ (?:or|and) )?(?:the|our|a|an|that|this|those|they|she|he|them|one|table|tbl|class|bed|year|room|order|ticket|check|seat|cover|ward|bay|booth|t\d+|y\d+)\b[\w' -]{0,60}\b(?:have|eat|try|be given)\b|^\s*what.*\ballowed\b`)
	saysMine    = regexp.MustCompile(`(?i)\b(?:my|mine|i'?m|i am|dogs?|cats?|work|mondays?|homework|idiots?|joke)\b`)
	asksThis    = regexp.MustCompile(`(?i)\?|^\s*(?:and |so |but |ok |right )*(?:can|could|is|are|does|do|did|any|what|whats|what's|which|who|whos|how many|list|sheet|print|show)\b`)
)

// noAnswerClears answers a question of who may have what that was not read.
const noAnswerClears = `Not read, and silence is no clearance. Ask like "does the curry hold nuts?", "is the curry vegan?", "what can table 4 eat?", "table?" or "allergens". Check every label.`

// guestMayHave asks whether somebody may have something.
var guestMayHave = regexp.MustCompile(`(?i)^\s*(?:and |so |ok |but )?(?:can|could|may) (?:the |our |that |this )?[a-z][a-z' -]*? (?:have|eat) (?:the |our |some |any |a )?[a-z][a-z' -]*\??\s*$`)

// saysMore asks for more at a table, not whether somebody may have it.
var saysMore = regexp.MustCompile(`(?i)\b(?:have|eat) (?:some |a bit |a little )?(?:more|another|extra)\b`)

// riskUnread answers what nothing read and may hurt somebody: food that was warm or raw, a fridge that failed, what
// somebody is allergic to.
func (t *turn) riskUnread(r Reply) Reply {
	if r.Kind != Silent || t.m.Delete || t.m.Press != nil || len(t.m.Text) > longest/10 {
		return r
	}
	text := t.m.Text
	if whoMayHave.MatchString(text) && !saysMore.MatchString(text) && !saysMine.MatchString(text) && !strings.Contains(text, "://") && (saysAllergy.MatchString(text) || saysDiet.MatchString(text) || saysSeat.MatchString(text)) {
		return Reply{Kind: Answer, Text: noAnswerClears}
	}
	if guestMayHave.MatchString(text) && !saysMore.MatchString(text) && !saysMine.MatchString(text) && len(t.needs()) > 0 { // "can the christening mum have the custard?"
		if name, _ := t.foodIn(strings.ToLower(text), false); name != "" || t.namesDishes(text) {
			return Reply{Kind: Answer, Text: noAnswerClears}
		}
	}
	if saysOwn.MatchString(text) {
		return r
	}
	food := func() string { // is asked last: of talk most holds none, and to find none takes the longest
		name, _ := t.foodIn(strings.ToLower(text), false)
		return name
	}
	holds := func() bool {
		if !saysHolds.MatchString(text) {
			return false
		}
		name := food()
		return name != "" && !saysDiet.MatchString(name)
	}
	seated := saysSeat.MatchString(text)
	switch {
	case strings.Contains(text, "://"), coldTold.MatchString(text) && !coldFailed.MatchString(text):
		return r
	case coldFailed.MatchString(text) && !asksThis.MatchString(text):
		var err error
		if r.Text, err = t.sayColdFailed(strings.Contains(strings.ToLower(coldFailed.FindString(text)), "freezer"), 0, ""); err != nil {
			return r
		}
	case saysRisk.MatchString(text) && food() != "":
		r.Text = `Not read. Food that was too warm, is not cooked through, smells, or touched what somebody is allergic to is kept back; in doubt it is binned. I understand "the curry stood out 3 hours", "the fridge is at 12c", "chicken probed at 76", "binned 2kg prawns". Your own food-safety plan and local rules go first.`
	case asksThis.MatchString(text) && (saysAllergy.MatchString(text) || saysDiet.MatchString(text)) && (seated || holds()):
		r.Text = noAnswerClears
	case !asksThis.MatchString(text) && (seated && saysAllergy.MatchString(text) || saysClass.MatchString(text) && saysDiet.MatchString(text) || t.forLater(text) || len(language.GuestNeeds(text)) > 0 && (saysAllergy.MatchString(text) || saysDiet.MatchString(text))):
		r.Text = notKept
	default:
		return r
	}
	r.Kind = Answer
	return r
}

const notKept = `Not kept: that is not read as a need of the table. Say it like "table: 1 nut allergy", "bed 3 is allergic to egg" or "dee is allergic to nuts"; "table?" tells what is known.`

// notSilent answers a message that speaks of an allergy and was not understood: silence would be
// taken for having heard.
func (t *turn) notSilent(r Reply) Reply {
	if r.Kind != Silent || t.m.Delete || t.m.Press != nil || len(t.m.Text) > longest/10 {
		return r
	}
	if told := t.maybeNeed(t.m.Text); told != "" {
		return Reply{Kind: Answer, Text: told}
	}
	if told, ok := t.reader().BareNeed(t.m.Text); ok { // "table 4: fish" may be what it orders
		return Reply{Kind: Answer, Text: fmt.Sprintf("Not kept: if that is an allergy, say %q. An order is not kept either.", told)}
	}
	if text := language.MendNeeds(t.m.Text); !language.MeansNeed(text) && !t.reader().HasNeedWord(text) && !t.seemsNeed(text) && !t.soundsLikeNeed(text) {
		return r
	}
	if whoMayHave.MatchString(t.m.Text) && asksThis.MatchString(t.m.Text) {
		return Reply{Kind: Answer, Text: noAnswerClears}
	}
	return Reply{Kind: Answer, Text: notKept}
}

// notOfTable adds that what was said of a table in a question is not kept of it, where it is not known yet.
func (t *turn) notOfTable(r Reply, text string) Reply {
	need, place := language.NeedOfPlace(text)
	if need == "" || r.Kind != Answer || slices.ContainsFunc(t.needs(), func(n pantry.Need) bool { return strings.EqualFold(n.Who, "table "+place) }) {
		return r
	}
	return r.and(fmt.Sprintf("\nNothing is kept of table %s: \"table %[1]s: 1 %s\" keeps it.", place, strings.TrimSuffix(need, "s")))
}
