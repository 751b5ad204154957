package bot

import (
	"regexp"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
)

var (
	// madeHead begins what tells what was made; madeIs parts that into how many portions of it, or how many, what, and for
	// how many.
	madeHead = regexp.MustCompile(`(?i)^\s*(?:(?:i|we|ive|i've|weve|we've|just|have) )*(made|baked|did|cooked|knocked up|knocked out|batch cooked) (.*)$`)
	madeIs   = regexp.MustCompile(`(?i)^(?:(\d{1,4}) (?:portions?|ptns?|helpings?|servings?|covers) (?:of )?)?(?:the |some )?(.*?[a-z].*?)(?: for (\d{1,4})(?: (?:people|ppl|covers|guests|kids|portions|pax))?)?$`)
	// madeName is what is made, without how much of it there is.
	madeName = regexp.MustCompile(`(?i)^(?:about |a |an )?(?:(\d[\d.,]*) ?)?([a-z][a-z' -]*?)(?: \d[\d.,]* ?(?:kg|g|l|ml|lb|qt|gal))?$`)
	// wentInto parts what was made from what went in.
	wentInto = regexp.MustCompile(`(?i)\s*[:\n(\[]\s*|\s+[-–—]\s+|\s*,(?:\s+|\b)(?:(?:with|using|from|w|w/) )?| (?:with|using|from|w|w/) `)
	// madeUnit begins what is measured, and not counted: "made 4 litres of soup".
	madeUnit = regexp.MustCompile(`(?i)^(?:kgs?|kilos?|g|grams?|l|lt|ltrs?|lit(?:re|er)s?|ml|lbs?|pounds?|oz|gals?|gallons?|qts?|quarts?|pints?|cups?|portions?|batch(?:es)?|trays?|tins?|pots?|pans?|tubs?|x)\b`)
	// deliveredShort is a delivery in short.
	deliveredShort = regexp.MustCompile(`(?i)^\s*(?:deliv'?d?|delivry|dlvry)\b\s*[:,-]?\s*(\d.*)$`)
)

// asMade puts a text that tells what was made, for how many or how many of it, and what went into it, into the words that are
// read: "made soup with 4kg leeks for 40".
func (t *turn) asMade(text string) string {
	if m := deliveredShort.FindStringSubmatch(text); m != nil {
		return "got " + m[1]
	}
	m, ok := t.madeFrom(text)
	switch {
	case !ok:
		return text
	case m.heads != "":
		return "made " + m.what + " with " + m.list + " for " + m.heads
	}
	return "made " + m.what + " with " + m.list
}

// madeText is what a text tells of what was made: what, with how much of it, and its name alone; for how many, and what went in.
type madeText struct{ what, name, heads, list string }

// madeFrom parts such a text; false where it tells of none, or is in the words that are read already.
func (t *turn) madeFrom(text string) (made madeText, ok bool) {
	m := madeHead.FindStringSubmatch(text)
	if m == nil || strings.Contains(text, "?") {
		return made, false
	}
	apart := wentInto.FindStringIndex(m[2])
	if apart == nil {
		return made, false
	}
	by := strings.TrimSpace(m[2][apart[0]:apart[1]])
	made.list = strings.Trim(m[2][apart[1]:], " .!")
	if by == "(" || by == "[" {
		made.list = strings.TrimSpace(closing.Replace(made.list))
	}
	is := madeIs.FindStringSubmatch(m[2][:apart[0]])
	if is == nil {
		return made, false
	}
	name := madeName.FindStringSubmatch(is[2])
	if name == nil {
		return made, false
	}
	made.what, made.name, made.heads = is[2], name[2], is[1]+is[3]
	if !madeUnit.MatchString(made.name) { // "a chilli" is no piece
		made.what = anArticle.ReplaceAllString(made.what, "")
	}
	only := strings.EqualFold(m[1], "made")
	counted := name[1] != "" && !madeUnit.MatchString(name[2])
	marked := len(by) < 4 && !strings.ContainsAny(by, "wW") || by == "–" || by == "—" || strings.HasPrefix(by, ",")
	switch {
	case t.isOnHand(made.name), !only && t.isCooked(made.name): // it is what is cooked
		return made, false
	case !marked && made.heads == "" && !counted: // as it is read
		return made, false
	}
	return made, t.listsFoods(made.list, by == ",")
}

// anArticle begins what is made and is no number of it.
var anArticle = regexp.MustCompile(`(?i)^an? `)

// closing are the marks that end what stands in brackets.
var closing = strings.NewReplacer(")", "", "]", "")

// listsFoods says whether words list what goes into something, and nothing else: "5kg potatoes, 2l cream", "leeks and cream".
// Raw says that one must be food that no kitchen makes.
func (t *turn) listsFoods(words string, raw bool) bool {
	read := t.reader().Read("used " + words)
	if len(read.Statements) != 1 || read.Statements[0].Act != string(pantry.Use) || read.Statements[0].Dish != "" || len(read.Questions) > 0 {
		return false
	}
	known, any := 0, false
	for _, it := range read.Statements[0].Items {
		if it.Food == "" || it.Dish != "" {
			return false
		}
		if t.isKnownFood(it.Food) {
			known++
			any = any || !food.IsMade(it.Food) && !language.NamesDish(it.Food)
		}
	}
	return known > 0 && (!raw || any && known == len(read.Statements[0].Items))
}

// isCooked says whether words call a food of the tables, or one that came in: it is what is cooked, not what it becomes.
func (t *turn) isCooked(said string) bool {
	h := t.ear.find(strings.ToLower(said))
	return h.exact && h.food != nil || t.isOnHand(said)
}

// isOnHand says whether words call a food of which there is some: it is what is cooked, not what it becomes.
func (t *turn) isOnHand(said string) bool {
	h := t.ear.find(strings.ToLower(said))
	for _, l := range h.lines {
		if l.OnHand() > 0 && l.Made == 0 {
			return true
		}
	}
	return false
}
