package bot

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/measure"
)

// Portions told by the piece or the pot, and how many of them are left.
var (
	eachIs      = regexp.MustCompile(`(?i)^\s*(?:each|every|one) ([a-z][a-z' -]*?) (?:is|does|makes|gives|cuts into|serves|feeds|was|cuts) (\d{1,3})(?: portions?| slices?| people| servings?| covers)?(?: each)?\s*[.!]?\s*$`)
	potsOf      = regexp.MustCompile(`(?i)^\s*(?:i |we )?made (\d{1,4}) (?:pots?|ramekins?|glasses|moulds?|dariole moulds?|cups?|shots?|bowls?|verrines?|little pots) of (?:the )?([a-z][a-z' -]*?)\s*[.!]?\s*$`)
	dishMade    = regexp.MustCompile(`(?i)^\s*(?:the )?([a-z][a-z' -]*?) made (\d{1,4})\s*[.!]?\s*$`)
	madeSo      = regexp.MustCompile(`(?i)^\s*(?:i |we )?made (\d{1,4}) ([a-z][a-z' -]*?)\s*[.!]?\s*$`)
	portionsOf  = regexp.MustCompile(`(?i)^\s*how many (?:portions?|servings?|plates|bowls|slices) of (?:the )?([a-z][a-z' -]*?)(?: is| are| have we| do we| have| weve)*(?: left| got| have| there| remaining)+(?: left)?\s*\??\s*$`)
	perHeadOnly = regexp.MustCompile(`(?i)^\s*(?:and |so |what about |whats that |what's that )?(per head|a head|per portion|a portion|per person|per cover|per slice|a slice|each)\s*\?\s*$`)
	mealPerHead = regexp.MustCompile(`(?i)^(\s*what did (?:the )?(?:wedding|banquet|function|buffet)[a-z ]*? cost)(?: us)? (?:per head|a head|per person|per cover|each|per guest)\s*\??\s*$`)
)

// asPortions puts portions told by the piece or the pot, and what a head cost, into the words that are read.
func (t *turn) asPortions(text string) string {
	if m := eachIs.FindStringSubmatch(text); m != nil {
		if l := potLine(t.k, strings.ToLower(m[1])); l != nil && l.Made > 0 && l.Pieces() >= 1000 {
			if dish, _, err := t.cooked(m[1]); err == nil && dish != "" {
				each, _ := strconv.Atoi(m[2])
				return fmt.Sprintf("the %s made %d portions", dish, t.piecesMade(l)*each)
			}
		}
	}
	if m := potsOf.FindStringSubmatch(text); m != nil {
		if dish, _, err := t.cooked(m[2]); err == nil && dish != "" {
			return fmt.Sprintf("the %s made %s portions", dish, m[1])
		}
	}
	if m := dishMade.FindStringSubmatch(text); m != nil {
		if dish, _, err := t.cooked(m[1]); err == nil && dish != "" {
			return fmt.Sprintf("the %s made %s portions", dish, m[2])
		}
	}
	if m := perHeadOnly.FindStringSubmatch(text); m != nil {
		if said := t.askedOfCost(); said != "" {
			what := strings.ToLower(m[1])
			if strings.HasSuffix(what, "slice") {
				what = "per portion"
			}
			text = said + " " + what
		}
	}
	return mealPerHead.ReplaceAllString(text, "$1") // the account has it
}

// piecesMade is how many were put by, as it was said.
func (t *turn) piecesMade(l *pantry.Line) int {
	entries, err := t.book.Since(l.ID, &pantry.Message{})
	n := int64(0)
	for _, e := range entries {
		if e.Act == pantry.Make && e.Pieces > 0 && t.said.At.Sub(e.At) < pantry.LeftOver {
			n += e.Pieces
		}
	}
	if err != nil || n == 0 {
		n = l.Pieces()
	}
	return int(n / 1000)
}

// askedOfCost is what this cook asked last, a short while ago, if that was what something cost.
func (t *turn) askedOfCost() string {
	for m, err := range t.back(t.said.Cook, t.said, 3, t.said.At.Add(-spokenLong)) {
		if err != nil {
			return ""
		}
		if m.Gone || m.Text == "" {
			continue
		}
		if low := strings.ToLower(m.Text); strings.Contains(low, "cost") && t.reader().MoneyTalk(language.AskedAlike(m.Text)) != nil {
			return strings.TrimRight(language.AskedAlike(m.Text), " ?.!")
		}
		return ""
	}
	return ""
}

// madeCounted tells for how many a dish was of which so many were made that nothing was put by: "made 40 mousses". It is the
// last to be asked.
func (t *turn) madeCounted(why string) (r Reply, done bool, err error) {
	m := madeSo.FindStringSubmatch(t.m.Text)
	if m == nil {
		return r, false, nil
	}
	dish, _, err := t.cooked(m[2])
	if err != nil || dish == "" {
		return r, false, err
	}
	whole := t.m.Text
	defer func() { t.m.Text = whole }()
	t.m.Text = fmt.Sprintf("the %s made %s portions", dish, m[1])
	r, err = t.answer(why)
	return r, r.Kind != Silent, err
}

// portionsAsked tells how many portions of a dish are on hand, and what food cost by the kilo. Done is false where none
// here is meant.
func (t *turn) portionsAsked() (r Reply, done bool, err error) {
	r.Kind = Answer
	if m := portionsOf.FindStringSubmatch(t.m.Text); m != nil {
		r.Text, err = t.sayPortionsLeft(m[1])
	} else if m := perKilo.FindStringSubmatch(t.m.Text); m != nil {
		r.Text, err = t.sayPerKilo(m[1])
	}
	return r, r.Text != "", err
}

// sayPortionsLeft: "Soup: 12 l, about 40 portions." By what a portion weighs as the sheet has it.
func (t *turn) sayPortionsLeft(said string) (string, error) {
	l := potLine(t.k, strings.ToLower(said))
	if l == nil || l.Made == 0 {
		l = t.madeCalled(said)
	}
	if l == nil || l.Made == 0 || l.OnHand() == 0 {
		return "", nil
	}
	dish, _, err := t.cooked(l.Name)
	if err != nil || dish == "" {
		return "", err
	}
	s, err := t.sheetOf(dish)
	if err != nil || s == nil {
		return "", err
	}
	if s.Portions == 0 {
		return fmt.Sprintf("%s For how many nobody said: \"the %s was for 24\" gives its portions.", t.sayStock(l), dish), nil
	}
	made := measure.Amount(0)
	entries, err := t.book.Since(l.ID, &pantry.Message{})
	if err != nil {
		return "", err
	}
	for _, e := range entries {
		if e.Act == pantry.Make && t.said.At.Sub(e.At) < pantry.LeftOver {
			made += e.Amount
		}
	}
	each, how := measure.Amount(0), "by what went in"
	switch {
	case s.Yield > 0:
		each, how = s.Yield/measure.Amount(s.Portions), "by what it came to"
	case made > measure.Amount(s.Grams*1000): // it is the whole of it, with the water
		each, how = made/measure.Amount(s.Portions), "by what was made"
	default:
		each = measure.Amount(s.Grams*1000) / measure.Amount(s.Portions)
	}
	if each <= 0 {
		return "", nil
	}
	text := fmt.Sprintf("%s. About %d portions, %s for %d", strings.TrimSuffix(t.sayStock(l), "."), min(int64(l.OnHand()/each), int64(s.Portions)), how, s.Portions)
	if s.Covers > 0 {
		text += " covers, as nobody told its portions"
	}
	return text + ".", nil
}
