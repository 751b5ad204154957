package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"scullion/pantry"
	"scullion/planner"
)

// A probe's reading told as a bare number behind food: "gammon 72 for 2 mins", "burger 62". It is no amount.

var (
	bareProbe  = regexp.MustCompile(`(?i)^\s*(?:the |that |this )?([a-z][a-z' -]*?)(?: (?:is|at|now|only|still|its|it's|temp|probe|probed|hit|hits|reads|reading|says|showing|got to|up to))*[:,]? (\d{2,3})(?:\.\d)?( (?:now|only|again|just now|so far|later|(?:an?|one|two|half an|\d+) (?:hours?|hrs?|mins?|minutes) later))?\s*[.!]*$`)
	timedProbe = regexp.MustCompile(`(?i)^\s*(?:the |that |this )?([a-z][a-z' -]*?)(?: (?:is|at|now|only|still|its|it's|temp|probe|probed|hit|hits|reads|reading|says|held|holding|held at|kept at|got to|up to))*[:,]? (\d{2,3})(?:\.\d)? ?(?:c|°c|degrees c|degrees|f|°f)?,? (?:held )?(?:for |after )?(?:over |at least |about |a good )?(?:\d{1,2}|a|one|two|half a) ?(?:s|secs?|seconds?|m|mins?|minutes?)\s*[.!]*$`)
	heldTold   = regexp.MustCompile(`(?i)(?:\bfor|\bheld|\d ?(?:c|°c|f|°f)?),? (?:over |at least |about |a good )?(\d{1,2}|a|one|two|half a) ?(s|secs?|seconds?|m|mins?|minutes?)\b`)
	onlyProbed = regexp.MustCompile(`(?i)^\s*(?:its |it's |at |about )?(\d{2,3})(?:\.\d)? ?(c|f|°c|°f|°|degrees?(?: c| f)?|deg(?: ?c| ?f)?)\s*[.!]*$`)
)

// The degrees C that a bare number behind food may be of; of what was made and is not counted from leastPot, with a time
// behind it from leastTimed. The program's own choice.
const (
	leastBare  = 55
	mostBare   = 100
	leastPot   = 30
	leastTimed = 40
	leastPotF  = 20 // told in F: that are 70 F, and few amounts are so high
)

// probedBare reads degrees told without a unit of food that is probed: cooked food, or meat and fish. Timed says that a
// time stands behind them. nil where none are.
func (t *turn) probedBare(text string) (d *degreesTold, timed bool) {
	m := timedProbe.FindStringSubmatch(text)
	if timed = m != nil; !timed {
		if m = bareProbe.FindStringSubmatch(text); m == nil {
			return nil, false
		}
	}
	name := strings.ToLower(m[1])
	d = &degreesTold{food: name, minutes: timed}
	d.n, _ = strconv.Atoi(m[2])
	if low := strings.ToLower(text); t.country() == "US" && !saysCelsius.MatchString(low) {
		d.f, d.saidF, d.n = true, d.n, inCelsius(d.n)
	}
	if d.lines = t.probedLines(name); len(d.lines) == 0 {
		d.food = t.rawHere(name)
		name, d.lines = d.food, t.probedLines(d.food)
	}
	least := leastBare
	switch {
	case timed:
		least = leastTimed
	case len(d.lines) > 0 && !slices.ContainsFunc(d.lines, func(l *pantry.Line) bool { return l.Made == 0 || l.PieceMg() > 0 }):
		if least = leastPot; d.f {
			least = leastPotF
		}
	}
	if d.n < least || d.n > mostBare || kitTold.MatchString(name) || !timed && lastWord(name) != singular(lastWord(name)) { // "wings 60" are so many
		return nil, false
	}
	if d.lines == nil {
		if dish, _, err := t.cooked(name); err != nil || dish == "" {
			return nil, false
		}
	}
	return d, timed
}

// probedLines gives the lines of food on hand by a name that a probe goes into.
func (t *turn) probedLines(name string) (list []*pantry.Line) {
	held, _ := t.heldLines(name)
	for _, l := range held {
		f := t.ear.foodOf(l)
		if l.OnHand() > 0 && (l.Made > 0 || f == nil || isFlesh(f, l.Name) || planner.IsCooked(f, l.Name)) {
			list = append(list, l)
		}
	}
	return list
}

// coreTimes is for how many seconds the middle is to be at so many degrees C, which is as good as 70 C for two minutes. UK FSA,
// cooking safely in your business (from memory).
var coreTimes = []struct{ degrees, seconds int }{{75, 30}, {70, 120}, {65, 600}, {60, 2700}}

// heldThrough says whether degrees were held for so long that food is cooked or reheated through by that, where the rules of
// the country know of holding.
func (t *turn) heldThrough(n int, text string) bool {
	m := heldTold.FindStringSubmatch(text)
	if m == nil || t.country() == "US" {
		return false
	}
	seconds, err := strconv.Atoi(m[1])
	if err != nil {
		seconds = map[string]int{"a": 1, "one": 1, "two": 2}[strings.ToLower(m[1])]
	}
	if strings.HasPrefix(strings.ToLower(m[2]), "m") {
		seconds *= 60
	}
	for _, h := range coreTimes {
		if n >= h.degrees && seconds >= h.seconds {
			return true
		}
	}
	return false
}

// heldFish says whether degrees were held for so long that a whole fish, or a cut of one, is cooked through by that, where the
// rules of the country know of it: US FDA Food Code 2022 3-401.11, 63 C for 15 s (from memory). Minced, stuffed and made food is not.
func (t *turn) heldFish(name string, n int, text string) bool {
	if t.country() != "US" || n < fishThrough || notWholeFish.MatchString(name) {
		return false
	}
	h := t.ear.find(strings.ToLower(name))
	if !h.exact || h.food == nil || h.food.Group != "fish" || slices.ContainsFunc(h.lines, func(l *pantry.Line) bool { return l.Made > 0 && l.OnHand() > 0 }) {
		return false
	}
	m := heldTold.FindStringSubmatch(text)
	if m == nil {
		return false
	}
	seconds, err := strconv.Atoi(m[1])
	return strings.HasPrefix(strings.ToLower(m[2]), "m") || err == nil && seconds >= fishSeconds
}

const (
	fishThrough = 63
	fishSeconds = 15
)

// notWholeFish is fish that is minced, stuffed or made into something.
var notWholeFish = regexp.MustCompile(`(?i)\b(?:minced?|ground|stuffed|cakes?|burgers?|patty|patties|pies?|balls?|loaf|sticks?|fingers?|smoked)\b`)

// probeAsked reads degrees where the cook is being asked how much there was of some food: "72c" is no amount, and of
// "gammon 72" it is asked. Done is false where neither is said.
func (t *turn) probeAsked() (d *degreesTold, r Reply, done bool, err error) {
	if !t.waiting() {
		return nil, r, false, nil
	}
	q, _, err := t.open()
	if err != nil || q.Kind != askAmount || q.Draft.Line == 0 {
		return nil, r, q.Kind == askWeigh && err == nil, err // the scales read it
	}
	l := t.k.Line(q.Draft.Line)
	if m := onlyProbed.FindStringSubmatch(t.m.Text); m != nil {
		d = &degreesTold{food: l.Name, lines: []*pantry.Line{l}}
		d.n, _ = strconv.Atoi(m[1])
		if d.f = strings.Contains(strings.ToLower(m[2]), "f") || t.country() == "US" && !strings.Contains(strings.ToLower(m[2]), "c"); d.f {
			d.saidF, d.n = d.n, inCelsius(d.n)
		}
		return d, r, false, nil
	}
	bare, timed := t.probedBare(t.m.Text)
	if bare == nil || timed {
		return bare, r, false, nil
	}
	said := bare.n
	if bare.f {
		said = bare.saidF
	}
	unit := map[bool]string{true: "f", false: "c"}[bare.f]
	return nil, Reply{Kind: Error, Text: fmt.Sprintf(`%s %d: degrees, or an amount? Nothing was written. Say "%[2]d%s", or with its unit, like "%[2]dg".`, title(l.Name), said, unit)}, true, nil
}

// probedOf is degreesOf, and what is told of a probe without a unit.
func (t *turn) probedOf() (d *degreesTold, r Reply, done bool, err error) {
	if d = t.degreesOf(t.m.Text); d != nil {
		return d, r, false, nil
	}
	if d, r, done, err = t.probeAsked(); d != nil || done || err != nil {
		return d, r, done && r.Text != "", err
	}
	d, _ = t.probedBare(t.m.Text)
	return d, r, false, nil
}

// cookedTo is food that was cooked or reheated to some degrees, which is what a probe showed.
var cookedTo = []*regexp.Regexp{
	regexp.MustCompile(`(?i)^\s*(?:i |we |ive |weve |just )?(?:cooked|reheated|re-heated|heated|warmed|nuked|microwaved|zapped|pinged|roasted|grilled|baked|brought|got|took) (?:up )?(?:the |that |this )?([a-z][a-z' -]*?) (?:back )?(?:up )?to (?:only |about |just )?(\d{2,3}(?:\.\d)? ?(?:c|f|°c|°f|degrees(?: c| f)?)?)\s*[.!?]*$`),
	regexp.MustCompile(`(?i)^\s*(?:the |that |this )?([a-z][a-z' -]*?) (?:was |were |is |got |only )*(?:cooked|reheated|re-heated|heated|warmed|nuked|microwaved|zapped|pinged|brought)(?: up)?(?: only)? to (?:only |about |just )?(\d{2,3}(?:\.\d)? ?(?:c|f|°c|°f|degrees(?: c| f)?)?)\s*[.!?]*$`),
}

// backUp is food that is not named, heated again to some degrees.
var backUp = regexp.MustCompile(`(?i)^\s*(?:i |we |ive |weve |just )?(?:(?:put|got|brought|took|gone|went|heated|reheated|is|its|it's|now) )*(?:(?:it|that|them|its|it's) )?(?:(?:is|now|all) )*(?:back (?:up )?to|up to) (?:only |about )?(\d{2,3}(?:\.\d)? ?(?:c|f|°c|°f|degrees(?: c| f)?)?)(?: now| again)?\s*[.!]*$`)

// probedTo: "reheated the chili to 140" as "chili probed at 140"; other text as it is.
func probedTo(text string) string {
	for _, re := range cookedTo {
		if m := re.FindStringSubmatch(text); m != nil && !kitTold.MatchString(m[1]) {
			return m[1] + " probed at " + m[2]
		}
	}
	if m := backUp.FindStringSubmatch(text); m != nil {
		return "it probed at " + m[1]
	}
	return text
}

// manyOrHot is a number behind several of what a probe goes into: "chicken thighs 71".
var manyOrHot = regexp.MustCompile(`(?i)^\s*(?:the |that |this |those )?([a-z][a-z' -]*?)(?: (?:at|now|only|still|are|temp|probe|hit|reads?|reading|says))*[:,]? (\d{2,3})(?:\.\d)?( (?:now|only|again|just now|so far))?\s*[.!]*$`)

// mincedName are names of what is cooked by the piece, known to the tables or not.
var mincedName = regexp.MustCompile(`(?i)\b(?:burgers?|patt(?:y|ies)|sausages?|meatballs?|koftas?|kebabs?|nuggets?)$`)

// The degrees C near those that food is cooked to. The program's own choice.
const (
	leastNear = 58
	mostNear  = 95
)

// manyOrHotAsked asks what a number behind raw meat or fish by the piece is, where it may be degrees. Done is false where it may
// not.
func (t *turn) manyOrHotAsked() (r Reply, done bool, err error) {
	m := manyOrHot.FindStringSubmatch(t.m.Text)
	if m == nil || t.waiting() {
		return r, false, nil
	}
	name := strings.ToLower(m[1])
	n, _ := strconv.Atoi(m[2])
	unit, c := "c", n
	if t.country() == "US" {
		unit, c = "f", inCelsius(n)
	}
	lines := t.probedLines(name)
	if c < leastNear || c > mostNear || lastWord(name) == singular(lastWord(name)) || !slices.ContainsFunc(lines, func(l *pantry.Line) bool {
		return isFlesh(t.ear.foodOf(l), l.Name) || l.Made == 0 && mincedName.MatchString(l.Name)
	}) {
		return r, false, nil
	}
	return Reply{Kind: Error, Text: fmt.Sprintf(`%s %d: degrees, or so many? Nothing was written. Say "%s probed at %[2]d%[4]s", or what became of them, like "got %[2]d %[3]s". By a probe that was not read they are not cleared.`, title(name), n, name, unit)}, true, nil
}

// cookWord is how food was cooked, before its name.
var cookWord = regexp.MustCompile(`(?i)^(?:roast|roasted|grilled|fried|baked|boiled|poached|steamed|cooked|braised|bbq|smoked|seared) ([a-z].*)$`)

// rawHere gives what is here as it came of food that is told as cooked and that nobody logged as that: "roast chicken" is the
// chicken. Other names as they are.
func (t *turn) rawHere(name string) string {
	m := cookWord.FindStringSubmatch(strings.TrimSpace(name))
	if m == nil {
		return name
	}
	if lines, _ := t.heldLines(strings.ToLower(name)); slices.ContainsFunc(lines, func(l *pantry.Line) bool { return l.OnHand() > 0 }) {
		return name
	}
	if dish, _, err := t.cooked(strings.ToLower(name)); err != nil || dish != "" || len(t.probedLines(strings.ToLower(m[1]))) == 0 {
		return name
	}
	return m[1]
}
