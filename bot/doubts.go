package bot

import (
	"regexp"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
)

// What was told of food that may not be safe. The ledger keeps which messages told of it; what they said is read again
// whenever it matters, so that an edit or a delete counts at once.

// doubtLong is for how long what was told is looked at: no food but what is frozen is kept for longer.
const doubtLong = 31 * 24 * time.Hour

// aboutReading is food at N degrees C, for as long as nobody said.
const aboutReading language.About = "reading"

// doubts gives what was told before this message, the newest first.
func (t *turn) doubts() ([]pantry.Doubt, error) {
	if t.told != nil {
		return *t.told, nil
	}
	list, err := t.book.Doubts(t.said)
	if err != nil {
		return nil, err
	}
	for i, d := range list {
		if d.Message.At.Before(t.m.At.Add(-doubtLong)) {
			list = list[:i]
			break
		}
	}
	if list, err = t.withTrail(list); err != nil {
		return nil, err
	}
	t.told = &list
	return list, nil
}

// hazardIn reads what a text tells of food that may not be safe, or of a fridge or freezer that it may be in, whatever
// words it has; lines are those it names, where it names them by a reading. Nil where it tells nothing of the kind: a good
// reading is told, as it may lift a bad one.
func (t *turn) hazardIn(text string) (q *language.Question, lines []*pantry.Line) {
	key := hazardKey{text, len(t.k.Lines)}
	if h, known := t.hazards[key]; known {
		return h.copied()
	}
	if q, lines = t.hazardRead(text); q == nil && !t.stoodFull && saysHarm.MatchString(text) && t.said != nil { // of what was all used since
		if had, err := t.usedUp(t.m.At.Add(-longestBefore)); err == nil && len(had) > 0 {
			_ = t.asBefore(had, func() error {
				q, lines = t.hazardRead(text)
				return nil
			})
		}
	}
	if t.hazards == nil {
		t.hazards = map[hazardKey]hazardHeard{}
	}
	t.hazards[key] = hazardHeard{q, lines}
	return t.hazards[key].copied()
}

// saysHarm is a quick look for words of what is told against food.
var saysHarm = regexp.MustCompile(`(?i)\b(?:pink|raw|under ?(?:done|cooked)|not cooked|bloody|bleeding|rare|off|smells?|smelly|smelt|slimy|slime|sour|rank|rancid|mould|mouldy|mold|moldy|out|stood|sat|warm|soft|core|probed?|middle|delivery|door)\b`)

// hazardKey is a text that was read in this turn, with how many lines there were: what it names may have come in since.
type hazardKey struct {
	text  string
	lines int
}

type hazardHeard struct {
	q     *language.Question
	lines []*pantry.Line
}

// copied is what was heard, to be changed by who asks.
func (h hazardHeard) copied() (*language.Question, []*pantry.Line) {
	if h.q == nil {
		return nil, h.lines
	}
	q := *h.q
	q.Also = slices.Clone(q.Also)
	return &q, h.lines
}

// hazardRead is hazardIn of a text that was not read yet in this turn.
func (t *turn) hazardRead(text string) (q *language.Question, lines []*pantry.Line) {
	text = language.MendCold(text)
	if probeHint.MatchString(text) && (probeOutSaid.MatchString(text) || probeMended.MatchString(text)) || t.rareJoint(text) != "" {
		return nil, nil
	}
	if q = t.illOf(text); q != nil {
		return q, nil
	}
	if q = t.coolingOf(text); q != nil {
		return q, nil
	}
	if q = t.coreQuestion(text); q != nil {
		return q, nil
	}
	if q = t.eachWorst(text); q != nil {
		return q, nil
	}
	if q = t.abuse(text); q != nil {
		if (q.About == language.AboutProbed || q.About == language.AboutHeldAt) && hoursIn(text) == 0 && q.N <= mostProbed {
			if q.State = ""; q.About == language.AboutProbed {
				q.State = "probed"
			}
			q.About = aboutReading
		}
		return q, nil
	}
	if coldFailed.MatchString(text) && !asksThis.MatchString(text) {
		if q = (&language.Question{About: language.AboutFridge}); strings.Contains(strings.ToLower(coldFailed.FindString(text)), "freezer") {
			q.About = language.AboutFreezer
		}
		return q, nil
	}
	if list := t.heardEach(text, 1); len(list) == 1 {
		return list[0].asQuestion(false), nil
	}
	d := t.degreesOf(text)
	if d == nil {
		d, _ = t.probedBare(text)
	}
	switch {
	case d == nil:
		return t.mishandled(text), nil
	case d.cold != "" && d.food == "":
		if !coldReads.MatchString(text) {
			return nil, nil
		}
		if q = (&language.Question{About: language.AboutFridgeAt, N: d.n}); strings.Contains(d.cold, "freezer") {
			if d.n <= mostFreezing {
				return nil, nil
			}
			q.About = language.AboutFreezer
		}
		return q, nil
	case d.n > t.limits().cold && d.n < t.limits().hot && d.hours >= mostHoursHot:
		return &language.Question{About: language.AboutStoodHours, Food: d.food, N: d.hours}, d.lines
	}
	q = &language.Question{About: aboutReading, Food: d.food, N: d.n}
	if saysCore.MatchString(strings.ToLower(text)) {
		q.State = "probed"
	}
	return q, d.lines
}

// isHazard says whether what was told is against food, and not a good reading.
func (t *turn) isHazard(q *language.Question) bool {
	switch {
	case q == nil:
		return false
	case t.stoodTooWarm(q):
		return true
	}
	switch q.About {
	case language.AboutFridge, language.AboutFreezer:
		return true
	case language.AboutPower, language.AboutUndercooked, language.AboutDripped:
		return true
	case language.AboutFridgeAt:
		return q.N > t.limits().cold
	case language.AboutFreezerAt:
		return q.N > mostFreezing && q.N <= mostProbed
	case language.AboutCameWarm:
		return t.cameBad(q)
	case aboutMishandled:
		return true
	case aboutReading:
		return q.State == isCooling || t.isWarm(q.N) || q.N >= t.limits().hot && q.N < t.limits().through
	}
	return false
}

// cameBad says whether food is told to have come too warm, or soft.
func (t *turn) cameBad(q *language.Question) bool {
	if q.State == "frozen" || q.N < 0 {
		return q.N > mostFreezing
	}
	return q.State != "" || q.N > t.limits().cold
}

// isWarm says whether food must not stay at so many degrees C.
func (t *turn) isWarm(degrees int) bool { return degrees > t.limits().cold && degrees < t.limits().hot }

// keepDoubt keeps that this message told of food which may not be safe, and that it used or made something of such food.
func (t *turn) keepDoubt() error {
	if t.m.Delete || t.m.Press != nil || len(t.m.Text) > longest/10 {
		return nil
	}
	tells, err := t.tellsDoubt()
	if err != nil {
		return err
	}
	if tells {
		if err := t.book.SaveDoubt(pantry.Doubt{Message: t.said, Told: t.said}); err != nil {
			return err
		}
	}
	if m := t.answers; m != nil && m != t.said { // what it takes in was not here when it told how warm that came
		if q, _ := t.hazardIn(m.Text); t.isHazard(q) || len(t.doorTemps(m.Text)) > 0 {
			if err := t.book.SaveDoubt(pantry.Doubt{Message: m, Told: m}); err != nil {
				return err
			}
		}
	}
	for _, d := range t.unsaved { // for when the ledger is searched so far back no more
		if err := t.book.SaveDoubt(d); err != nil {
			return err
		}
	}
	t.told, t.hot, t.hazards, t.heats, t.unsaved = nil, nil, nil, nil, nil
	return nil
}

// tellsDoubt says whether what this message tells of food matters when that food is asked about.
func (t *turn) tellsDoubt() (bool, error) {
	if place, _ := t.inItTold(t.m.Text); place != "" || t.mendsTold(t.said, t.m.Text) != nil || probeOutSaid.MatchString(t.m.Text) || probeMended.MatchString(t.m.Text) {
		return true, nil
	}
	q, _ := t.hazardIn(t.m.Text)
	switch {
	case t.isHazard(q), t.said.Rev > 0 && (language.SaysStoodOut(t.m.Text) || len(t.doorTemps(t.m.Text)) > 0):
		return true, nil
	case saysReheated.MatchString(t.m.Text) && t.said.Rev > 0: // see reheatedAsked
		return true, nil
	case q != nil && (q.About == language.AboutFridgeAt || q.About == language.AboutFreezerAt): // cold again
		was, _, err := t.coldWas(q.Place, t.said)
		return was != nil, err
	case q == nil || q.About != aboutReading:
		return false, nil
	}
	list, err := t.doubts() // a good reading matters where there was a bad one
	return len(list) > 0 && !list[0].Message.At.Before(t.m.At.Add(-serviceLong)), err
}
