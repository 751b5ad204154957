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

// What is left of food that was made is counted, and never made once more: it keeps the date it has.

// goesWith stands behind the word that a dish is called by for short: "tagine with apricots", "chilli con carne".
var goesWith = regexp.MustCompile(`^ (?:with|and|&|con|in|on|of|au|aux|à|a) `)

var saysFrozen = regexp.MustCompile(`(?i)\b(?:frozen|freezer)\b`)

// isCalledShort says whether a line's name is a longer one of what is said: it ends in that, or what stands behind it
// only tells what goes with it.
func isCalledShort(line, said string) bool {
	line, said = key(line), key(said)
	rest, begins := strings.CutPrefix(line, said)
	return strings.HasSuffix(line, " "+said) || begins && goesWith.MatchString(rest)
}

// madeNamed gives the lines of food made here, some of it on hand, that a name means: the one that is called just so,
// else all whose longer names it is short for; where none are on hand, what was made lately and is used up by the record.
// What sets a dish apart must be said.
func (t *turn) madeNamed(said string) (list []*pantry.Line) {
	said = strings.ToLower(said)
	if l := potLine(t.k, said); l != nil && l.Made > 0 && l.OnHand() > 0 {
		return []*pantry.Line{l}
	}
	for _, l := range t.k.Lines {
		if l.Made > 0 && l.OnHand() > 0 && isCalledShort(l.Name, said) {
			list = append(list, l)
		}
	}
	for _, l := range t.k.Lines {
		if len(list) == 0 && l.Made > 0 && isCalledShort(l.Name, said) && t.madeLately(l) {
			return []*pantry.Line{l}
		}
	}
	return list
}

// madeLately says whether some of a line was made within a day.
func (t *turn) madeLately(l *pantry.Line) bool {
	entries, err := t.book.Since(l.ID, &pantry.Message{})
	return err == nil && slices.ContainsFunc(entries, func(e pantry.Entry) bool {
		return e.Act == pantry.Make && t.said.At.Sub(e.At) <= pantry.LeftOver
	})
}

// countMade drafts what is left of food that was made here as a count of it; of several, which of them is asked. Nil
// where none of that name is on hand.
func (t *turn) countMade(said string, a language.Amount) *draft {
	list := t.madeNamed(said)
	if len(list) == 0 {
		return nil
	}
	d := &draft{Act: pantry.Count, Food: strings.ToLower(said), Amount: a, Day: t.day()}
	if len(list) > 1 {
		for _, l := range list {
			d.Among = append(d.Among, l.ID)
		}
		return d
	}
	l := list[0]
	frozen, _ := l.In(food.Frozen)
	switch {
	case !slices.Equal(food.SetApart(l.Name), food.SetApart(said)):
		d.Tell = fmt.Sprintf("No %s %s made lately, only %s. Nothing written: say it again with the whole name.", d.Food, was(d.Food), l.Name)
	case frozen > 0 && frozen == l.OnHand() && !saysFrozen.MatchString(t.m.Text):
		amount := strings.ReplaceAll(measure.Say(a.Base, a.Kind), " ", "")
		d.Tell = fmt.Sprintf(`%s: all %s of it is frozen. Of that, and thawed? Say "thawed %s %s". Made anew? Say "made %s %s". Nothing written.`, title(l.Name), measure.Say(frozen, l.Unit), amount, l.Name, amount, d.Food)
	default:
		d.Food, d.Line = l.Name, l.ID
	}
	return d
}

// whichLeft asks which is meant where a name is short for a dish that was cooked and is not put by, and for what was made
// before as well; "" where that is plain.
func (t *turn) whichLeft(said, dish string) string {
	if dish == "" || key(dish) == key(said) {
		return ""
	}
	pot, names := potLine(t.k, dish), []string{dish}
	for _, l := range t.madeNamed(said) {
		if l != pot && key(l.Name) != key(potName(said)) {
			names = append(names, l.Name)
		}
	}
	if len(names) == 1 {
		return ""
	}
	return fmt.Sprintf("Which %s: %s? Nothing written: say it again with the whole name.", strings.ToLower(said), both(names, "or"))
}
