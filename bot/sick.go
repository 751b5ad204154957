package bot

import (
	"regexp"
	"strings"

	"scullion/bot/language"
)

// Somebody who ate here is told to be ill.

var (
	sickSaid = regexp.MustCompile(`(?i)\b(?:customers?|guests?|diners?|punters?|clients?|pupils?|students?|table ?\d+|a (?:lady|bloke|man|woman|girl|boy|kid|couple|child)|(?:some|any)one (?:who|that|at|on|from)|someones?|somebody|a family|a party|two people|people|bride|groom|regulars?)\b.{0,50}\b(?:ill|unwell|poorly|sick|threw up|throwing up|thrown up|vomit\w*|puk(?:ed|ing)|food poisoning|upset stomachs?|upset tummy|bad (?:stomach|tummy|belly)|stomach (?:ache|bug|cramps)|the (?:runs|shits|squits)|diarrh?oea|dodgy (?:stomach|tummy|belly))\b|\bfood poisoning (?:complaint|claim|call)\b|\b(?:complaint|claims?|says?|reckons?|phoned|rang|called|emailed)\b.{0,40}\bfood poisoning\b|\b(?:was|were|been|got|felt) (?:really |very )?(?:ill|sick|unwell) (?:after|from) (?:eating|the|our|having)\b`)
	notSick  = regexp.MustCompile(`(?i)\b(?:sick (?:of|note|pay|leave|day|tune|beat|joke|idea|mate|burn)|(?:off|called in|call in|calling in|phoned in|rang in|going home|went home) (?:sick|ill|poorly)|sick (?:today|tomorrow) so cant|if (?:a |any |the )?(?:customer|guest|some|any)|my |dogs?|cats?|not (?:ill|sick)|staff|chef|kp|waiter|waitress|porter)\b|://`)
)

// illTold is the kind of mishandled.csv for food after which somebody was ill.
const illTold = "ill"

// sickTold reads that somebody was ill who ate here, and after which food that is known; not ok where nobody was.
func (t *turn) sickTold(text string) (name string, ok bool) {
	if len(text) > longest/10 || !sickSaid.MatchString(text) || notSick.MatchString(text) {
		return "", false
	}
	name, _ = t.foodIn(strings.ToLower(text), true)
	return name, true
}

// sickTalk answers it: with what is kept, written down and told to whom. It judges nothing.
func (t *turn) sickTalk() (r Reply, done bool, err error) {
	name, ok := t.sickTold(t.m.Text)
	if !ok {
		return r, false, nil
	}
	of := "what they ate"
	if name != "" {
		of = "the " + strings.TrimPrefix(name, "the ")
	}
	return Reply{Kind: Answer, Text: "Tell the manager now. Serve no more of " + of + ": keep what is left of it covered, cold and labelled, and bin none of it before the manager says so.\n" +
		"Write down who, when they ate and when it began, which dish and batch, who cooked it, its readings, and its labels. Who is ill goes to a doctor; what made them ill is not for us to say." + ownRules}, true, nil
}

// illOf is the question that it comes to of food; nil of none.
func (t *turn) illOf(text string) *language.Question {
	if name, ok := t.sickTold(text); ok && name != "" {
		return &language.Question{About: aboutMishandled, Food: name, State: illTold}
	}
	return nil
}
