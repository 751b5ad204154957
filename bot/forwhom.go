package bot

import (
	"regexp"
	"strconv"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// askedForWhom reads by evidence a question whether a dish may go to a place or to somebody with a need; nil where that is not
// asked. What only sounds like one is one where needs of the place are known.
func (t *turn) askedForWhom() *language.Question {
	if t.m.Press != nil || saysMore.MatchString(t.m.Text) || mine.MatchString(t.m.Text) {
		return nil
	}
	q, plain := t.reader().MayHaveHeard(t.m.Text, func(said string) bool {
		return t.isLogged(said) || t.reader().NamesDish(said) || t.isKnownFood(said)
	})
	if q == nil {
		return nil
	}
	if q.Place == "" && q.N > 0 && t.placeCalled(strconv.Itoa(q.N)) != strconv.Itoa(q.N) {
		q.Place = t.placeCalled(strconv.Itoa(q.N))
	}
	known := len(q.Needs) > 0
	for place := range strings.SplitSeq(q.Place, ";") {
		known = known || place != "" && len(t.needsAt(place)) > 0
	}
	if !known && (!plain || q.Place == "" || !t.isLogged(q.Food)) && !t.anyAllergy() {
		return nil
	}
	return q
}

// anyAllergy says whether an allergy of anybody who is in is known.
func (t *turn) anyAllergy() bool {
	for _, n := range t.needs() {
		if n.Kind == pantry.NeedAllergy {
			return true
		}
	}
	return false
}

var mine = regexp.MustCompile(`(?i)\b(?:my|mine|dogs?|cats?)\b`)
