package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
)

// Degrees told of food in any words: "the curry is at 30c after 2 hours", "chicken 76 in the middle", "mash got to 68c,
// ok?". They are no grams and no pieces.

var (
	saysDegrees = regexp.MustCompile(`(?i)(?:^|[^\d.])(-?\d{1,3})(?:\.\d)? ?(c|f|°c|°f|° c|° f|°|degrees?(?: ?c| ?f| celsius| fahrenheit)?|deg(?: ?c| ?f)?)(?:[^a-z0-9]|$)`)
	saysCore    = regexp.MustCompile(`(?i)\b(?:temp(?:s|ed)?|probe[ds]?|core|in the middle|in the centre|in the center|in the thickest)\b.*?(?:^|[^\d.])(\d{2,3})(?:[^\d.a-z]|$)|(?:^|[^\d.])(\d{2,3})(?:\.\d)? (?:in the (?:middle|centre|center|thickest)|core)\b`)
	saysReached = regexp.MustCompile(`(?i)\b(?:got (?:up )?to|reached|only|came up to|up to|down to|still at|still|is at|are at|was at|at) (\d{2,3})(?:\.\d)?([^\d.].*)?$`)
	// countTold are words behind a number that is none of degrees.
	countTold = regexp.MustCompile(`(?i)^ ?(?:kgs?|kilos?|g|grams?|l|litres?|ml|lbs?|oz|portions?|servings?|covers?|people|pax|guests?|heads?|mins?|minutes?|hours?|hrs?|h|of|x|for|each|%|p|quid|pounds?|pm|am|left|more|in|out|on|days?|past|[a-z]+s)\b|^[:/x%-]`)
	// clockTold is a time of day: "beef joints out at 12".
	clockTold = regexp.MustCompile(`(?i)\b(?:out|up|on|done|ready|due|off|open|closed?|starts?|serving|from|tomorrow|today|tonight) at (?:[1-9]|1[0-2])(?:[^\d.]|$)`)
	// kitTold are words for what is hot by itself: an oven at 90 C is no food.
	kitTold = regexp.MustCompile(`(?i)\b(?:oven|ovens|grill|fryer|oil|fat|preheat\w*|heat the|water ?bath|sous ?vide|hob|hotplate set|set to|set at|turn|turned|dish ?washer|wash|rinse|room|kitchen|outside|weather|gas mark|roast (?:it |them )?(?:at|for)|bake (?:it |them )?(?:at|for)|cook (?:it |them )?(?:at|for)|plate warmer)\b|^\s*(?:roast|bake|braise|cook|confit|poach|slow|simmer|smoke|dry|dehydrate|hold|keep)\b`)
	// weightTold is more than degrees: "got 4kg chicken at 3c" is read as any message.
	weightTold = regexp.MustCompile(`(?i)\d ?(?:kgs?|kilos?|g|grams?|l|litres?|ml|lbs?|oz|portions?|servings?)\b|[£$€]\d|\b(?:used|got \d|binned|made|froze|left over)\b`)
	coldTold   = regexp.MustCompile(`(?i)\b(fridge|fridges|chiller|walk ?-?in|cold ?room|cold store|freezer)\b`)
	wordsOfAll = regexp.MustCompile(`[a-z][a-z'-]*`)
)

// coldReads is what a fridge shows.
var coldReads = regexp.MustCompile(`(?i)\b(?:fridge|freezer|chiller|walk ?-?in|cold room)[a-z0-9 ]{0,12} (?:says|reads|reading|shows|showing|is at|was at|up to|at)\b`)

// mostClass is the highest number of a class, as 13c is one.
const mostClass = 13

var saysAt = regexp.MustCompile(`(?i)\b(?:at|reads?|reading|says|temp|probed?|core|it'?s|its|to|only|still|now) -?\d{1,2} ?c\b`)

// degreesTold are degrees C told of food, or of a fridge.
type degreesTold struct {
	n       int
	food    string         // as it was called
	lines   []*pantry.Line // of it
	hours   int            // for which it was so, as far as that was said
	cold    string         // a fridge, chiller or freezer is spoken of
	f       bool           // it was said in F
	saidF   int
	minutes bool
}

// degreesOf reads degrees of a text; nil where there are none, or of no food that the kitchen knows and no fridge.
func (t *turn) degreesOf(text string) *degreesTold {
	text = toldSo(text)
	low := strings.ToLower(text)
	if kitTold.MatchString(low) || weightTold.MatchString(low) || len(text) > longest/10 {
		return nil
	}
	var d degreesTold
	switch m := saysDegrees.FindStringSubmatch(low); {
	case m != nil:
		if d.n, _ = strconv.Atoi(m[1]); m[2] == "c" && d.n <= mostClass && !saysAt.MatchString(low) { // "is 10c ok with the curry" is of a class
			return nil
		}
		d.f = strings.Contains(m[2], "f") || t.country() == "US" && !strings.Contains(m[2], "c")
	default:
		m := saysCore.FindStringSubmatch(low)
		if m == nil {
			if m = saysReached.FindStringSubmatch(low); m == nil || countTold.MatchString(m[2]) || clockTold.MatchString(low) {
				return nil
			}
			m[2] = ""
		}
		d.n = leastOf(low, m[1]+m[2])
		d.f = t.country() == "US"
	}
	if d.f {
		d.saidF = d.n
		d.n = inCelsius(d.n)
	}
	if d.n > mostProbed || d.n < -40 {
		return nil
	}
	if m := hoursSaid.FindStringSubmatch(low); m != nil {
		d.hours, d.minutes = hoursIn(low)/60, strings.HasPrefix(m[2], "m")
	}
	if d.cold = coldTold.FindString(low); d.cold != "" && !saysDegrees.MatchString(low) { // "fridge is at 12" has a form of its own
		return nil
	}
	said := saysDegrees.MatchString(low)
	if d.food, d.lines = t.foodIn(low, true); len(d.lines) == 0 && d.food != "" { // "the stew" is the beef stew
		if d.lines, _ = t.heldLines(d.food); len(d.lines) == 0 && !said {
			if dish, _, err := t.cooked(d.food); err != nil || dish == "" {
				d.food = ""
			}
		}
	}
	if d.food == "" && d.cold == "" {
		return nil
	}
	return &d
}

// severalRead are the readings of one probing: "probed 71 74 69".
var severalRead = regexp.MustCompile(`(?:\d{2,3}(?:\.\d)?(?:\s*[,/&]\s*|\s+and\s+|\s+)){1,5}\d{2,3}(?:\.\d)?\s*[.!]*$`)

// leastOf gives the lowest of several readings at the end of a text, of which one is said; else that.
func leastOf(low, said string) int {
	n, _ := strconv.Atoi(said)
	for _, s := range numbersIn.FindAllString(severalRead.FindString(low), 6) {
		if v, err := strconv.Atoi(s); err == nil && v >= leastPot {
			n = min(n, v)
		}
	}
	return n
}

// foodIn finds the food that a text speaks of: a line on hand or a dish that was cooked, by the longest name of three
// words or less; with unlogged also what is made by its name. "" none.
func (t *turn) foodIn(low string, unlogged bool) (string, []*pantry.Line) {
	words := wordsOfAll.FindAllString(low, 40)
	for n := 3; n > 0; n-- {
		for i := 0; i+n <= len(words); i++ {
			phrase := strings.Join(words[i:i+n], " ")
			if slices.Contains(noName, words[i]) || len(phrase) < 3 {
				continue
			}
			if dish, _, err := t.cooked(phrase); err == nil && dish != "" {
				lines, _ := t.heldLines(phrase)
				return phrase, slices.DeleteFunc(lines, func(l *pantry.Line) bool { return l.Made == 0 })
			}
			if h := t.ear.find(phrase); h.exact && !h.sound && len(h.lines) > 0 {
				if lines, _ := t.heldLines(phrase); len(lines) > 0 {
					return phrase, lines
				}
			}
		}
	}
	for n := 2; unlogged && n > 0; n-- { // of no line and no dish that was logged
		for i := 0; i+n <= len(words); i++ {
			if phrase := strings.Join(words[i:i+n], " "); isMade(words[i+n-1]) && (n == 1 || isMade(phrase) && !slices.Contains(noName, words[i])) && !slices.Contains(wordsOfKit, words[i+n-1]) {
				return phrase, nil
			}
		}
	}
	return "", nil
}

// noName are words with which no food's name begins.
var noName = []string{"the", "a", "an", "of", "and", "is", "was", "in", "on", "at", "to", "for"}

// wordsOfKit may be read as food, and are none here.
var wordsOfKit = []string{"middle", "side", "top", "bar", "roll", "board", "pot"}

// tempTalk answers degrees that were told of food or a fridge in words which no form has. Done is false where none were.
func (t *turn) tempTalk() (r Reply, done bool, err error) {
	d, r, done, err := t.probedOf()
	if d == nil {
		return r, done, err
	}
	freezer := strings.Contains(d.cold, "freezer")
	if asked := strings.Contains(t.m.Text, "?") || strings.Contains(strings.ToLower(t.m.Text), "ok"); d.food != "" && (d.n <= t.limits().cold || d.n >= t.limits().through-1 && !asked || t.heldThrough(d.n, t.m.Text) && !asked) { // cold or hot enough, and no grams
		r, err := t.goodAtLast(d)
		return r, true, err
	}
	if d.cold != "" && d.food == "" && !coldFailed.MatchString(t.m.Text) && !coldReads.MatchString(t.m.Text) {
		return r, false, nil
	}
	if d.cold != "" && d.food == "" {
		switch {
		case freezer && d.n > mostFreezing:
			r.Text, err = t.sayColdFailed(true, d.n, "")
		case !freezer && d.n > t.limits().cold:
			r.Text, err = t.sayColdFailed(false, d.n, "")
		}
		r.Kind = Answer
		return r, r.Text != "", err
	}
	text, err := t.sayDegrees(d)
	return Reply{Kind: Answer, Text: text}, true, err
}

// goodAtLast answers a good reading of food that was told to be warm before; silence where it was not.
func (t *turn) goodAtLast(d *degreesTold) (Reply, error) {
	was, err := t.warmSince(d.lines, d.food)
	if err != nil {
		return Reply{Kind: Silent}, err
	}
	if was == nil {
		told, err := t.warmOf(d.lines)
		if err != nil || d.n < t.limits().through && !t.heldThrough(d.n, t.m.Text) || !slices.ContainsFunc(told, func(w warm) bool {
			return w.why != nil && (w.why.About == aboutReading || w.why.About == language.AboutUndercooked)
		}) {
			return Reply{Kind: Silent}, err
		}
		text, err := t.sayDegrees(d)
		return Reply{Kind: Answer, Text: text}, err
	}
	says := fmt.Sprintf("%s at %s. ", title(d.food), d.at())
	if ago := t.m.At.Sub(was.At); d.n < t.limits().hot && ago > mostHoursHot*time.Hour {
		return Reply{Kind: Answer, Text: says + fmt.Sprintf("It was %q at %s, %s ago: if it took over %d hours to get cold, or nobody knows, bin it. ", was.Text, was.At.In(t.m.At.Location()).Format("15:04"), sayMinutes(int(ago/time.Minute)), mostHoursHot) + t.sayBin(strings.ToLower(d.food), d.lines)}, nil
	}
	if still, err := t.notCleared(d.food, d.lines); still != "" || err != nil {
		return Reply{Kind: Answer, Text: says + still}, err
	}
	if ago := t.m.At.Sub(was.At); ago > mostHoursHot*time.Hour { // raw food that was being cooked, or that stood
		return Reply{Kind: Answer, Text: says + fmt.Sprintf("It was %q at %s, %s before. If it was cooking all that time, well and good; if it stood so, bin it: over %d hours is too long.", was.Text, was.At.In(t.m.At.Location()).Format("15:04"), sayMinutes(int(ago/time.Minute)), mostHoursHot)}, nil
	}
	return Reply{Kind: Answer, Text: says + fmt.Sprintf("It was %q at %s: in time, as far as anybody told.", was.Text, was.At.In(t.m.At.Location()).Format("15:04"))}, nil
}

// tooLong: `It was "stew at 40c" at 09:01, 5 h ago: over 2 hours between 8 and 63 C. Bin it where your plan does not clear it.`
func (t *turn) tooLong(was *pantry.Message) string {
	return fmt.Sprintf("It was %q at %s, %s ago: over %d hours between %d and %d C. Bin it where your plan does not clear it.", was.Text, was.At.In(t.m.At.Location()).Format("15:04"),
		sayMinutes(int(t.m.At.Sub(was.At)/time.Minute)), mostHoursHot, t.limits().cold, t.limits().hot)
}

// at: "30 C", "86 F (30 C)".
func (d *degreesTold) at() string {
	if d.f {
		return fmt.Sprintf("%d F (%d C)", d.saidF, d.n)
	}
	return fmt.Sprintf("%d C", d.n)
}

// sayDegrees says what so many degrees tell of food.
func (t *turn) sayDegrees(d *degreesTold) (string, error) {
	name, at := title(d.food), d.at()
	cooling := strings.TrimSuffix(t.sayRules("cooling", d.food, nil), ownRules)
	switch {
	case d.n < t.limits().through && t.heldFish(d.food, d.n, t.m.Text):
		return fmt.Sprintf("%s at %s: hot enough for whole fish where the middle held that: 63 C for 15 s (US FDA Food Code 2022 3-401.11). Minced or stuffed fish, and what is reheated, is at %d C.%s", name, at, t.limits().through, ownRules), nil
	case d.n >= t.limits().through || t.heldThrough(d.n, t.m.Text):
		return fmt.Sprintf("%s at %s: hot enough where the middle held that: %s. Hot food is kept at %d C or more.%s", name, at, t.limits().proof, t.limits().hot, ownRules), nil
	case d.n >= t.limits().hot:
		return fmt.Sprintf("%s at %s: hot enough to be kept hot (%d C), but no proof that it is cooked or reheated through: that is %s. Cook on, and probe again.%s", name, at, t.limits().hot, t.limits().proof, ownRules), nil
	}
	text := fmt.Sprintf("%s at %s: between %d and %d C it must not stay. ", name, at, t.limits().cold, t.limits().hot)
	was, err := t.warmSince(d.lines, d.food)
	if err != nil {
		return "", err
	}
	switch {
	case was != nil && t.m.At.Sub(was.At) > mostHoursHot*time.Hour:
		return text + t.tooLong(was) + " " + t.sayBin(strings.ToLower(d.food), d.lines) + ownRules, nil
	case was != nil && d.hours == 0:
		return fmt.Sprintf("%s at %s: it was %q at %s, %s ago. By %s it is at %d C or less, or at %d C or more; else bin it.%s", name, at, was.Text, was.At.In(t.m.At.Location()).Format("15:04"), sayMinutes(int(t.m.At.Sub(was.At)/time.Minute)),
			was.At.In(t.m.At.Location()).Add(mostHoursHot*time.Hour).Format("15:04"), t.limits().cold, t.limits().hot, ownRules), nil
	case d.hours > mostHoursHot || d.hours == mostHoursHot && !d.minutes:
		text += fmt.Sprintf("%d hours is too long: bin it where your plan does not clear it. No date here allows for it. %s", d.hours, t.sayBin(strings.ToLower(d.food), d.lines))
	default:
		text += fmt.Sprintf("To serve: heat it to %d C. To keep hot: %d C. To keep: cool it now. If it was so for over %d hours, or nobody knows, bin it.", t.limits().through, t.limits().hot, mostHoursHot)
	}
	return text + "\n" + cooling + ownRules, nil
}
