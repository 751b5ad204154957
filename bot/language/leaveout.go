package language

import (
	"regexp"
	"strings"
	"time"
)

var (
	// sourced is a delivery that begins with who brought it: "delivery from the cash and carry: 2kg leeks".
	// Nobody is known by that, and it is no food.
	sourced = regexp.MustCompile(`(?i)^(\s*(?:the |todays |today's |veg |meat |fish |fruit |dairy |dry |morning )?(?:delivery|deliveries|del|drop|goods|order|shop|shopping)(?: in| just in| here| arrived| has arrived| came)?) from [^:\n,\d]{1,40}?(:| -| –)`)

	// portioned is what is asked of food by the portion, which is what it is counted by.
	portioned = regexp.MustCompile(`(?i)\b(how many) (?:portions|servings|helpings|plates|pieces) of `)

	// cookedIn is food that was cooked in another, which went in as well: "60 eggs scrambled with 600ml milk".
	// cookedWith is a dish that is told by what it was cooked with: "cooked omelette with 6 eggs".
	cookedWith = regexp.MustCompile(`(?i)^(\s*(?:i |we |ive |i've |weve |we've )?)(?:cooked|fried|baked|did|knocked up|whipped up|threw together|cooked up)(?: up)? (?:an? |the |some |my |our )?((?:[a-z'-]+ ){0,3}?[a-z'-]+?)( for \d+)? (?:with|from|out of|using) (\d.*)$`)

	cookedIn = regexp.MustCompile(`(?i) (scrambled|fried|roasted|sauteed|sautéed|sweated|tossed|braised|poached|browned) (?:in|with) (\d)`)
)

// leaveOut gives a text without what says nothing more, and with what was cooked in something as two uses.
func leaveOut(text string) string {
	_, text = MadeOn(text, time.Sunday)
	if m := cookedWith.FindStringSubmatch(text); m != nil && words().is(strings.ToLower(m[2][strings.LastIndexByte(m[2], ' ')+1:]), "dish") {
		text = m[1] + "used " + strings.TrimRight(m[4], ". !") + " in the " + m[2] + m[3]
	}
	text = portioned.ReplaceAllString(sourced.ReplaceAllString(text, "$1:"), "$1 ")
	if strings.Contains(strings.ToLower(text), "used ") {
		return cookedIn.ReplaceAllString(text, " and $2")
	}
	return cookedIn.ReplaceAllString(text, " $1, used $2")
}
