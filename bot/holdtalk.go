package bot

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"scullion/bot/language"
	"scullion/pantry"
)

// holdTalk answers what is asked of what dishes hold, and keeps what a cook says is in one. Done is
// false where no dish or food is meant.
func (t *turn) holdTalk(why string) (r Reply, done bool, err error) {
	if h, ok := t.reader().Holds(t.m.Text); ok && len(h.May)+len(h.Needs) > 0 {
		return t.labelSays(h, why)
	}
	if each := t.askedSoAndSo(); len(each) > 1 {
		return t.holdEach(each, why)
	}
	q, _ := t.reader().HoldTalk(t.m.Text)
	if q == nil {
		q = t.askedOfSeveral()
	}
	if q == nil {
		q = t.askedForWhom()
	}
	if q == nil || q.Food != "" && language.IsPlace(strings.ToLower(q.Food)) {
		return r, false, nil
	}
	if t.toldOfSeveral(q) {
		return Reply{Kind: Answer, Text: fmt.Sprintf("Not kept: that is of several dishes. Say it of each by itself, like %q.", betweenDishes.Split(strings.ToLower(q.Food), 2)[0]+" has "+q.Needs[0].Said+" in")}, true, nil
	}
	if each := t.eachAsked(q); len(each) > 1 {
		return t.holdEach(each, why)
	} else if len(each) == 1 {
		q = each[0]
	}
	return t.holdOne(q, why, false)
}

// holdOne is holdTalk of one question; all says that it is a part of one of several dishes or places, and is answered
// even where nobody knows the dish.
func (t *turn) holdOne(q *language.Question, why string, all bool) (r Reply, done bool, err error) {
	x, list, err := t.wraps()
	if err != nil {
		return r, true, err
	}
	about, said := q.About, strings.ToLower(q.Food)
	if i := slices.Index(itsAbouts, about); i >= 0 {
		about = ofAbouts[i]
		if said, err = t.spokenOf(); err != nil || said == "" {
			return r, false, err
		}
	}
	if about == language.AboutWhichHas {
		text, err := t.whichHold(x, list, q.Needs)
		return Reply{Kind: Answer, Text: text + t.stillOpen(t.m.At.Add(-serviceLong), "")}, true, err
	}
	if about == language.AboutWhichEats {
		return t.whichEats(x, list, q)
	}
	h, said, err := t.heldByPart(x, list, said)
	if err != nil {
		return r, true, err
	}
	if about == language.AboutAnyFree { // "any gluten free bread?" asks for food
		if h != nil && t.isPlainFood(h) && !slices.Contains(t.k.Dishes, h.name) {
			return r, false, nil
		}
		about = language.AboutHas
	}
	if h == nil && (all || language.AsksBare(t.m.Text) || about == language.AboutEats && (asksOfPlace(q, t.m.Text) || t.asksOfNeeds(q))) {
		h = newHolding(said)
	}
	if h == nil && t.isAskedFor(said) {
		h = newHolding(said)
	}
	if about == language.AboutSaidIn {
		return t.saidIn(q, h, said, why)
	}
	if h == nil && !t.reader().NamesDish(said) && about != language.AboutAllergens {
		return r, false, nil
	}
	if about == language.AboutAllergens && h == nil && !t.reader().NamesDish(said) && barelyAllergens.MatchString(t.m.Text) { // "list allergens"
		return r, false, nil
	}
	if about == language.AboutWhoEats && (h == nil || t.isPlainFood(h)) && !t.reader().NamesDish(said) { // "who can have the cream?"
		return r, false, nil
	}
	if about == language.AboutUnsaidIn && h != nil && t.isPlainFood(h) && !strings.Contains(strings.ToLower(t.m.Text), "free") { // "there's no milk in this coffee"
		return r, false, nil
	}
	if about == language.AboutUnsaidIn {
		return t.unsaidIn(q, said, h)
	}
	if h == nil {
		h = newHolding(said)
	}
	before := t.beforeSettled(h, said)
	h.open = before != ""
	if !all && before == "" && t.isPlainFood(h) && slices.ContainsFunc(t.reader().Read(t.m.Text).Questions, func(q *language.Question) bool { return q.About == language.AboutHolds }) {
		return r, false, nil // the table of foods tells more
	}
	text := ""
	switch about {
	case language.AboutAllergens:
		text = h.sayAll()
	case language.AboutHas:
		text = h.sayHas(q.Needs)
	default:
		text = t.sayMayEat(q, h)
	}
	if text == "" {
		return r, false, nil
	}
	return Reply{Kind: Answer, Text: before + text}, true, nil
}

// barelyAllergens ends with the word alone: "tagine allergens".
var barelyAllergens = regexp.MustCompile(`(?i)\ballergens\s*\.?\s*$`)

// isAskedFor says whether a use for a dish of that name was asked about, and not answered.
func (t *turn) isAskedFor(said string) bool {
	return len(unsettledOf(t.k, func(dish string) bool { return dish == said || dish == t.dish(said) }, t.m.At.Add(-serviceLong))) > 0
}

// asksOfPlace says whether what nobody logged is asked about for a place, in words that are of food: "is the aloo gobi
// ok for table 7".
func asksOfPlace(q *language.Question, text string) bool {
	return q.Place != "" && !language.IsThing(q.Food) && forEating.MatchString(text)
}

// asksOfNeeds says whether it is asked what a place may have of which needs are known: "can order 31 have the sundae".
func (t *turn) asksOfNeeds(q *language.Question) bool {
	if q.Place == "" || language.IsThing(q.Food) || saysMore.MatchString(t.m.Text) || len(strings.Fields(q.Food)) > 4 {
		return false
	}
	place := t.placeCalled(q.Place)
	return slices.ContainsFunc(t.needs(), func(n pantry.Need) bool { return !n.Lasting && n.Kind != pantry.NeedHeads && isAt(n, place) })
}

var forEating = regexp.MustCompile(`(?i)\b(?:eat|(?:ok|okay|fine|safe|suitable|alright|all right) for)\b`)

// putIn keeps that food went into a dish which nobody took in, and of which nobody said how much: no stock
// is drawn, and what it brings stands on the label. Done is false where none of the 14 may be in it.
func (t *turn) putIn(reading language.Reading, why string) (r Reply, done bool, err error) {
	if len(reading.Statements) != 1 || len(reading.Statements[0].Items) != 1 || len(reading.Questions) > 0 {
		return r, false, nil
	}
	s := reading.Statements[0]
	it := s.Items[0]
	dish := strings.ToLower(cmp.Or(it.Dish, s.Dish))
	h := t.ear.find(it.Food)
	if s.Act != string(pantry.Use) || s.Doubt || dish == "" || s.Away || it.Amount.How != language.Unsaid || !h.exact || h.sound || h.food == nil || len(h.lines) > 0 || !slices.Contains(t.k.Dishes, t.dish(dish)) && !t.reader().NamesDish(dish) {
		return r, false, nil
	}
	need := language.TableNeed{Food: strings.ToLower(it.Food), Said: strings.ToLower(it.Food)}
	if !t.bringAllergens([]language.TableNeed{need}) {
		return r, false, nil
	}
	_, list, err := t.wraps()
	if err != nil {
		return r, true, err
	}
	r, err = t.tellIn(t.dish(cmp.Or(t.dishOfPart(list, dish), dish)), []language.TableNeed{need}, nil, why)
	return r, r.Kind != Silent, err
}

// labelSays keeps what a label says that food or a dish holds, and may hold.
func (t *turn) labelSays(said language.Hold, why string) (Reply, bool, error) {
	q := &language.Question{About: language.AboutSaidIn, Food: said.Food, Needs: append(slices.Clone(said.Needs), said.May...)}
	if language.IsPlace(strings.ToLower(said.Food)) {
		return Reply{}, false, nil
	}
	x, list, err := t.wraps()
	if err != nil {
		return Reply{}, true, err
	}
	h, name, err := t.heldByPart(x, list, strings.ToLower(said.Food))
	if err != nil {
		return Reply{}, true, err
	}
	if len(said.May) == 0 {
		return t.saidIn(q, h, name, why)
	}
	if h == nil && !t.reader().NamesDish(name) {
		return Reply{}, false, nil
	}
	if h != nil {
		name = h.name
	}
	r, err := t.tellIn(name, said.Needs, said.May, why)
	return r, r.Kind != Silent, err
}

// beforeSettled says what of a dish was asked about and not answered; "" nothing. Said is what words call it: pulpo is
// octopus, and a dish that nothing was written of yet.
func (t *turn) beforeSettled(h *holding, said string) string {
	open := unsettledOf(t.k, func(dish string) bool {
		return mayBeFor(t.k, dish, h.name) || dish == t.dish(said) || t.callsFood(dish, h.name) || t.k.Named(dish) != nil && slices.Contains(h.items, dish)
	}, t.m.At.Add(-serviceLong))
	if len(open) == 0 {
		for _, what := range unsettledIn(t.k, t.k.Named(h.name)) { // of an earlier service, and some is still here
			open = append(open, strings.TrimSuffix(what, notAnswered))
		}
	}
	if len(open) == 0 {
		return ""
	}
	name := h.name
	if t.callsFood(said, name) {
		name = said
	}
	return fmt.Sprintf("Not before this is settled: %s for the %s was asked about, and nobody answered. It may be in.\n", both(open, "and"), name)
}

// callsFood says whether words call a food, or a line of it, of this name.
func (t *turn) callsFood(said, name string) bool {
	h := t.ear.find(said)
	return h.exact && !h.sound && (h.food != nil && h.food.Name == name || slices.ContainsFunc(h.lines, func(l *pantry.Line) bool { return l.Name == name }))
}

// itsAbouts are of what was spoken of last, ofAbouts the same of something named.
var (
	itsAbouts = []language.About{language.AboutItsAllergens, language.AboutItHas, language.AboutItEats, language.AboutItsSaidIn}
	ofAbouts  = []language.About{language.AboutAllergens, language.AboutHas, language.AboutEats, language.AboutSaidIn}
)

// spokenLong is how long "it" may mean what was spoken of before. The program's own choice.
const spokenLong = 15 * time.Minute

// spokenOf is the dish, or else the food, that this cook spoke of last; "" none.
func (t *turn) spokenOf() (string, error) {
	for m, err := range t.back(t.cook, t.said, 5, t.m.At.Add(-spokenLong)) {
		if err != nil {
			return "", err
		}
		if q, _ := t.reader().HoldTalk(m.Text); q != nil {
			if q.Food != "" {
				return strings.ToLower(q.Food), nil
			}
			continue
		}
		if q := t.reader().WrapTalk(m.Text); q != nil && q.Food != "" {
			return strings.ToLower(q.Food), nil
		}
		entries, err := t.book.InForce(m)
		if err != nil {
			return "", err
		}
		if e := lastOf(entries); len(entries) > 0 {
			return cmp.Or(e.Dish, t.k.Line(e.Line).Name), nil
		}
	}
	return "", nil
}

// saidIn keeps what a cook says is in a dish, or in food on hand. What is neither, and is not called as a
// dish is, is talk.
func (t *turn) saidIn(q *language.Question, h *holding, said, why string) (Reply, bool, error) {
	low := " " + strings.ToLower(t.m.Text)
	if h == nil && (!t.reader().NamesDish(said) || !t.bringAllergens(q.Needs) || strings.Contains(low, " my ") || strings.Contains(low, " your ")) {
		return Reply{}, false, nil
	}
	name := said
	if h != nil {
		name = h.name
	}
	if t.isSameFood(name, q.Needs) && (!t.reader().NamesDish(name) || t.k.Named(name) != nil) { // "the butter has milk in it"
		return Reply{}, false, nil
	}
	r, err := t.tellIn(name, q.Needs, nil, why)
	return r, r.Kind != Silent, err
}

// bringAllergens says whether each of what is said to be in something holds one of the 14.
func (t *turn) bringAllergens(needs []language.TableNeed) bool {
	return !slices.ContainsFunc(needs, func(n language.TableNeed) bool {
		f, ok := t.ear.all.Food(n.Food)
		return n.Allergy == "" && (!ok || len(f.Allergen)+len(f.MayCarry) == 0)
	})
}

// isPlainFood says whether it is a food as it came, of which nothing was said.
func (t *turn) isPlainFood(h *holding) bool {
	l := t.k.Named(h.name)
	return h.known && len(h.items) == 1 && !slices.Contains(t.k.Dishes, h.name) && len(t.k.ToldOfDish(h.name)) == 0 && (l == nil || l.Made == 0)
}

// isSameFood says whether what is said to be in something is known of its food by nature.
func (t *turn) isSameFood(name string, needs []language.TableNeed) bool {
	f, ok := t.ear.all.Food(name)
	return ok && !slices.ContainsFunc(needs, func(n language.TableNeed) bool {
		return n.Allergy == "" || len(common(strings.Split(n.Allergy, "+"), f.Allergen)) < len(strings.Split(n.Allergy, "+"))
	})
}

// unsaidIn says that nothing is free from anything because somebody says so; what was said to be in
// is taken back by "undo".
func (t *turn) unsaidIn(q *language.Question, said string, h *holding) (Reply, bool, error) {
	name := said
	if h != nil {
		name = h.name
	}
	for _, x := range t.k.ToldOfDish(name) {
		if slices.ContainsFunc(q.Needs, func(n language.TableNeed) bool {
			return len(common(x.Holds, strings.Split(n.Allergy, "+"))) > 0 || n.Said == x.Of || n.Food == x.Of
		}) {
			return Reply{Kind: Answer, Text: fmt.Sprintf("Not taken back: %s said that %s is in the %s. Only taking that message back (\"undo\", or deleting it) does.", t.k.CookName(x.By), x.Of, name)}, true, nil
		}
	}
	return Reply{Kind: Answer, Text: fmt.Sprintf("Not kept: nothing here is ever free from something because it was said. What went into the %s, and its labels, tell.", name)}, true, nil
}

// sayMayEat answers whether those who were named may have it; "" where that is not what was asked.
func (t *turn) sayMayEat(q *language.Question, h *holding) string {
	var needs []pantry.Need
	var lines []string
	for _, n := range q.Needs {
		needs = append(needs, t.needSaid(pantry.Need{}, n))
	}
	now := t.needs()
	for _, w := range q.Who {
		who := cmp.Or(t.ear.people[strings.ToLower(w)], strings.ToLower(w))
		n := len(needs)
		for _, o := range now {
			if o.Lasting && o.Who == who {
				needs = append(needs, o)
			}
		}
		if len(needs) == n && !slices.Contains(t.k.Dishes, h.name) { // "can ana have the cream?"
			return ""
		}
		if len(needs) == n {
			lines = append(lines, title(w)+": nothing is kept, so unknown. Ask.")
		}
	}
	place := t.placeCalled(q.Place)
	if place == "" && q.N > 0 { // "is the soup ok for 12": of table 12, if there is one
		if place = t.placeCalled(strconv.Itoa(q.N)); place == strconv.Itoa(q.N) { // 12 guests may be anybody
			place = ""
		}
	}
	var others []pantry.Need // of no place that was told, and where nothing is known of the place, of others
	if len(q.Needs) == 0 && len(q.Who) == 0 {
		for _, o := range now {
			switch {
			case o.Lasting:
				if q.About == language.AboutWhoEats {
					needs = append(needs, o)
				}
			case o.Kind == pantry.NeedHeads:
			case place == "", isAt(o, place):
				needs = append(needs, o)
			default:
				others = append(others, o)
			}
		}
		if len(needs)+len(looseOf(others)) == 0 && t.isPlainFood(h) { // "can table 4 have more butter"
			return ""
		}
		if len(needs) > 0 {
			others = looseOf(others)
		} else {
			others = slices.DeleteFunc(others, func(o pantry.Need) bool {
				return o.Who != "" && strings.ContainsAny(o.Who, digits) && strings.ContainsAny(place, digits)
			})
			lines = append(lines, title(cmp.Or(place, "table"))+": no needs are known. That is no clearance: ask the guests.")
		}
	}
	if len(needs) > 0 {
		lines = append(lines, t.sayAgainst(h, needs))
	} else {
		lines = append(lines, h.sayAll())
	}
	if of := t.whoseAgainst(h, others); of != "" {
		told := "Against what was told besides: " + of + ". Ask whether they sit there."
		if lines = append(lines, told); howBad(strings.Join(lines[:len(lines)-1], "\n")) > 1 { // what says no stands first
			lines = append([]string{told}, lines[:len(lines)-1]...)
		}
	}
	return strings.Join(lines, "\n")
}

// looseOf are those of some needs of which no place was told.
func looseOf(needs []pantry.Need) []pantry.Need {
	return slices.DeleteFunc(slices.Clone(needs), func(o pantry.Need) bool { return o.Who != "" })
}

// whoseAgainst tells those of some needs that what is asked about breaks, or may break; "" none.
func (t *turn) whoseAgainst(h *holding, needs []pantry.Need) string {
	var of []string
	for _, o := range needs {
		hard, label := h.broken([]pantry.Need{o})
		if len(hard)+len(label) > 0 || o.Kind == pantry.NeedDiet && t.tablesKnow(o.What) && t.sayDietOf(h, o) != "" {
			of = appendOnce(of, sayNeed(o))
		}
	}
	return both(of, "and")
}
