package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// What was cooked is reheated once only (UK FSA): what is left of that is neither kept nor frozen.

// mostReheated is how long back it is looked for that food was reheated: a day's service.
const mostReheated = 24 * time.Hour

var (
	saysReheated = regexp.MustCompile(`(?i)\b(?:re-?heat(?:ed)?|warmed up|warmed through|heated up|heated through)\b`)
	// reheatedLeft: "reheated 1kg of the stew, 300g left over".
	reheatedLeft = regexp.MustCompile(`(?i)^\s*(?:i |we |ive |weve )?(?:re-?heated|warmed up|warmed through|heated up|heated through) (.+?)(?:,| and| but) (?:and |but |with |theres |there's |there is |had )*` + partSaid + ` (?:is |was |are |were )?(?:left(?: over)?|over|not eaten|uneaten|unsold|spare|remaining|back)[.!]?\s*$`)
)

// reheatedTalk writes that so much of a dish was reheated and eaten, and tells what becomes of what is left of that.
// Done is false where the message does not say so.
func (t *turn) reheatedTalk(why string) (r Reply, done bool, err error) {
	m := reheatedLeft.FindStringSubmatch(t.m.Text)
	if m == nil {
		return r, false, nil
	}
	list := t.reader().Read("used " + m[1]).Statements
	if len(list) != 1 || len(list[0].Items) != 1 || list[0].Act != "use" {
		return r, false, nil
	}
	it := list[0].Items[0]
	lines, _ := t.heldLines(it.Food)
	left, ok := t.amountSaid(m[2])
	if len(lines) != 1 || !ok || !isReheatable(lines[0]) {
		return r, false, nil
	}
	l := lines[0]
	all := l.OnHand()
	switch {
	case it.Amount.How == language.Measured && it.Amount.Kind == l.Unit:
		all = it.Amount.Base
	case it.Amount.How == language.Share:
		all, err = it.Amount.N.Of(all)
	case it.Amount.How != language.Unsaid:
		return r, false, nil
	}
	if err != nil {
		return r, false, err
	}
	over := left.Base
	if left.How == language.Share {
		if over, err = left.N.Of(all); err != nil {
			return r, false, err
		}
	} else if left.Kind != l.Unit {
		return r, false, nil
	}
	if over > all || all > l.OnHand() {
		return r, false, nil
	}
	if over < all {
		d := draft{Act: pantry.Use, Food: l.Name, Line: l.ID, Day: t.day(), Amount: language.Amount{How: language.Measured, Kind: l.Unit, Base: all - over, Said: measure.Say(all-over, l.Unit)}}
		if r, err = t.write([]draft{d}, why); err != nil || r.Kind != Log {
			return r, r.Kind != Silent, err
		}
	}
	tell := fmt.Sprintf("The %s left of it was reheated: it is not kept, reheated or frozen again. Say \"binned %[1]s %s\".", measure.Say(over, l.Unit), l.Name)
	if r.Kind != Log {
		return Reply{Kind: Answer, Text: tell}, true, nil
	}
	r.Text += "\n" + tell
	return r, true, nil
}

// isReheatable says whether a line has food that was cooked or made here.
func isReheatable(l *pantry.Line) bool {
	return slices.ContainsFunc(l.Lots, func(o pantry.Lot) bool { return o.Left > 0 && (isOld(o.State) || l.Made > 0) })
}

// mindReheated adds to what was put by, put back or frozen of food of which some was reheated that this is not to be
// kept.
func (t *turn) mindReheated(r Reply) (Reply, error) {
	if r.Kind != Log || len(r.Entries) == 0 || t.m.Delete {
		return r, nil
	}
	for _, e := range r.Entries {
		l := t.k.Named(e.Item)
		kept := e.Kind == string(pantry.Make) || e.Kind == string(pantry.Return) || e.Kind == string(pantry.Count) && e.State != string(food.Thawed)
		if l == nil || l.Made == 0 || !kept {
			continue
		}
		m, err := t.reheatedBefore(l)
		if err != nil {
			return r, err
		}
		if m == nil {
			continue
		}
		r.Text += fmt.Sprintf("\n%s said at %s: %q. What was reheated is not kept, reheated or frozen again: bin what is left of that.",
			title(t.k.CookName(m.Cook)), m.At.In(t.m.At.Location()).Format("15:04"), strings.TrimSpace(m.Text))
		break
	}
	return r, nil
}

// reheatedBefore gives the latest message by which some of a line was reheated within a day; nil none.
func (t *turn) reheatedBefore(l *pantry.Line) (*pantry.Message, error) {
	for m, err := range t.back("", t.said, mostLately, t.m.At.Add(-mostReheated)) {
		if err != nil {
			return nil, err
		}
		if m.Gone || !saysReheated.MatchString(m.Text) {
			continue
		}
		entries, err := t.book.InForce(m)
		if err != nil {
			return nil, err
		}
		if slices.ContainsFunc(entries, func(e pantry.Entry) bool { return e.Line == l.ID && e.Act == pantry.Use }) {
			return m, nil
		}
	}
	return nil, nil
}

// reheatedAsked answers whether food may be heated or kept, of which some was reheated within a day: that may not. ""
// where that was not asked, or none was.
func (t *turn) reheatedAsked(lines []*pantry.Line) (string, error) {
	if asksHowMuch.MatchString(t.m.Text) {
		return "", nil
	}
	for _, l := range lines {
		m, err := t.reheatedBefore(l)
		if err != nil {
			return "", err
		}
		if m != nil {
			return fmt.Sprintf("No, not what was reheated (%s at %s: %q): it is not kept, reheated or frozen again; bin what is left of that.", title(t.k.CookName(m.Cook)), m.At.In(t.m.At.Location()).Format("15:04"), strings.TrimSpace(m.Text)), nil
		}
	}
	return "", nil
}
