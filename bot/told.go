package bot

import (
	"fmt"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/account"
	"scullion/pantry/food"
)

// addTold adds what cooks have said is in it.
func (c *contents) addTold(list []pantry.Told) {
	for _, x := range list {
		c.names = append(c.names, x.Of)
		for _, a := range x.Holds {
			c.holds = appendOnce(c.holds, a)
		}
		for _, a := range x.May {
			c.may = appendOnce(c.may, a)
		}
	}
}

// withTold is the food of a line with what cooks have said is in it.
func (x *Records) withTold(l *pantry.Line, f *food.Food) *food.Food {
	if l == nil {
		return f
	}
	list := x.Kitchen.ToldOf(l.Name)
	if len(list) == 0 {
		return f
	}
	made := food.Food{Name: l.Name, Unit: l.Unit, Unasked: true, Vegan: "check label", Meatless: "check label"}
	if f != nil {
		made = *f
		made.Allergen, made.MayCarry = slices.Clone(f.Allergen), slices.Clone(f.MayCarry)
		made.Vegan, made.Meatless = worse(f.Vegan, "check label"), worse(f.Meatless, "check label")
	}
	for _, told := range list {
		for _, a := range told.Holds {
			made.Allergen = appendOnce(made.Allergen, a)
		}
		for _, a := range told.May {
			made.MayCarry = appendOnce(made.MayCarry, a)
		}
	}
	return &made
}

// sayTold: "fish sauce, said by ana".
func sayTold(k *pantry.Kitchen, x pantry.Told) string {
	return x.Of + ", said by " + k.CookName(x.By)
}

// addTold adds to a sheet what cooks have said is in its dish. A diet is not cleared by what was
// logged any more.
func (x *Records) addTold(s *account.Sheet) {
	for _, told := range x.Kitchen.ToldOfDish(s.Dish) {
		from := sayTold(x.Kitchen, told)
		s.Holds = allergensWith(s.Holds, told.Holds, from)
		s.May = allergensWith(s.May, told.May, from)
		for _, d := range []*account.Diet{&s.Vegan, &s.Meatless} {
			if d.Fit == "yes" {
				d.Fit, d.Why = "check label", append(d.Why, told.Of)
			}
		}
	}
	s.May = slices.DeleteFunc(s.May, func(m account.Allergen) bool {
		return slices.ContainsFunc(s.Holds, func(h account.Allergen) bool { return h.Name == m.Name })
	})
}

// allergensWith adds allergens to a list, in the order of the 14.
func allergensWith(list []account.Allergen, names []string, from string) []account.Allergen {
	for _, a := range names {
		n := slices.IndexFunc(list, func(o account.Allergen) bool { return o.Name == a })
		if n < 0 {
			n, list = len(list), append(list, account.Allergen{Name: a})
		}
		list[n].From = appendOnce(slices.Clone(list[n].From), from)
	}
	order := food.Allergens()
	slices.SortStableFunc(list, func(a, b account.Allergen) int { return slices.Index(order, a.Name) - slices.Index(order, b.Name) })
	return list
}

// mayCarry parts what something holds from what it may, in what is told to be in a dish.
const mayCarry = ";"

func listed(allergens string) []string {
	return strings.FieldsFunc(allergens, func(r rune) bool { return r == '+' })
}

// tellIn keeps what a cook says is in a dish: "there's mustard in the satay too".
// May is what a label says that it may hold.
func (t *turn) tellIn(name string, needs, may []language.TableNeed, why string) (Reply, error) {
	return t.tellEach([]telling{{name, needs, may}}, why)
}

// telling is what is said to be in a dish, and what may be.
type telling struct {
	name       string
	needs, may []language.TableNeed
}

// tellEach is tellIn of several dishes: a message teaches all at once, and nothing that it wrote stays beside that.
func (t *turn) tellEach(told []telling, why string) (Reply, error) {
	var list []pantry.Lesson
	var lines []string
	for _, x := range told {
		lessons, text := t.lessonsOf(x.name, x.needs, x.may)
		if len(lessons) > 0 {
			list, lines = append(list, lessons...), append(lines, text)
		}
	}
	if len(list) == 0 {
		return Reply{Kind: Silent}, nil
	}
	if err := t.book.Teach(t.said, t.said, why, list); err != nil {
		return Reply{}, err
	}
	t.ear = t.b.ears.of(t.k)
	for _, x := range told {
		var foods []string
		for _, n := range append(slices.Clone(x.needs), x.may...) {
			foods = append(foods, n.Said)
		}
		if err := t.settleUnread(x.name, foods); err != nil {
			return Reply{}, err
		}
	}
	return Reply{Kind: Log, Text: strings.Join(lines, "\n")}, nil
}

// lessonsOf are the lessons of what is in a dish, and what is said of them.
func (t *turn) lessonsOf(name string, needs, may []language.TableNeed) (list []pantry.Lesson, text string) {
	var all pantry.Told
	var says, maySay []string
	for _, n := range may {
		x := pantry.Told{Name: name, Of: n.Said, By: t.cook, At: t.said.At}
		if f, ok := t.ear.all.Food(n.Said); ok && n.Allergy == "" {
			x.May = append(slices.Clone(f.Allergen), f.MayCarry...)
		} else if n.Allergy != "" {
			x.May = strings.Split(n.Allergy, "+")
		}
		maySay = append(maySay, x.Of)
		all.May = append(all.May, x.May...)
		list = append(list, x.Lesson())
	}
	for _, n := range needs {
		x := pantry.Told{Name: name, Of: n.Said, By: t.cook, At: t.said.At}
		if f, ok := t.ear.all.Food(x.Of); ok && (n.Allergy == "" || len(f.Allergen) > 0) { // cashews are tree nuts, "nuts" may be peanuts as well
			x.Holds, x.May = f.Allergen, f.MayCarry
		} else if n.Allergy != "" {
			holds, may, _ := strings.Cut(n.Allergy, mayCarry)
			x.Holds, x.May = listed(holds), listed(may)
		}
		says = append(says, x.Of)
		all.Holds, all.May = append(all.Holds, x.Holds...), append(all.May, x.May...)
		list = append(list, x.Lesson())
	}
	text = fmt.Sprintf("Kept of the %s: ", name)
	switch {
	case len(says) == 0:
	case isPlural(says[len(says)-1]) || len(says) > 1:
		text += both(says, "and") + " are in it"
	default:
		text += both(says, "and") + " is in it"
	}
	if len(all.Holds) > 0 {
		text += ", so it holds " + both(onceEach(all.Holds), "and")
	}
	if len(maySay) > 0 {
		if len(says) > 0 {
			text += "; "
		}
		text += both(maySay, "and") + " may be in it"
	}
	text += `. Sheets, labels and answers tell it; no stock was drawn. "undo" takes it back.`
	c := contents{}
	for _, l := range list {
		x, _ := l.Told()
		c.addTold([]pantry.Told{x})
	}
	hard, label := c.broken(t.needs())
	if len(hard) > 0 {
		text += "\nMind: " + t.sayBreach("the "+name, hard)
	}
	for _, b := range t.sharedBy(label) {
		text += fmt.Sprintf("\nMind: that often carries %s: check the label (%s).", both(b.by, "and"), b.of)
	}
	return list, text
}

func onceEach(list []string) (out []string) {
	for _, s := range list {
		out = appendOnce(out, s)
	}
	return out
}
