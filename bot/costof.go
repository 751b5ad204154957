package bot

import (
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/planner"
)

// askedOfMoney reads what is asked of money; nil nothing. "And the topside?" asks what was asked before.
func (t *turn) askedOfMoney() (*language.Question, error) {
	text := strings.ToLower(t.m.Text)
	if !saysMoney(text) && !slices.ContainsFunc([]string{"and ", "what about ", "how about "}, func(w string) bool { return strings.HasPrefix(text, w) }) {
		return nil, nil
	}
	q := t.reader().MoneyTalk(t.m.Text)
	if q == nil || q.About != language.AboutCostToo {
		return q, nil
	}
	for m, err := range t.back(t.cook, t.said, mostSince, t.m.At.Add(-spokenLong)) {
		if err != nil {
			return nil, err
		}
		before := t.reader().MoneyTalk(m.Text)
		switch {
		case before == nil || len(m.Reply) == 0:
			return nil, nil
		case before.About == language.AboutCostToo:
			continue
		case !slices.Contains([]language.About{language.AboutCost, language.AboutCostWas, language.AboutPortionCost, language.AboutCostDish}, before.About):
			return nil, nil
		}
		q.About = before.About
		return q, nil
	}
	return nil, nil
}

// costOf tells what dishes cost, else foods: "cost of the cake and the pie"; "" where none is meant.
func (t *turn) costOf(m *money, q *language.Question) (string, error) {
	text, err := t.costOfOne(m, q)
	parts := strings.Split(q.Food, " and ")
	if text == "" && len(parts) < 2 && q.About != language.AboutCostWas && q.About != language.AboutCostDish && language.NamesDish(q.Food) {
		text = "No dish is logged as " + strings.ToLower(q.Food) + "."
	}
	if text != "" || err != nil || len(parts) < 2 {
		return text, err
	}
	var lines []string
	some := false
	for _, part := range parts {
		one := *q
		one.Food = part
		if read := t.reader().MoneyTalk("cost of " + part); read != nil { // without "the"
			one.Food = read.Food
		}
		text, err := t.costOfOne(m, &one)
		if err != nil {
			return "", err
		}
		if some = some || text != ""; text == "" {
			text = "Nothing is logged as " + one.Food + "."
		}
		lines = append(lines, text)
	}
	if !some {
		return "", nil
	}
	return strings.Join(lines, "\n"), nil
}

// costOfOne tells what a dish cost, else a food; "" where neither is meant.
func (t *turn) costOfOne(m *money, q *language.Question) (string, error) {
	for i, w := range slices.Backward(m.list) {
		names := w.fitting(m.x, q.Food)
		if len(names) == 0 {
			continue
		}
		var lines []string
		for _, name := range names[:min(len(names), mostTold)] {
			s, err := m.sayDish(i, name, t)
			if err != nil {
				return "", err
			}
			lines = append(lines, s)
		}
		return strings.Join(lines, "\n"), nil
	}
	if q.About == language.AboutCostDish {
		return "", nil
	}
	said := strings.ToLower(q.Food)
	if h := t.ear.find(q.Food); h.exact && !h.sound {
		portion := q.About == language.AboutPortionCost
		if len(h.lines) > 0 && (portion || planner.BeforeCooking(said) != said) && !slices.ContainsFunc(h.lines, func(l *pantry.Line) bool { return fitsName(l.Name, said) }) { // the joint is no roast beef yet
			return "No dish is logged as " + said + `. "used 2kg ` + h.lines[0].Name + " in the " + said + `" begins one.`, nil
		}
		if len(h.lines) > 0 {
			return m.sayLines(h.lines, t), nil
		}
		if h.food != nil && (portion || q.About == language.AboutCost) {
			return "No " + said + " came in, as far as anybody said.", nil
		}
	}
	if name := t.dishOn(q.Food); name != "" {
		return "Nothing was logged into the " + name + " yet: no cost to tell.", nil
	}
	return "", nil
}
