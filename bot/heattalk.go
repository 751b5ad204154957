package bot

import (
	"scullion/bot/language"
	"scullion/pantry/food"
)

// heatTalk answers how hot food must get, and how it gets to the fridge, by the rules of the tables. Done is false
// where no food is meant.
func (t *turn) heatTalk() (r Reply, done bool, err error) {
	q := t.reader().HeatTalk(t.m.Text)
	if q == nil {
		return r, false, nil
	}
	topic := map[language.About]string{language.AboutCookTemp: "cooking", language.AboutPink: "cooking", language.AboutReheatTemp: "reheating", language.AboutCoolDown: "cooling"}[q.About]
	if topic == "" {
		q.Food = "it"
	}
	if err = t.pointed(q, t.said); err != nil || isPronoun(q.Food) {
		return r, false, err
	}
	switch {
	case q.About == language.AboutItsTemp && t.mayBeReheated(q.Food):
		topic = "reheating"
	case q.About == language.AboutItsTemp:
		topic = "cooking"
	case q.About == language.AboutItsCool:
		topic = "cooling"
	}
	f, ok, err := t.heated(q.Food)
	if err != nil || !ok {
		return r, false, err
	}
	text := t.sayRules(topic, q.Food, f)
	if q.About == language.AboutPink {
		text = "Pink clears nothing, and neither does its being gone: cook on, and probe the thickest part, off the bone.\n" + text
	}
	return Reply{Kind: Answer, Text: text}, true, nil
}

// mayBeReheated says whether some of a dish is put by.
func (t *turn) mayBeReheated(said string) bool {
	l := potLine(t.k, said)
	if l == nil {
		l = t.madeCalled(said)
	}
	return l != nil && l.Made > 0
}

// heated says whether words are of food, or of a dish, and gives the food where a table knows it.
func (t *turn) heated(said string) (*food.Food, bool, error) {
	h := t.ear.find(said)
	if h.exact && !h.sound && (h.food != nil || len(h.lines) > 0) {
		return h.food, true, nil
	}
	dish, _, err := t.cooked(said)
	return nil, dish != "" || isMade(said), err
}
