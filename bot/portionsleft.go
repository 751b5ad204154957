package bot

import (
	"fmt"
	"regexp"
	"strings"

	"scullion/bot/language"
	"scullion/pantry/measure"
)

// portionsAndLeft tells for how many a dish was, and what of that is left: "lasagne was 48 portions, 8 left", "chilli
// made 60, 5kg left over".
var portionsAndLeft = regexp.MustCompile(`(?i)^\s*([^,?;]*?\d[^,?;]*?)(?:,| and| but| with)+ (?:and |but |with |theres |there's |there are |we have |weve got )*(\d[\d.,]* ?(?:kgs?|g|l|ml|litres?|portions?|servings?)?|half|a quarter|a third) (?:of (?:it|them|those) )?(?:is |are |was |were )?(left(?: over)?|unsold|over|spare|remaining)\s*[.!]?$`)

// portionsLeft writes both. Done is false where a message tells no such thing.
func (t *turn) portionsLeft(why string) (r Reply, done bool, err error) {
	m := portionsAndLeft.FindStringSubmatch(t.m.Text)
	if m == nil {
		return r, false, nil
	}
	q := t.reader().MadeTalk(m[1])
	if q == nil || q.About != language.AboutPortions && q.About != language.AboutYield {
		return r, false, nil
	}
	dish, _, err := t.cooked(q.Food)
	if err != nil || dish == "" {
		return r, false, err
	}
	amount := strings.TrimSpace(m[2])
	if !strings.ContainsAny(strings.TrimLeft(amount, "0123456789., "), "kglpshatm") { // "8 left" are portions
		amount += " portions of"
	}
	if q.About == language.AboutPortions {
		r, done, err = t.served(&language.Question{About: language.AboutPortions, Food: dish, N: q.N})
	} else {
		s, errOf := t.sheetOf(dish)
		if errOf != nil || s == nil {
			return r, false, errOf
		}
		r, err = t.cameTo(s, cookedWeight{q.Amount.Base, q.Amount.Kind})
		done = true
	}
	if err != nil || !done {
		return r, done, err
	}
	if part, ok := t.amountSaid(m[2]); ok && part.How == language.Share {
		if q.About == language.AboutPortions {
			n, err := part.N.Of(measure.Amount(q.N))
			if err != nil {
				return r, true, err
			}
			amount = fmt.Sprint(int64(n), " portions of")
		} else {
			base, err := part.N.Of(q.Amount.Base)
			if err != nil {
				return r, true, err
			}
			amount = measure.Say(base, q.Amount.Kind) + " of"
		}
	}
	d, err := t.leftDraft(amount + " " + dish + " left")
	if err != nil || d == nil {
		return r, true, err
	}
	left, err := t.write([]draft{*d}, why)
	if left.Kind != Silent {
		left.Text = r.Text + "\n" + left.Text
		return left, true, err
	}
	return r, true, err
}
