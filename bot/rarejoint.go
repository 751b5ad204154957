package bot

import (
	"fmt"
	"regexp"
	"strings"
)

// Whole joints and steaks of beef and lamb, seared all over, which may be served rare.

var (
	jointWords = regexp.MustCompile(`(?i)\b(?:(?:beef|lamb|venison) (?:joints?|roasts?|ribs?|legs?|saddles?|racks?|rumps?|fillets?|loins?|steaks?)|ribs? of beef|prime ribs?|sirloins?|topsides?|striploins?|tenderloins?|silversides?|rump caps?|fore ?ribs?|ribeyes?|rib ?eyes?|roast beef|legs? of lamb|racks? of lamb|lamb racks?|bavettes?|onglets?|chateaubriand|steaks?)\b`)
	notWhole   = regexp.MustCompile(`(?i)\b(?:mince\w*|burgers?|rolled|boned|stuffed|tenderi[sz]ed|pierced|injected|diced|pork|chicken|turkey|duck|gammon|ham|tuna|salmon|sausages?|kebabs?|ground)\b`)
	rareWords  = regexp.MustCompile(`(?i)\b(?:rare|medium|pink|blue|med)\b`)
	jointCore  = regexp.MustCompile(`(?i)(?:^|[^\d.])(\d{2,3})(?:\.\d)? ?(c|f|°c|°f|°|degrees)?(?:[^\d.a-z/]|$)`)
	enoughFor  = regexp.MustCompile(`(?i)^\s*(?:and |so )?(?:is|was) (\d{2,3}) ?(?:c|f|degrees?)? (?:ok|okay|enough|hot enough|safe|fine|alright|done|cooked) (?:for|on|in) (?:the |a |our )?([a-z][a-z' -]*?)[\s?.!]*$`)
)

// The degrees C at which a joint is served rare to medium.
const (
	leastRare = 45
	mostRare  = 68
)

// rareJoint gives the whole joint that a text tells to be served rare, at so many degrees in the middle; "" none.
func (t *turn) rareJoint(text string) string {
	if !rareWords.MatchString(text) || notWhole.MatchString(text) || kitTold.MatchString(text) || weightTold.MatchString(strings.ToLower(text)) || asksThis.MatchString(text) {
		return ""
	}
	name := jointWords.FindString(text)
	if name == "" || t.jointDegrees(text) == 0 {
		return ""
	}
	return strings.ToLower(name)
}

// jointDegrees gives the degrees C of a text that a joint is served rare at; 0 none.
func (t *turn) jointDegrees(text string) int {
	for _, m := range jointCore.FindAllStringSubmatch(text, 5) {
		d, ok := t.doorAt(m[1], 0, len(m[1]), strings.ToLower(m[2]), false)
		if n := d.n; (ok || n > mostDoor) && n >= leastRare && n <= mostRare {
			return n
		}
	}
	return 0
}

// jointTalk answers of whole joints that are to be served rare, and whether so many degrees are enough for some food.
func (t *turn) jointTalk() (r Reply, done bool, err error) {
	if m := enoughFor.FindStringSubmatch(t.m.Text); m != nil {
		f, ok, err := t.heated(strings.ToLower(m[2]))
		if !ok || err != nil {
			return r, false, err
		}
		return Reply{Kind: Answer, Text: t.sayRules("cooking", m[2], f)}, true, nil
	}
	name := t.rareJoint(t.m.Text)
	if name == "" {
		return r, false, nil
	}
	rule := "a whole joint or steak of beef or lamb that is seared all over may be served rare (UK FSA). Rolled, boned, pierced or minced: 75 C for 30 s, or 70 C for 2 minutes."
	if t.country() == "US" {
		rule = "a whole steak that is seared all over may be served so, a whole roast where it was held: 54 C for 112 minutes, or 63 C for 4 (US FDA Food Code 2022 3-401.11, in part from memory). Minced, injected or pierced: 68 C for 17 s."
	}
	return Reply{Kind: Answer, Text: fmt.Sprintf("%s at %d C in the middle: %s Then serve it, keep it at %d C or more, or cool it; not for those at risk.%s", title(name), t.jointDegrees(t.m.Text), rule, t.limits().hot, ownRules)}, true, nil
}
