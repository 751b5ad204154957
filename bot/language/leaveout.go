package language

import (
	"regexp"
	"slices"
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
	// tooPriced is "as well" before a price: "12 avocados as well £9.60".
	tooPriced = regexp.MustCompile(`(?i) (?:as well|too),? (for |at )?([£$€]\d)`)

	// firmBrought is a delivery by a firm of several words: "fish co brought 4kg cod".
	firmBrought = regexp.MustCompile(`(?i)^\s*(?:the |our )?([a-z&'.-]+(?: [a-z&'.-]+){1,3}) (?:has |have |just |ve )?(?:brought|delivered|turned up with|came with|sent)(?: us| in)? (\d.*)$`)

	// tradeBrought is the same by a trade: "bakery dropped 60 baguettes".
	tradeBrought = regexp.MustCompile(`(?i)^\s*(?:the |our )?(?:bakery|baker|bakers|butcher|butchers|fishmonger|fishmongers|dairy|grocer|grocers|greengrocer|supplier|milkman|wholesaler|farm|farmer|driver|veg man|veg guy|fish man|fish guy|meat man|egg man)(?: has|'s| just)? (?:dropped|left us|been with|came with|turned up with) (\d.*)$`)

	// onScales is what a food weighs: "cheddar 3.6kg on the scales".
	onScales = regexp.MustCompile(`(?i)^([a-z][^,?]* \d[\w.]* ?(?:kg|g|l|ml|kilos?|grams?)) (?:on|by) the scales?\s*[.!]?$`)

	// leftBinned is what was left over and thrown: "4 baguettes left, binned".
	leftBinned = regexp.MustCompile(`(?i)^\s*(\d[^,?]*?) (?:left over|left|over|unsold),? (?:so |and |all )?(?:binned|in the bin|chucked|thrown|thrown away|thrown out)(?: them| it)?\s*[.!]?$`)

	// cameIn is a delivery with a word for it that is none by itself: "in: 60 apples £11", "and the fruit - 40 apples £7".
	cameIn = regexp.MustCompile(`(?i)^\s*(?:(?:stock )?in\s*:\s*(\d.*)|(?:and |also |then )?(?:the )?(?:fruit|veg|fruit and veg|meat|fish|dairy|dry|bread|frozen|salad|drinks|cheese)(?: order| delivery| drop| box)?\s*[-:]\s*(\d[^?]*[£$€]\s?\d[^?]*))$`)

	// inFor is food on its way into a dish: "5kg topside in for the roast beef", "topside in the oven, 4kg for the roast".
	inFor   = regexp.MustCompile(`(?i)^\s*(\d[^,?]*?) (?:is |are |gone |going )?in for (?:the )?([a-z' -]+?)\s*[.!]?$`)
	ovenFor = regexp.MustCompile(`(?i)^\s*(?:the )?([a-z' -]+?) in the oven,? (\d\S*(?: ?(?:kg|g))?),? for (?:the )?([a-z' -]+?)\s*[.!]?$`)
	ovenOf  = regexp.MustCompile(`(?i)^\s*(?:the )?([a-z' -]+?) in the oven for (?:the )?([a-z' -]+?),? (\d\S*(?: ?(?:kg|g))?)\s*[.!]?$`)

	// shouldOf is "should have" as it sounds.
	shouldOf = regexp.MustCompile(`(?i)\bshould of\b`)

	// aswell is "as well" at the end, written as one word.
	aswell = regexp.MustCompile(`(?i) aswell\b`)

	// firmList is a delivery headed with who brought it, with its prices: "fishco: 4kg cod £44".
	firmList = regexp.MustCompile(`(?i)^\s*(?:from )?([a-z&' .-]{2,30}?)\s*:\s*(\d[^?]*[£$€]\s?\d[^?]*)$`)

	// cookedWith is a dish that is told by what it was cooked with: "cooked omelette with 6 eggs".
	cookedWith = regexp.MustCompile(`(?i)^(\s*(?:i |we |ive |i've |weve |we've )?)(?:cooked|fried|baked|did|knocked up|whipped up|threw together|cooked up)(?: up)? (?:an? |the |some |my |our )?((?:[a-z'-]+ ){0,3}?[a-z'-]+?)( for \d+)? (?:with|from|out of|using) (\d.*)$`)

	cookedIn = regexp.MustCompile(`(?i) (scrambled|fried|roasted|sauteed|sautéed|sweated|tossed|braised|poached|browned) (?:in|with) (\d)`)
)

// leaveOut gives a text without what says nothing more, and with what was cooked in something as two uses.
func leaveOut(text string) string {
	_, text = MadeOn(text, time.Sunday)
	text = shouldOf.ReplaceAllString(text, "should have")
	text = aswell.ReplaceAllString(text, " as well")
	if m := cameIn.FindStringSubmatch(text); m != nil {
		text = "got " + m[1] + m[2]
	}
	text = inFor.ReplaceAllString(text, "used $1 in the $2")
	text = ovenFor.ReplaceAllString(text, "used $2 $1 in the $3")
	text = ovenOf.ReplaceAllString(text, "used $3 $1 in the $2")
	text = tooPriced.ReplaceAllString(text, " $1$2")
	if m := firmBrought.FindStringSubmatch(text); m != nil && !isSaid(m[1], "the", "our", "not", "could", "if", "ask", "i", "pron", "they", "he", "she", "we", "that", "says", "said", "swears", "guest", "table") {
		text = "got " + m[2]
	}
	if m := tradeBrought.FindStringSubmatch(text); m != nil {
		text = "got " + m[1]
	}
	text = leftBinned.ReplaceAllString(text, "binned $1")
	text = onScales.ReplaceAllString(text, "$1 left")
	if m := firmList.FindStringSubmatch(text); m != nil && isStrange(m[1]) {
		text = "got " + m[2]
	}
	if m := cookedWith.FindStringSubmatch(text); m != nil && words().is(strings.ToLower(m[2][strings.LastIndexByte(m[2], ' ')+1:]), "dish") {
		text = m[1] + "used " + strings.TrimRight(m[4], ". !") + " in the " + m[2] + m[3]
	}
	text = portioned.ReplaceAllString(sourced.ReplaceAllString(text, "$1:"), "$1 ")
	if strings.Contains(strings.ToLower(text), "used ") {
		return cookedIn.ReplaceAllString(text, " and $2")
	}
	return cookedIn.ReplaceAllString(text, " $1, used $2")
}

// isSaid says whether a phrase has one of some words, as a word or as a class of words.csv.
func isSaid(phrase string, list ...string) bool {
	for _, w := range strings.Fields(strings.ToLower(phrase)) {
		if slices.Contains(list, w) || slices.ContainsFunc(list, func(c string) bool { return words().is(w, class(c)) }) {
			return true
		}
	}
	return false
}

// isStrange says whether no word of a phrase is one of the reader's own, so that it may name a firm.
func isStrange(phrase string) bool {
	for _, w := range strings.Fields(strings.ToLower(phrase)) {
		if l := words(); len(l.first[w]) > 0 || questions().known[w] {
			return false
		}
	}
	return true
}
