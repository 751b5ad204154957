package bot

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// Degrees told of several foods in one message, each with its own: "soup at 80, curry at 52", "chicken fine, but the cream
// was 9 degrees".

var (
	eachPart  = regexp.MustCompile(`[,;\n:/]+\s*|\.\s+|\s+(?:and|&|plus|then|but|n)\s+`)
	eachTemp  = regexp.MustCompile(`^(?:the |our |that )?([a-z][a-z' -]*?)((?: (?:is|was|are|were|at|now|only|still|came in|came|come in|reads|reading|says|probed|probe|hit|core|holding|sitting|temp|just|up to|down to))*) ([-−]?\d{1,3}(?:\.\d)?) ?(°? ?c|°? ?f|°|deg(?:ree)?s?(?: ?[cf])?)?((?: (?:core|in the middle|now|on arrival|at the door|on delivery))*)$`)
	eachFine  = regexp.MustCompile(`^(?:the |our |that )?([a-z][a-z' -]*?)(?:'s)?(?: (?:is|was|are|were|all|came in|came|just))* (?:fine|ok|okay|good|alright|grand|all right)$`)
	eachHead  = regexp.MustCompile(`^(?:the )?(?:hot hold |core |fridge check |am |pm |delivery |todays |door )?(?:temps?|temperatures?|checks?|probes?|probed|readings?|delivery|delivery temps)(?: on (?:the )?(?:delivery|arrival|pass|hold|probe))?$`)
	eachHeads = regexp.MustCompile(`^(?:the |am |pm |core |delivery )?(?:temps|temperatures|readings)(?: on (?:the )?(?:delivery|arrival|pass|hold))?:? `)
	eachJoin  = regexp.MustCompile(`^(?:(?:and|but|then|plus|n|only) )+(?:the )?`)
	eachRun   = regexp.MustCompile(`\d (?:[a-z]+)`)
	eachUnit  = regexp.MustCompile(` (?:c|f|deg[a-z]*|core|in|now|on|at|and|but|then|plus)$`)
	eachDoor  = regexp.MustCompile(`\b(?:delivery|came in|come in|came|on arrival|at the door)\b`)
	eachCore  = regexp.MustCompile(`\b(?:core|probed?|in the middle)\b`)
)

// The degrees C of which numbers behind several foods without a unit may be: at least leastEach, and one at least leastBare
// where not even "at" stands before it. The program's own choice.
const leastEach = 30

// toldEach is a food of several, with what it was at; n is C.
type toldEach struct {
	food string
	n    int
	f    bool
	said int
	core bool

	counted bool   // an amount is told beside it, which is written
	unknown bool   // of no food that is known here
	place   string // the hot place where it stands
	warm    bool   // it must not stay at that
	minutes int    // for which it was so; 0 not told
}

// eachTold reads the degrees of several foods; nil where a part of the text is of something else, or may be an amount, a time
// or a price. Door says that it is of what came in.
func (t *turn) eachTold(text string) (list []toldEach, door bool) {
	low := strings.ToLower(strings.TrimRight(strings.TrimSpace(text), ".! "))
	if len(low) > longest/20 || !strings.ContainsAny(low, digits) || !eachPart.MatchString(low) && !eachHeads.MatchString(low) ||
		kitTold.MatchString(low) || coldTold.MatchString(low) || weightTold.MatchString(low) || saysPriced.MatchString(strings.ReplaceAll(low, "/", "")) || asksThis.MatchString(text) || strings.Contains(low, "?") {
		return nil, false
	}
	if list = t.heardEach(text, 2); len(list) > 0 {
		return list, false
	}
	foods, unit, marked, hot, chilled, warmest := 0, false, true, true, true, 0
	if m := eachHeads.FindString(low); m != "" { // "temps on delivery beef 39 chicken 47"
		low = m + ", " + eachRun.ReplaceAllStringFunc(low[len(m):], func(s string) string {
			if eachUnit.MatchString(s) {
				return s
			}
			return s[:1] + ", " + s[2:]
		})
	}
	for _, part := range eachPart.Split(low, -1) {
		part = eachJoin.ReplaceAllString(strings.TrimSpace(part), "")
		if part == "" {
			continue
		}
		if eachHead.MatchString(part) {
			unit = true
			continue
		}
		m := eachTemp.FindStringSubmatch(part)
		if m == nil {
			if m = eachFine.FindStringSubmatch(part); m == nil || t.eachFood(m[1]) == "" {
				return nil, false
			}
			foods++
			continue
		}
		v, err := strconv.ParseFloat(strings.ReplaceAll(m[3], "−", "-"), 64)
		one := toldEach{food: t.eachFood(m[1]), said: int(v), core: eachCore.MatchString(m[2] + m[5])}
		if err != nil || one.food == "" {
			return nil, false
		}
		if one.f = strings.Contains(m[4], "f") || t.country() == "US" && !strings.Contains(m[4], "c"); one.f {
			v = (v - 32) / 1.8
		}
		if one.n = int(math.Ceil(v - 1e-9)); v >= leastEach || one.f {
			one.n = int(math.Floor(v + 1e-9))
		}
		if one.n > mostProbed || one.n < leastDoor {
			return nil, false
		}
		unit = unit || m[4] != "" || one.core || eachDoor.MatchString(m[2]+m[5])
		marked = marked && strings.Contains(m[2], " ")
		chilled = chilled && one.f && one.said > 32 && one.said <= mostChilledF && t.byWeight(one.food)
		hot = hot && one.n >= leastEach && (one.food == "" || lastWord(m[1]) == singular(lastWord(m[1])))
		warmest = max(warmest, one.n)
		foods++
		list = append(list, one)
	}
	if foods < 2 || len(list) == 0 || !unit && !chilled && !(hot && (marked || warmest >= leastBare)) {
		return nil, false
	}
	if door = eachDoor.MatchString(low); door && len(t.doorQuestions(text)) > 0 {
		return nil, false
	}
	return list, door
}

// eachFood is toldFood of words that are a food's and no others: not "need chicken".
func (t *turn) eachFood(said string) string {
	said = strings.TrimSuffix(strings.TrimSpace(said), "'s")
	name := t.toldFood(said)
	if !strings.EqualFold(name, said) || isPronoun(name) || isDelivery(name) || isSpread(name) {
		return ""
	}
	return name
}

// asQuestion is what is told of a food of several, as of one.
func (x toldEach) asQuestion(door bool) *language.Question {
	q := &language.Question{About: aboutReading, Food: x.food, N: x.n}
	switch {
	case door:
		q.About = language.AboutCameWarm
		if x.n <= freezingDoor {
			q.State = "frozen"
		}
	case x.core:
		q.State = "probed"
	case x.minutes >= mostHoursHot*60 && x.warm:
		q.About, q.N = language.AboutStoodHours, (x.minutes+59)/60
	}
	return q
}

// eachWorst is all of it in one question, with none of those that are well where others are not; nil where nothing of the kind
// is told.
func (t *turn) eachWorst(text string) (worst *language.Question) {
	list, door := t.eachTold(text)
	for _, x := range list {
		q := x.asQuestion(door)
		if x.unknown {
			continue
		}
		switch {
		case worst == nil, t.howHazardous(q) > t.howHazardous(worst):
			worst = q
		case t.howHazardous(q) == t.howHazardous(worst):
			worst.Also = append(worst.Also, q.Food)
		}
	}
	return worst
}

// howHazardous orders readings: warm food, hot food that may not be through, and what is well.
func (t *turn) howHazardous(q *language.Question) int {
	switch {
	case !t.isHazard(q):
		return 0
	case q.About == aboutReading && !t.isWarm(q.N):
		return 1
	}
	return 2
}

// heardEach are the degrees heard of several foods that are hot, so many at least; nil where one of them cools.
func (t *turn) heardEach(text string, least int) (list []toldEach) {
	heats, _ := t.heard(text)
	if len(heats) < least {
		return nil
	}
	for _, h := range heats {
		if h.cools {
			return nil
		}
		list = append(list, toldEach{food: h.food, n: h.n, f: h.f, said: h.said, core: h.core, counted: h.counted, unknown: h.unknown, place: h.place, minutes: h.since, warm: t.isWarm(h.n)})
	}
	return list
}

// eachTalk answers of each food what was told of it. Done is false where no such is told.
func (t *turn) eachTalk() (r Reply, done bool, err error) {
	list, door := t.eachTold(t.m.Text)
	if len(list) == 0 || list[0].counted {
		return r, false, nil
	}
	return t.sayEach(list, door)
}

// sayEach is what eachTalk says.
func (t *turn) sayEach(list []toldEach, door bool) (r Reply, done bool, err error) {
	var says []string
	for _, x := range list {
		q, text := x.asQuestion(door), ""
		lines, isFood := t.warmLines(q)
		d := &degreesTold{n: x.n, food: x.food, lines: lines, f: x.f, saidF: x.said}
		switch {
		case x.unknown && t.isWarm(x.n):
			text = fmt.Sprintf("%s at %s: not logged by that name. Between %d and %d C it must not stay: over %d hours, or if nobody knows, bin it.", title(x.food), d.at(), t.limits().cold, t.limits().hot, mostHoursHot)
		case x.unknown, !isFood:
		case door && t.cameBad(q):
			text = t.sayAbused(q, lines, "")
		case door:
		case x.minutes > 0 && t.isWarm(x.n):
			d.hours, d.minutes = (x.minutes+59)/60, x.minutes < 60
			text, err = t.sayDegrees(d)
		case x.place != "" && t.isWarm(q.N):
			held := *q
			held.About = language.AboutHeldAt
			text = t.sayAbused(&held, lines, "")
		case t.isHazard(q) && (t.isWarm(q.N) || x.core || t.anyRaw(lines)):
			text, err = t.sayDegrees(d)
		default:
			good, e := t.goodAtLast(d)
			text, err = good.Text, e
		}
		if err != nil {
			return r, false, err
		}
		if text = strings.TrimSuffix(text, ownRules); text != "" {
			says = append(says, text)
		}
	}
	if len(says) == 0 {
		return Reply{Kind: Silent}, true, nil
	}
	return Reply{Kind: Answer, Text: strings.Join(says, "\n") + ownRules}, true, nil
}

// mostChilledF is the most degrees F that chilled food is told to be at without a unit. The program's own choice.
const mostChilledF = 60

// byWeight says whether words are of chilled food that is here and is not counted.
func (t *turn) byWeight(said string) bool {
	lines, _ := t.heldLines(strings.ToLower(said))
	return len(lines) > 0 && lastWord(said) == singular(lastWord(said)) && t.coldFood(strings.ToLower(said), 5) && !slices.ContainsFunc(lines, func(l *pantry.Line) bool { return l.PieceMg() > 0 })
}

// anyRaw says whether some line is as it came.
func (t *turn) anyRaw(lines []*pantry.Line) bool {
	for _, l := range lines {
		if isRaw(l) {
			return true
		}
	}
	return false
}
