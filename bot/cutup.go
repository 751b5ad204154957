package bot

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// Meat and fish are cut up: "broke down 4 chickens into 8 breasts 1.6kg, 8 legs 2.1kg and 2.4kg carcass". The whole is
// drawn, its parts are lines of their own and as raw as it was, and what came off is trim.

//go:embed cuts.csv
var cutsCSV string

// cutWords are the words of cuts.csv, by what they are.
var cutWords = sync.OnceValue(func() map[string]map[string]string {
	r := csv.NewReader(strings.NewReader(cutsCSV))
	r.Comment, r.FieldsPerRecord = '#', 3
	rows, err := r.ReadAll()
	if err != nil {
		panic(err) // the table is embedded; a test walks it
	}
	list := map[string]map[string]string{}
	for _, row := range rows[1:] {
		if list[row[1]] == nil {
			list[row[1]] = map[string]string{}
		}
		for w := range strings.SplitSeq(row[0], ";") {
			list[row[1]][w] = row[2]
		}
	}
	return list
})

// cutForms are the forms in which cutting up is said: what was cut, and what came of it.
var cutForms = sync.OnceValue(func() (f struct{ verb, into, made, got, alone, bare *regexp.Regexp }) {
	or := func(what string) string {
		var list []string
		for w := range cutWords()[what] {
			list = append(list, w)
		}
		slices.SortFunc(list, func(a, b string) int { return len(b) - len(a) }) // "broke down" before "broke"
		return strings.Join(list, "|")
	}
	const who = `(?i)^\s*(?:(?:i|we|ive|i've|weve|we've|just|have|also|then|now|ok|right)[ ,]+)*`
	f.verb = regexp.MustCompile(who + `(` + or("verb") + `) ([^,:;]*?)(?: into | to give | giving |[,:;] *(?:and )?(?:we |i )?(?:got |gave |makes |made )?| (?:and )?(?:we |i )?(?:got|gave) | - )(.+)$`)
	f.into = regexp.MustCompile(who + `(` + or("into") + `) ([^,:;]*?) into (.+)$`)
	f.made = regexp.MustCompile(who + `made (.+?) (?:from|out of) ([^,:;]+)$`)
	f.got = regexp.MustCompile(who + `(?:got )?(.+?)(?: from (?:them|it|those|that|these))?$`)
	f.alone = regexp.MustCompile(who + `(` + or("verb") + `) ([^,:;]+?)(?: too| as well| now)?$`)
	f.bare = regexp.MustCompile(`(?i)^((?:about )?[\d.,]+ ?(?:kg|g|kilos?|grams?))(?: of it| of them)?(?: left| after| clean| (?:of )?(?:the )?([a-z ]+?) left)?$`)
	return f
})

// leastYield is the percentage of whole meat or fish that its parts weigh at the least, where nobody said how many
// were cut up: less, and it was not all of them. Common practice, no source.
const leastYield = 30

// cutTalk writes what was cut up, and what came of it.
func (t *turn) cutTalk(why string) (r Reply, done bool, err error) {
	text := strings.TrimRight(strings.TrimSpace(t.m.Text), ".! ")
	forms := cutForms()
	verb, source, parts := "", "", ""
	switch m := forms.verb.FindStringSubmatch(text); {
	case strings.Contains(text, "?"):
		return r, false, nil
	case m != nil:
		verb, source, parts = strings.ToLower(m[1]), m[2], m[3]
	default:
		if m = forms.into.FindStringSubmatch(text); m != nil {
			verb, source, parts = strings.ToLower(m[1]), m[2], m[3]
		} else if m = forms.made.FindStringSubmatch(text); m != nil {
			source, parts = m[2], m[1]
		} else {
			if r, done = t.cutAlone(text); done {
				return r, true, nil
			}
			if verb, source, parts, err = t.cutBefore(text); err != nil || verb == "" {
				if err == nil && strings.Contains(strings.ToLower(text), "got ") {
					r, done = t.partsOfWhat(text)
				}
				return r, done, err
			}
		}
	}
	whole, of := t.toCut(source)
	if m := forms.bare.FindStringSubmatch(parts); whole == nil && m != nil && strings.HasPrefix(m[2], lastWord(strings.ToLower(source))) { // "skinned the monk, 1.9kg of monkfish left"
		whole, of = t.toCut(m[2])
	}
	if whole == nil {
		return r, false, nil
	}
	base := cutBase(whole.Food)
	what := cutFood{name: whole.Food, base: base}
	if of != nil {
		what.food = of.Food
	}
	left, isVerb := cutWords()["verb"][verb]
	list, known := t.cutParts(parts, what, strings.ReplaceAll(left, "it", unwhole(whole.Food)))
	if !known && isVerb && left == "" && of != nil && strings.Contains(strings.ToLower(text), " into ") {
		return Reply{Kind: Error, Text: fmt.Sprintf("Not read, and nothing written: %q. Say the parts of the %s by name and weight, and what else was done in a message of its own, like \"broke down 2 %s into 4 legs 1kg and 1.2kg carcass\".", parts, base, plural(base))}, true, nil
	}
	if !known {
		return r, false, nil
	}
	real := slices.ContainsFunc(list, func(p cutPart) bool { return !p.trim && !p.stock })
	if !isVerb && !real {
		return r, false, nil
	}
	if of == nil && !real {
		return r, false, nil
	}
	if of == nil {
		return Reply{Kind: Error, Text: t.whichCut(whole)}, true, nil
	}
	whole.Line = of.ID
	if !real && !slices.ContainsFunc(list, func(p cutPart) bool { return p.stock }) {
		return t.onlyTrim(list, of, why)
	}
	if tell, err := t.cutAmiss(whole, of, list, real); tell != "" || err != nil {
		return Reply{Kind: Error, Text: tell}, true, err
	}
	drafts := []draft{*whole}
	for _, p := range list {
		if !p.trim {
			drafts = append(drafts, p.draft)
		}
	}
	if of.Made > 0 { // what was made and goes into nothing was served
		drafts[0].Dish = t.intoMade(drafts[1].Food)
	}
	for _, p := range list {
		if p.trim {
			p.draft.Line = of.ID
			drafts = append(drafts, p.draft)
		}
	}
	t.cutting = true
	r, err = t.write(drafts, why)
	return r, true, err
}

// cutFood is food that is cut up.
type cutFood struct {
	name string // of its line
	base string // what its parts are called by
	food string // its name in the catalogue; "" none
}

// toCut reads what was cut up: nil where that is no raw meat or fish that is held. The line is nil where it may be
// several.
func (t *turn) toCut(source string) (*draft, *pantry.Line) {
	reading := t.reader().Read("used " + source)
	if len(reading.Statements) != 1 || len(reading.Statements[0].Items) != 1 || len(reading.Questions) > 0 {
		return nil, nil
	}
	s := reading.Statements[0]
	it := s.Items[0]
	if it.Food == "" || it.Trim || s.Dish != "" || it.Dish != "" {
		return nil, nil
	}
	h := t.ear.find(it.Food)
	var held []*pantry.Line
	flesh := isFlesh(h.food, it.Food)
	for _, l := range h.lines {
		if t.isRaw(l) {
			if flesh = true; l.OnHand() > 0 {
				held = append(held, l)
			}
		}
	}
	if !flesh || h.sound {
		return nil, nil
	}
	if whole := slices.DeleteFunc(slices.Clone(held), func(l *pantry.Line) bool { return l.Made > 0 || isCut(l.Name) }); len(whole) > 0 && !isCut(it.Food) { // the chickens, and no breasts of them
		held = whole
	}
	d := &draft{Act: pantry.Use, Food: it.Food, Amount: it.Amount, Who: t.ear.cook(s.Who), Day: t.day()}
	if d.Amount.How == language.Unsaid && !d.Amount.Some {
		d.Amount.How, d.Amount.N, d.Amount.Said = language.Share, measure.Whole(1), "all the"
	}
	if len(held) != 1 {
		return d, nil
	}
	d.Food = held[0].Name
	return d, held[0]
}

// isRaw says whether a line is raw meat or fish; of what no table knows, fish by its name.
func (t *turn) isRaw(l *pantry.Line) bool {
	f := t.ear.foodOf(l)
	if f == nil && l.Made == 0 && !tellsWork(l.Name, "cooked") {
		return slices.Contains(food.Named(l.Name).Allergen, "fish")
	}
	o, ok := l.First()
	return ok && isFleshLot(o, l, f) || !ok && isFlesh(f, l.Name)
}

// whichCut says why what was cut up was not found on hand.
func (t *turn) whichCut(d *draft) string {
	var names []string
	for _, l := range t.ear.find(d.Food).lines {
		if l.OnHand() > 0 {
			names = append(names, l.Name)
		}
	}
	if name := strings.ToLower(d.Food); len(names) > 1 {
		return fmt.Sprintf("Not written: which %s, %s? Say it again with that name.", name, both(names, "or"))
	}
	return fmt.Sprintf("Not written: no %s on hand. Say first what came in, like \"got 4 %s 6kg\", then what came of it.", strings.ToLower(d.Food), strings.ToLower(d.Food))
}

// isCut says whether a name ends in a word for a part: "lamb shoulder".
func isCut(name string) bool {
	_, ok := cutWords()["part"][lastWord(singular(strings.ToLower(name)))]
	return ok
}

// isCutFrom says whether a line is raw meat or fish that was cut of what a phrase calls by its plain name.
func isCutFrom(l *pantry.Line, phrase string) bool {
	raw, _ := l.In(food.Uncooked)
	return raw > 0 && isCut(l.Name) && !isCut(phrase) && cutBase(l.Name) == cutBase(phrase)
}

// cutBase is what the parts of food are called by: "chicken" of "whole chickens", "lamb" of "lamb shoulder".
func cutBase(name string) string {
	words := strings.Fields(unwhole(name))
	for n := len(words) - 1; n > 0 && isCut(words[n]); n-- {
		if _, two := cutWords()["part"][words[n-1]+" "+words[n]]; two && n > 1 { // "short rib"
			n--
		}
		words = words[:n]
	}
	return strings.Join(words, " ")
}

// unwhole leaves out the words for all of a food: "chicken" of "whole chickens".
func unwhole(name string) string {
	words := strings.Fields(singular(strings.ToLower(name)))
	for len(words) > 1 {
		if _, is := cutWords()["whole"][words[0]]; !is {
			break
		}
		words = words[1:]
	}
	return strings.Join(words, " ")
}
