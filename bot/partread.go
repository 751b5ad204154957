package bot

import (
	"fmt"
	"regexp"
	"strings"

	"scullion/pantry"
	"scullion/pantry/measure"
)

var (
	aBunch      = regexp.MustCompile(`(?i)(^\s*got|,|\band)\s+(bunch|punnet) (?:of )?([a-z])`)
	dishForWhom = regexp.MustCompile(`(?i)^\s*([a-z][a-z' ]+?) for the (?:bar|staff|restaurant|kids|buffet|function|pub),\s*(\d[\d.]*\s*(?:g|kg|ml|l)\b.*)$`)
	andTrays    = regexp.MustCompile(`(?i)^\s*(?:and|plus) (\d+ (?:trays?|boxes|box|bags?|cases?|sacks?|crates?) of [a-z].*)$`)
	foundMore   = regexp.MustCompile(`(?i)^\s*(?:just )?found (?:another |some more )?(\d[\w. ]*? (?:of )?[a-z ]+?)(?: (?:at|in|behind|under) .*)?[.!]*$`)
	dishOfOne   = regexp.MustCompile(`(?i)^\s*([a-z][a-z' ]+?): (\d[\d.]*\s*(?:g|kg|ml|l) [a-z ]+?)[.!]*\s*$`)
	keptAlso    = regexp.MustCompile(`(?i)^\s*(?:keep|save|hold) .+ and (?:all )?the ([a-z ]+?) for `)
	ofMine      = regexp.MustCompile(`(?i)\d\s*(?:ml|l|litres?) of (?:mine|yours|his|hers)\b`)
	inVolume    = regexp.MustCompile(`(?i)^\d[\d.]*\s*(?:ml|l|litres?)$`)
	cutSmall    = regexp.MustCompile(`(?i)\b(?:chopped|diced|sliced|grated|minced|pur[eé]ed?|mash(?:ed)?|soup|juiced?|stewed|cooked|peel\w*|stock|paste)\b`)
	breadSaid   = regexp.MustCompile(`(?i)\b(?:loaf|loaves|bread|sliced|baps?|rolls?|sarnies?|sandwich(?:es)?|toast)\b`)
)

// asWhole puts what is said short into words that are read whole: "bunch rosemary" in a list, "mac n cheese for the bar,
// 800g cheddar", "and 2 trays of eggs".
func (t *turn) asWhole(text string) string {
	if strings.HasPrefix(strings.ToLower(strings.TrimSpace(text)), "got ") {
		text = aBunch.ReplaceAllString(text, "$1 1 $2 of $3")
	}
	if m := dishForWhom.FindStringSubmatch(text); m != nil && t.reader().NamesDish(m[1]) {
		return m[1] + ": " + m[2]
	}
	if m := andTrays.FindStringSubmatch(text); m != nil {
		return "got " + m[1]
	}
	return text
}

// partUnread names what of stock was not read, where a reply would pass over it.
func (t *turn) partUnread(r Reply) Reply {
	text := t.m.Text
	if t.m.Delete || t.m.Press != nil || len(text) > longest/10 {
		return r
	}
	if m := keptAlso.FindStringSubmatch(text); m != nil && r.Kind == Log && len(r.Entries) > 0 {
		for _, e := range r.Entries {
			if strings.Contains(e.Item, singular(strings.ToLower(lastWord(m[1])))) {
				return r
			}
		}
		r.Text += fmt.Sprintf("\nNot read: %q. Say it by its full name, with how much.", "the "+m[1])
		return r
	}
	if r.Kind != Silent || strings.Contains(text, "?") {
		return r
	}
	namesFood := func() bool { // is asked last: to find none takes the longest
		name, _ := t.foodIn(strings.ToLower(text), false)
		return name != ""
	}
	if m := foundMore.FindStringSubmatch(text); m != nil && namesFood() {
		return Reply{Kind: Answer, Text: fmt.Sprintf("Not written: %s found. Is it more than the record? Then say \"got %s\"; \"counted\" and a weight sets all there is.", m[1], m[1])}
	}
	if m := dishOfOne.FindStringSubmatch(text); m != nil && namesFood() {
		return Reply{Kind: Answer, Text: fmt.Sprintf("Not written: %s. If that went into a dish, say \"%s in the %s\".", m[2], m[2], strings.ToLower(m[1]))}
	}
	return r
}

// notThatFood tells where words of a draft fit a food that they cannot mean: "2 brown" beside loaves is no onion, and
// what is measured in ml of "mine" no line that is weighed, nor a whole vegetable. "" else.
func (t *turn) notThatFood(d *draft, l *pantry.Line) string {
	said := strings.ToLower(strings.TrimSpace(d.Food))
	switch {
	case l == nil:
	case (said == "brown" || said == "white") && breadSaid.MatchString(t.m.Text) && !strings.Contains(l.Name, "bread") && !strings.Contains(l.Name, "loaf"):
		return fmt.Sprintf("Not written: %q, nor other loaves said by their colour alone. Say of what, like \"2 loaves of brown bread\".", strings.TrimSpace(d.Amount.Said+" "+said))
	case d.Act == pantry.Use && l.Unit == measure.Gram && ofMine.MatchString(t.m.Text):
		return fmt.Sprintf("Not written: %s of what? The last spoken of is %s, which is weighed. Say \"used %s\" and the food.", d.Amount.Said, l.Name, d.Amount.Said)
	case d.Act == pantry.Use && l.Unit == measure.Gram && l.Made == 0 && inVolume.MatchString(d.Amount.Said) && !cutSmall.MatchString(t.m.Text+" "+l.Name):
		if f := t.ear.foodOf(l); f != nil && (f.Group == "allium" || f.Group == "root vegetable") {
			return fmt.Sprintf("Not written: %s of %s, which is whole. Say its weight or how many, or \"chopped\" if it was measured cut.", d.Amount.Said, l.Name)
		}
	}
	return ""
}
