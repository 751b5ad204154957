package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// mostProbed is the most degrees C that food is: more is an oven, or a slip.
const mostProbed = 130

// saysCelsius says that degrees are not the Fahrenheit of a US kitchen.
var saysCelsius = regexp.MustCompile(`(?i)\d ?(?:c|celsius|°c|degrees c)\b`)

// abuseTalk answers what is told of food that stood warm, smells off or was not hot enough: the dates
// that the ledger has know nothing of it. Done is false where no food here is meant.
func (t *turn) abuseTalk() (r Reply, done bool, err error) {
	if r, done, err := t.coolTalk(); done || err != nil {
		return r, done, err
	}
	for _, talk := range []func() (Reply, bool, error){t.probeTalk, t.sickTalk, t.inItTalk, t.jointTalk, t.eachTalk, t.manyOrHotAsked} {
		if r, done, err := talk(); done || err != nil {
			return r, done, err
		}
	}
	if list := t.doorQuestions(t.m.Text); len(list) > 0 {
		return t.eachAtDoor(list)
	}
	q := t.abuse(t.m.Text)
	if q == nil {
		list := t.heardEach(t.m.Text, 1)
		if len(list) == 0 || t.waiting() || list[0].place == "" || heatAsks.MatchString(t.m.Text) {
			if r, done, err = t.tempTalk(); done || err != nil {
				return r, done, err
			}
		}
		if len(list) == 0 || t.waiting() || list[0].counted {
			return r, false, nil
		}
		return t.sayEach(list, false)
	}
	t.outSince(q, t.m.Text, t.said.At)
	if q.About == aboutNothing {
		return r, false, nil
	}
	if err = t.pointed(q, t.said); err != nil {
		return r, false, err
	}
	r, done, err = t.sayTold(q, t.m.Text)
	if done && (q.About == language.AboutFridgeAt || q.About == language.AboutFreezerAt || q.About == language.AboutCameWarm) {
		r.Text = exactly(r.Text, q.N, t.m.Text, t.country())
	}
	return r, done, err
}

// sayTold answers what a text tells. Done is false where no food here is meant, or it is well.
func (t *turn) sayTold(q *language.Question, told string) (r Reply, done bool, err error) {
	text, err := t.sayHazard(q, told)
	if err != nil || text != "" {
		return Reply{Kind: Answer, Text: text}, true, err
	}
	switch q.About {
	case language.AboutFreezerAt: // cold enough
		return t.againTalk(q)
	case language.AboutFridge, language.AboutFridgeAt, language.AboutFreezer:
		if q.About == language.AboutFridgeAt && q.N <= t.limits().cold {
			return t.againTalk(q)
		}
		degrees := q.N
		if q.About == language.AboutFridge { // it was off for so many hours
			degrees = 0
		}
		if text, err = t.sayColdFailed(q.About == language.AboutFreezer, degrees, q.Place); q.Place != "" && q.About != language.AboutFreezer {
			text = title(q.Place) + strings.TrimPrefix(text, "Fridge")
		}
	default:
		if q.Food == "" { // a hot cupboard, hot enough
			return r, false, nil
		}
		if text = t.sayCooked(q); text != "" {
			break
		}
		if m := saysAsItCame.FindStringSubmatch(q.Food); m != nil && slices.Contains(wasWarm, q.About) && t.keptAs(m[1]) != "" {
			return r, false, nil
		}
		first := *q
		first.Also = nil
		lines, isFood := t.warmLines(&first)
		if len(lines) == 0 && (q.About == language.AboutStood || q.About == language.AboutStoodHours) && isSpread(q.Food) {
			text = t.saySpread(q)
			break
		}
		dish := ""
		if len(lines) == 0 {
			if dish, err = t.standsUnput(q.Food); err != nil {
				return r, false, err
			}
		}
		if dish == "" && (!isFood || len(lines) == 0 && !t.mustChill(q.Food)) {
			return r, false, nil
		}
		text = t.sayAbused(q, lines, dish)
	}
	if also, err := t.sayAlso(q); err != nil || also != "" {
		return Reply{Kind: Answer, Text: strings.TrimPrefix(strings.TrimSuffix(text, ownRules)+"\n"+also+ownRules, "\n")}, true, err
	}
	return Reply{Kind: Answer, Text: text}, text != "", err
}

// celsius is the number of what was told, degrees in C: a US kitchen speaks of Fahrenheit where it does not say C.
func (t *turn) celsius(q *language.Question, text string) int {
	degrees := q.About == language.AboutFridgeAt || q.About == language.AboutFreezerAt || q.About == language.AboutCameWarm || q.About == language.AboutProbed || q.About == language.AboutHeldAt
	if q.State == "warm" || q.State == "soft" {
		return q.N
	}
	if degrees && (t.country() == "US" && !saysCelsius.MatchString(text) || saysFahrenheit.MatchString(text)) {
		return inCelsius(q.N)
	}
	return q.N
}

// mindWarm adds to what was written of food that stood warm, as its message tells by the way, that its
// date knows nothing of that.
func (t *turn) mindWarm(r Reply) (Reply, error) {
	if r.Kind == Log && !t.m.Delete && !language.SaysStoodOut(t.m.Text) {
		if q := t.mishandled(t.m.Text); q != nil {
			r.Text += "\n" + title(strings.ToLower(q.Food)) + ": " + mishandlingOf(q.State).says
		}
		r = t.mindCore(r, t.m.Text)
		if r = t.mindCameWarm(r); t.m.Edit {
			return r, nil
		}
		return t.mindWarmPot(r)
	}
	if r.Kind != Log || len(r.Entries) == 0 || t.m.Delete || !language.SaysStoodOut(t.m.Text) || !slices.ContainsFunc(r.Entries, func(e Entry) bool {
		return e.Kind == string(pantry.Make) || e.Kind == string(pantry.Count) || e.Kind == string(pantry.Receive) || e.Kind == string(pantry.Use) && e.Dish != ""
	}) {
		return r, nil
	}
	long := fmt.Sprintf("%d hours", t.limits().out)
	if t.limits().out != mostHoursHot {
		long += fmt.Sprintf(" (hot food %d)", mostHoursHot)
	}
	r.Text += fmt.Sprintf("\nIt stood out: the date does not allow for that. What must be chilled and was warm for over %s is binned; your own rules go first.", long)
	return r, nil
}

// mustChill says whether words are of food that is kept in a fridge, or was cooked or made here.
func (t *turn) mustChill(phrase string) bool {
	state, f := t.askedState(&language.Question{Food: phrase}, phrase, t.ear.find(phrase))
	if state != food.Raw {
		return true
	}
	g, ok := t.ear.guide(phrase, f, food.Raw, "", t.country())
	if !ok && mayNeedFridge(f) {
		return true
	}
	return ok && g.Place == "fridge" && g.Date != "best-before"
}

// keepsOut says whether all of some lines is food that no fridge is needed for: bread, flour. Of food that no table
// knows nobody can say so.
func (t *turn) keepsOut(lines []*pantry.Line) bool {
	return !slices.ContainsFunc(lines, func(l *pantry.Line) bool {
		return t.ear.foodOf(l) == nil || t.mustChill(l.Name) || t.keptFrozen(l.Name) || slices.ContainsFunc(l.Lots, func(o pantry.Lot) bool { return o.Left > 0 && o.State != food.Raw && o.State != "" })
	})
}

// needsNoFridge is keepsOut of one line of which nobody told that it is hot or cools: that was cooked.
func (t *turn) needsNoFridge(l *pantry.Line) bool {
	if !t.keepsOut([]*pantry.Line{l}) {
		return false
	}
	return !slices.Contains(t.toldHot(), l.ID)
}

// toldHot gives the lines of which somebody told that they are hot, or cool.
func (t *turn) toldHot() []int64 {
	if t.hot != nil {
		return *t.hot
	}
	told, err := t.doubts()
	if err != nil {
		return nil
	}
	var list []int64
	for _, d := range told {
		if d.Message.N != d.Told.N || d.Told.Gone {
			continue
		}
		q, lines := t.hazardIn(d.Told.Text)
		if q == nil || q.About != aboutReading && q.About != language.AboutHeldAt || q.N < leastPot && q.State != isCooling && q.State != isAfter {
			continue
		}
		if len(lines) == 0 {
			lines, _ = t.heldLines(q.Food)
		}
		for _, l := range lines {
			list = append(list, l.ID)
		}
	}
	t.hot = &list
	return list
}

// sayAbused answers of food on some lines, or of a dish of which none is put by.
func (t *turn) sayAbused(q *language.Question, lines []*pantry.Line, dish string) string {
	name := strings.ToLower(q.Food)
	keepsOut := t.keepsOut(lines) && !t.mustChill(q.Food) && dish == ""
	f := t.ear.find(q.Food).food
	rules := func(topic string) string { return t.sayRules(topic, q.Food, f) }
	goes := t.sayBin(name, lines)
	if dish != "" {
		goes = fmt.Sprintf("Say \"binned 600g %s\" as it weighs, or \"binned 2 portions of %[1]s\".", dish)
	}
	bin := "No date here allows for it. " + goes
	if text := t.sayCame(q, bin); text != "" && (!keepsOut || q.State == "frozen" || q.State == "soft") {
		return text
	} else if q.State == "warm" || q.State == "soft" {
		return ""
	}
	switch {
	case q.About == language.AboutSmells && q.State == "mouldy":
		return title(name) + ": mould on it, bin it: in soft, sliced, moist or cooked food it runs deeper than it shows (common practice). " + goes
	case q.About == language.AboutSmells:
		return title(name) + ": bin it, and do not taste it. A bad smell or slime tells; a good one clears nothing. " + goes
	case q.About == language.AboutCameWarm && q.N > mostProbed:
		return ""
	case q.About == language.AboutCameWarm && q.N <= t.limits().cold:
		return fmt.Sprintf("%s at %d C at the door: not above %d C. Write it down, and put it away.%s", title(name), q.N, t.limits().cold, ownRules)
	case q.About == language.AboutCameWarm && keepsOut:
		return ""
	case q.About == language.AboutCameWarm:
		return fmt.Sprintf("%s at %d C at the door: what must be chilled and comes above %d C is sent back, or binned; probe between packs, and write it down. %s%s", title(name), q.N, t.limits().cold, bin, ownRules)
	case q.About == language.AboutHeldAt && (q.N > mostProbed || q.N <= t.limits().cold), q.About == language.AboutCooled && keepsOut:
		return ""
	case q.About == language.AboutHeldAt && q.N >= t.limits().hot:
		return fmt.Sprintf("%s held at %d C: hot enough, which is %d C or more.%s", title(name), q.N, t.limits().hot, ownRules)
	case q.About == language.AboutHeldAt:
		return fmt.Sprintf("%s at %d C: hot food is kept at %d C or more; below that for %d hours at most, once. If it was longer, or nobody knows, bin it; it is not put back hot. %s%s", title(name), q.N, t.limits().hot, mostHoursHot, bin, ownRules)
	case q.About == language.AboutCooled && q.N <= mostHoursHot:
		return rules("cooling")
	case q.About == language.AboutCooled:
		return fmt.Sprintf("%s took %d hours to cool: too long. %s\nBin it where your plan does not clear it. %s", title(name), q.N, rules("cooling"), bin)
	case q.About == language.AboutProbed && q.N > mostProbed:
		return ""
	case q.About == language.AboutProbed && q.N >= t.limits().through:
		return fmt.Sprintf("%s at %d C in the middle: %s.%s", title(name), q.N, t.limits().enough, ownRules)
	case q.About == language.AboutProbed:
		return fmt.Sprintf("%s at %d C in the middle: no clearance. Cook on, and probe the thickest part again.\n%s", title(name), q.N, rules("cooking"))
	case keepsOut:
		return ""
	case q.About == language.AboutStoodHours && q.N == 0:
		return fmt.Sprintf("%s out: for how long? If nobody knows, bin it. %s\n%s", title(name), bin, rules("standing out"))
	case q.About == language.AboutStoodHours && q.N <= t.mostOut(lines):
		if q.Method != "" {
			return fmt.Sprintf("%s out %s. %s\nIn doubt, bin it. %s", title(name), outFor(q), rules("standing out"), bin)
		}
		return rules("standing out") + "\nIn doubt, bin it. " + bin
	case q.About == language.AboutStoodHours:
		return fmt.Sprintf("%s out %s: bin it. %s%s", title(name), outFor(q), bin, ownRules)
	}
	return fmt.Sprintf("%s out for that long: bin it. %s%s", title(name), bin, ownRules)
}

// mostOut is for how many hours food may stand out: less of what was cooked or made.
func (t *turn) mostOut(lines []*pantry.Line) int {
	if len(lines) == 0 {
		return mostHoursHot
	}
	for _, l := range lines {
		if slices.ContainsFunc(l.Lots, func(o pantry.Lot) bool { return o.Left > 0 && (o.State == food.Cooked || o.State == food.MadeUp) }) {
			return mostHoursHot
		}
	}
	return t.limits().out
}

// sayBin: `Say "binned 1 kg cooked rice".`
func (t *turn) sayBin(name string, lines []*pantry.Line) string {
	if len(lines) > 0 {
		var list []string
		for _, l := range lines[:min(len(lines), mostTold)] {
			list = append(list, fmt.Sprintf("\"binned %s %s\"", measure.Say(l.OnHand(), l.Unit), l.Name))
		}
		return "Say " + strings.Join(list, " or ") + "."
	}
	return fmt.Sprintf("Say \"binned 1kg %s\" if it was logged.", name)
}

// sayColdFailed tells what is on hand that a fridge or freezer kept, and what becomes of it. Degrees is
// 0 where nobody said.
func (t *turn) sayColdFailed(freezer bool, degrees int, place string) (string, error) {
	here, err := t.inCold(!freezer, freezer, place)
	if err != nil {
		return "", err
	}
	if freezer {
		return "Freezer failed: what is still hard frozen may stay; what got warm is binned. No date here allows for it.\n" + t.sayRules("refreezing", "what has thawed", nil) + "\n" + here, nil
	}
	at := "Fridge failed"
	if degrees > 0 {
		at = fmt.Sprintf("Fridge at %d C", degrees)
	}
	return fmt.Sprintf("%s: probe the food. What must be chilled and was above %d C for over %d hours is binned, meat, fish, dairy and cooked food first; if nobody knows how long, bin it. No date here allows for it.\n%s%s", at, t.limits().cold, t.limits().out, here, ownRules), nil
}
