package bot

import (
	"cmp"
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// cookedWeight is what a dish came to once it was cooked, as it was weighed.
type cookedWeight struct {
	Amount measure.Amount
	Unit   measure.Kind
}

// madeTalk answers what a dish came to ("the stew came out at 2.6kg"), and writes down what is
// left of one ("600g stew left over"): a line of its own, of what went into the dish. Done is
// false where no dish that was made lately is meant.
func (t *turn) madeTalk(why string) (r Reply, done bool, err error) {
	text := strings.ToLower(t.m.Text)
	if !t.namesMade(text) && !t.namesPieces(text) && !t.putsBy(text) && !saysCameOut.MatchString(text) && !slices.ContainsFunc([]string{"plate", "scraping", "portion", "serving", "helping", "back in"}, func(w string) bool { return strings.Contains(text, w) }) {
		return r, false, nil
	}
	if r, done, err := t.leftTalk(why); done || err != nil {
		return r, done, err
	}
	_, said := language.MadeOn(t.m.Text, t.m.At.Weekday())
	q := t.reader().MadeTalk(said)
	if q == nil {
		q = t.reader().MadeTalk(asLeft(said))
	}
	if raw, err := t.leftRaw(said); raw != nil || err != nil {
		q = raw
	}
	if q == nil {
		return r, false, nil
	}
	thawed := false
	if q.About == language.AboutFrozen {
		q.Food, thawed = language.WithoutThawed(q.Food)
		thawed = thawed || language.FreezesAgain(said)
	}
	if state := (map[language.About]food.State{language.AboutFrozen: food.Frozen, language.AboutThawed: food.Thawed, language.AboutCooked: food.Cooked})[q.About]; state != "" {
		l := t.madeCalled(q.Food)
		if l != nil && !t.ear.find(q.Food).exact && key(l.Name) != key(q.Food) {
			if r.Text, err = t.whichMade(q.Food); err != nil || r.Text != "" {
				r.Kind = Error
				return r, true, err
			}
		}
		return t.turnedDish(q, state, thawed, why)
	}
	switch q.About {
	case language.AboutPlates:
		return t.platesBack(q, why)
	case language.AboutBinnedOne:
		if dish, err := t.inPot(q.Food, false); err != nil || dish == "" && !t.standsByPiece(q.Food) {
			return r, false, err
		}
		return t.portionsGone(q, why)
	case language.AboutBinned, language.AboutGiven, language.AboutUsed, language.AboutUsedOne:
		return t.portionsGone(q, why)
	case language.AboutBinnedAll:
		return t.allGone(q, why)
	case language.AboutMade:
		return t.portionsMade(q, why)
	}
	if h := t.ear.find(q.Food); q.About == language.AboutWeighs && h.exact && slices.ContainsFunc(h.lines, func(l *pantry.Line) bool { return l.OnHand() > 0 && l.Made == 0 }) {
		return r, false, nil // "the beef weighs 3kg" counts it
	}
	dish, _, err := t.cooked(q.Food)
	if err == nil && q.About == language.AboutLeftOver && q.Amount.How == language.Measured && strings.Contains(text, "back in") {
		if r, done, err := t.backAsMade(dish, q, why); done || err != nil {
			return r, done, err
		}
	}
	if err == nil && dish == "" && !t.ear.find(q.Food).exact {
		if r.Text, err = t.whichMade(q.Food); r.Text != "" {
			r.Kind = Error
			return r, true, err
		}
	}
	if err == nil && dish == "" {
		if text := t.cameOutRaw(q); text != "" {
			return Reply{Kind: Error, Text: text}, true, nil
		}
	}
	if err == nil && dish == "" && q.About == language.AboutLeftOver && q.Amount.How == language.Measured && t.cookedUnlogged(q.Food) {
		r, err = t.write([]draft{*t.putBy(&draft{Food: strings.ToLower(q.Food), Amount: q.Amount, Day: t.day()}, "")}, why)
		return r, r.Kind != Silent, err
	}
	if err != nil || dish == "" {
		return r, false, err
	}
	if l := potLine(t.k, dish); l != nil && l.OnHand() > 0 && q.About == language.AboutLeftOver {
		if anew, err := t.cookedSince(l, dish); err != nil || !anew {
			return r, false, err // it is counted
		}
	}
	if q.About == language.AboutPortions {
		q.Food = dish
		return t.served(q)
	}
	s, err := t.sheetOf(dish)
	if err != nil || s == nil {
		return r, false, err
	}
	if q.About == language.AboutYield || q.About == language.AboutWeighs {
		r, err = t.cameTo(s, cookedWeight{q.Amount.Base, q.Amount.Kind})
		return r, true, err
	}
	if a := q.Amount; q.About == language.AboutLeftOver && a.How == language.Pieces && a.Part == "" && a.N.Den == 1 && int(a.N.Num) <= s.Portions { // 9 of a dish are 9 portions, as where they are binned
		q.N, q.Amount = int(a.N.Num), language.Amount{}
	}
	a, ok := partOf(s, q)
	if !ok {
		return Reply{Kind: Error, Text: fmt.Sprintf(`How much is that? Weigh it: "600g %s left". Or say first for how many it was: "the %s %s for 6".`, dish, dish, was(dish))}, true, nil
	}
	d := draft{Act: pantry.Make, Food: dish, Amount: a, Dish: dish, Day: t.day()}
	if l := potLine(t.k, dish); l != nil {
		d.Line = l.ID
	} else {
		d.New = &newLine{Name: potName(dish), Unit: a.Kind.String()}
	}
	r, err = t.write([]draft{d}, why)
	return r, r.Kind != Silent, err
}

// leftRaw reads what is left of a dish where its message also tells that it is not cooked; nil where it does not.
func (t *turn) leftRaw(said string) (*language.Question, error) {
	without := language.WithoutRaw(said)
	if without == said {
		return nil, nil
	}
	q := t.reader().MadeTalk(without)
	if q == nil {
		q = t.reader().MadeTalk(asLeft(without))
	}
	if q == nil || q.About != language.AboutLeftOver {
		return nil, nil
	}
	dish, _, err := t.cooked(q.Food)
	if dish == "" {
		return nil, err
	}
	return q, err
}

// putsBy is a quick look for words of food that was left or put away, and a dish's name with them.
func (t *turn) putsBy(text string) bool {
	return slices.ContainsFunc([]string{"left", "fridge", "boxed", "tubbed", "packed", "bagged", "stored", "chilled", "remain"}, func(w string) bool { return strings.Contains(text, w) }) && t.reader().SpeaksOfDish(text)
}

// putLast are words behind food that was put away, and bitLeft what says it in the middle.
var (
	putLast = regexp.MustCompile(`(?i)^(\s*\d[^,?]*?),? (?:put by|put away|boxed up|tubbed up|in the fridge)\s*[.!]?$`)
	bitLeft = regexp.MustCompile(`(?i)^\s*(?:a )?(?:bit|little|few|some) (?:of )?(?:the )?([a-z' -]+?) left(?: over)?,? (?:about )?(\d[^,?]*?)(?:,? (?:put by|put away|in the fridge|boxed up))?\s*[.!]?$`)
)

// leftAt is where and when what is left was put: ", in the fridge at 6", ", fridge 18:00".
var leftAt = regexp.MustCompile(`(?i)\b(left|left over|leftover|remaining),? (?:and |now |its |it's |put )*(?:in |into )?(?:the )?(?:fridge|walk-?in|chiller|cold room|blast chiller)(?: at \d[\d:.]*(?: ?[ap]m)?| \d{1,2}[:.]\d\d)?\s*[.!]?$`)

// asLeft writes what was put away as what is left: "1.2kg refried beans put by", "bit of stew left, 900g".
func asLeft(text string) string {
	text = leftAt.ReplaceAllString(text, "$1")
	if m := bitLeft.FindStringSubmatch(text); m != nil {
		return m[2] + " " + m[1] + " left"
	}
	if m := putLast.FindStringSubmatch(text); m != nil && !strings.HasSuffix(strings.ToLower(m[1]), " back") {
		return m[1] + " left"
	}
	return text
}

// putByDraft drafts that something was put by, of a dish that was cooked, or of one that nobody logged; nil
// where it is food that came in, and is only kept.
func (t *turn) putByDraft(d draft) (*draft, error) {
	dish, _, err := t.cooked(d.Food)
	if err != nil {
		return nil, err
	}
	if h := t.ear.find(d.Food); dish != "" && slices.ContainsFunc(h.lines, func(l *pantry.Line) bool { return l.OnHand() > 0 && l.Made == 0 }) && h.exact {
		dish = ""
	}
	switch {
	case dish != "":
		if l := potLine(t.k, dish); l != nil && l.OnHand() > 0 {
			if anew, err := t.cookedSince(l, dish); err != nil || !anew && !t.madeBefore() {
				return nil, err
			}
		}
		d.Food = dish
		return t.putBy(&d, dish), nil
	case t.cookedUnlogged(d.Food) || t.madeBefore() && t.isPotName(d.Food):
		d.Food = strings.ToLower(d.Food)
		return t.putBy(&d, ""), nil
	}
	return nil, nil
}

// intoWords stand between a food and the dish it goes into: "put 150g cheddar in the pasties".
var intoWords = []string{"in", "into", "on", "onto", "for", "to", "over"}

// cookedUnlogged says whether a name is that of a dish which nobody has logged, and of no food on hand:
// what is put by of it came out of some pot.
func (t *turn) cookedUnlogged(name string) bool {
	if !t.reader().NamesDish(name) && !food.IsDishOf(name) || slices.ContainsFunc(strings.Fields(name), func(w string) bool { return slices.Contains(intoWords, w) }) {
		return false
	}
	h := t.ear.find(name)
	return !h.exact || food.IsDishOf(name) && !slices.ContainsFunc(h.lines, func(l *pantry.Line) bool { return l.OnHand() > 0 })
}

// backAsMade counts what is left of what was put by before, and goes back to where it was: none of it
// was used, as far as anybody said. Done is false where no such line is meant.
func (t *turn) backAsMade(dish string, q *language.Question, why string) (r Reply, done bool, err error) {
	l := t.madeCalled(q.Food)
	if named := potLine(t.k, cmp.Or(dish, singular(strings.ToLower(q.Food)))); named != nil {
		l = named
	}
	if l == nil || l.Made == 0 || l.OnHand() < q.Amount.Base || l.Unit != q.Amount.Kind {
		return r, false, nil
	}
	if dish != "" {
		if anew, err := t.cookedSince(l, dish); anew || err != nil {
			return r, false, err
		}
	}
	r, err = t.write([]draft{{Act: pantry.Count, Food: l.Name, Line: l.ID, Amount: q.Amount, Day: t.day()}}, why)
	return r, r.Kind != Silent, err
}

// cooked gives the dish that words name and what went into it, if that was made lately; "" where
// none was.
func (t *turn) cooked(said string) (dish string, in []pantry.Entry, err error) {
	if said == "" || len(t.k.Dishes) == 0 {
		return "", nil, nil
	}
	dish = t.dishNow(strings.ToLower(said))
	if !slices.Contains(t.k.Dishes, dish) { // of yesterday
		dish = t.dish(strings.ToLower(said))
	}
	if !slices.Contains(t.k.Dishes, dish) {
		if dish, err = t.dishBegins(strings.ToLower(said)); err != nil || dish == "" {
			return "", nil, err
		}
	}
	all, err := t.book.IntoDish(dish, t.said.At.Add(-pantry.LeftOver))
	for _, e := range all {
		if e.Act == pantry.Use {
			in = append(in, e)
		}
	}
	if len(in) == 0 {
		dish = ""
	}
	return dish, in, err
}

// cookedSince says whether a dish was cooked again since what was left of it was put by last.
func (t *turn) cookedSince(l *pantry.Line, dish string) (bool, error) {
	_, in, err := t.cooked(dish)
	if err != nil || len(in) == 0 {
		return false, err
	}
	entries, err := t.book.Since(l.ID, &pantry.Message{})
	for _, e := range slices.Backward(entries) {
		if e.Act == pantry.Make {
			return slices.ContainsFunc(in, func(u pantry.Entry) bool { return u.At.After(e.At) && u.Line != l.ID }), err
		}
	}
	return true, err
}

// fromPot gives the dish that words mean which was cooked lately and is not put by; "" none.
func (t *turn) fromPot(said string) (string, error) {
	dish, _, err := t.cooked(said)
	if err != nil || dish == "" {
		return "", err
	}
	if h := t.ear.find(said); h.exact && potLine(t.k, dish) == nil && len(h.lines) > 0 {
		return "", nil // the food of that name
	}
	l := potLine(t.k, dish)
	if l == nil || l.OnHand() == 0 {
		return dish, nil
	}
	anew, err := t.cookedSince(l, dish)
	if !anew {
		dish = ""
	}
	return dish, err
}

// sheetOf gives the latest sheet of a dish; nil where it was not made.
func (t *turn) sheetOf(dish string) (*account.Sheet, error) {
	x, list, err := t.wraps()
	if err != nil {
		return nil, err
	}
	for back := 0; ; back++ {
		w := WithDishes(list, back)
		if w == nil {
			return nil, nil
		}
		for _, d := range w.Dishes {
			if d.Name == dish {
				return x.Sheet(w, dish)
			}
		}
	}
}

// partOf is how much of a dish is meant: as weighed, or portions or a share of what it came to,
// of the edible weight that went in where that was not weighed. Not ok where nobody knows.
func partOf(s *account.Sheet, q *language.Question) (a language.Amount, ok bool) {
	a = q.Amount
	if a.How == language.Measured {
		return a, true
	}
	whole, unit := s.Yield, s.YieldUnit
	if whole == 0 {
		whole, unit = measure.Amount(s.Grams*1000+0.5), measure.Gram
	}
	part := a.N
	if a.How == language.Pieces { // 6 of them
		part = measure.Ratio{}
	}
	if q.N > 0 {
		part, a.Said = measure.Ratio{Num: int64(q.N), Den: int64(s.Portions)}, counted1(q.N, "portion", "portions")
	}
	if part.Den == 0 {
		return a, false
	}
	base, err := part.Of(whole)
	if err != nil || base == 0 {
		return a, false
	}
	return language.Amount{How: language.Measured, Base: base, Kind: unit, Said: a.Said, Approx: true}, true
}

// cameTo notes what a dish came to.
func (t *turn) cameTo(s *account.Sheet, c cookedWeight) (Reply, error) {
	on := running{Service: pantry.Service{Message: t.said.ID, Cook: t.cook, Begun: t.said.At, Due: t.said.At, Ended: t.said.At}, Yield: map[string]cookedWeight{s.Dish: c}}
	if err := t.save(on); err != nil {
		return Reply{}, err
	}
	s.Yield, s.YieldUnit = c.Amount, c.Unit
	return Reply{Kind: Answer, Text: fmt.Sprintf("The %s came to %s. It stands in its sheet.", s.Dish, sayYield(s))}, nil
}

// sayYield: "2.6 kg cooked, 433 g a portion, 79% of the edible weight that went in".
func sayYield(s *account.Sheet) string {
	text := measure.Say(s.Yield, s.YieldUnit) + " cooked"
	if s.Portions > 0 {
		text += ", " + measure.Say(s.Yield/measure.Amount(s.Portions), s.YieldUnit) + " a portion"
	}
	if went := s.Grams * 1000; s.YieldUnit == measure.Gram && went > 0 && float64(s.Yield) <= went {
		text += fmt.Sprintf(", %.0f%% of what went in trimmed", 100*float64(s.Yield)/went)
	}
	return text
}

// yieldOf is what a dish of a period came to, as somebody said; 0 nobody has.
func (x *Records) yieldOf(p *account.Period, dish string) (c cookedWeight) {
	x.notes(p, func(note *running) bool {
		var ok bool
		c, ok = note.Yield[dish]
		return ok
	})
	return c
}

// notes goes through what was said of the dishes of a period, the latest first, until done.
func (x *Records) notes(p *account.Period, done func(*running) bool) {
	for i := len(x.Services) - 1; i >= 0; i-- {
		s := &x.Services[i]
		if !isNote(*s) || s.Begun.Before(p.Since) || !p.Until.IsZero() && !s.Begun.Before(p.Until.Add(serviceLong)) {
			continue
		}
		note := running{}
		if json.Unmarshal(s.Body, &note) == nil && done(&note) {
			return
		}
	}
}

// cold are the groups and kinds of food that make a bread or a cake which holds them one for the fridge, as
// does what no table knows. Common practice, no source.
var cold = []string{"meat", "poultry", "game", "offal", "fish", "shellfish", "cured meat", "cheese", "cream", "cultured dairy"}

func staysCold(f *food.Food) bool {
	return f == nil || (slices.Contains(cold, f.Group) || slices.ContainsFunc(f.Kinds, func(k string) bool { return slices.Contains(cold, k) }))
}

// mealy are the groups of food of which something is in every bread and cake: a tortilla of eggs and potatoes is none.
// Common practice, no source.
var mealy = []string{"flour or starch", "grain", "bread", "pastry", "nut", "prepared", "baking"}

func isMealy(f *food.Food) bool {
	return f == nil || slices.Contains(mealy, f.Group) || slices.ContainsFunc(f.Kinds, func(k string) bool { return slices.Contains(mealy, k) })
}

// keepsLeast is the guidance for what is left of a dish: of all that is in it, what keeps least.
func keepsLeast(k *pantry.Kitchen, all *food.Catalogue, dish string, foods []*food.Food, country string) (food.Guidance, bool) {
	if g, has := ruled(k, all, dish, nil, food.MadeUp, "", country); has && g.Place == "cupboard" && !slices.ContainsFunc(foods, staysCold) && (len(foods) == 0 || slices.ContainsFunc(foods, isMealy)) { // bread and plain cake
		return g, true
	}
	best, ok := ruled(k, all, dish, nil, food.Cooked, "fridge", country)
	if g, has := ruled(k, all, dish, nil, food.MadeUp, "fridge", country); has && g.Days <= best.Days { // a salad is not reheated
		if usual, _ := ruled(k, all, "", nil, food.MadeUp, "fridge", country); g.What != usual.What {
			best = g
		}
	}
	for _, f := range foods {
		if f == nil {
			continue
		}
		if g, has := ruled(k, all, f.Name, f, food.Cooked, "fridge", country); has && (!ok || g.Days < best.Days) {
			best, ok = g, true
		}
	}
	return best, ok
}

// guideFor is the guidance for what was made, cooked or came in cooked; of what was made also the
// limit that what went into it sets, with this message or into the dish that it is what is left of,
// and the day on which that was cooked; "" it is the day on which it was made.
func (t *turn) guideFor(act pantry.Act, dish string, l *pantry.Line, f *food.Food, state food.State) (g food.Guidance, ok bool, m limit, from pantry.Date) {
	if act != pantry.Make || dish == "" {
		g, ok = t.ear.guide(l.Name, f, state, "", t.country())
		if act == pantry.Make {
			how := workOf(l.Name, &t.drew, state == food.Cooked)
			if state == food.Uncooked {
				how = workedRaw
			}
			if m = t.drew.keeps(how); how != workedCooked {
				g, ok = t.uncookedGuide(g, ok, how, m)
			}
		}
		return g, ok, m, ""
	}
	dish, in, err := t.cooked(dish)
	foods := t.foodsOf(in)
	var drew drawnOn
	if err == nil {
		drew, err = limitOf(t.book, t.ear, dish, in, t.said.At.Add(-pantry.LeftOver), t.m.At.Location())
	}
	if err != nil {
		return g, false, m, ""
	}
	if len(in) > 0 {
		from = pantry.DateOf(in[len(in)-1].At.In(t.m.At.Location()))
	}
	drew.join(t.drew)
	how := workOf(cmp.Or(dish, l.Name), &drew, true)
	if state == food.Uncooked {
		how = workedRaw
	}
	m = drew.keeps(how)
	g, ok = keepsLeast(t.k, t.ear.all, cmp.Or(dish, l.Name), foods, t.country())
	if state != food.Cooked {
		g, ok = t.uncookedGuide(g, ok, how, m)
	}
	return g, ok, m, from
}

// foodsOf are the foods of entries, nil where no table knows one.
func (t *turn) foodsOf(entries []pantry.Entry) []*food.Food {
	foods := []*food.Food{}
	for _, e := range entries {
		foods = append(foods, t.ear.foodOf(t.k.Line(e.Line)))
	}
	return foods
}

// isStock says whether a dish of a period is a line that was made, as stock and pastry are: it is
// for nobody in particular.
func (x *Records) isStock(p *account.Period, dish string) bool {
	l := potLine(x.Kitchen, dish)
	return l != nil && slices.ContainsFunc(p.Lines, func(a account.Line) bool { return a.ID == l.ID && a.Stock })
}

// unnoted takes back what the cook said last of a service or a dish and is no entry: that a
// service begins, for how many a dish was, what it came to; logged are the messages by which the
// cook logged something.
func (t *turn) unnoted(logged []*pantry.Message) (r Reply, done bool, err error) {
	list, err := t.book.Services(t.m.At.Add(-serviceLong))
	for _, s := range slices.Backward(list) {
		on := running{}
		if s.Cook != t.cook || json.Unmarshal(s.Body, &on) != nil || on.isPlan() {
			continue
		}
		m, err := t.book.Message(s.Message)
		if err != nil {
			return r, false, err
		}
		if len(logged) > 0 && logged[0].N >= m.N {
			return r, false, nil
		}
		if err := t.stopFor(s.Message); err != nil {
			return r, true, err
		}
		return Reply{Kind: Answer, Text: "Taken back: " + on.told() + "."}, true, t.book.DropService(s.Message)
	}
	return r, false, err
}

// told says what was said of a service that is no plan, or of a dish.
func (on *running) told() string {
	for dish, n := range on.Served {
		return fmt.Sprintf("that the %s was for %d", dish, n)
	}
	for dish, c := range on.Yield {
		return "that the " + dish + " came to " + measure.Say(c.Amount, c.Unit)
	}
	return "the start of the service"
}

// madeCalled gives the one line of what was made here, or of what no table knows, that is on hand
// and is called so for short: "the tart" for the leek tart; nil none, or several.
func (t *turn) madeCalled(said string) (found *pantry.Line) {
	said = strings.ToLower(said)
	for _, l := range t.k.Lines {
		if l.Made == 0 && t.ear.foodOf(l) != nil || l.OnHand() == 0 || !strings.HasSuffix(l.Name, " "+said) && !strings.HasSuffix(l.Name, " "+singular(said)) || !slices.Equal(food.SetApart(l.Name), food.SetApart(said)) {
			continue
		}
		if found != nil {
			return nil
		}
		found = l
	}
	return found
}

// namesMade is a quick look for the first or the last word of a dish.
func (t *turn) namesMade(text string) bool {
	text = strings.ToLower(text)
	return slices.ContainsFunc(t.k.Dishes, func(dish string) bool {
		first, _, _ := strings.Cut(dish, " ")
		last := lastWord(dish)
		return strings.Contains(text, last) || strings.Contains(text, singular(last)) || strings.Contains(text, first) || last == "meal" // that is called by other words as well
	})
}

// standsByPiece says whether a line that was made is on hand by the piece.
func (t *turn) standsByPiece(said string) bool {
	l := t.k.Named(singular(strings.ToLower(said)))
	if l == nil {
		l = t.madeCalled(said)
	}
	return l != nil && l.OnHand() > 0 && l.Made > 0 && l.PieceMg() > 0
}

// namesPieces is a quick look for the last word of food that stands by the piece, or was made.
func (t *turn) namesPieces(text string) bool {
	return slices.ContainsFunc(t.k.Lines, func(l *pantry.Line) bool {
		if l.OnHand() == 0 || l.Made == 0 && l.PieceMg() == 0 {
			return false
		}
		last := lastWord(l.Name)
		return strings.Contains(text, last) || strings.Contains(text, plural(last))
	})
}

// cameTo is the mg that a dish of a period came to, as somebody said; 0 nobody has. What is poured
// weighs as much as water.
func (x *Records) cameTo(p *account.Period, dish string) int64 {
	return int64(x.yieldOf(p, dish).Amount)
}

// yieldAbout is the mg that a dish came to which is put by at a moment, as somebody said; 0 nobody has.
func (x *Records) yieldAbout(dish string, at time.Time) float64 {
	c := cookedWeight{}
	p := account.Period{Since: at.Add(-pantry.LeftOver), Until: at}
	x.notes(&p, func(note *running) bool {
		var ok bool
		c, ok = note.Yield[dish]
		return ok
	})
	return float64(c.Amount)
}
