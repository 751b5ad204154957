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
var orderedWithout = regexp.MustCompile(`(?i)^\s*(?:the )?((?:table|tbl|seat|cover|booth|t) ?\d{1,3}[a-z]?)\s*[:,-]?\s*(?:says? |want(?:s|ed)? |said |asked for |ask(?:s)? for |with )?(?:no|without|minus|hold the)\s+([a-z][a-z ]+?)\s*[.!]*$`)

// maybeNeed asks what is meant where that may be a need, or something else; "" where it is talk.
func (t *turn) maybeNeed(text string) string {
	if m := numberOrMany.FindStringSubmatch(text); m != nil && t.isNeed("table "+m[1]+": "+m[2]) && t.isNeed("table: "+m[1]+" "+m[2]) {
		return fmt.Sprintf("Not kept: at table %s, or %s of them? Say %q or %q.", m[1], m[1], "table "+m[1]+": "+m[2], "table: "+m[1]+" "+m[2])
	}
	if m := orderedWithout.FindStringSubmatch(text); m != nil {
		if told := strings.ToLower(m[1] + " can't have " + m[2]); t.isNeed(told) {
			return fmt.Sprintf("Not kept, as it may be what they order: if they cannot have it, say %q.", told)
		}
	}
	return ""
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
