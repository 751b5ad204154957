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

// cutPart is one of the things that came of what was cut up.
type cutPart struct {
	draft
	trim  bool // it came off, and is no food of its own
	stock bool // it came off, and is kept for stock
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

var letters = regexp.MustCompile(`[A-Za-z]+`)

// cutParts reads what came of food, where all of it is parts and trim; called is what is left of it where that has
// no name, "" none.
func (t *turn) cutParts(said string, of cutFood, called string) (list []cutPart, ok bool) {
	base := of.base
	if m := cutForms().bare.FindStringSubmatch(said); m != nil && called != "" && (m[2] == "" || unwhole(m[2]) == unwhole(of.name)) { // "filleted the hake, 2.1kg left"
		said = m[1] + " " + called
	}
	var b strings.Builder
	at, before := 0, ""
	for _, m := range letters.FindAllStringIndex(said, -1) {
		w := strings.ToLower(said[m[0]:m[1]])
		one := food.Fold(w)
		_, part := cutWords()["part"][one]
		if (part || isOffcut(one)) && before != lastWord(base) {
			b.WriteString(said[at:m[0]] + base + " ")
			at = m[0]
		}
		before = one
	}
	b.WriteString(said[at:])
	reading := t.reader().Read("got " + b.String())
	if len(reading.Statements) == 0 || reading.Unread != "" || len(reading.Questions) > 0 || reading.Wrong != "" {
		return nil, false
	}
	for _, s := range reading.Statements {
		if s.Act != string(pantry.Receive) {
			return nil, false
		}
		for _, it := range s.Items {
			p, ok := t.cutPart(it, of, called, said)
			if !ok {
				return nil, false
			}
			list = append(list, p)
		}
	}
	return list, len(list) > 0
}

// cutPart makes an item one of the parts of food.
func (t *turn) cutPart(it language.Item, of cutFood, called, said string) (p cutPart, ok bool) {
	base := of.base
	name := singular(strings.ToLower(it.Food))
	if it.Whole != "" {
		name = singular(strings.ToLower(it.Whole))
	}
	off := it.Off
	if isOffcut(lastWord(name)) && off == "" {
		off = lastWord(name)
	}
	p.draft = draft{Act: pantry.Make, Food: name, Amount: it.Amount, Day: t.day(), Cut: true}
	t.dated(&p.draft, it)
	if off != "" {
		name = base + " " + food.Fold(strings.ToLower(off))
		if p.trim, p.stock = !keptForStock(said, off), keptForStock(said, off); p.trim {
			p.draft = draft{Act: pantry.Bin, Trim: true, Food: base, Off: strings.ToLower(off), Amount: it.Amount, Day: t.day()}
			return p, it.Amount.How == language.Measured
		}
	} else if name == base+" meat" && called != "" {
		name = called
	}
	_, part := cutWords()["part"][lastWord(name)]
	if name == "" || name != called && !part && !p.stock || it.Amount.How != language.Measured && it.Amount.How != language.Pieces || it.Amount.Part != "" {
		return p, false
	}
	p.draft.Food = name
	f, known := t.ear.all.Food(name)
	if l := t.k.Named(name); l != nil {
		p.draft.Line = l.ID
	} else {
		p.draft.New = &newLine{Name: name, Unit: measure.Gram.String()}
		if known {
			p.draft.New.Food = f.Name
		} else if !p.stock { // a neck of lamb is lamb
			p.draft.New.Food = of.food
		}
	}
	return p, it.Amount.How == language.Measured || known && f.PieceMg > 0
}

// isOffcut says whether a word in the singular is one for what comes off meat or fish.
func isOffcut(word string) bool {
	_, trim := cutWords()["trim"][word]
	return trim || isBone(word)
}

// isBone says whether a word is one for bones.
func isBone(word string) bool {
	_, ok := cutWords()["bone"][food.Fold(strings.ToLower(word))]
	return ok
}

// boneUsed makes a use of bones one of what came off: a joint that is on hand is not drawn for them. Bones that came
// in or were kept are a line of their own, and else it is told that nothing was drawn.
func (t *turn) boneUsed(d *draft) {
	off, name := food.Fold(strings.ToLower(d.Off)), strings.ToLower(d.Food)
	var kept, cameOff []*pantry.Line
	for _, l := range t.k.Lines {
		if lastWord(l.Name) == off && l.OnHand() > 0 && (name == "" || fitsName(l.Name, name)) {
			kept = append(kept, l)
		}
		if name == "" && l.Trimmed >= d.Amount.Base && l.Trimmed > 0 && t.isRaw(l) {
			if _, ok := trimming(t.ear.foodOf(l), off); ok {
				cameOff = append(cameOff, l)
			}
		}
	}
	if name != "" {
		for _, l := range t.ear.find(d.Food).lines {
			if t.isRaw(l) {
				cameOff = append(cameOff, l)
			}
		}
	}
	switch {
	case len(kept) == 1:
		d.Food, d.Line, d.Off = kept[0].Name, kept[0].ID, ""
	case len(kept) > 1:
		d.Food, d.Off = off, ""
		for _, l := range kept {
			d.Among = append(d.Among, l.ID)
		}
	case len(cameOff) == 1 && d.Amount.How == language.Measured:
		d.Line, d.Trim, d.Food = cameOff[0].ID, true, cameOff[0].Name
	default:
		what := strings.Join(strings.Fields(strings.ToLower(d.Amount.Said+" "+name+" "+d.Off)), " ")
		d.Tell = fmt.Sprintf("Nothing drawn for the %s: what comes off a joint is drawn with it. Bones that are bought come in first, like \"got 3kg chicken bones\".", what)
	}
}

// keptForStock says whether what came off is said to be for stock: "3kg bones for stock".
func keptForStock(said, off string) bool {
	i := strings.Index(strings.ToLower(said), strings.ToLower(off))
	if i < 0 {
		return false
	}
	rest := strings.ToLower(strings.TrimLeft(said[i+len(off):], " "))
	for _, w := range []string{"for stock", "for the stock", "for a stock", "for stocks", "for the stockpot"} {
		if strings.HasPrefix(rest, w) {
			return true
		}
	}
	return false
}

// onlyTrim notes what came off where nothing else is told: "scaled and gutted the bream, 1.3kg guts".
func (t *turn) onlyTrim(list []cutPart, of *pantry.Line, why string) (r Reply, done bool, err error) {
	var drafts []draft
	for _, p := range list {
		p.draft.Line = of.ID
		drafts = append(drafts, p.draft)
	}
	r, err = t.write(drafts, why)
	return r, true, err
}

// cutAmiss tells why what was cut up cannot be written; "" it can.
func (t *turn) cutAmiss(whole *draft, of *pantry.Line, list []cutPart, real bool) (string, error) {
	base := cutBase(of.Name)
	if !real {
		return fmt.Sprintf("Not written: what came of the %s but bones nobody said. Say it in one message, like \"broke down 2 %s into 1.2kg breast, 1.4kg legs and 2kg bones for stock\".", base, plural(of.Name)), nil
	}
	drawn, _, _, err := t.weigh(*whole, of, t.ear.foodOf(of), of.Unit)
	if err != nil || drawn == 0 {
		return fmt.Sprintf("Not written: how much %s was cut up is not clear. Say it by weight, like \"filleted 2kg %s, 1.2kg fillet\".", of.Name, base), nil
	}
	if on := of.OnHand(); drawn > on+on/10 {
		return fmt.Sprintf("Not written: that is about %s of %s, and %s is on hand. Say how many were cut up, or first what came in.", measure.Say(drawn, of.Unit), of.Name, measure.Say(on, of.Unit)), nil
	}
	var came measure.Amount
	for _, p := range list {
		switch {
		case p.Amount.How == language.Measured && p.Amount.Kind != measure.Gram:
			return "Not written: say by weight what came of the " + of.Name + ".", nil
		case p.Amount.How == language.Measured:
			came += p.Amount.Base
		default:
			f, _ := t.ear.all.Food(p.Food)
			a, err := p.Amount.N.Of(f.PieceMg)
			if err != nil {
				return "", err
			}
			came += a
		}
	}
	switch {
	case came > drawn+drawn/10:
		return fmt.Sprintf("Not written: %s came of it, and %s weighs about %s. Say how many were cut up, and what each part weighs.", measure.Say(came, measure.Gram), saidThing(whole, of), measure.Say(drawn, of.Unit)), nil
	case whole.Amount.How == language.Share && came*100 < drawn*leastYield:
		return fmt.Sprintf("Not written: %s is little of all %s %s. Say how many were cut up, like \"filleted 2 %s, 700g fillet\".", measure.Say(came, measure.Gram), measure.Say(drawn, of.Unit), of.Name, base), nil
	}
	return "", nil
}

// saidThing: "4 whole chickens".
func saidThing(d *draft, l *pantry.Line) string {
	if d.Amount.How == language.Pieces && d.Amount.Part == "" {
		return d.Amount.Said + " " + plural(l.Name)
	}
	return "the " + l.Name
}

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
