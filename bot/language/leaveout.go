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
	cookedIn = regexp.MustCompile(`(?i) (scrambled|fried|roasted|sauteed|sautéed|sweated|tossed|braised|poached|browned) (?:in|with) (\d)`)
)

// leaveOut gives a text without what says nothing more, and with what was cooked in something as two uses.
func leaveOut(text string) string {
	_, text = MadeOn(text, time.Sunday)
	text = portioned.ReplaceAllString(sourced.ReplaceAllString(text, "$1:"), "$1 ")
	if strings.Contains(strings.ToLower(text), "used ") {
		return cookedIn.ReplaceAllString(text, " and $2")
	}
	return cookedIn.ReplaceAllString(text, " $1, used $2")
}
