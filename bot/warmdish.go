package bot

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/bot/paper"
	"scullion/pantry"
)

// Dishes that nobody has put by yet, and spreads, that are told to have stood out: no line holds them.

// spread is food set out that no dish is called by.
var spread = regexp.MustCompile(`^(?:the |our )?(?:wedding |cold |hot |breakfast |lunch |dinner |evening )?(?:buffet|buffets|cheese ?boards?|platters?|canap[eé]s|salad bar|carvery|spread|sandwiches|sarnies|finger food|charcuterie|puddings|desserts)$`)

func isSpread(said string) bool { return spread.MatchString(strings.ToLower(said)) }

// standsUnput gives the dish that words name, cooked lately, of which nothing is put by, and says whether such words
// mean food that stands warm or cold at all: a dish that needs no fridge does not.
func (t *turn) standsUnput(said string) (dish string, err error) {
	if dish, _, err = t.cooked(said); err != nil || dish == "" {
		return "", err
	}
	list, err := t.leftOf(dish)
	if err != nil || len(list) > 0 && !list[0].UseBy {
		return "", err
	}
	return dish, nil
}

// opensWarm stands before what is told in a fright.
var opensWarm = regexp.MustCompile(`(?i)^\s*(?:(?:oh no|oh god|oh dear|oh|argh|damn|bugger|sorry|right|guys|chef|team|hey|er|um|ok|wait|just seen|just noticed|think|i think|we think|reckon|i reckon|pretty sure|looks like)[,! ]+)+`)

// saysMorning is a clock time that says which half of the day it is of.
var saysMorning = regexp.MustCompile(`(?i)since (?:about |around )?(?:0\d|\d{1,2}(?:[:.]\d\d)? ?a\.?m)`)

// outSince turns "since 1" into the hours to when it was said, a begun one whole: of both halves of the day the later
// is meant. What stood out as far as no clock tells stays so.
func (t *turn) outSince(q *language.Question, text string, said time.Time) {
	if q != nil && q.State == "still" {
		t.stillOut(q, said)
		return
	}
	if q == nil || q.About != language.AboutStood || q.At == "" {
		return
	}
	out := t.minutesOut(q, text, said)
	if out > mostBareOut && bareOut.MatchString(text) { // when it is to go out
		q.About = aboutNothing
		return
	}
	q.About, q.N = language.AboutStoodHours, max(1, (out+59)/60)
	q.Method = fmt.Sprintf("since %s, %s", said.In(t.m.At.Location()).Add(-time.Duration(out)*time.Minute).Format("15:04"), sayMinutes(out))
}

// bareOut is food with a time of day behind a bare "out", which may be one that is yet to come: of more than mostBareOut minutes
// ago it is none. The program's own choice.
var bareOut = regexp.MustCompile(`(?i) out (?:at )?\d{1,2}[.:]\d\d ?(?:am|pm)?[.! ]*$`)

const mostBareOut = 8 * 60

func (t *turn) minutesOut(q *language.Question, text string, said time.Time) int {
	at, err := time.Parse("15:04", q.At)
	if err != nil {
		return 0
	}
	said = said.In(t.m.At.Location())
	now, from := said.Hour()*60+said.Minute(), at.Hour()*60+at.Minute()
	if later := from + 12*60; from < 12*60 && later <= now && !saysMorning.MatchString(text) {
		from = later
	}
	if from > now && from >= 12*60 || from > now && saysMorning.MatchString(text) { // yesterday
		return now + 24*60 - from
	} else if from > now { // 11 said at 2 in the night, of the evening before
		return now + 12*60 - from
	}
	return now - from
}

// sayMinutes: "7 min", "3 h 7 min".
func sayMinutes(n int) string {
	switch {
	case n < 60:
		return fmt.Sprintf("%d min", n)
	case n%60 == 0:
		return fmt.Sprintf("%d h", n/60)
	}
	return fmt.Sprintf("%d h %d min", n/60, n%60)
}

// outFor: "for 3 hours", or "since 13:00, 3 h 7 min".
func outFor(q *language.Question) string {
	if q.Method != "" {
		return q.Method
	}
	if q.N == 1 {
		return "for 1 hour"
	}
	return fmt.Sprintf("for %d hours", q.N)
}

// saySpread tells of a buffet, hot and cold food on it alike.
func (t *turn) saySpread(q *language.Question) string {
	name := title(strings.ToLower(q.Food))
	cold := t.limits().out
	if q.About == language.AboutStoodHours && q.N <= cold {
		return fmt.Sprintf("%s out %s: hot food of it that was below %d C for over %d hours is binned. Cold food may be out up to %d hours, once: then use it, chill it or throw it away.\nNo date here allows for it. Say \"binned\" and what goes.%s", name, outFor(q), t.limits().hot, mostHoursHot, cold, ownRules)
	}
	how := "for that long"
	if q.About == language.AboutStoodHours {
		how = outFor(q)
	}
	return fmt.Sprintf("%s out %s: bin what must be chilled. No date here allows for it. Say \"binned\" and what goes.%s", name, how, ownRules)
}

// warmDish gives the worst of what was told of a dish, or of food that went into it, since it was cooked, and of several
// such the latest; nil nobody told anything.
func (t *turn) warmDish(dish string) (worst *warm, err error) {
	told, err := t.doubts()
	if err != nil || len(told) == 0 {
		return nil, err
	}
	_, in, err := t.cooked(dish)
	if err != nil || len(in) == 0 {
		return nil, err
	}
	keep := func(w *warm) {
		if worst == nil || t.howBad(*w) > t.howBad(*worst) {
			worst = w
		}
	}
	var read []reading
	for _, d := range told {
		if d.Message.At.Before(t.m.At.Add(-mostKept)) {
			break
		}
		if slices.ContainsFunc(in, func(e pantry.Entry) bool { return e.At.After(d.Message.At.Add(serviceLong)) }) { // made anew
			break
		}
		w, of, err := t.toldOfDish(d, dish)
		switch {
		case err != nil:
			return nil, err
		case !of, t.cookedOn(w.why, read):
		case w.why != nil && w.why.About == aboutReading && d.Message.N == d.Told.N:
			read = append(read, reading{w.said, w.why})
		default:
			keep(w)
		}
	}
	if w := t.ofReadings(read, false); w != nil {
		if w.hot != nil && !isPutBy(t.k, dish) { // it may have been cooking all that time
			w.over = false
		}
		keep(w)
	}
	return worst, nil
}

// isPutBy says whether some of a dish was made or put by.
func isPutBy(k *pantry.Kitchen, dish string) bool {
	return slices.ContainsFunc(k.Lines, func(l *pantry.Line) bool { return l.Made > 0 && isPotOf(l.Name, dish) })
}

// toldOfDish is what a doubt tells of a dish; of says whether it tells of that.
func (t *turn) toldOfDish(d pantry.Doubt, dish string) (w *warm, of bool, err error) {
	m := d.Told
	if m.Gone || d.Message.Gone || m.Text == "" {
		return nil, false, nil
	}
	q, _, at := t.toldBy(m)
	if err := t.pointed(q, m); err != nil {
		return nil, false, err
	}
	t.outSince(q, at.Text, at.At)
	w = &warm{said: m, by: d.Message, why: q}
	if to := t.into[[2]int64{d.Message.N, m.N}]; to != nil {
		w.why = cmp.Or(to.why, q)
		for _, e := range to.entries {
			of = of || isPotOf(t.k.Line(e.Line).Name, dish) && e.Act == pantry.Make || e.Dish == dish
		}
		w.of = to.told()
		return w, of, nil
	}
	if d.Message.N != m.N || q == nil {
		entries, err := t.book.InForce(d.Message)
		return w, slices.ContainsFunc(entries, func(e pantry.Entry) bool {
			return e.Act == pantry.Make && isPotOf(t.k.Line(e.Line).Name, dish) || e.Act == pantry.Use && e.Dish == dish && d.Message.N != m.N
		}), err
	}
	if q.Food == "" || q.About != aboutReading && !t.isHazard(q) || q.About == language.AboutCameWarm {
		return nil, false, nil
	}
	for _, said := range append([]string{q.Food}, q.Also...) {
		named, _, err := t.cooked(said)
		if err != nil || named == dish {
			return w, err == nil, err
		}
	}
	return nil, false, nil
}

// warmCalled gives the latest message that told, within a day, that food of that name stood warm or smelt, whether any of it was
// logged or not; nil nobody did.
func (t *turn) warmCalled(said string) (*warm, error) {
	told, err := t.doubts()
	if err != nil {
		return nil, err
	}
	for _, d := range told {
		m := d.Told
		if m.At.Before(t.m.At.Add(-pantry.LeftOver)) {
			break
		}
		if m.Gone || d.Message.N != m.N {
			continue
		}
		q, _, at := t.toldBy(m)
		if err := t.pointed(q, m); err != nil {
			return nil, err
		}
		if q == nil || key(singular(q.Food)) != key(singular(strings.ToLower(said))) {
			continue
		}
		if q.About == aboutReading || q.About == aboutMishandled || q.About == language.AboutUndercooked {
			if q.About != aboutReading || t.isHazard(q) {
				return &warm{said: m, by: m, why: q}, nil
			}
			return nil, nil // it was told better since
		}
		if q.About != aboutReading {
			if t.outSince(q, at.Text, at.At); t.stoodTooWarm(q) {
				return &warm{said: m, by: m, why: q}, nil
			}
		}
	}
	return nil, nil
}

// warmDishes tells of dishes, as their labels call them, that somebody said they stood warm.
func (t *turn) warmDishes(list []paper.Label) (says []string, err error) {
	for _, l := range list {
		name, _, _ := strings.Cut(strings.ToLower(l.Name), ",")
		w, err := t.warmDish(name)
		if err != nil {
			return nil, err
		}
		if w != nil {
			says = appendOnce(says, t.sayWarm(*w))
		}
	}
	return says, nil
}

// warmPots are what is left of dishes that stood warm before it was put by, on lines of which nobody told it.
func (t *turn) warmPots(lines []*pantry.Line) (list []warm, err error) {
	for _, l := range lines {
		if l.Made == 0 || l.OnHand() == 0 {
			continue
		}
		w, err := t.warmDish(l.Name)
		if err != nil {
			return nil, err
		}
		if w == nil {
			continue
		}
		_, in, err := t.cooked(l.Name)
		if err != nil {
			return nil, err
		}
		if w.by != w.said && w.by.N != w.said.N || !slices.ContainsFunc(in, func(e pantry.Entry) bool { return e.At.After(w.said.At) }) {
			w.lines = []*pantry.Line{l}
			list = append(list, *w)
		}
	}
	return list, nil
}

// mindWarmPot adds to what was put by of a dish that somebody said it stood warm.
func (t *turn) mindWarmPot(r Reply) (Reply, error) {
	for _, e := range r.Entries {
		l := t.k.Named(e.Item)
		if l == nil || e.Kind != string(pantry.Make) {
			continue
		}
		list, err := t.warmPots([]*pantry.Line{l})
		if err != nil {
			return r, err
		}
		if len(list) > 0 {
			r.Text += "\n" + t.sayWarm(list[0])
		}
	}
	return r, nil
}

// stoodTooWarm says whether a question tells of the food itself that it was too warm, or smells.
func (t *turn) stoodTooWarm(q *language.Question) bool {
	switch q.About {
	case language.AboutStood, language.AboutStoodHours, language.AboutSmells:
		return true
	case language.AboutHeldAt:
		return q.N < t.limits().hot && q.N > t.limits().cold
	case language.AboutCooled:
		return q.N > mostHoursHot
	}
	return false
}

// abuse is AbuseTalk of what is told in a fright as well, else Hazard; its degrees in C.
func (t *turn) abuse(text string) *language.Question {
	if q := t.doorWorst(text); q != nil {
		return q
	}
	text = probedTo(wholeDegrees(toldSo(text)))
	q := t.reader().AbuseTalk(opensWarm.ReplaceAllString(text, ""))
	if q == nil || t.misread(q) {
		q = cmp.Or(t.hazard(text), q)
	} else {
		t.apart(q)
	}
	if q != nil {
		t.inDishTold(q)
		if q.Place == "" && slices.Contains(ofCold, q.About) {
			q.Place = coldNamed(text)
		}
		t.inDegreesC(q, text)
		if q.About == language.AboutProbed || q.About == language.AboutUndercooked {
			q.Food = t.rawHere(q.Food)
		}
	}
	return q
}

// inDishSaid is food told of in what it went into: "the prawns in the stew".
var inDishSaid = regexp.MustCompile(`^(.+?) (?:in|into|from|for|that went in(?:to)?|we put in|you put in) (?:the |our |that )?(.+)$`)

// inDishTold puts the food and the dish in place of "the prawns in the stew", where both are known and nothing is called so.
func (t *turn) inDishTold(q *language.Question) {
	m := inDishSaid.FindStringSubmatch(strings.ToLower(q.Food))
	if m == nil || len(q.Also) > 0 || t.ear.find(q.Food).exact {
		return
	}
	if h := t.ear.find(m[1]); !h.exact || h.sound {
		return
	}
	if dish, _, err := t.cooked(m[2]); err == nil && dish != "" {
		q.Food, q.Also = m[1], []string{dish}
	}
}

// outInside is a clause that tells of standing out, between food and what it went into: "1kg prawns that were left out
// overnight in the curry".
var outInside = regexp.MustCompile(`(?i)^(.*\d.*?)(?:,? (?:that|which)(?:'?d| had| have| has)?(?: was| were| been| got)*|,? been) (?:left |stood |sat |sitting |lying )*out(?: over ?night| all (?:night|day|morning)| for (?:about |over )?\d+ ?(?:hours?|hrs?|h)| since [a-z]+| on the side)?,? ((?:in|into|for) (?:the |a )?[a-z].*)$`)

// spokenJust gives the food of which this cook told or asked last whether it is still good, a short while ago and
// nothing logged since; "" none.
func (t *turn) spokenJust() (string, error) {
	for m, err := range t.back(t.said.Cook, t.said, mostPointed, t.said.At.Add(-spokenLong)) {
		if err != nil {
			return "", err
		}
		if m.Gone || m.Text == "" {
			continue
		}
		q := t.abuse(m.Text)
		if q == nil {
			q = t.reader().KeepTalk(m.Text)
		}
		if q == nil || q.Food == "" {
			return "", nil
		}
		if !isPronoun(q.Food) {
			return q.Food, nil
		}
	}
	return "", nil
}

// stoodBehind is what is told behind so much that is left: "3kg potato salad left, was out 3 hrs".
var stoodBehind = regexp.MustCompile(`(?i)^(\s*\d[^,;.]*? left(?: over)?)[,;.] ?(?:but )?(?:it |its |it's |that |they |which |has |have |had )*(?:was|were|been|stood|sat|out|left) .*$`)

// withoutStood takes off what is told of standing out behind what is left: mindWarm speaks of it.
func withoutStood(text string) string {
	if m := stoodBehind.FindStringSubmatch(text); m != nil && language.SaysStoodOut(text) {
		return m[1]
	}
	if m := outInside.FindStringSubmatch(text); m != nil && language.SaysStoodOut(text) {
		return m[1] + " " + m[2]
	}
	return text
}
