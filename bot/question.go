package bot

import (
	"fmt"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// question answers what was asked. A question about something that is no food
// is talk, and gets silence.
func (t *turn) question(q *language.Question) (Reply, error) {
	switch q.About {
	case language.AboutLeft:
		warm, err := t.warmSaid(slices.DeleteFunc(slices.Clone(t.k.Lines), func(l *pantry.Line) bool { return l.OnHand() == 0 }))
		return Reply{Kind: Answer, Text: strings.TrimSpace(SayLeft(Left(t.k, pantry.DateOf(t.m.At))) + "\n" + warm), Look: t.lookLeft()}, err
	case language.AboutFree:
		return Reply{Kind: Answer, Text: SayFree(Left(t.k, pantry.DateOf(t.m.At)))}, nil
	case language.AboutIdeas:
		return t.offer(pending{Limits: q.Limits})
	case language.AboutMore:
		return t.more()
	case language.AboutDo:
		return t.begin(q)
	case language.AboutNot:
		return t.turnDown(q)
	case language.AboutHow:
		return t.how(q)
	case language.AboutWhy:
		return t.why(q)
	case language.AboutGoes:
		text, err := t.goesToday(true)
		if err != nil {
			return Reply{}, err
		}
		warm, err := t.warmOf(slices.DeleteFunc(slices.Clone(t.k.Lines), func(l *pantry.Line) bool { return l.OnHand() == 0 }))
		if err != nil {
			return Reply{}, err
		}
		for _, w := range warm {
			text += "\n" + t.sayWarm(w)
		}
		dishes, err := t.sayDishesHeld(warm)
		return Reply{Kind: Answer, Text: strings.Join(append([]string{text}, dishes...), "\n")}, err
	case language.AboutMorning:
		return t.setMorning(q)
	case language.AboutNoMore:
		return t.endMorning()
	case language.AboutHelp:
		return Reply{Kind: Answer, Text: Help}, nil
	case language.AboutPlan, language.AboutNext:
		return t.next(q)
	}
	if q.About == language.AboutConvert && q.Food == "" {
		return convertBare(q), nil
	}
	if q.About == language.AboutWith && len(q.Also) > 0 {
		return t.aboutSeveral(q)
	}
	r, err := t.aboutFood(q)
	for _, f := range q.Also {
		if err != nil {
			return r, err
		}
		other := *q
		other.Food, other.Also = f, nil
		r, err = t.alsoAsked(r, &other)
	}
	return r, err
}

// aboutSeveral gives ideas for each of several foods.
func (t *turn) aboutSeveral(q *language.Question) (Reply, error) {
	ask := pending{Limits: q.Limits}
	for _, f := range append([]string{q.Food}, q.Also...) {
		h := t.ear.find(f)
		switch {
		case len(h.lines) == 0:
		case ask.Item == "":
			ask.Item = fullest(h.lines).Name
		default:
			ask.Also = append(ask.Also, fullest(h.lines).Name)
		}
	}
	if ask.Item == "" {
		return t.aboutFood(q)
	}
	return t.offer(ask)
}

// knowledge gives what the tables know of a food, in the pantry or not.
func (t *turn) knowledge(q *language.Question, f *food.Food) Reply {
	silent := Reply{Kind: Silent}
	answer := func(s, none string) Reply {
		if s == "" {
			s = none
		}
		return Reply{Kind: Answer, Text: title(f.Name) + ": " + s}
	}
	if r, ok := t.inState(q, f); ok {
		return r
	}
	trim, off := f.Trimming(q.Off)
	switch {
	case q.About == language.AboutTrim && off:
		return answer(sayTrimming(trim)+".", "")
	case q.About == language.AboutTrim && q.Off == "" && len(f.Trim) > 0:
		return answer(sayEdible(f)+".\n"+sayTrim(f), "")
	case q.About == language.AboutTrim:
		return silent // "can I eat bread?"
	case q.Off != "":
		return silent
	case q.About == language.AboutWeight:
		return answer(sayPieces(f, fewParts)+".", "")
	case q.About == language.AboutKeep:
		r := answer(sayKeeping(f), "no figure for its keeping")
		if cooked := potName(strings.TrimPrefix(f.Name, "dried ")); isDry(f.Name) { // most that ask mean that
			return r.and(". The label goes first.\n" + t.sayKeeps(cooked, f, food.Cooked, false))
		}
		return r.and(". The label goes first.")
	case q.About == language.AboutFreeze:
		return answer(sayFreezing(f), "").and(".")
	case q.About == language.AboutHolds:
		return answer(sayAllergens(f)+"; "+sayDiet(f), "").and(". Check labels.")
	}
	return answer(strings.Join(describe(f), "; "), "").and(".\nLabels and your food-safety rules go first.")
}

// inState answers whether a food is eaten raw; howKept does the rest.
func (t *turn) inState(q *language.Question, f *food.Food) (Reply, bool) {
	if raw := q.State == "raw" || q.State == "uncooked"; !raw || q.Off != "" || q.About != language.AboutTrim {
		return Reply{}, false
	}
	return Reply{Kind: Answer, Text: t.saySafeRaw(q.Food, f)}, true
}

// saySafeRaw says whether a food is eaten raw: no, if any food that the name may
// mean is not.
func (t *turn) saySafeRaw(phrase string, f *food.Food) string {
	for _, id := range t.ear.all.Index().Exact(strings.Fields(strings.ToLower(phrase))) {
		if g := t.ear.all.Foods()[id]; g.Taste.Raw == "not raw" {
			f = g
		}
	}
	switch f.Taste.Raw {
	case "not raw":
		return title(f.Name) + ": not to be eaten raw. Cook it as the packet and your food-safety rules say."
	case "":
		return "No figures for " + f.Name + " yet: check the label."
	}
	return title(f.Name) + " may be eaten raw (" + f.Taste.Raw + "), if sound and washed. Your food-safety rules go first."
}

// and adds to a reply's text.
func (r Reply) and(s string) Reply {
	r.Text += s
	return r
}

// aboutFood answers a question about one food.
func (t *turn) aboutFood(q *language.Question) (Reply, error) {
	silent := Reply{Kind: Silent}
	phrase := q.Food
	if phrase == "" {
		var err error
		if phrase, err = t.lastFood(); err != nil || phrase == "" {
			return silent, err
		}
	}
	h := t.ear.find(phrase)
	if c := t.ear.find(q.State + " " + phrase); q.State != "" && t.ear.areCooked(c.lines) {
		h = c // "how much cooked rice have we got"
	}
	if len(h.lines) == 0 && len(h.near) == 1 && q.About == language.AboutFood && !q.Plain && slices.Contains(strings.Fields(h.near[0].Name), strings.ToLower(phrase)) { // "is the cavolo all gone?"
		h.lines = h.near
	}
	if r, ok := t.howKept(q, phrase, h); ok {
		if q.About == language.AboutKeep && r.Text != "" {
			here, err := t.sayDates(h.lines)
			r.Text = here + r.Text
			return r, err
		}
		return r, nil
	}
	if q.Plain && !h.exact || h.sound && (len(h.lines) == 0 || !misheard(q)) || h.short {
		return silent, nil
	}
	switch q.About {
	case language.AboutWeight, language.AboutKeep, language.AboutFreeze, language.AboutTrim, language.AboutHolds, language.AboutCard:
		f, o := h.food, t.trimOf(phrase)
		if o.Name != "" {
			h, q.Off = t.ear.find(o.of), o.Name
			f = h.food
		}
		if !h.exact {
			return silent, nil
		}
		if a := q.Amount; q.About == language.AboutWeight && a.How == language.Pieces && (a.Part != "" || a.Size != "" || a.N != measure.Whole(1)) {
			return t.convert(q, h), nil
		}
		if q.About == language.AboutWeight && len(h.lines) == 1 && h.lines[0].Weighed() {
			l := h.lines[0]
			return Reply{Kind: Answer, Text: "One " + l.Name + " of what is here weighs about " + measure.Say(l.PieceMg(), l.Unit) + "."}, nil
		}
		if q.About == language.AboutHolds && len(h.lines) == 1 && (f == nil || h.lines[0].Made > 0) {
			return t.sayContents(h.lines[0])
		}
		if f == nil || q.About == language.AboutWeight && sayPieces(f, fewParts) == "" {
			return Reply{Kind: Answer, Text: "No figures for " + strings.ToLower(phrase) + " yet: what it holds is unknown, so check the label."}, nil
		}
		return t.knowledge(q, f), nil
	case language.AboutConvert:
		if !h.exact {
			return silent, nil
		}
		return t.convert(q, h), nil
	case language.AboutWith:
		if r, ok := t.aboutTrim(phrase, q.Off); ok {
			return r, nil
		}
	}
	if len(h.lines) == 0 {
		switch q.About {
		case language.AboutTime:
			return t.howLong(q, h, nil), nil
		case language.AboutSmall:
			return t.howSmall(q, h), nil
		}
		if text, err := t.sayNoPot(phrase); err != nil || text != "" && (q.About == language.AboutFood || q.About == language.AboutFree) {
			return Reply{Kind: Answer, Text: text}, err
		}
		if h.food == nil || !h.exact {
			return silent, nil
		}
		if kinds := t.kindsOf(phrase); len(kinds) > 0 && q.About == language.AboutFood { // "how many tins of tomatoes"
			return t.each(kinds, func(l *pantry.Line) (string, error) { return t.sayStock(l), nil })
		}
		return Reply{Kind: Answer, Text: "No " + strings.ToLower(phrase) + " in the pantry."}, nil
	}
	switch q.About {
	case language.AboutHolder:
		return t.each(h.lines, t.sayHolders)
	case language.AboutUser:
		return t.each(h.lines, t.sayUsers)
	case language.AboutWith:
		return t.offer(pending{Item: fullest(h.lines).Name, Limits: q.Limits})
	case language.AboutTime:
		return t.howLong(q, h, fullest(h.lines)), nil
	case language.AboutSmall:
		return t.howSmall(q, h), nil
	}
	return t.each(h.lines, func(l *pantry.Line) (string, error) { return t.sayStock(l), nil })
}

// misheard says whether a question is so plainly about a food that its name may
// be only what it sounds like: "how much leak is free".
func misheard(q *language.Question) bool {
	return !q.Plain && len(q.Words) == 1 && (q.Here || q.About == language.AboutTime)
}

func fullest(lines []*pantry.Line) *pantry.Line {
	best := lines[0]
	for _, l := range lines {
		if l.OnHand() > best.OnHand() {
			best = l
		}
	}
	return best
}

func (t *turn) each(lines []*pantry.Line, say func(*pantry.Line) (string, error)) (Reply, error) {
	var list []string
	for _, l := range lines[:min(len(lines), mostOptions)] {
		s, err := say(l)
		if err != nil {
			return Reply{}, err
		}
		list = append(list, s)
	}
	return Reply{Kind: Answer, Text: strings.Join(list, "\n")}, nil
}

// sayStock: "Leek: 600 g (about 2.7), 400 g free; dee 200 g for the tart."
func (t *turn) sayStock(l *pantry.Line) string {
	on := l.OnHand()
	if on == 0 && l.Claimed() == 0 {
		return title(l.Name) + ": none left."
	}
	s := title(l.Name) + ": " + measure.Say(on, l.Unit)
	if n := l.Pieces(); n > 0 {
		s += " (about " + measure.SayPieces(n) + ")"
	}
	if l.Claimed() > 0 {
		s += ", " + measure.Say(l.Free(), l.Unit) + " free; " + holders(t.k, l)
	}
	if l.Short() > 0 {
		s += "; " + measure.Say(l.Short(), l.Unit) + " short"
	}
	if o, _ := l.First(); o.Date != "" && o.Label {
		s += "; " + sayBy(map[bool]string{true: "best-before"}[o.Best]) + " " + string(o.Date)
	}
	return s + "."
}

func (t *turn) sayHolders(l *pantry.Line) (string, error) {
	if len(l.Holds) == 0 {
		return "Nobody has claimed " + l.Name + ": " + measure.Say(l.Free(), l.Unit) + " free.", nil
	}
	s := title(l.Name) + ": " + holders(t.k, l) + ". " + measure.Say(l.Free(), l.Unit) + " free."
	if l.Short() > 0 {
		s = title(l.Name) + ": " + holders(t.k, l) + ". " + measure.Say(l.OnHand(), l.Unit) + " on hand, " + measure.Say(l.Short(), l.Unit) + " short."
	}
	return s, nil
}

func (t *turn) sayUsers(l *pantry.Line) (string, error) {
	uses, err := t.book.Uses(l.ID, 5)
	if err != nil {
		return "", err
	}
	if len(uses) == 0 {
		return "Nobody has logged a use of " + l.Name + ".", nil
	}
	var list []string
	for _, u := range uses {
		list = append(list, fmt.Sprintf("%s %s%s at %s", t.k.CookName(u.Cook), howMuch(l, u.Entry), t.verbal(u.Entry), u.At.Format("15:04")))
	}
	return title(l.Name) + ": " + strings.Join(list, "; ") + ".", nil
}

// next: what must go first, and one thing to do with it.
func (t *turn) next(q *language.Question) (Reply, error) {
	on, running, err := t.running()
	if err != nil {
		return Reply{}, err
	}
	if running {
		return t.nextStep(on, q.About == language.AboutPlan)
	}
	var list []string
	for _, l := range Left(t.k, pantry.DateOf(t.m.At)) {
		if line := t.k.Named(l.Item); line != nil && line.Shelf == "crate" && l.Free > 0 && len(list) < 3 {
			list = append(list, l.Item+" "+measure.Say(line.Free(), line.Unit))
		}
	}
	if len(list) == 0 {
		return Reply{Kind: Answer, Text: "The crate is empty: nothing must go."}, nil
	}
	r, err := t.offer(pending{Limits: q.Limits})
	r.Text = "First to go: " + strings.Join(list, ", ") + ".\n" + r.Text
	return r, err
}

// Help is a page of what can be said.
const Help = `used 300g leek in the tart · finished the cheddar · half the milk went in the sauce
got 2kg carrots, 500g butter · binned 80g spinach · composted 150g potato peel
need 200g cream for the soup · don't need the cream · leeks weigh 450g · 86 leeks
undo · make that 200g · I meant celeriac
made 2l soup · opened the cream · froze 300g of the mince · how long does cooked rice keep? · what must go today?
what's left? · how much cream? · who has the cream? · who used the lemons? · ideas? · what can I do with leek? · more
table: 1 nut allergy, 2 vegan · dee is coeliac · table?
plan 3 dishes for 2 in 30 minutes, two cooks, no oven · dish 2 · swap 2 · accept · what's next? · running 5 late`
