package bot

import (
	"fmt"
	"regexp"
	"strings"

	"scullion/pantry"
)

// numberOrMany is a number and a need behind it, which may be of a table or of so many: "16 - nut allergy".
var numberOrMany = regexp.MustCompile(`(?i)^\s*(\d{1,3})\s*[-–—]\s*([a-z][a-z ]+?)\s*[.!]*$`)

// orderedWithout is a place and a food it is to have nothing of, which may be what it orders: "table 7 no cream".
var orderedWithout = regexp.MustCompile(`(?i)^\s*(?:the )?((?:table|tbl|seat|cover|booth|order|ticket|check|t) ?\d{1,3}[a-z]?)\s*[:,-]?\s*(?:says? |want(?:s|ed)? |said |asked for |ask(?:s)? for |with )?(?:no|without|minus|hold the)\s+([a-z][a-z ]+?)\s*[.!]*$`)

// moreAt is a place where there is one more, of what is not said: "12: one more".
var moreAt = regexp.MustCompile(`(?i)^\s*((?:(?:table|tbl|t|bed|room|rm|booth) ?)?\d{1,3}[a-f]?)\s*[:,-]?\s*(?:has |have |got |is )?(?:(?:one|another|\d{1,2}) more|another(?: one)?|plus one|\+ ?1)\s*[.!]*$`)

// maybeNeed asks what is meant where that may be a need, or something else; "" where it is talk.
func (t *turn) maybeNeed(text string) string {
	if m := numberOrMany.FindStringSubmatch(text); m != nil && t.isNeed("table "+m[1]+": "+m[2]) && t.isNeed("table: "+m[1]+" "+m[2]) {
		return fmt.Sprintf("Not kept: at table %s, or %s of them? Say %q or %q.", m[1], m[1], "table "+m[1]+": "+m[2], "table: "+m[1]+" "+m[2])
	}
	if m := moreAt.FindStringSubmatch(text); m != nil {
		if place := t.placeCalled(strings.ToLower(m[1])); len(t.needsAt(place)) > 0 {
			return fmt.Sprintf("Not kept: one more of what at %s? Say it like %q; guests without needs need no word.", place, place+": one more coeliac")
		}
	}
	if m := orderedWithout.FindStringSubmatch(text); m != nil {
		if told := strings.ToLower(m[1] + " can't have " + m[2]); t.isNeed(told) {
			return fmt.Sprintf("Not kept, as it may be what they order: if they cannot have it, say %q.", told)
		}
	}
	return ""
}

var (
	// forSome is a place, or how many guests, somewhere in a text.
	forSome = regexp.MustCompile(`(?i)\b(?:(?:table|tbl|bed|room|ward|bay|class|year|order|ticket|check|seat|cover|booth) ?\d{1,3}[a-z]?|t\d{1,3}|(?:for|need) \d{1,3}\b|(?:reception|function|wedding|fete|party|bar|terrace|high ?chair)\b)`)
	// keptOut is what guests are told of and is no dish: a diet, or foods that are to be kept out.
	keptOut = regexp.MustCompile(`(?i)\b(?:gf|df|nf|coeliacs?|celiacs?|halal|kosher|gluten[ -]?free|nut[ -]?free|dairy[ -]?free|tree nuts?|no (?:pork|beef|nuts?|dairy|gluten|eggs?|fish|shellfish|sesame|soya?|milk|wheat|honey|alcohol|meat)\b[, ]+(?:and |or )?no [a-z]+)\b`)
	// isServed is food with a diet in its name, or what somebody does with it.
	isServed = regexp.MustCompile(`(?i)\b(?:gf|df|nf|halal|kosher|[a-z]+[ -]?free) (?:[a-z]+ )?(?:bread|flour|pasta|buns?|rolls?|cakes?|options?|menu|oats|chicken|lamb|beef|meat|sausages?|batter|pizza|bases?|brownies?|milk|gravy|sauce|stock|beer|range|section|wraps?|noodles?|cheese|spread)\b|^\s*(?:there['’]?s no|no|used?|got|made?|binned|bought|ordered|took|put|moved|prepped|cooked|served|sent)\b`)
)

// seemsNeed says whether a text that nothing has read names a place, or how many, and what guests are told of by name.
func (t *turn) seemsNeed(text string) bool {
	return !saysMine.MatchString(text) && forSome.MatchString(text) && keptOut.MatchString(text) && !isServed.MatchString(text) && !strings.Contains(text, "?")
}

// isNeed says whether all of a text is read as what somebody is allergic to, or a food that holds such.
func (t *turn) isNeed(text string) bool {
	list, rest := t.reader().Table(text)
	if len(list) != 1 || rest != "" || len(list[0].Needs) == 0 {
		return false
	}
	for _, n := range list[0].Needs {
		if k := t.needSaid(pantry.Need{}, n).Kind; k != pantry.NeedAllergy {
			return false
		}
	}
	return true
}
