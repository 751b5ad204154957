package bot

import (
	"fmt"
	"regexp"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// cutPart is one of the things that came of what was cut up.
type cutPart struct {
	draft
	trim  bool // it came off, and is no food of its own
	stock bool // it came off, and is kept for stock
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
