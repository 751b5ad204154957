package language

import "regexp"

var (
	// sourced is a delivery that begins with who brought it: "delivery from the cash and carry: 2kg leeks".
	// Nobody is known by that, and it is no food.
	sourced = regexp.MustCompile(`(?i)^(\s*(?:the |todays |today's |veg |meat |fish |fruit |dairy |dry |morning )?(?:delivery|deliveries|del|drop|goods|order|shop|shopping)(?: in| just in| here| arrived| has arrived| came)?) from [^:\n,\d]{1,40}?(:| -| –)`)

	// portioned is what is asked of food by the portion, which is what it is counted by.
	portioned = regexp.MustCompile(`(?i)\b(how many) (?:portions|servings|helpings|plates|pieces) of `)
)

// leaveOut gives a text without what says nothing more.
func leaveOut(text string) string {
	return portioned.ReplaceAllString(sourced.ReplaceAllString(text, "$1:"), "$1 ")
}
