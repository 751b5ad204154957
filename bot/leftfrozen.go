package bot

import (
	"regexp"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
)

// leftFrozen tells what is left of a dish and what of that was frozen: "5kg chilli left, 3kg in the freezer", "chilli:
// 2kg left, froze half".
var leftFrozen = regexp.MustCompile(`(?i)^\s*((?:theres |there's |we have |weve got )?(?:\d[^,?;]*? left(?: over)?|[a-z][^,?;:]*:? \d[^,?;]*? left(?: over)?))(?:,| and| but| with| -|;)+ (?:and |but |i |we |ive |i've |weve |we've )*` +
	`(?:(?:froze|put|popped|stuck|frozen) ` + partSaid + `(?: portions)?(?: (?:of (?:it|that))?(?: ?(?:in|into|to) (?:the )?freezer| away frozen)?)?|` + partSaid + ` (?:of it |of that )?(?:is |are |was |went |gone |now )*(?:(?:in|into|to) (?:the )?freezer|frozen))\s*[.!]?$`)

// frozenAndLeft tells the same the other way round: "froze 3kg stew, 2kg left in the fridge".
var frozenAndLeft = regexp.MustCompile(`(?i)^\s*(?:i |we |ive |i've |weve |we've )?(?:froze|frozen) (\d[\d.,]* ?(?:kgs?|g|l|ml|litres?)) (?:of )?(?:the )?([a-z][a-z' -]*?)(?:,| and| but|;)+ (?:and |but )*(\d[\d.,]* ?(?:kgs?|g|l|ml|litres?)) ?(?:of it |of that )?(?:of )?(?:the )?(?:([a-z][a-z' -]*?) )??(?:left(?: over)?|kept|in the fridge)(?: in the fridge| chilled)?\s*[.!]?$`)

// leftFrozenTalk writes both. Done is false where a message tells no such thing.
func (t *turn) leftFrozenTalk(why string) (r Reply, done bool, err error) {
	if m := frozenAndLeft.FindStringSubmatch(t.m.Text); m != nil && (m[4] == "" || strings.EqualFold(m[2], m[4])) {
		return t.frozeBesides(m, why)
	}
	m := leftFrozen.FindStringSubmatch(t.m.Text)
	if m == nil {
		return r, false, nil
	}
	d, err := t.leftDraft(m[1])
	if err != nil || d == nil || d.Amount.How != language.Measured {
		return r, false, err
	}
	part, ok := t.amountSaid(m[2] + m[3])
	if ok && part.How == language.Share {
		of := part.N
		part = language.Amount{How: language.Measured, Kind: d.Amount.Kind, Said: part.Said, Approx: true}
		part.Base, err = of.Of(d.Amount.Base)
	}
	if err != nil || !ok || part.How != language.Measured || part.Kind != d.Amount.Kind || part.Base <= 0 || part.Base > d.Amount.Base {
		return r, false, err
	}
	frozen := draft{Act: pantry.Count, State: food.Frozen, Food: d.Food, Line: d.Line, Amount: part, Day: t.day(), Taken: true}
	r, err = t.write([]draft{*d, frozen}, why)
	return r, r.Kind != Silent, err
}

// frozeBesides writes that so much of a dish was frozen, and so much is left besides.
func (t *turn) frozeBesides(m []string, why string) (r Reply, done bool, err error) {
	froze, ok := t.amountSaid(m[1])
	d, err := t.leftDraft(m[3] + " " + m[2] + " left")
	if err != nil || d == nil || !ok || d.Act != pantry.Make || froze.How != language.Measured || froze.Kind != d.Amount.Kind {
		return r, false, err
	}
	d.Amount.Base += froze.Base
	r, err = t.write([]draft{*d, {Act: pantry.Count, State: food.Frozen, Food: d.Food, Line: d.Line, Amount: froze, Day: t.day(), Taken: true}}, why)
	return r, r.Kind != Silent, err
}
