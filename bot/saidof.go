package bot

import (
	"fmt"
	"regexp"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
)

// What is told of a dish in passing: drink in it, and raw egg.

var (
	drinkIn  = regexp.MustCompile(`(?i)^\s*(?:the |our )?([a-z' -]+?) (?:has|had|have|got|has got|contains?) (?:some |a bit of |a splash of )?(sherry|marsala|madeira|prosecco|champagne|red wine|white wine|wine)(?: in(?: it| them| there)?)?(?: too| as well)?\s*[.!]?\s*$`)
	rawEggIn = regexp.MustCompile(`(?i)^\s*(?:the |our )?([a-z' -]+?) (?:has|had|have|got|has got|contains?|is made with) (raw eggs?(?: whites?| yolks?)?)(?: in(?: it| them| there)?)?(?:[,.;]? (?:so |please |and )*(?:tell|warn|mind|let|not for|no good for|keep it) .*)?\s*[.!]?\s*$`)
	atRisk   = regexp.MustCompile(`(?i)\b(?:pregnan|elderly|bab(?:y|ies)|toddler|infant|frail|immun|chemo|neutropenic)`)
)

// saidOf keeps that drink or raw egg is in a dish. Done is false where no dish is meant.
func (t *turn) saidOf(why string) (r Reply, done bool, err error) {
	of, what, allergen := "", "", ""
	if m := rawEggIn.FindStringSubmatch(t.m.Text); m != nil {
		of, what, allergen = m[1], "raw egg", "eggs"
	} else if m := drinkIn.FindStringSubmatch(t.m.Text); m != nil {
		of, what = m[1], strings.ToLower(m[2])
		allergen = strings.Join(food.Named(what).Allergen, "+")
	}
	if allergen == "" {
		return r, false, nil
	}
	x, list, err := t.wraps()
	if err != nil {
		return r, true, err
	}
	h, name, err := t.heldByPart(x, list, strings.ToLower(of))
	if err != nil || h == nil && !t.reader().NamesDish(name) || h != nil && t.isPlainFood(h) {
		return r, false, err
	}
	q := &language.Question{About: language.AboutSaidIn, Food: name, Needs: []language.TableNeed{{Allergy: allergen, Said: what}}}
	r, done, err = t.saidIn(q, h, name, why)
	if !done || err != nil || what != "raw egg" {
		return r, done, err
	}
	if g, ok := food.Guide("raw egg", nil, food.MadeUp, "fridge", t.country()); ok {
		r.Text += "\n" + title(g.Caution) + " (" + g.By() + ")."
	}
	var who []string
	for _, n := range t.needs() {
		if n.Kind != pantry.NeedHeads && atRisk.MatchString(n.Said) {
			who = appendOnce(who, sayNeed(n))
		}
	}
	if len(who) > 0 {
		r.Text += fmt.Sprintf("\nNot told by me: say it to them. Of the table: %s.", both(who, "and"))
	}
	return r, done, err
}
