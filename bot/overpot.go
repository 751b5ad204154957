package bot

import (
	"fmt"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/measure"
)

// putFirst gives what has to be put by so that what was asked about can be drawn on it. Done where that is
// not clear.
func (t *turn) putFirst(d *draft, q pending, asked *pantry.Message) (list []pantry.Entry, r Reply, done bool, err error) {
	put, odd, err := t.outOfPot(d)
	switch {
	case err != nil:
		return nil, r, true, err
	case odd.ask != nil:
		r, err = t.ask(append([]pending{*odd.ask}, q.Rest...), asked)
		return nil, r, true, err
	case odd.tell != "":
		return nil, Reply{Kind: Answer, Text: odd.tell}, true, nil
	case put == nil:
		return nil, r, false, nil
	}
	res, err := t.resolve(put)
	if err != nil || res.entry == nil {
		return nil, r, err != nil, err
	}
	d.Line = res.entry.Line
	return []pantry.Entry{*res.entry}, r, false, nil
}

// overPot asks about more of a dish than what went in, twice over, can have come to: water and what nobody
// wrote down go in besides. So much of what was put by of it is not counted; nil where nothing is odd.
func (t *turn) overPot(d *draft, s *account.Sheet, but measure.Amount) (*pending, error) {
	all, ok := partOf(s, &language.Question{Amount: language.Amount{How: language.Share, N: measure.Whole(1)}})
	if !ok {
		return nil, nil
	}
	left, _, err := t.inPotStill(s)
	if err != nil {
		return nil, err
	}
	was := fmt.Sprintf("It came to %s", measure.Say(all.Base, all.Kind))
	most := all.Base
	if s.Yield == 0 {
		for _, p := range s.Parts { // with what is trimmed as a rule, if it was
			if p.EP > 0 {
				most += measure.Amount(p.Grams * 1000 * float64(p.AP-p.EP) / float64(p.EP))
			}
		}
		was = fmt.Sprintf("Only %s went in", measure.Say(most, all.Kind))
	}
	if gone := all.Base - left - but; d.Amount.Base+gone <= tooMuch*most {
		return nil, nil
	}
	return &pending{Kind: askMuch, About: s.Dish, Was: was, Draft: *d, Options: []option{{Label: "yes", Yes: true}}}, nil
}
