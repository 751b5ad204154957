package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/bot/paper"
	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/measure"
)

// Sheet writes the sheet of a dish that was made in the stretch of an account.
func (x *Records) Sheet(w *Wrap, dish string) (*account.Sheet, error) {
	if _, err := x.read(w.period.From); err != nil {
		return nil, err
	}
	s := account.Source{Kitchen: x.Kitchen, FoodOf: x.foodOrMade, Period: w.period}
	if err := x.Ledger.Between(w.period.From, w.period.To, func(p pantry.Placed) error {
		s.Entries = append(s.Entries, p)
		return nil
	}); err != nil {
		return nil, err
	}
	is := x.portionsOf(w.period, dish)
	came := x.yieldOf(w.period, dish)
	s.Yield, s.YieldUnit = came.Amount, came.Unit
	if on, n := x.planOf(w.period, dish); on != nil {
		d := &on.Plan.Dishes[n]
		for _, p := range d.Steps {
			s.Steps = append(s.Steps, account.Step{At: on.Begun.Add(time.Duration(p.Start) * time.Minute), Do: p.Do, Minutes: p.Minutes})
		}
		for _, u := range d.Cupboard {
			if !x.isIn(w, dish, u.Item) {
				s.Extra = append(s.Extra, x.unlogged(u))
			}
		}
	}
	sheet := s.Write(dish, is.N)
	sheet.Covers = is.Covers
	sheet.Textures = x.textures(w)
	x.addTold(sheet)
	if list := unsettled(x.Kitchen, dish, w.since()); len(list) > 0 { // it may be in the pot for all that
		for _, what := range list {
			sheet.Unknown = append(sheet.Unknown, what+notAnswered)
		}
		sheet.Vegan, sheet.Meatless = account.Diet{Fit: "check label", Why: list}, account.Diet{Fit: "check label", Why: list}
	}
	return sheet, w.priceApart(sheet)
}

// isIn says whether something of a line went into a dish, as far as it was said.
func (x *Records) isIn(w *Wrap, dish, item string) bool {
	l := x.Kitchen.Named(item)
	if l == nil {
		return false
	}
	for i := range w.period.Lines {
		if w.period.Lines[i].ID != l.ID {
			continue
		}
		for _, d := range w.period.Lines[i].Of {
			if d.Name == dish && d.Amount > 0 {
				return true
			}
		}
	}
	return false
}

// unlogged is an ingredient of a plan that nobody has said went in.
func (x *Records) unlogged(u Quantity) account.Ingredient {
	p := account.Ingredient{Item: u.Item, AP: measure.Amount(u.Amount*1000 + 0.5), EP: measure.Amount(u.Amount*1000 + 0.5), Grams: u.Amount, Unlogged: true, Unpriced: true}
	p.Unit, _ = measure.ParseKind(u.Unit)
	if l := x.Kitchen.Named(u.Item); l != nil {
		p.Food = l.Food
	}
	return p
}

// sheetAsked tells which dishes were made, or the sheet of one. Done is false where no dish is
// meant.
func (t *turn) sheetAsked(q *language.Question) (r Reply, done bool, err error) {
	x, list, err := t.wraps()
	if err != nil {
		return r, true, err
	}
	w := WithDishes(list, 0)
	if w == nil {
		if q.Food != "" {
			text := cmp.Or(t.keptFor(q.Food), t.noSheet(q.Food))
			return Reply{Kind: Answer, Text: text}, text != "", nil
		}
		return Reply{Kind: Answer, Text: `No dish was made yet, as far as anybody said. "used 300g leek in the tart" begins one.`}, true, nil
	}
	if q.About == language.AboutSheets {
		return Reply{Kind: Answer, Text: w.SayDishes() + ` "sheet 1" writes one up.`}, true, nil
	}
	n, portions := q.N-1, 0
	if q.Food != "" {
		for back := 1; ; back++ {
			if n, portions = w.Dish(q.Food), q.N; n >= 0 {
				break
			}
			if w = WithDishes(list, back); w == nil { // made in no service
				text, err := t.madeOfWhat(x, q.Food)
				return Reply{Kind: Answer, Text: text}, text != "", err
			}
		}
	}
	if n < 0 || n >= len(w.Dishes) {
		return Reply{Kind: Answer, Text: "There is no dish " + fmt.Sprint(n+1) + ". " + w.SayDishes()}, true, nil
	}
	s, err := x.Sheet(w, w.Dishes[n].Name)
	if err != nil {
		return r, true, err
	}
	s, notes := paper.Scale(s, portions)
	text := saySheet(s, w.Currency, t.m.At.Location())
	if d := w.Dishes[n]; d.untold {
		text += "\nPortions not told"
		if taken := sayTaken(d); taken != "" {
			text += ", " + taken
		}
		text += ": " + tellPortions(d.Name)
	}
	if len(notes) > 0 {
		text += "\n" + notes[0]
	}
	return Reply{Kind: Answer, Text: text + t.stillOpen(w.since(), s.Dish)}, true, nil
}

// madeOfWhat tells what a line was made of that is no dish: "Pureed casserole was made of: chicken
// thigh, onion."; "" where none that was made is called so.
func (t *turn) madeOfWhat(x *Records, said string) (string, error) {
	if text := t.keptFor(said); text != "" {
		return text, nil
	}
	h := t.ear.find(said)
	if !h.exact || len(h.lines) != 1 || h.lines[0].Made == 0 {
		return t.noSheet(said), nil
	}
	p, err := x.read(1)
	var of []string
	for _, id := range p.made[h.lines[0].ID] {
		of = append(of, x.Kitchen.Line(id).Name)
	}
	if err != nil || len(of) == 0 {
		return "", err
	}
	text := title(h.lines[0].Name) + " was made of: " + strings.Join(of, ", ") + "."
	f := x.foodOrMade(h.lines[0])
	l := paper.Label{Unknown: f == nil || f.Unasked}
	if f != nil {
		l.Allergens, l.May = f.Allergen, f.MayCarry
	}
	return text + "\n" + l.Holds(), nil
}

// keptFor tells what is kept for a dish into which nothing went yet; "" none.
func (t *turn) keptFor(said string) string {
	dish := t.dish(strings.ToLower(said))
	list := t.heldFor(dish)
	open := unsettled(t.k, dish, t.m.At.Add(-serviceLong))
	if len(list)+len(open) == 0 {
		return ""
	}
	text := title(dish) + ": nothing has gone into it yet, as far as anybody said."
	if len(list) > 0 {
		text += " Kept for it: " + both(list, "and") + "."
	}
	if len(open) > 0 {
		text += " Asked about, and not answered: " + both(open, "and") + "."
	}
	return text
}

// heldFor lists what is kept for a dish: "500 g leek".
func (t *turn) heldFor(dish string) (list []string) {
	for _, l := range t.k.Lines {
		for _, h := range l.Holds {
			if h.Dish == dish {
				list = append(list, measure.Say(h.Amount, l.Unit)+" "+l.Name)
			}
		}
	}
	return list
}

// sayKeptFor tells what is kept for a dish, and how to keep something where nothing is; "" where no dish is meant.
func (t *turn) sayKeptFor(said string) string {
	said = strings.ToLower(said)
	dish := t.dish(said)
	if list := t.heldFor(dish); len(list) > 0 {
		return fmt.Sprintf("Kept for the %s: %s.", dish, both(list, "and"))
	}
	if !t.isDish(said) {
		return ""
	}
	return fmt.Sprintf(`Nothing is kept for the %s, as far as anybody said. "keep 500g leek for the %s" does.`, dish, dish)
}

// isDish says whether words are of a dish that was named here, or of a kind of dish.
func (t *turn) isDish(said string) bool {
	return slices.Contains(t.k.Dishes, t.dish(said)) || t.reader().NamesDish(said) && !language.IsPlace(said)
}

// notLogged tells that nothing is logged of a dish; "" where no dish is meant.
func (t *turn) notLogged(said string) string {
	said = strings.ToLower(said)
	if !t.isDish(said) {
		return ""
	}
	return fmt.Sprintf(`Nothing is logged of the %s, as far as anybody said. "used 300g leek in the %s" begins it.`, said, said)
}

// noSheet is notLogged where a sheet is asked for by that word: "write the tart up on the board" asks for none.
func (t *turn) noSheet(said string) string {
	if !strings.Contains(strings.ToLower(t.m.Text), "sheet") {
		return ""
	}
	return t.notLogged(said)
}

// CookNames gives what cooks are shown as, by what entries call them.
func (x *Records) CookNames() map[string]string {
	names := map[string]string{}
	for _, c := range x.Kitchen.Cooks {
		names[c] = x.Kitchen.CookName(c)
	}
	return names
}

// LeftoverNote says how what is left of a dish is kept, by the guidance of the UK or the US:
// units are "uk" or "us".
func (x *Records) LeftoverNote(s *account.Sheet, units string) string {
	k, ok := x.until(s, units, time.UTC)
	if !ok {
		return "How long it keeps nobody has a figure for: go by your local rules."
	}
	g := k.guidance
	if k.of != "" {
		return "What is left goes by " + sayDay(k.date) + ", the date of the " + k.of + " in it. What was reheated once is not reheated again."
	}
	keeps := "keeps " + counted1(g.Days, "day", "days") + " in the fridge from the day it was cooked"
	if g.Days == 0 {
		keeps = "goes the same day"
	}
	text := fmt.Sprintf("What is left %s (%s, %s).", keeps, g.By(), g.What)
	if g.Caution != "" {
		text += " " + title(strings.TrimSuffix(g.Caution, ".")) + "."
	}
	return text
}

// Dish finds the one dish that words fit, or that has a number in SayDishes; -1 none, or several.
func (w *Wrap) Dish(said string) int {
	if n, err := strconv.Atoi(said); err == nil {
		if n < 1 || n > len(w.Dishes) {
			return -1
		}
		return n - 1
	}
	found := -1
	if n := slices.IndexFunc(w.Dishes, func(d WrapDish) bool { return d.Name == said || plural(d.Name) == said || d.Name == plural(said) }); n >= 0 {
		return n // its own name goes before what other names end in
	}
	for n, d := range w.Dishes {
		if !fitsName(d.Name, said) || !fitsName(coreOf(d.Name), lastWord(said)) {
			continue
		}
		if found >= 0 {
			return -1
		}
		found = n
	}
	return found
}

// saySheet tells a sheet in a chat: what is in it, what it is to who eats it.
func saySheet(s *account.Sheet, currency string, place *time.Location) string {
	head := title(s.Dish)
	if s.Portions > 0 {
		head += fmt.Sprintf(", for %d", s.Portions)
		if s.Covers == s.Portions {
			head += " covers"
		}
	}
	if !s.Cooked.IsZero() {
		head += cookedOf(s.Dish) + s.Cooked.In(place).Format("Mon 2 Jan 15:04")
	}
	lines := []string{head + "."}
	n := float64(max(1, s.Portions))
	var parts []string
	for _, p := range s.Parts {
		text := measure.Say(p.AP, p.Unit) + " " + p.Item
		switch edible := measure.Say(p.EP, p.Unit); {
		case edible == measure.Say(p.AP, p.Unit):
		case p.Usual:
			text += " (trimmed as usual, " + edible + ")"
		default:
			text += " (trimmed, " + edible + ")"
		}
		if p.Unlogged {
			text += " (of the plan, not logged)"
		}
		parts = append(parts, text)
	}
	lines = append(lines, strings.Join(parts, "; ")+".")
	each := ""
	if s.Portions > 0 {
		each = " a portion"
	}
	e := &s.Energy
	text := fmt.Sprintf("About %s edible%s, %.0f kcal, protein %.0f g, fat %.0f g, carbohydrate %.0f g", sayMg(int64(s.Grams/n*1000)), each, e.Kcal/n, e.Protein/n, e.Fat/n, e.Carb/n)
	switch {
	case e.Share == 0:
		text = fmt.Sprintf("About %s edible%s; nobody has figures for its energy", sayMg(int64(s.Grams/n*1000)), each)
	case e.Share < 0.995:
		text += fmt.Sprintf(" (figures for %.0f%% of the weight)", 100*e.Share)
	}
	if s.Yield > 0 {
		text += ". Came to " + sayYield(s)
	}
	lines = append(lines, text+".")
	if cost := sayCostEach(s, currency); cost != "" {
		text := "Cost " + cost + each
		if len(s.Unpriced) > 0 {
			text += ", without " + few(unpriced(s))
		}
		lines = append(lines, text+".")
	}
	lines = append(lines, sayHolds(s))
	if len(s.Textures) > 0 {
		lines = append(lines, "Textures asked for: "+strings.Join(s.Textures, ", ")+". Not checked here: test each before it goes out.")
	}
	return strings.Join(lines, "\n")
}

// sayCostEach is what a portion of a sheet costs, in each currency; "" where nobody said any.
func sayCostEach(s *account.Sheet, currency string) string {
	var list []string
	for _, p := range s.Apart {
		list = append(list, sayPrice(p.Sign, eachOf(p.Cost, s.Portions)))
	}
	if s.Cost > 0 {
		sign := currency
		for _, p := range s.Parts {
			sign = cmp.Or(p.Sign, sign)
		}
		list = append(list, sayPrice(sign, eachOf(s.Cost, s.Portions)))
	}
	return both(list, "and")
}

// eachOf is the cost of a portion, of all where nobody said how many there are.
func eachOf(cost int64, portions int) int64 {
	return int64(float64(cost)/float64(max(1, portions)) + 0.5)
}

// few names the first of a list: "flour, salt, oil and 2 more".
func few(list []string) string {
	if more := len(list) - mostTold; more > 0 {
		return strings.Join(list[:mostTold], ", ") + fmt.Sprintf(" and %d more", more)
	}
	return both(list, "and")
}

// sayHolds: "Contains milk (butter, cream) and gluten cereals (flour). Check labels: ..."
func sayHolds(s *account.Sheet) string {
	var list []string
	for _, a := range s.Holds {
		list = append(list, a.Name+" ("+strings.Join(a.From, ", ")+")")
	}
	text := "No allergen of the 14 by nature in what was logged."
	if len(list) > 0 {
		text = "Contains " + both(list, "and") + "."
	}
	list = nil
	for _, a := range s.May {
		list = append(list, a.Name+" ("+strings.Join(a.From, ", ")+")")
	}
	if len(list) > 0 {
		text += " May carry " + both(list, "and") + "."
	}
	if len(s.Unknown) > 0 {
		text += " Unknown: " + both(s.Unknown, "and") + "."
	}
	text += " May be incomplete: check labels."
	switch {
	case s.Vegan.Fit == "yes":
		text += " Vegan, by what was logged."
	case s.Meatless.Fit == "yes" && s.Vegan.Fit != "no":
		text += " Vegetarian; vegan only if labels say so (" + strings.Join(s.Vegan.Why, ", ") + ")."
	case s.Meatless.Fit == "yes":
		text += " Vegetarian, not vegan (" + strings.Join(s.Vegan.Why, ", ") + ")."
	}
	return text
}
