package bot

import (
	"fmt"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// mindNotCleared adds to a good reading what it does not clear: food that was warm for too long, stood out or smelt stays so,
// whatever it reads now.
func (t *turn) mindNotCleared(r Reply) (Reply, error) {
	if r.Kind != Silent && r.Kind != Answer || t.m.Delete || t.m.Press != nil || len(t.m.Text) > longest/10 || !strings.ContainsAny(t.m.Text, digits) || asksThis.MatchString(t.m.Text) {
		return r, nil
	}
	q, lines := t.hazardIn(t.m.Text)
	if q == nil || q.About != aboutReading || q.Food == "" || t.isWarm(q.N) {
		return r, nil
	}
	if len(lines) == 0 {
		lines, _ = t.heldLines(q.Food)
	}
	says, err := t.notCleared(q.Food, lines)
	if says == "" && r.Kind == Silent && err == nil { // said aloud, so that it is kept: silence keeps no words
		return t.clears(q, lines)
	}
	if says == "" || err != nil || strings.Contains(r.Text, says) {
		return r, err
	}
	text, rules := strings.CutSuffix(r.Text, ownRules)
	if r.Kind, r.Text = Answer, strings.TrimSpace(text+"\n"+says); rules {
		r.Text += ownRules
	}
	return r, nil
}

// clears answers a good reading of food of which a worse was told; silence where none was.
func (t *turn) clears(q *language.Question, lines []*pantry.Line) (r Reply, err error) {
	r.Kind = Silent
	told, err := t.doubts()
	if err != nil || len(told) == 0 || t.m.Edit {
		return r, err
	}
	was, err := t.warmOf(lines)
	if err != nil {
		return r, err
	}
	name := q.Food
	if isPronoun(name) {
		if err := t.pointed(q, t.said); err != nil || isPronoun(q.Food) {
			return r, err
		}
		name = q.Food
	}
	if dish, _, err := t.cooked(name); err != nil {
		return r, err
	} else if w, err := t.warmDish(dish); err != nil {
		return r, err
	} else if dish != "" && w != nil {
		was = append(was, *w)
	}
	if w, err := t.warmCalled(name); err != nil {
		return r, err
	} else if w != nil {
		was = append(was, *w)
	}
	for _, w := range was {
		if w.why == nil || w.why.About != aboutReading && w.why.About != language.AboutUndercooked {
			continue
		}
		if r.Kind, r.Text = Answer, fmt.Sprintf("%s at %d C: cold enough.", title(name), q.N); q.N >= t.limits().hot {
			r.Text, err = t.sayDegrees(&degreesTold{n: q.N, food: name, lines: lines})
		}
		return r, err
	}
	return r, nil
}

// notCleared tells what was said against food that this message tells a good reading of, and holds all the same; "" nothing.
func (t *turn) notCleared(name string, lines []*pantry.Line) (string, error) {
	told, err := t.doubts()
	if err != nil || len(told) == 0 {
		return "", err
	}
	said := *t.said
	said.Text = t.m.Text
	list := append([]pantry.Doubt{{Message: &said, Told: &said}}, told...)
	now := *t
	now.told = &list
	of, err := now.warmOf(lines)
	if err != nil {
		return "", err
	}
	if len(lines) == 0 {
		dish, _, err := t.cooked(name)
		if err != nil || dish == "" {
			return "", err
		}
		w, err := now.warmDish(dish)
		if err != nil {
			return "", err
		}
		if w != nil {
			of = append(of, *w)
		}
	}
	var says []string
	for _, w := range of {
		if w.ofFridge() || w.cold != nil || w.said.N == said.N || w.why != nil && w.why.About == language.AboutCameWarm && !t.isOver(w) {
			continue
		}
		s := now.sayWarm(w)
		if t.isOver(w) {
			s = "Bin it all the same: " + s
		}
		says = append(says, s)
	}
	return strings.Join(says, "\n"), nil
}
