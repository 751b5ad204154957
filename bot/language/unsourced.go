package language

import "regexp"

// sourced is a delivery that begins with who brought it: "delivery from the cash and carry: 2kg leeks".
var sourced = regexp.MustCompile(`(?i)^(\s*(?:the |todays |today's |veg |meat |fish |fruit |dairy |dry |morning )?(?:delivery|deliveries|del|drop|goods|order|shop|shopping)(?: in| just in| here| arrived| has arrived| came)?) from [^:\n,\d]{1,40}?(:| -| –)`)

// unsourced leaves out who brought a delivery: nobody is known by that, and it is no food.
func unsourced(text string) string { return sourced.ReplaceAllString(text, "$1:") }
