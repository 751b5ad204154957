package bot

import (
	"regexp"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// Words of food that goes to a table as it is called over the pass, in the patterns of awayTalk.
const (
	toTable  = `((?:the )?(?:table|tbl|seat|cover|booth|bed|room|rm) ?\d{1,3}[a-z]?|t ?\d{1,3}|\d{1,3})`
	goesAway = `(?:away|going|gone|going out|gone out|on the way|on its way|on their way|leaving|up|plated|ready)`
	aCourse  = `(?:mains?|starters?|puddings?|puds?|desserts?|food|order|check|sides?|all)`
)

// awayForms have what goes and where to: "2 choc tarts away table 4", "sending 2 tarts to table 4", "mains away on 4: 2 hake 1 duck".
var awayForms = []struct {
	re          *regexp.Regexp
	what, where int
}{
	{regexp.MustCompile(`(?i)^\s*(?:service[!,:]? )?()` + aCourse + ` ` + goesAway + `(?: now)?(?: for| on| to| at)? ` + toTable + `\s*[:,-]\s*(.+?)\s*[.!]*$`), 3, 2},
	{regexp.MustCompile(`(?i)^\s*()` + toTable + `(?: ` + aCourse + `)? ` + goesAway + `(?: now)?\s*[:,-]\s*(.+?)\s*[.!]*$`), 3, 2},
	{regexp.MustCompile(`(?i)^\s*(?:service[!,:]? )?(.+?) (?:is |are |now )?` + goesAway + `(?: now)?(?: for| on| to| at)? ` + toTable + `\s*[.!]*$`), 1, 2},
	{regexp.MustCompile(`(?i)^\s*(?:sending|send|sent|serving|running|taking) (.+?) (?:to|for|out to|over to|on) ` + toTable + `(?: now| please)?\s*[.!]*$`), 1, 2},
	{regexp.MustCompile(`(?i)^\s*(?:service[!,:]? )(.+?) (?:to |for |on )?` + toTable + `\s*[.!]*$`), 1, 2},
	{regexp.MustCompile(`(?i)^\s*(.+?) (?:to|for|on) ` + toTable + ` (?:is |are |now )?` + goesAway + `(?: now)?\s*[.!]*$`), 1, 2},
	{regexp.MustCompile(`(?i)^\s*` + toTable + `(?:'s|’s|s) (.+?) (?:is |are |now )*` + goesAway + `(?: now)?\s*[.!]*$`), 2, 1},
	{regexp.MustCompile(`(?i)^\s*()` + toTable + `\s*[:,-]\s*(.+?) ` + goesAway + `(?: now)?\s*[.!]*$`), 3, 2},
}

var (
	onlyCourse = regexp.MustCompile(`(?i)^(?:the |their )?` + aCourse + `$`)
	eachPlate  = regexp.MustCompile(`(?i)\s*[,&+]\s*|\s+and\s+|\s+with\s+|\s+(?:\d{1,3}|one|two|three|four|five|six|seven|eight)(?:x| x)?\s+`)
	plateHow   = regexp.MustCompile(`(?i)^(?:(?:\d{1,3}|one|two|three|four|five|six|seven|eight|a|an|the|their|last|x|portions?|plates?|bowls?|of)\s*x?\s+)+`)
)

// saysAway has the word for it that is said of food alone.
var saysAway = regexp.MustCompile(`(?i)\baway\b`)

// awayTalk warns of dishes that are on their way to a place with needs, by what was logged of each; where nothing was it
// says so. For a place without needs it is talk, and never what is left of a dish.
func (t *turn) awayTalk() (r Reply, done bool, err error) {
	what, place, bare := t.awaySaid(t.m.Text)
	if place == "" || bare && !onNumber.MatchString(t.m.Text) { // "roast ready at 6"
		return r, false, nil
	}
	if read := t.reader().Read(t.m.Text); len(read.Statements)+len(read.Questions) > 0 || read.Timer != nil {
		return r, false, nil
	}
	var needs []pantry.Need
	for _, n := range t.needs() {
		if !n.Lasting && isAt(n, place) && n.Kind != pantry.NeedHeads {
			needs = append(needs, n)
		}
	}
	if len(needs) == 0 {
		return Reply{Kind: Silent}, !bare, nil
	}
	if onlyCourse.MatchString(what) {
		return Reply{Kind: Answer, Text: "Mind " + place + ": " + sayNeeds(needs) + `. Which dishes was not said, so none is checked: say "2 pies away ` + place + `".`}, true, nil
	}
	x, list, err := t.wraps()
	if err != nil {
		return r, true, err
	}
	var lines []string
	for _, name := range eachPlate.Split(" "+what, -1) {
		counted := plateHow.MatchString(strings.TrimSpace(name) + " ")
		name = strings.ToLower(strings.TrimSpace(plateHow.ReplaceAllString(strings.TrimSpace(name)+" ", "")))
		h, _, err := t.heldByPart(x, list, name)
		if err != nil {
			return r, true, err
		}
		switch {
		case h == nil && (name == "" || !counted && !saysAway.MatchString(t.m.Text) && !t.reader().NamesDish(name)): // "cloth on 4 ready"
			continue
		case h == nil:
			name = singular(name) // "2 choc tarts", of which what is in is still asked about
			h = newHolding(name)
		case t.isPlainFood(h): // a plate of duck is more than duck
			h.logged = false
		}
		said := t.sayAgainst(h, needs)
		before := t.beforeSettled(h, name)
		if no, ok := strings.CutPrefix(said, "No. "); ok { // what is sure goes first
			said, before = "Stop: "+strings.ToLower(no[:1])+no[1:]+"\n"+strings.TrimSuffix(before, "\n"), ""
		}
		lines = appendOnce(lines, strings.TrimSpace(before+said))
	}
	return Reply{Kind: Answer, Text: strings.Join(lines, "\n")}, len(lines) > 0, nil
}

// onNumber is a bare number that is a table's over the pass.
var onNumber = regexp.MustCompile(`(?i)\b(?:on|to) \d{1,3}\b`)

// awaySaid reads what is said to go, and to which place; "" where nothing is. Bare: of the place only its number was said.
func (t *turn) awaySaid(text string) (what, place string, bare bool) {
	for _, f := range awayForms {
		m := f.re.FindStringSubmatch(text)
		if m == nil {
			continue
		}
		place = t.tableSaid(m[f.where])
		if place == "" || !onlyCourse.MatchString(m[f.what]) && language.IsThing(m[f.what]) { // "the bill to table 4"
			return "", "", false
		}
		return m[f.what], place, strings.Trim(m[f.where], digits) == ""
	}
	return "", "", false
}

// tableSaid is the place that "t4", "tbl 4" or, of the pass, a bare "4" is.
func (t *turn) tableSaid(said string) string {
	said = strings.TrimPrefix(strings.ToLower(strings.TrimSpace(said)), "the ")
	if called := t.placeCalled(said); called != said {
		return called
	}
	number := strings.TrimLeft(said, "abcdefghijklmnopqrstuvwxyz ")
	if number == "" {
		return ""
	}
	switch kind := strings.TrimSpace(strings.TrimSuffix(said, number)); kind {
	case "", "t", "tbl", "table":
		return "table " + number
	case "rm":
		return "room " + number
	default:
		return kind + " " + number
	}
}
