package bot

import (
	"fmt"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// besideFrozen looks at a count of food of which some is frozen and some is not: "6 burgers left", with 4 more in
// the freezer. What fits all there is stays as it was said, and what fits the rest is of that; else it asks. It
// gives the whole that was counted, and how much of that is frozen; 0 where that has no bearing.
func (t *turn) besideFrozen(d *draft, l *pantry.Line, base measure.Amount) (whole, frozen measure.Amount, res result) {
	frozen, _ = l.In(food.Frozen)
	rest := l.OnHand() - frozen
	text := " " + strings.ToLower(t.m.Text) + " "
	if d.Told || d.Amount.Both || base == 0 || frozen == 0 || rest == 0 || sameWeight(base, l.OnHand()) || strings.Contains(text, " in all") || strings.Contains(text, "altogether") || strings.Contains(text, "in total") {
		return base, 0, res
	}
	if strings.Contains(text, "frozen") || strings.Contains(text, "freezer") {
		say := measure.Say(rest, l.Unit)
		return base, 0, result{fault: true, tell: fmt.Sprintf(`%s: %s is on hand that is not frozen. Nothing written: say what there is of both, like "%s %s left in all".`, title(l.Name), say, measure.Say(l.OnHand(), l.Unit), l.Name)}
	}
	if sameWeight(base, rest) {
		return base + frozen, frozen, res
	}
	said := d.Amount.Said
	return base, 0, result{ask: &pending{Kind: askFrozen, About: l.Name, Draft: *d, Options: []option{
		{Label: said + " in all", Base: base, Kind: l.Unit},
		{Label: said + " besides the " + measure.Say(frozen, l.Unit) + " frozen", Base: base + frozen, Kind: l.Unit},
	}}}
}

// sayBesideFrozen says that what was counted is not all, and how to say that it was.
func (t *turn) sayBesideFrozen(d *draft, l *pantry.Line, frozen measure.Amount) string {
	name := l.Name
	if d.Amount.How == language.Pieces && d.Amount.Part == "" && d.Amount.N != measure.Whole(1) {
		name = plural(name)
	}
	return fmt.Sprintf(`Taken as besides the %s that is frozen. If it was all there is: "%s %s left in all".`, measure.Say(frozen, l.Unit), d.Amount.Said, name)
}

// sameWeight says whether two weights differ by no more than a fiftieth: pieces that were reckoned by weight do so.
func sameWeight(a, b measure.Amount) bool { return 50*max(a-b, b-a) <= b }
