package bot

import (
	"encoding/json"
	"fmt"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/measure"
)

// What a dish came to once it was cooked, as somebody weighed it, and how much of that is meant.

// cookedWeight is what a dish came to once it was cooked, as it was weighed.
type cookedWeight struct {
	Amount measure.Amount
	Unit   measure.Kind
}

// partOf is how much of a dish is meant: as weighed, or portions or a share of what it came to,
// of the edible weight that went in where that was not weighed. Not ok where nobody knows.
func partOf(s *account.Sheet, q *language.Question) (a language.Amount, ok bool) {
	a = q.Amount
	if a.How == language.Measured {
		return a, true
	}
	whole, unit := s.Yield, s.YieldUnit
	if whole == 0 {
		whole, unit = measure.Amount(s.Grams*1000+0.5), measure.Gram
	}
	part := a.N
	if a.How == language.Pieces { // 6 of them
		part = measure.Ratio{}
	}
	if q.N > 0 {
		part, a.Said = measure.Ratio{Num: int64(q.N), Den: int64(s.Portions)}, counted1(q.N, "portion", "portions")
	}
	if part.Den == 0 {
		return a, false
	}
	base, err := part.Of(whole)
	if err != nil || base == 0 {
		return a, false
	}
	return language.Amount{How: language.Measured, Base: base, Kind: unit, Said: a.Said, Approx: true}, true
}

// cameTo notes what a dish came to.
func (t *turn) cameTo(s *account.Sheet, c cookedWeight) (Reply, error) {
	on := running{Service: pantry.Service{Message: t.said.ID, Cook: t.cook, Begun: t.said.At, Due: t.said.At, Ended: t.said.At}, Yield: map[string]cookedWeight{s.Dish: c}}
	if err := t.save(on); err != nil {
		return Reply{}, err
	}
	s.Yield, s.YieldUnit = c.Amount, c.Unit
	return t.withPortions(Reply{Kind: Answer, Text: fmt.Sprintf("The %s came to %s. It stands in its sheet.", s.Dish, sayYield(s))}, s.Dish, pantry.Corrected)
}

// sayYield: "2.6 kg cooked, 433 g a portion, 79% of the edible weight that went in".
func sayYield(s *account.Sheet) string {
	text := measure.Say(s.Yield, s.YieldUnit) + " cooked"
	if s.Portions > 0 {
		text += ", " + measure.Say(s.Yield/measure.Amount(s.Portions), s.YieldUnit) + " a portion"
	}
	if went := s.Grams * 1000; s.YieldUnit == measure.Gram && went > 0 && float64(s.Yield) <= went {
		text += fmt.Sprintf(", %.0f%% of what went in trimmed", 100*float64(s.Yield)/went)
	}
	return text
}

// yieldOf is what a dish of a period came to, as somebody said; 0 nobody has.
func (x *Records) yieldOf(p *account.Period, dish string) (c cookedWeight) {
	x.notes(p, func(note *running) bool {
		var ok bool
		c, ok = note.Yield[dish]
		return ok
	})
	return c
}

// notes goes through what was said of the dishes of a period, the latest first, until done.
func (x *Records) notes(p *account.Period, done func(*running) bool) {
	for i := len(x.Services) - 1; i >= 0; i-- {
		s := &x.Services[i]
		if !isNote(*s) || s.Begun.Before(p.Since) || !p.Until.IsZero() && !s.Begun.Before(p.Until.Add(serviceLong)) {
			continue
		}
		note := running{}
		if json.Unmarshal(s.Body, &note) == nil && done(&note) {
			return
		}
	}
}

// cameTo is the mg that a dish of a period came to, as somebody said; 0 nobody has. What is poured
// weighs as much as water.
func (x *Records) cameTo(p *account.Period, dish string) int64 {
	return int64(x.yieldOf(p, dish).Amount)
}

// yieldAbout is the mg that a dish came to which is put by at a moment, as somebody said; 0 nobody has.
func (x *Records) yieldAbout(dish string, at time.Time) float64 {
	c := cookedWeight{}
	p := account.Period{Since: at.Add(-pantry.LeftOver), Until: at}
	x.notes(&p, func(note *running) bool {
		var ok bool
		c, ok = note.Yield[dish]
		return ok
	})
	return float64(c.Amount)
}
