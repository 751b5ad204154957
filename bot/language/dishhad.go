package language

import (
	"regexp"
	"slices"
	"strings"
)

// amountSaid is an amount as it is typed behind what a dish had.
const amountSaid = `(?:about |abt |another )?(?:\d[\d.,/]*\s?(?:kg|kilos?|g|gr|grams?|ml|cl|l|ltr|litres?|liters?|oz|lbs?|tbsp|tsp|cups?|tins?|jars?|packs?|tubs?|bunch(?:es)?)?|half a (?:kilo|litre|jar|tin|tub|pack)|a (?:kilo|litre|jar|tin|tub|pack|handful|bunch))`

// dishHad is what went into a dish, told of the dish: "soup also had 200g walnuts", "forgot, soup has 200g walnuts too",
// "salmon baps with dill mayo 200g".
var (
	dishHad  = regexp.MustCompile(`(?i)^\s*(?:(?:forgot|i forgot|sorry|oh|also|btw|and|ps|oops)[,:]?\s+(?:to say )?)*(?:the |our |that )?([a-z][a-z' -]*?)\s+(?:also |has also |have also )?(?:had|has|have|got|took|contains?|contained)\s+(?:also )?(` + amountSaid + `)\s+(?:of )?([a-z][a-z' -]*?)(?:\s+(?:in it|in them|in there|in|too|as well|also))*\s*[.!]*\s*$`)
	dishWith = regexp.MustCompile(`(?i)^\s*(?:the |our )?([a-z][a-z' -]*?)\s+with\s+([a-z][a-z' -]*?)\s+(` + amountSaid + `)\s*[.!]*\s*$`)
)

// hadWords are what such a message has one of: a quick look.
var hadWords = []string{" had ", " has ", " have ", " got ", " took ", " contain", " with "}

// DishHad reads what a dish is said to have had in it, with how much; not ok where nothing of the kind is said.
func DishHad(text string) (dish, amount, food string, ok bool) {
	low := strings.ToLower(text)
	if !slices.ContainsFunc(hadWords, func(w string) bool { return strings.Contains(low, w) }) {
		return "", "", "", false
	}
	if m := dishHad.FindStringSubmatch(text); m != nil {
		return m[1], m[2], m[3], true
	}
	if m := dishWith.FindStringSubmatch(text); m != nil {
		return m[1], m[3], m[2], true
	}
	return "", "", "", false
}

// IsFilled says whether a name is one of bread with what is in it: "salmon baps".
func IsFilled(name string) bool {
	list := strings.Fields(strings.ToLower(name))
	return len(list) > 1 && slices.ContainsFunc(holdTalk().words["{filled}"].any, func(w []string) bool { return w[0] == list[len(list)-1] })
}
