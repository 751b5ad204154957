package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// cutAlone asks what came of animals that were broken down, where that was not said: "jointed the last 2 chickens".
func (t *turn) cutAlone(text string) (r Reply, done bool) {
	m := cutForms().alone.FindStringSubmatch(text)
	if m == nil || cutWords()["verb"][strings.ToLower(m[1])] != "" {
		return r, false
	}
	d, of := t.toCut(m[2])
	if d == nil || of == nil || isCut(of.Name) || of.Unit != measure.Gram {
		return r, false
	}
	base := cutBase(of.Name)
	return Reply{Kind: Error, Text: fmt.Sprintf("Not written yet: what came of the %s? Say it with what it weighs, like \"4 breasts 800g, 4 legs 1kg and 1.2kg carcass\", or use the %s as it is.", base, base)}, true
}

// cutBefore gives the parts that a message names, and what this cook's message before says was broken down: "jointed 2
// chickens", and then "got 4 breasts 800g, 4 legs 1kg". No verb where it is nothing of the kind.
func (t *turn) cutBefore(text string) (verb, source, parts string, err error) {
	if parts = bareParts(text); parts == "" {
		return "", "", "", nil
	}
	last, err := t.book.Heard(t.cook, t.said)
	if err != nil || last == nil || last.Gone || last.Rev > 0 || !t.fair(last) {
		return "", "", "", err
	}
	m := cutForms().alone.FindStringSubmatch(strings.TrimRight(strings.TrimSpace(last.Text), ".! "))
	if m == nil || cutWords()["verb"][strings.ToLower(m[1])] != "" {
		return "", "", "", nil
	}
	return strings.ToLower(m[1]), m[2], parts, nil
}

// bareParts gives the list of a message that names nothing but parts and what comes off: "got 4 breasts 800g, 4 legs
// 1kg and 1.2kg carcass"; "" where it names anything else, or no part with a number.
func bareParts(text string) string {
	m := cutForms().got.FindStringSubmatch(text)
	if m == nil || !strings.ContainsAny(m[1], "0123456789") {
		return ""
	}
	parts := 0
	for _, w := range letters.FindAllString(bareAmounts.ReplaceAllString(strings.ToLower(m[1]), " "), -1) {
		switch one := food.Fold(w); {
		case isCut(one):
			parts++
		case !isOffcut(one) && w != "and":
			return ""
		}
	}
	if parts == 0 {
		return ""
	}
	return m[1]
}

// partsOfWhat asks of what parts are that came with no name: "got 4 breasts 800g, 4 legs 1kg and 1.2kg carcass".
func (t *turn) partsOfWhat(text string) (r Reply, done bool) {
	parts := bareParts(text)
	var names []string
	for _, l := range t.k.Lines {
		if l.OnHand() > 0 && l.Received > 0 && t.isRaw(l) && !isCut(l.Name) && !slices.Contains(names, unwhole(l.Name)) {
			if f := t.ear.foodOf(l); f != nil && f.Group != "fish" && f.Group != "shellfish" {
				names = append(names, unwhole(l.Name))
			}
		}
	}
	if one := len(letters.FindAllString(bareAmounts.ReplaceAllString(parts, " "), -1)) == 1; parts == "" || len(names) == 0 || one && !strings.Contains(strings.ToLower(parts), "leg") {
		return r, false
	}
	names = names[:min(len(names), mostOptions)]
	return Reply{Kind: Error, Text: fmt.Sprintf("Not written: of the %s? If it was cut up here, say it in one message: \"broke down the %s into %s\". If it came in, name each, like \"got 4 %s legs 1kg\".", both(names, "or the"), names[0], parts, names[0])}, true
}

// bareAmounts are amounts in a list.
var bareAmounts = regexp.MustCompile(`[\d.,]+ ?(?:kg|g|kilos?|grams?)?\b`)

// cutOfWhole tells that a part was said which nobody cut yet, where only the whole is on hand: two legs of lamb are no
// two lambs. "" it is none.
func (t *turn) cutOfWhole(d *draft, l *pantry.Line) string {
	if d.Amount.How != language.Pieces || d.Amount.Part != "" || d.Act == pantry.Receive || d.Act == pantry.Make || !isCut(d.Food) || isCut(l.Name) || cutBase(d.Food) != unwhole(l.Name) {
		return ""
	}
	if f := t.ear.foodOf(l); f == nil || !isFlesh(f, l.Name) || f.Group == "fish" || f.Group == "shellfish" {
		return ""
	}
	part := strings.ToLower(d.Food)
	return fmt.Sprintf("Not written: no %s on hand, and the %s is whole. Say first what came of it, like \"broke down the %s into %s 2kg, ...\", or how much went by weight.", part, l.Name, unwhole(l.Name), d.Amount.Said+" "+part)
}
