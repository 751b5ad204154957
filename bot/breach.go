package bot

import (
	"fmt"
	"slices"
	"strings"

	"scullion/pantry"
	"scullion/pantry/food"
)

// contents is what a line is known to hold.
type contents struct {
	holds   []string
	may     []string // what such food often carries
	unknown bool     // nobody has said, of it or of something in it
	names   []string // of the line, its food and what it was made of
	foods   []*food.Food
}

// mostMade is how often what was made may be made of what was made. The program's own choice.
const mostMade = 4

// contentsOf works out what a line holds: by its food, and by what went into it where it was
// made here.
func (t *turn) contentsOf(l *pantry.Line) (c contents, err error) {
	return c, t.addContents(&c, l, mostMade)
}

func (t *turn) addContents(c *contents, l *pantry.Line, deep int) error {
	f := t.ear.foodOf(l)
	c.names = append(c.names, l.Name)
	var of []int64
	if l.Made > 0 && deep > 0 {
		var err error
		if of, err = t.book.MadeOf(l.ID); err != nil {
			return err
		}
	}
	if f == nil && (len(of) == 0 || l.Received > 0) || f != nil && f.Unasked || l.Made > 0 && len(of) == 0 && !isJustCooked(l.Name) { // of what was made here, what went in tells
		c.unknown = true
	}
	c.addTold(t.k.ToldOf(l.Name))
	if f == nil {
		f = food.Named(l.Name)
	}
	c.foods = append(c.foods, f)
	for _, a := range f.Allergen {
		c.holds = appendOnce(c.holds, a)
	}
	for _, a := range f.MayCarry {
		c.may = appendOnce(c.may, a)
	}
	for _, id := range of {
		if x := t.k.Line(id); x != nil && !slices.Contains(c.names, x.Name) {
			if err := t.addContents(c, x, deep-1); err != nil {
				return err
			}
		}
	}
	return nil
}

// sayContents tells what a line holds that no table knows, or that was made here: by its
// name, and by what went in.
func (t *turn) sayContents(l *pantry.Line) (Reply, error) {
	c, err := t.contentsOf(l)
	if err != nil {
		return Reply{}, err
	}
	may := slices.DeleteFunc(c.may, func(a string) bool { return slices.Contains(c.holds, a) })
	f := food.Food{Allergen: c.holds, MayCarry: may, Unasked: c.unknown}
	text := title(l.Name) + ": " + sayAllergens(&f)
	if !c.unknown && len(c.holds)+len(may) == 0 {
		text = title(l.Name) + ": none of the 14 by what was logged"
	}
	return Reply{Kind: Answer, Text: text + ". Check labels."}, nil
}

// breach is a need that a food breaks, and by what.
type breach struct {
	need pantry.Need
	by   []string // allergens, or the food's name
}

// broken gives the allergies that a food breaks by what it holds, and those that its label
// must be read for.
func (c *contents) broken(needs []pantry.Need) (hard, label []breach) {
	for _, n := range needs {
		switch n.Kind {
		case pantry.NeedAllergy:
			what := strings.Split(n.What, "+")
			if by := common(c.holds, what); len(by) > 0 {
				hard = append(hard, breach{n, by})
			} else if by := common(c.may, what); len(by) > 0 {
				label = append(label, breach{n, by})
			}
		case pantry.NeedFood:
			if by, fit := c.barredBy(n.What); fit == food.NotFit {
				hard = append(hard, breach{n, []string{by}})
			} else if fit == food.AskFit {
				label = append(label, breach{n, []string{n.What}})
			}
		}
	}
	return hard, label
}

// barredBy says whether what somebody cannot eat is in it: by name, or by the table of diets where
// that has it ("no pork" knows bacon).
func (c *contents) barredBy(what string) (by, fit string) {
	if c.isNamed(what) {
		return what, food.NotFit
	}
	look := func(f *food.Food, name string) {
		if got, because := food.ByDiet("no "+what, f, name); fit != food.NotFit && got != "" && (got == food.NotFit || fit == "") {
			by, fit = because, got
		}
	}
	for _, name := range c.names {
		look(nil, name)
	}
	for _, f := range c.foods {
		look(f, f.Name)
	}
	return by, fit
}

// askedAbout is what may be or hold what somebody cannot eat, by the table of diets, with why: "pepperoni, usually pork".
func (c *contents) askedAbout(what string) (list []string) {
	look := func(f *food.Food, name string) {
		if fit, why := food.ByDiet("no "+what, f, name); fit == food.AskFit {
			list = appendOnce(list, name+", "+why)
		}
	}
	for _, name := range c.names {
		look(nil, name)
	}
	for _, f := range c.foods {
		look(f, f.Name)
	}
	return list
}

// isNamed says whether the line, its food or what it was made of is called by a word.
func (c *contents) isNamed(word string) bool {
	if slices.ContainsFunc(c.foods, func(f *food.Food) bool { return f.Tells(word) }) {
		return true
	}
	return slices.ContainsFunc(c.names, func(name string) bool { return (&food.Food{Name: name}).Tells(word) })
}

// common gives what is in both lists.
func common(a, b []string) (list []string) {
	for _, x := range a {
		if slices.Contains(b, x) {
			list = append(list, x)
		}
	}
	return list
}

// whose says of whom a need is: "milk allergy at the table", "dee (coeliac)".
func (t *turn) whose(n pantry.Need) string {
	switch {
	case n.At.IsZero(): // it is only asked about
		return n.Said
	case n.Lasting:
		return title(t.k.CookName(n.Who)) + " (" + n.Said + ")"
	case n.Who != "":
		return n.Said + " " + sayAt(n.Who)
	}
	return n.Said + " at the table"
}

// shared is what a food breaks, or may, of several who have the same against it.
type shared struct {
	by []string
	of string // "dairy allergy at table 8 and lactose allergy at table 3"
}

// sharedBy puts those together who have the same against a food: one line tells it.
func (t *turn) sharedBy(list []breach) (out []shared) {
	for i, b := range list {
		same := func(o breach) bool { return slices.Equal(o.by, b.by) }
		if slices.ContainsFunc(list[:i], same) {
			continue
		}
		var of []string
		for _, o := range list[i:] {
			if same(o) {
				of = appendOnce(of, t.whose(o.need))
			}
		}
		out = append(out, shared{b.by, both(of, "and")})
	}
	return out
}

// sayBreach: "Milk allergy at the table: butter holds milk."
func (t *turn) sayBreach(what string, list []breach) string {
	var of, by []string
	for _, b := range list {
		of = appendOnce(of, t.whose(b.need))
		for _, a := range b.by { // "milk holds milk" as well: "no milk" reads as if there were none in it
			by = appendOnce(by, a)
		}
	}
	if len(by) == 1 && by[0] == what && list[0].need.Kind == pantry.NeedFood { // a kiwi allergy, and kiwi
		return title(both(of, "and")) + ", and this is " + what + "."
	}
	holds := " holds "
	if isPlural(what) {
		holds = " hold "
	}
	return title(both(of, "and")) + ": " + what + holds + both(by, "and") + "."
}

// mayNot asks before a use or a claim is written that puts into a dish what somebody at the
// table is allergic to, if the dish is not known to hold it already.
func (t *turn) mayNot(d *draft, l *pantry.Line) (*pending, error) {
	needs := t.needs()
	if len(needs) == 0 || l == nil || d.Knowing || t.knowing || d.Act != pantry.Use && d.Act != pantry.Claim || sayAway(d.Dish) != "" {
		return nil, nil
	}
	c, err := t.contentsOf(l)
	if err != nil {
		return nil, err
	}
	hard, _ := c.broken(needs)
	if hard, err = t.notYetIn(d.Dish, hard); err != nil || len(hard) == 0 {
		return nil, err
	}
	return &pending{Kind: askNeed, About: t.called(d, l), Was: t.sayBreach(l.Name, hard), Now: "it is written", Draft: *d, Options: yes()}, nil
}

// heed says that food which the pantry does not have would break a need, where it would: it may
// go into a dish for all that. "" where not, and where it is thrown or left.
func (t *turn) heed(q *pending) string {
	if q.Draft.Act != pantry.Use && q.Draft.Act != pantry.Claim {
		return ""
	}
	name := q.About
	f := t.ear.find(name).food
	if f == nil {
		f = food.Named(name)
	}
	hard, label := t.brokenBy(f)
	switch {
	case len(hard) > 0:
		return " Mind: " + t.sayBreach(f.Name, hard)
	case len(label) > 0:
		return " Read the label for the table: " + f.Name + " often carries " + both(label[0].by, "and") + "."
	}
	return ""
}

// brokenBy gives the allergies at the table that a food breaks, and those that its label must be read for.
func (t *turn) brokenBy(f *food.Food) (hard, label []breach) {
	needs := t.needs()
	if len(needs) == 0 || f == nil {
		return nil, nil
	}
	c := contents{holds: f.Allergen, may: f.MayCarry, foods: []*food.Food{f}}
	return c.broken(needs)
}

// mind says, behind a question about a use or a claim, that it will be one too many for somebody at
// the table, whatever is answered; "" where it will not. It is asked about again before it is written.
func (t *turn) mind(q *pending) string {
	if q.Kind == askNeed || q.Kind == askInstead || q.Replace > 0 {
		return ""
	}
	lines := []*pantry.Line{t.k.Line(q.Draft.Line)}
	for _, o := range q.Options {
		lines = append(lines, t.k.Line(o.Line))
	}
	text := ""
	for _, l := range lines {
		if again, err := t.mayNot(&q.Draft, l); err == nil && again != nil && !strings.Contains(text, again.Was) {
			text += " Mind: " + again.Was
		}
	}
	return text
}

func yes() []option { return []option{{Label: "yes", Yes: true}} }

// notYetIn leaves of breaches those by what a dish is not known to hold in this service. What
// goes into no dish that was named is new every time.
func (t *turn) notYetIn(dish string, list []breach) (left []breach, err error) {
	if len(list) == 0 || dish == "" {
		return list, nil
	}
	in, err := t.intoDish(dish)
	if err != nil {
		return nil, err
	}
	var has contents
	has.addTold(t.k.ToldOfDish(dish))
	for _, e := range append(in, t.ready...) {
		if e.Dish == dish && (e.Act == pantry.Use || e.Act == pantry.Claim) {
			if err := t.addContents(&has, t.k.Line(e.Line), mostMade); err != nil {
				return nil, err
			}
		}
	}
	for _, b := range list {
		by := slices.DeleteFunc(slices.Clone(b.by), func(a string) bool {
			_, fit := has.barredBy(b.need.What)
			return slices.Contains(has.holds, a) || b.need.Kind == pantry.NeedFood && fit == food.NotFit
		})
		if len(by) > 0 {
			left = append(left, breach{b.need, by})
		}
	}
	return left, nil
}

// breaches gives which of some allergies a dish breaks, by the allergens that it is said to hold
// and by all that goes in.
func (t *turn) breaches(allergens, items []string, needs []pantry.Need) ([]breach, error) {
	c := contents{holds: slices.Clone(allergens)}
	for _, name := range items {
		if l := t.k.Named(name); l != nil {
			if err := t.addContents(&c, l, mostMade); err != nil {
				return nil, err
			}
			continue
		}
		c.names = append(c.names, name)
		f, ok := t.ear.all.Food(name)
		if !ok {
			f = food.Named(name)
		}
		c.foods, c.holds = append(c.foods, f), append(c.holds, f.Allergen...)
	}
	hard, _ := c.broken(needs)
	return hard, nil
}

// items are the names of all that goes into a dish.
func (d *Planned) items() (list []string) {
	for _, u := range slices.Concat(d.Uses, d.Cupboard) {
		list = append(list, u.Item)
	}
	return append(list, d.Missing...)
}

func (i *Idea) items() (list []string) {
	for _, u := range slices.Concat(i.Uses, i.Cupboard) {
		list = append(list, u.Item)
	}
	return list
}

// mayNotBegin asks before ideas are begun that break a need: said since they were shown, or
// shown to somebody else.
func (t *turn) mayNotBegin(list []shown, dish string) (*pending, error) {
	if t.knowing || len(t.needs()) == 0 {
		return nil, nil
	}
	var says []string
	for _, i := range list {
		b, err := t.breaches(i.Allergens, i.items(), t.needs())
		if err != nil {
			return nil, err
		}
		if len(b) > 0 {
			says = append(says, t.sayBreach("the "+i.name(), b))
		}
	}
	if len(says) == 0 {
		return nil, nil
	}
	return &pending{Kind: askNeed, About: list[0].name(), Was: strings.Join(says, " "), Now: "it is begun", Shown: list, Means: dish, Options: yes()}, nil
}

// mayNotAccept asks before a plan is begun that breaks a need.
func (t *turn) mayNotAccept(p planned) (*pending, error) {
	if t.knowing {
		return nil, nil
	}
	says, err := t.sayPlanBreaks(p.Plan.Dishes, t.needs())
	if err != nil || len(says) == 0 {
		return nil, err
	}
	return &pending{Kind: askNeed, About: "the plan", Was: strings.Join(says, " ") + ` "again" plans without.`, Now: "it is begun", Planned: p, Options: yes()}, nil
}

// sayPlanBreaks tells of dishes that break one of some needs: "Milk allergy at the table: dish 1, the leek
// tart, and dish 3, the mash, hold milk."
func (t *turn) sayPlanBreaks(dishes []Planned, needs []pantry.Need) (says []string, err error) {
	if len(needs) == 0 {
		return nil, nil
	}
	var all [][]breach
	var names [][]string
	for n := range dishes {
		d := &dishes[n]
		if d.isOff() {
			continue
		}
		b, err := t.breaches(d.Allergens, d.items(), needs)
		if err != nil {
			return nil, err
		}
		if len(b) == 0 {
			continue
		}
		i := slices.IndexFunc(all, func(o []breach) bool { return t.sayBreach("it", o) == t.sayBreach("it", b) })
		if i < 0 {
			i, all, names = len(all), append(all, b), append(names, nil)
		}
		names[i] = append(names[i], fmt.Sprintf("dish %d, the %s,", n+1, Idea{Title: d.Name}.name()))
	}
	for i, b := range all {
		s := t.sayBreach(both(names[i], "and"), b)
		if len(names[i]) > 1 {
			s = strings.Replace(s, ", holds ", ", hold ", 1)
		}
		says = append(says, strings.ReplaceAll(s, ",, ", ", "))
	}
	return says, nil
}

// knowingly does what the cook was asked about because of a need; done is false where that
// is a mere entry.
func (t *turn) knowingly(q pending, asked *pantry.Message) (r Reply, done bool, err error) {
	switch {
	case len(q.Planned.Plan.Dishes) > 0:
		t.knowing = true
		r, err = t.accept(q.Planned)
	case len(q.Shown) > 0:
		t.knowing = true
		r, err = t.take(q.Shown, q.Means)
	case q.Amend != nil:
		t.knowing = true
		entries, e := t.book.InForce(asked)
		if e != nil || q.Replace > len(entries) {
			return Reply{Kind: Silent}, true, e
		}
		r, err = t.mend(asked, entries, q.Replace-1, q.Amend)
	default:
		return r, false, nil
	}
	if err != nil || r.Kind == Asking {
		return r, true, err
	}
	r, err = t.askNext(r, q.Rest, asked)
	return r, true, err
}

// goesWith says whether what is still to be asked because of a need is answered by now: its
// dish is known to hold that.
func (t *turn) goesWith(q *pending) (bool, error) {
	if q.Kind != askNeed || q.Draft.Line == 0 || q.Replace > 0 {
		return false, nil
	}
	l := t.k.Line(q.Draft.Line)
	if hard, _ := t.brokenBy(t.ear.foodOf(l)); len(hard) == 0 { // the need is over, and nobody has said yes
		return false, nil
	}
	again, err := t.mayNot(&q.Draft, l)
	return again == nil, err
}
