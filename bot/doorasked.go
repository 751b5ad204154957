package bot

import (
	"strings"

	"scullion/bot/language"
)

// What is told of the degrees of foods that came in, in a message that takes none in.

// doorQuestions are what a text tells of foods that came in, of which it takes none in: "ice cream at -11, peas at -9 soft". Nil
// where it tells of no food that is known.
func (t *turn) doorQuestions(text string) (list []*language.Question) {
	low := strings.ToLower(text)
	if !onlyDoor.MatchString(low) || weightTold.MatchString(low) || asksThis.MatchString(text) {
		return nil
	}
	doors := t.doorTemps(text)
	if len(doors) == 0 || len(doors) == 1 && doors[0].n > freezingDoor {
		return nil
	}
	for _, d := range doors {
		name := t.toldFood(strings.TrimPrefix(d.food, "frozen "))
		if d.food == "" || name == "" || isPronoun(name) || isDelivery(name) {
			return nil
		}
		q := &language.Question{About: language.AboutCameWarm, Food: name, N: d.n}
		if d.n <= freezingDoor || t.keptFrozen(d.food) {
			q.State = "frozen"
		}
		if d.soft {
			q.State = "soft"
		}
		list = append(list, q)
	}
	return list
}

// doorWorst is all of it in one question: the worst, with the others that came too warm. Nil where there is none.
func (t *turn) doorWorst(text string) *language.Question {
	var worst *language.Question
	for _, q := range t.doorQuestions(text) {
		bad, was := t.cameBad(q), worst != nil && t.cameBad(worst)
		switch {
		case worst == nil, bad && !was:
			worst = q
		case bad && worst.State == "" && q.State != "": // chilled food is binned, frozen food held back
			worst.Also = append(worst.Also, q.Food)
		case bad:
			q.Also = append(append(q.Also, worst.Food), worst.Also...)
			worst = q
		}
	}
	return worst
}

// eachAtDoor answers of each food that came in what it was at.
func (t *turn) eachAtDoor(list []*language.Question) (r Reply, done bool, err error) {
	var says []string
	for _, q := range list {
		lines, isFood := t.warmLines(q)
		if !isFood {
			continue
		}
		if text := strings.TrimSuffix(t.sayAbused(q, lines, ""), ownRules); text != "" {
			says = append(says, text)
		}
	}
	return Reply{Kind: Answer, Text: strings.Join(says, "\n") + ownRules}, len(says) > 0, nil
}
