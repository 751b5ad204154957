package bot

import (
	"math"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// What a message says of food for a dish is written, asked about, or named as not read; and what was not read stays
// unsettled for the answers about that dish.

// mostMentioned is how long a message may be for what it names to be looked for one by one.
const mostMentioned = longest / 10

// alsoSaid adds to drafts that put food into a dish what else the message says went in, and no form has read: "in the
// pilaf with butter", "in the pilaf 3 eggs".
func (t *turn) alsoSaid(drafts []draft) []draft {
	at := slices.IndexFunc(drafts, func(d draft) bool { return d.intoDish() })
	if at < 0 || len(t.m.Text) > mostMentioned || t.m.Press != nil {
		return drafts
	}
	if language.IsPlace(drafts[at].Dish) { // "ticket for 9: ..."
		return drafts
	}
	if !slices.ContainsFunc(drafts, func(d draft) bool { return d.intoDish() && (!d.Bare || len(t.ear.find(d.Food).lines) > 0) }) { // "2 soup, 3 chips" are ordered
		return drafts
	}
	var of tallied
	for i := range drafts {
		d := &drafts[i]
		of.items = append(of.items, item{names: []string{d.Food, d.Whole, d.Off}, base: d.Amount.Base, pieces: piecesOf(d.Amount)})
		if d.Line != 0 {
			of.items[i].names = append(of.items[i].names, t.k.Line(d.Line).Name)
		}
		if d.intoDish() {
			at = i
			of.dishes = appendOnce(of.dishes, d.Dish)
		}
	}
	all := t.mentions(of.dishes)
	for _, m := range t.notIn(all, of) {
		if m.Amount.How == language.Unsaid && all.Says[language.SaysTouch] {
			continue
		}
		if m.Amount.How == language.Unsaid && !slices.Contains(puttingIn, m.Joined) || t.isBare(m.Name) && m.Amount.How == language.Unsaid {
			continue
		}
		drafts = append(drafts, draft{Act: pantry.Use, Food: m.Name, Amount: m.Amount, Dish: drafts[at].Dish, Who: drafts[at].Who, Doubt: drafts[at].Doubt, Day: drafts[at].Day})
	}
	return drafts
}

// puttingIn join a food to those before it that went in.
var puttingIn = []string{"with", "plus", "then"}

// tallied is what a message wrote or asks about, and the dishes that it is for.
type tallied struct {
	items  []item
	dishes []string
}

// item is one thing of that: what it is called, and how much it was.
type item struct {
	names  []string
	base   measure.Amount
	pieces float64
}

// piecesOf is how many pieces an amount counts; 0 where it counts none.
func piecesOf(a language.Amount) float64 {
	if a.How != language.Pieces || a.N.Den == 0 {
		return 0
	}
	return float64(a.N.Num) / float64(a.N.Den)
}

func (d *draft) intoDish() bool { return d.Act == pantry.Use && d.Dish != "" && sayAway(d.Dish) == "" }

// mentions are what the message names, with dishes of its own and those that are known to the letter.
func (t *turn) mentions(dishes []string) language.Mentions {
	return t.reader().Mentions(t.m.Text, func(said string) bool {
		if slices.Contains(dishes, said) || slices.Contains(t.k.Dishes, said) {
			return true
		}
		d := t.dishNow(said)
		return d != said && (slices.Contains(dishes, d) || slices.Contains(t.k.Dishes, d)) && !t.isKnownFood(said)
	})
}

// isKnownFood says whether words are the name of a food on hand or of the tables.
func (t *turn) isKnownFood(said string) bool {
	h := t.ear.find(said)
	return h.exact && !h.sound && (h.food != nil || len(h.lines) > 0)
}

// brought says whether some items bring all the allergens that a food holds: flour and beer those of the batter.
func (t *turn) brought(name string, items []item) bool {
	holds := t.contentsCalled(name).holds
	return len(holds) > 0 && !slices.ContainsFunc(holds, func(a string) bool {
		return !slices.ContainsFunc(items, func(x item) bool {
			return slices.ContainsFunc(x.names, func(n string) bool {
				return slices.Contains(t.contentsCalled(n).holds, a)
			})
		})
	})
}

// notIn are the foods of what a message names that are none of some items, and no part of the name of their dishes: in
// the clause of one that is, or behind it.
func (t *turn) notIn(all language.Mentions, of tallied) (list []language.Mention) {
	var lost []language.Mention
	first, free := -1, slices.Clone(of.items)
	for _, m := range all.List {
		if slices.ContainsFunc(of.dishes, func(d string) bool { return hasWords(d, m.Name) }) {
			continue
		}
		if !m.Dish {
			if i := slices.IndexFunc(free, func(x item) bool { return t.isOneOf(m.Name, x.names) }); i >= 0 {
				if first < 0 {
					first = m.Clause
				}
				if m.Amount.How != language.Unsaid {
					free[i].base, free[i].pieces = 0, 0
				}
				continue
			}
		}
		if m.Dish || m.Out || m.Talk || food.Fold(m.Name) == "water" || m.Implied && t.brought(m.Name, of.items) {
			continue
		}
		lost = append(lost, m)
	}
	for _, m := range lost {
		n := piecesOf(m.Amount)
		if i := slices.IndexFunc(free, func(x item) bool { return m.Amount.Base > 0 && x.base == m.Amount.Base || n > 0 && x.pieces == n }); i >= 0 { // "80g greens", of the leeks
			free[i].base, free[i].pieces = 0, 0
			continue
		}
		if m.Clause >= first && !slices.ContainsFunc(list, func(o language.Mention) bool { return o.Name == m.Name }) {
			list = append(list, m)
		}
	}
	return list
}

// isBare says whether words are of what goes into most dishes and onto no label: salt. Not where somebody may have none.
func (t *turn) isBare(said string) bool {
	f := t.ear.find(said).food
	if f == nil || !slices.Contains([]string{"salt", "sea salt", "pepper", "black pepper", "white pepper"}, said) {
		return false
	}
	hard, _ := t.brokenBy(f)
	return len(hard) == 0
}

// hasWords says whether the words of a name stand in another, in a row.
func hasWords(in, name string) bool {
	return strings.Contains(" "+in+" ", " "+name+" ") || strings.Contains(" "+in+" ", " "+singular(name)+" ") || strings.Contains(" "+in+" ", " "+plural(name)+" ")
}

// isOneOf says whether words call one of some items, each a food's name or what a cook called one.
func (t *turn) isOneOf(said string, items []string) bool {
	h := t.ear.find(said)
	if plain := language.PlainName(said); !h.exact && plain != said { // "cows milk"
		said, h = plain, t.ear.find(plain)
	}
	one := singular(said)
	return slices.ContainsFunc(items, func(item string) bool {
		if item == "" {
			return false
		}
		item = strings.ToLower(item)
		if item == said || singular(item) == one || strings.HasSuffix(singular(item), " "+one) || slices.ContainsFunc(h.lines, func(l *pantry.Line) bool { return l.Name == item }) {
			return true
		}
		o := t.ear.find(item)
		of := o.food
		if of == nil && len(o.lines) == 1 {
			of = t.ear.foodOf(o.lines[0])
		}
		return h.exact && h.food != nil && of == h.food || len(h.lines) == 1 && of != nil && t.ear.foodOf(h.lines[0]) == of
	})
}

// nothingLost names what a message that put food into a dish says of other food which was neither written nor asked
// about, and keeps it as unsettled for that dish.
func (t *turn) nothingLost(r Reply) (Reply, error) {
	text := t.m.Text
	if t.m.Press != nil || t.m.Delete || len(text) > mostMentioned || strings.Contains(text, "?") || r.Kind == Silent || r.Kind == Error && len(r.Entries) == 0 {
		return r, nil
	}
	of := t.accounted(r)
	if len(of.dishes) == 0 && t.passed {
		dish, err := t.meantDish()
		if err != nil || dish == "" {
			return r, err
		}
		of.dishes = []string{dish}
	}
	if len(of.dishes) == 0 {
		if r, done, err := t.madeUnread(r); done || err != nil {
			return r, err
		}
		return t.madeOfTrim(r)
	}
	into := of.dishes[len(of.dishes)-1]
	if language.IsPlace(into) {
		return r, nil
	}
	var lost []language.Mention
	var names []string
	low := strings.ToLower(r.Text)
	all := t.mentions(of.dishes)
	for _, m := range t.notIn(all, of) {
		if t.isBare(m.Name) {
			continue
		}
		named := hasWords(nonLetters.Replace(low), m.Name)
		if named && !strings.Contains(low, "not written") && !strings.Contains(low, "nothing written") && !strings.Contains(low, "not read") {
			continue
		}
		if lost = append(lost, m); !named {
			names = append(names, strings.TrimSpace(m.Amount.Said+" "+m.Name))
		}
	}
	if len(lost) == 0 {
		return r, nil
	}
	if err := t.keepUnread(lost, into); err != nil {
		return r, err
	}
	if len(names) > 0 {
		if all.Says[language.SaysTouch] { // "used 2kg potatoes in the chips, same oil as the prawns"
			r.Text += "\n" + t.sayPerhaps(lost, names, into)
		} else {
			r.Text += "\n" + t.sayUnread(lost, names, into)
		}
	}
	t.plain = false
	return r, nil
}

// madeOfTrim keeps as unsettled what trimmings bring into what was made of them: no stock was drawn for the stock of prawn
// shells, and it holds crustaceans for all that.
func (t *turn) madeOfTrim(r Reply) (Reply, error) {
	made := slices.IndexFunc(r.Entries, func(e Entry) bool { return e.Kind == string(pantry.Make) })
	if made < 0 {
		return r, nil
	}
	into := r.Entries[made].Item
	var lost []language.Mention
	var names []string
	for _, name := range t.ofTrim {
		if f := t.ear.find(name).food; f != nil && !hasWords(into, name) && (len(f.Allergen)+len(f.MayCarry) > 0 || f.Meatless == "no") {
			lost, names = append(lost, language.Mention{Name: name}), append(names, name)
		}
	}
	if len(lost) == 0 {
		return r, nil
	}
	t.plain = false
	return r.and("\n" + t.sayPerhaps(lost, names, into)), t.keepUnread(lost, into)
}

// nonLetters puts spaces where a name may end.
var nonLetters = strings.NewReplacer(".", " ", ",", " ", "?", " ", "\"", " ", ":", " ", ";", " ", "(", " ", ")", " ", "\n", " ")

// accounted are the foods that a message wrote or is asked about, and the dishes that they are for.
func (t *turn) accounted(r Reply) (of tallied) {
	for _, e := range r.Entries {
		x := item{names: []string{e.Item}, base: measure.Amount(math.Round(e.Amount * 1000))}
		if e.Pieces != nil {
			x.pieces = *e.Pieces
		}
		of.items = append(of.items, x)
		if _, away := pantry.Away(e.Dish); !away && e.Dish != "" && e.Kind == string(pantry.Use) {
			of.dishes = appendOnce(of.dishes, e.Dish)
		}
	}
	for _, p := range t.askedHere() {
		x := item{names: []string{p.About, p.Draft.Food, p.Draft.Whole, p.Draft.Off}, base: p.Draft.Amount.Base, pieces: piecesOf(p.Draft.Amount)}
		if p.Draft.Line != 0 {
			x.names = append(x.names, t.k.Line(p.Draft.Line).Name)
		}
		for _, o := range p.Options {
			x.names = append(x.names, o.Label)
		}
		of.items = append(of.items, x)
		if p.Draft.intoDish() {
			of.dishes = appendOnce(of.dishes, p.Draft.Dish)
		}
	}
	return of
}

// askedHere is what this message left to be asked.
func (t *turn) askedHere() (list []pending) {
	kept := t.k.Questions[t.cook]
	if kept == nil {
		return nil
	}
	q, message, err := t.open()
	if err != nil || q.isShown() {
		return nil
	}
	for _, p := range q.all(message) {
		if p.Asked == t.said.ID {
			list = append(list, p)
		}
	}
	return list
}

// meantDish is the dish that a line of food is of which was not written: the one that it names, or that its cook was
// just cooking; "" none.
func (t *turn) meantDish() (string, error) {
	for _, m := range t.mentions(nil).List {
		if m.Dish {
			return t.dishNow(m.Name), nil
		}
	}
	head := strings.FieldsFunc(strings.ToLower(t.m.Text), func(r rune) bool { return strings.ContainsRune(":,-(", r) })
	if len(head) > 0 {
		name := strings.TrimSpace(strings.Split(strings.Split(head[0], " with ")[0], " w ")[0])
		if n := len(strings.Fields(name)); n > 0 && n <= 5 && !strings.ContainsAny(name, digits) && t.reader().NamesDish(name) && !t.isKnownFood(name) {
			return t.dishNow(strings.TrimPrefix(name, "the ")), nil
		}
	}
	dish, err := t.cooking()
	if err == nil && dish == "" && t.waiting() { // it was asked about, and is not written yet
		if q, _ := t.recent(); q.Draft.intoDish() {
			dish = q.Draft.Dish
		}
	}
	return dish, err
}
