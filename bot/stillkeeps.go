package bot

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
	"scullion/planner"
)

// saysKeeps is a quick look for the words of what is asked of the date of food.
func saysKeeps(text string) bool {
	text = strings.ToLower(text)
	return slices.ContainsFunc([]string{"keep", "til", "last", "still", "hold", "save", "safe", " ok", "off", "date", "hang on", "use by", "expire", "turn", "go bad", "must", "have to go", "need using", "got on", "left on", "for service", "can we use", "can we serve", "can we eat", "can i use", "can i serve", "can you use", "alright", "usable", "all right", " good ", " fine "},
		func(w string) bool { return strings.Contains(text, w) })
}

// okForDish asks whether food is still good for a dish: "is the roast beef ok for the bubble?"
var okForDish = regexp.MustCompile(`(?i)^\s*(is|are) (?:the )?([a-z][a-z' -]*?) (?:still )?(?:ok|okay|safe|alright|all right|fine|good) (?:for|in|to go in|to use in) (?:the |a )?[a-z][a-z' -]*?\s*\??\s*$`)

// okShort asks the same as "is the X still ok?".
var okShort = regexp.MustCompile(`(?i)^\s*(?:and |so )?(?:the )?([a-z][a-z' -]*?) (?:still )?(?:ok|okay|alright|all right|good|fine|safe)(?: now| then| to (?:use|serve|eat|go|give))?\s*\?+\s*$`)

// keepTalk answers whether food that is here still keeps, by the dates that the ledger has.
func (t *turn) keepTalk() (r Reply, done bool, err error) {
	if !saysKeeps(t.m.Text) {
		return r, false, nil
	}
	text := okForDish.ReplaceAllString(t.m.Text, "$1 the $2 still ok")
	if m := okShort.FindStringSubmatch(text); m != nil && t.isDated(m[1]) {
		text = "is the " + m[1] + " still ok?"
	}
	q := t.reader().KeepTalk(text)
	if q == nil {
		return r, false, nil
	}
	if isPronoun(q.Food) {
		if q.Food, err = t.spokenJust(); err != nil || q.Food == "" {
			return r, false, err
		}
	}
	if q.About == language.AboutMaybeOK && !t.isDated(q.Food) {
		dish, err := t.standsUnput(q.Food)
		if err != nil {
			return r, false, err
		}
		w, err := t.warmCalled(q.Food)
		if err != nil || dish == "" && w == nil {
			return r, false, err
		}
	}
	want := t.wanted(q)
	if q.About == language.AboutTill && want == "" {
		return Reply{Kind: Answer, Text: "That is no day of the calendar."}, true, nil
	}
	says, err := t.sayHeld(q.Food, want, q.About == language.AboutGoesOff)
	return Reply{Kind: Answer, Text: says}, says != "", err
}

// isDated says whether words are of food that is on hand and has a date.
func (t *turn) isDated(phrase string) bool {
	lines, _ := t.heldLines(phrase)
	return slices.ContainsFunc(lines, func(l *pantry.Line) bool {
		return slices.ContainsFunc(l.Lots, func(o pantry.Lot) bool { return o.Left > 0 && o.Date != "" })
	})
}

// wanted is until when food is to keep; today where that was not said. A weekday that is today's
// is a week on: that food keeps till tonight nobody asks by the day's name.
func (t *turn) wanted(q *language.Question) pantry.Date {
	today := t.day()
	switch q.About {
	case language.AboutForDays:
		return today.Add(q.N)
	case language.AboutTillNext:
		return today.Add(1)
	case language.AboutTill:
		at, ok := day(q.Date, t.said.At.In(t.m.At.Location()))
		if !ok {
			return ""
		}
		if d := pantry.DateOf(at); d != today || q.Date.Weekday == 0 {
			return d
		}
		return today.Add(7)
	}
	return today
}

// held is food that is here, or is left of a dish, and has one date.
type held struct {
	Dated
	by      string // who gives the date
	caution string
}

// sayHeld tells of all food that words fit until when it keeps, and so whether till the day that
// is wanted; only the date where plain is set. "" where no food is meant.
func (t *turn) sayHeld(phrase string, want pantry.Date, plain bool) (string, error) {
	lines, isFood := t.heldLines(phrase)
	list, undated, err := t.heldOf(lines)
	if err != nil {
		return "", err
	}
	told, err := t.warmOf(lines)
	if err != nil {
		return "", err
	}
	over, doubt, warm := t.judged(told)
	unput := false
	if len(list)+len(undated) == 0 {
		if list, err = t.leftOf(phrase); err != nil {
			return "", err
		}
		dish, _, err := t.cooked(phrase)
		if err != nil {
			return "", err
		}
		if w, err := t.warmDish(dish); err != nil {
			return "", err
		} else if w != nil && warm == "" {
			unput = true
			if warm = t.sayWarm(*w); t.isOver(*w) {
				return warm + " Bin what is left of the " + dish + ".", nil
			}
		}
	}
	if len(list)+len(undated) == 0 {
		if !isFood {
			return "", nil
		}
		w, err := t.warmCalled(phrase)
		if w != nil {
			return t.sayWarm(*w) + "\n" + t.sayNotHeld(phrase), err
		}
		return t.sayNotHeld(phrase), err
	}
	var said []string
	if warm != "" {
		said = append(said, warm)
	}
	inDate, caution := false, ""
	for _, h := range list[:min(len(list), mostTold)] {
		if came, is := over[h.Item]; is {
			if came > 0 {
				said = appendOnce(said, fmt.Sprintf("No: bin the %s of %s that was here then, whatever its date. %s came in or was made since.", measure.Say(t.k.Named(h.Item).OnHand()-came, h.Unit), h.Item, measure.Say(came, h.Unit)))
			} else {
				said = append(said, fmt.Sprintf("No: bin the %s, whatever its date. Was that said of other food, or wrongly? Edit or delete that message.", h.what()))
			}
			continue
		}
		if unput || slices.Contains(doubt, h.Item) { // "within its date" would be taken for leave
			said = append(said, "If it was kept right all the same:"+lower(h.sayTill(t.day(), want, true)))
			continue
		}
		said = append(said, h.sayTill(t.day(), want, plain))
		if inDate = inDate || h.UseBy && h.days >= 0; caution == "" && h.days >= 0 && h.caution != labelFirst {
			caution = h.caution
		}
	}
	for _, l := range undated {
		said = append(said, "No date is known of the "+l.Name+", and no figure: go by its label.")
	}
	if more := len(said) - mostTold; more > 0 || len(list) > mostTold {
		said = append(said[:min(len(said), mostTold)], `There is more of it: "what's left?" has all.`)
	}
	if all := strings.ToLower(phrase); len(lines) > 0 && !slices.ContainsFunc(lines, func(l *pantry.Line) bool { return !isDry(l.Name) }) && !strings.Contains(all, "dry") && !strings.Contains(all, "raw") { // who asks of rice may mean what was cooked
		f := t.ear.foodOf(lines[0])
		if strings.HasPrefix(all, "cooked ") {
			return t.sayNotHeld(phrase), nil
		}
		return "If it is cooked: " + t.sayKeeps(potName(strings.TrimPrefix(f.Name, "dried ")), f, food.Cooked, false) + "\nAs it came in: " + strings.Join(said, "\n"), nil
	}
	closing := "Labels and your own rules go first."
	if inDate {
		closing = "No date is a promise: what stood warm or is in doubt is binned, look and smell do not tell. " + closing
	}
	if caution != "" {
		closing = title(caution) + ". " + closing
	}
	return strings.Join(append(said, closing), "\n"), nil
}

// heldLines gives the lines that words fit: those found by name, and what ends in the same
// word, "chicken curry" for "the curry". IsFood says whether the words are of food at all.
func (t *turn) heldLines(phrase string) (lines []*pantry.Line, isFood bool) {
	h := t.ear.find(phrase)
	if known := h.exact && !h.sound; known {
		isFood = h.food != nil || len(h.lines) > 0
		if !h.other {
			lines = slices.Clone(h.lines)
		}
	}
	just := len(t.namedJust(phrase)) > 0 // "croissants" are no almond croissants
	for _, l := range t.k.Lines {
		f := t.ear.foodOf(l)
		if isFood && f != nil && f == h.food && !slices.Contains(lines, l) && !(l.Made == 0 && len(lines) > 0 && lines[0].Made > 0 && tellsWork(phrase, "cooked")) && !(h.other && l.Made == 0 && !planner.IsCooked(f, l.Name)) { // "the rice" may be cooked, "the roast chicken" is not the raw
			lines = append(lines, l)
		}
		if (f == nil || !isFood) && !just && fitsName(l.Name, phrase) && singular(lastWord(l.Name)) == singular(lastWord(food.Fold(phrase))) && !slices.Contains(lines, l) {
			lines = append(lines, l)
		}
		if l.Made > 0 && isCutFrom(l, phrase) && !slices.Contains(lines, l) { // the turbot was filleted
			lines = append(lines, l)
		}
	}
	lines = slices.DeleteFunc(lines, func(l *pantry.Line) bool { return l.OnHand() == 0 })
	return lines, isFood || len(lines) > 0 || isMade(phrase)
}

// isMade says whether words are what made food is called: "leek soup", not "soup kitchen".
func isMade(phrase string) bool {
	last := lastWord(phrase)
	return food.IsMade(last) || language.NamesDish(last)
}

// heldOf lists what is on hand of lines by date, the soonest first, and the lines of which some
// has none.
func (t *turn) heldOf(lines []*pantry.Line) (list []held, undated []*pantry.Line, err error) {
	for _, d := range datedFood(&pantry.Kitchen{Lines: lines}, t.ear.foodOf, t.day(), t.country(), false) {
		h := held{Dated: d}
		if h.by, h.caution, err = t.whoDated(d); err != nil {
			return nil, nil, err
		}
		list = append(list, h)
	}
	slices.SortStableFunc(list, func(a, b held) int { return cmp.Compare(a.Date, b.Date) })
	for _, l := range lines {
		if slices.ContainsFunc(l.Lots, func(o pantry.Lot) bool { return o.Left > 0 && o.Date == "" }) {
			undated = append(undated, l)
		}
	}
	return list, undated, nil
}

// sayDates tells until when what was made and is on hand of some lines keeps, a line each: "Tiramisu 1.5 kg, use by
// Thu 5 Mar (UK FSA, ...)."
func (t *turn) sayDates(lines []*pantry.Line) (text string, err error) {
	made := slices.DeleteFunc(slices.Clone(lines), func(l *pantry.Line) bool { return l.Made == 0 || l.OnHand() == 0 })
	list, _, err := t.heldOf(made)
	for _, h := range list[:min(len(list), mostTold)] {
		text += h.sayTill(t.day(), t.day(), true) + "\n"
	}
	return text, err
}

// whoDated says whose date food has, and the caution that goes with it: the label's, or the
// guidance by which the day on which it came into its state gives that date.
func (t *turn) whoDated(d Dated) (by, caution string, err error) {
	l := t.k.Named(d.Item)
	state := d.State
	if state == "" {
		state = food.Raw
	}
	f := t.ear.foodOf(l)
	g, ok := t.ear.guide(l.Name, f, state, "", t.country())
	entries, err := t.book.Since(l.ID, &pantry.Message{})
	if err != nil {
		return "", "", err
	}
	if g, ok, err = t.eggHeld(entries, d, l, g, ok); err != nil {
		return "", "", err
	}
	plain, has := food.Guide(l.Name, f, state, "", t.country())
	rule, isRuled := shortest(t.k, t.ear.all, l.Name, f, state, "")
	for _, e := range slices.Backward(entries) {
		if e.Lot.Date != d.Date || e.Lot.State != d.State {
			continue
		}
		from := pantry.DateOf(e.At.In(t.m.At.Location()))
		switch {
		case isRuled && d.Label && state == food.Raw && from.Add(rule.Days) == d.Date:
			return byHouse + ", " + rule.Name + " " + sayDays(rule.Days), g.Caution, nil
		case d.Label:
			return "as its label or a cook said", g.Caution, nil
		case ok && from.Add(g.Days) == d.Date:
			return sayWhose(g), g.Caution, nil
		case has && from.Add(plain.Days) == d.Date:
			return sayWhose(plain), plain.Caution, nil
		}
	}
	if d.Label {
		return "as its label or a cook said", g.Caution, nil
	}
	if isOld(d.State) || d.State == food.Uncooked {
		return "the date of what is in it", g.Caution, nil
	}
	if d.State == food.Opened {
		return "its date before it was opened", g.Caution, nil
	}
	return "by the usual keeping of such food", g.Caution, nil
}

// sayWhose is sayGuide, of the usual keeping too, whose source may be a long one.
func sayWhose(g food.Guidance) string {
	if g.Jurisdiction != "" || g.Source == byHouse {
		return sayGuide(g)
	}
	return "the usual keeping, " + g.What + " " + sayKept(g.Days)
}

// leftOf gives what is left of the dish that words fit, as it was cooked last: of all that is in
// it what keeps least says until when.
func (t *turn) leftOf(phrase string) ([]held, error) {
	x, list, err := t.wraps()
	if err != nil {
		return nil, err
	}
	for _, w := range slices.Backward(list) {
		for _, name := range w.fitting(x, phrase) {
			s, err := x.Sheet(w, name)
			if err != nil {
				return nil, err
			}
			k, ok := x.until(s, t.b.o.Units, t.m.At.Location())
			if !ok {
				continue
			}
			d := Dated{Item: "what is left of the " + name, State: food.Cooked, Date: k.date, UseBy: k.guidance.Date != "best-before"}
			d.days = d.Date.Days(t.day())
			return []held{{d, k.by() + ", cooked " + sayDay(pantry.DateOf(s.Cooked.In(t.m.At.Location()))), k.guidance.Caution}}, nil
		}
	}
	return nil, nil
}

// what names the food and how much of it there is.
func (h held) what() string {
	s := h.Item
	if h.Amount > 0 {
		s += " " + measure.Say(h.Amount, h.Unit)
	}
	if h.State == food.Opened || h.State == food.Frozen || h.State == food.Thawed {
		s += ", " + string(h.State)
	}
	return s
}

// on is the day of its date, with the year where that is far off.
func (h held) on() string {
	if h.days > farOff {
		return sayDay(h.Date) + " " + string(h.Date[:4])
	}
	return sayDay(h.Date)
}

// farOff is from how many days ahead a date needs its year.
const farOff = 180

// sayTill: "By its date yes: chicken curry 1 kg, use by Thu 5 Mar (UK FSA, soups and stews 2
// days)."
func (h held) sayTill(today, want pantry.Date, plain bool) string {
	date := fmt.Sprintf("%s, %s %s (%s)", h.what(), sayBy(h.kind()), h.on(), h.by)
	switch {
	case h.days < 0 && h.UseBy && !h.Label && h.State == "":
		return "Past its use-by: " + date + ". Do not use it unless its label says later: bin it."
	case h.days < 0 && h.UseBy:
		return "Past its use-by: " + date + ". Do not use: bin it."
	case h.days < 0:
		return "Past its best: " + date + ". Look, smell, then decide."
	case plain:
		return title(date) + "."
	case want == today:
		return "Within its date: " + date + "."
	case want <= h.Date:
		return "By its date yes, till " + sayDay(want) + ": " + date + "."
	case h.UseBy:
		return "No, not till " + sayDay(want) + ": " + date + ". After that bin it."
	}
	return "Past its best by " + sayDay(want) + ": " + date + "."
}

// sayNotHeld says that there is none, and what guidance has of it.
func (t *turn) sayNotHeld(phrase string) string {
	s := "No " + strings.ToLower(phrase) + " in the pantry, as far as anybody said."
	h := t.ear.find(phrase)
	if state, f := t.askedState(&language.Question{Food: phrase}, phrase, h); state != food.Raw {
		return s + "\n" + t.sayKeeps(phrase, f, state, false)
	}
	return s
}
