package bot

import (
	"regexp"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
)

// saysPutBy are words of food that was put away: what is binned with them is of that.
var saysPutBy = regexp.MustCompile(`(?i)\b(fridge|chiller|walk.?in|cold room|tubs?|left ?overs?|put by|yesterday'?s?|old|out of date)\b`)

// unaccounted gives the dish that a draft bins or gives away so much of, where some was put by and more of it
// than that is not: on the day on which it was cooked what goes is of what was served, and the pot in the fridge
// stays. Of what is given away only as much as the pot has not. "" where the pot is meant.
func (t *turn) unaccounted(d *draft) (string, error) {
	if saysPutBy.MatchString(t.m.Text) || d.Amount.How != language.Measured && d.Amount.How != language.Pieces {
		return "", nil
	}
	dish, in, err := t.cooked(strings.ToLower(d.Food))
	if err != nil || dish == "" {
		return "", err
	}
	l := potLine(t.k, dish)
	if l == nil || pantry.DateOf(in[len(in)-1].At.In(t.m.At.Location())) != t.day() {
		return "", nil
	}
	s, err := t.sheetOf(dish)
	if err != nil || s == nil || s.Portions == 0 && s.Yield == 0 { // nobody knows what it came to
		return "", err
	}
	q := language.Question{Amount: d.Amount}
	if d.Amount.How == language.Pieces {
		if s.Portions == 0 || d.Amount.N.Den != 1 || d.Amount.Part != "portion" && d.Amount.Part != "" {
			return "", nil
		}
		q.N = int(d.Amount.N.Num)
	}
	a, ok := partOf(s, &q)
	left, _, err := t.inPotStill(s)
	if err != nil || !ok || a.Kind != l.Unit || a.Base > left || d.Act != pantry.Bin && a.Base <= l.OnHand() {
		return "", err
	}
	if put, err := t.book.CameWith(l.ID); err != nil || a.Base <= l.OnHand() && put != nil && strings.Contains(strings.ToLower(put.Text), "left") { // that was all there was
		return "", err
	}
	return dish, nil
}
