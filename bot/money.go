package bot

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// saysMoney is a quick look for the words of what is asked of money.
func saysMoney(text string) bool {
	text = strings.ToLower(text)
	return slices.ContainsFunc([]string{"cost", "spen", "money", "come to", "pay for", "how much was", "how much were", "delivery", "price of", "how much is a", "how much is one", "how much for a", "each", "in pounds", "in euros", "in dollars", "in cash"}, func(w string) bool { return strings.Contains(text, w) })
}

// moneyTalk answers what something cost, by the account that a wrap-up gives.
func (t *turn) moneyTalk() (r Reply, done bool, err error) {
	q, err := t.askedOfMoney()
	if q == nil || err != nil {
		return r, false, err
	}
	x, list, err := t.wraps()
	if err != nil {
		return r, true, err
	}
	m := apart(x, list)
	text := ""
	switch q.About {
	case language.AboutCost, language.AboutCostWas, language.AboutPortionCost, language.AboutCostDish:
		text, err = t.costOf(m, q)
	case language.AboutHeadCost:
		text, err = t.headCosts(m)
	case language.AboutServiceCost:
		text = m.sayService()
	case language.AboutMealCost:
		text, err = m.sayMeal(q.Place, t)
	case language.AboutDayCost:
		text = m.sayDay(t)
	case language.AboutSpent:
		text = m.saySpent(t)
	case language.AboutBinnedCost:
		text = m.sayBinned()
	}
	if text == "" && err == nil && (q.About == language.AboutMealCost || q.About == language.AboutCost || q.About == language.AboutCostWas) {
		text, err = m.sayStarted(strings.ToLower(cmp.Or(q.Place, q.Food)), t)
	}
	return Reply{Kind: Answer, Text: text}, text != "", err
}

// headCosts tells what a portion cost of each dish of the latest service in which some were made.
func (t *turn) headCosts(m *money) (string, error) {
	w := WithDishes(m.list, 0)
	if w == nil {
		return `No dish was made yet, as far as anybody said. "used 300g leek in the tart" begins one.`, nil
	}
	var lines []string
	for _, d := range w.Dishes[:min(len(w.Dishes), mostDishesTold)] {
		s, err := m.sayDish(slices.Index(m.list, w), d.Name, t)
		if err != nil {
			return "", err
		}
		lines = append(lines, s)
	}
	if more := w.Dishes[len(lines):]; len(more) > 0 {
		lines = append(lines, counted1(len(more), "dish", "dishes")+` more: "what did the `+more[0].Name+` cost?"`)
	}
	return strings.Join(lines, "\n"), nil
}

// fitting gives the dishes that words fit: the one of just that name, else all of which they
// are words, else the tart that has leek in it for "the leek tart".
func (w *Wrap) fitting(x *Records, said string) (names []string) {
	var holding []string
	for _, d := range w.Dishes {
		switch rest, isLast := strings.CutSuffix(key(said), " "+key(d.Name)); {
		case key(d.Name) == key(said):
			return []string{d.Name}
		case fitsName(d.Name, said) && fitsName(coreOf(d.Name), lastWord(said)):
			names = append(names, d.Name)
		case isLast && w.holds(x, d.Name, rest):
			holding = append(holding, d.Name)
		}
	}
	if len(names) == 0 {
		return holding
	}
	return names
}

// holds says whether a food that words fit went into a dish.
func (w *Wrap) holds(x *Records, dish, said string) bool {
	return slices.ContainsFunc(w.period.Lines, func(a account.Line) bool {
		return fitsName(x.Kitchen.Line(a.ID).Name, said) && slices.ContainsFunc(a.Of, func(d account.Dish) bool { return d.Name == dish && d.Amount > 0 })
	})
}

// sayDish: "Stew: £3.80, £0.95 a portion for 4. Flour has no cost."
func (m *money) sayDish(at int, name string, t *turn) (string, error) {
	s, err := m.x.Sheet(m.list[at], name)
	if err != nil {
		return "", err
	}
	head := title(name)
	if pantry.DateOf(s.Cooked.In(t.m.At.Location())) != pantry.DateOf(t.m.At) {
		head += cookedOf(name) + sayWhen(s.Cooked, t.m.At)
	}
	of := func(x *Records, w *Wrap) (int64, error) {
		s, err := x.Sheet(w, name)
		if err != nil {
			return 0, err
		}
		return s.Cost, nil
	}
	all, err := m.say(at, 1, of)
	if err != nil {
		return "", err
	}
	if all == "" {
		return head + ": no cost known. Nobody said what " + few(s.Unpriced) + " cost. " + priceIt, nil
	}
	text := head + ": " + all
	switch latest := m.list[at] == WithDishes(m.list, 0); {
	case s.Portions > 0:
		each, err := m.say(at, s.Portions, of)
		if err != nil {
			return "", err
		}
		n := strconv.Itoa(s.Portions)
		if s.Covers > 0 {
			n += " covers, its portions not told"
		}
		if strings.Contains(all, " and ") { // in several currencies
			text += ". A portion, for " + n + ": " + each + "."
		} else {
			text += ", " + each + " a portion for " + n + "."
		}
	case latest:
		text += `. For how many nobody said: "the ` + name + ` ` + was(name) + ` for 4" gives the cost of a portion.`
	default:
		text += ". For how many nobody said."
	}
	return text + sayNoCost(unpriced(s)), nil
}

// priceIt is how a cost is said.
const priceIt = `Say it as food comes in: "got 1kg leeks £3".`

// unpriced names what of a dish has no cost: "flour", "2 kg of the new potato".
func unpriced(s *account.Sheet) []string {
	list := slices.Clone(s.Unpriced)
	for _, p := range s.Parts {
		if i := slices.Index(list, p.Item); i >= 0 && p.NoCost > 0 && p.NoCost < p.AP {
			list[i] = measure.Say(p.NoCost, p.Unit) + " of the " + p.Item
		}
	}
	return list
}

// sayNoCost: " Flour has no cost."
func sayNoCost(list []string) string {
	switch len(list) {
	case 0:
		return ""
	case 1:
		return " " + title(list[0]) + " has no cost."
	}
	return " " + title(few(list)) + " have no cost."
}

// sayLines tells what foods cost as they last came in: "Leek: £3.00 for 1.2 kg."
func (m *money) sayLines(lines []*pantry.Line, t *turn) string {
	var list []string
	for _, l := range lines[:min(len(lines), mostOptions)] {
		list = append(list, m.sayLine(l, t))
	}
	return strings.Join(list, "\n")
}

func (m *money) sayLine(l *pantry.Line, t *turn) string {
	for i, w := range slices.Backward(m.list) {
		a := w.line(l.ID)
		if a == nil || a.Came.Amount == 0 {
			continue
		}
		all, _ := m.say(i, 1, func(_ *Records, w *Wrap) (int64, error) {
			if a := w.line(l.ID); a != nil {
				return a.Came.Cost, nil
			}
			return 0, nil
		})
		came := measure.Say(a.Came.Amount, l.Unit)
		if w.Until != nil {
			came += ", in before the wrap-up of " + sayWhen(*w.Until, t.m.At)
		}
		switch {
		case all == "":
			return "Nobody said what the " + l.Name + " cost (" + came + "). " + priceIt
		case a.Came.Unpriced > 0:
			return title(l.Name) + ": " + all + " for " + measure.Say(a.Came.Amount-a.Came.Unpriced, l.Unit) + " of " + came + "; the rest has no cost."
		}
		return title(l.Name) + ": " + all + " for " + came + "."
	}
	return title(l.Name) + " was made here: its cost is that of what went into it, and is counted there."
}

// line gives the account of a line; nil where it has none.
func (w *Wrap) line(id int64) *account.Line {
	for i := range w.period.Lines {
		if w.period.Lines[i].ID == id {
			return &w.period.Lines[i]
		}
	}
	return nil
}

// sayService: "£31.20 into dishes; £1.20 binned, of £42.10 that was there. Of 3 kg nobody said the cost."
func (m *money) sayService() string {
	w := Latest(m.list)
	if w == nil {
		return "No account yet: nothing came in and nothing was used."
	}
	return m.sayWrap(w)
}

// sayWrap is sayService of any account.
func (m *money) sayWrap(w *Wrap) string {
	var lines []string
	for _, p := range m.purses {
		if s := p.list[slices.Index(m.list, w)].sayDishCosts(p.sign); s != "" {
			lines = append(lines, s)
		}
	}
	if len(lines) == 0 {
		return "Nobody said what anything cost. " + priceIt
	}
	return strings.Join(lines, "\n") + w.sayUnpriced()
}

// saySpent tells what came in cost: "In since 18:05: £9.90 (£1.90 of it for the cupboard).
// Chicken has no cost."
func (m *money) saySpent(t *turn) string {
	at := -1
	for i, w := range m.list {
		if slices.ContainsFunc(w.period.Lines, func(a account.Line) bool { return a.Came.Amount > 0 }) {
			at = i
		}
	}
	if at < 0 {
		return "Nothing came in yet, as far as anybody said."
	}
	cost := func(shelved bool) string {
		s, _ := m.say(at, 1, func(_ *Records, w *Wrap) (sum int64, err error) {
			for _, a := range w.period.Lines {
				if !shelved || m.x.Kitchen.Line(a.ID).Shelf == food.Cupboard {
					sum += a.Came.Cost
				}
			}
			return sum, nil
		})
		return s
	}
	w := m.list[at]
	var unpriced []string
	for _, a := range w.period.Lines {
		if a.Came.Unpriced > 0 {
			unpriced = append(unpriced, m.x.Kitchen.Line(a.ID).Name)
		}
	}
	all := cost(false)
	if all == "" {
		return "Nobody said what came in cost. " + priceIt
	}
	text := "All that came in"
	if w.Since != nil {
		text += " after the wrap-up of " + sayWhen(*w.Since, t.m.At)
	}
	if w.Until != nil {
		text += " until the wrap-up of " + sayWhen(*w.Until, t.m.At)
	}
	text += ": " + all
	if s := cost(true); s != "" && s != all {
		text += ", " + s + " of it for the cupboard"
	}
	return text + "." + sayNoCost(unpriced)
}

// sayBinned: "Binned £1.20: £0.60 of spinach (200 g), £0.60 of leek (150 g). Chicken has no cost."
func (m *money) sayBinned() string {
	w := Latest(m.list)
	if w == nil || w.total.Binned.AP == 0 {
		return "Nothing was binned, as far as anybody said."
	}
	at := slices.Index(m.list, w)
	of := func(want func(int64) bool) string {
		s, _ := m.say(at, 1, func(x *Records, w *Wrap) (sum int64, err error) {
			for _, a := range w.period.Lines {
				if want(a.ID) && x.Kitchen.Line(a.ID).Shelf != food.Cupboard {
					sum += a.Binned.Cost
				}
			}
			return sum, nil
		})
		return s
	}
	var each, unpriced []string
	for _, a := range w.binned(m.x) {
		l := m.x.Kitchen.Line(a.ID)
		amount := measure.Say(a.Binned.Amount, l.Unit)
		if s := of(func(id int64) bool { return id == a.ID }); s != "" {
			each = append(each, s+" of "+l.Name+" ("+amount+")")
		}
		if a.Binned.Unpriced > 0 {
			unpriced = append(unpriced, l.Name)
		}
	}
	all := of(func(int64) bool { return true })
	if all == "" {
		return "Nobody said what was binned cost. " + w.sayBinned(m.x) + " " + priceIt
	}
	if len(each) == 1 {
		return "Binned: " + each[0] + "." + sayNoCost(unpriced)
	}
	return "Binned " + all + ": " + few(each) + "." + sayNoCost(unpriced)
}
