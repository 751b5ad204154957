package bot

import (
	"fmt"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
)

// Foods gives what a kitchen knows of foods: base, which is the embedded
// catalogue where it is nil, and what its cooks have taught it. A lesson that
// base has overtaken since is left out.
func Foods(base *food.Catalogue, k *pantry.Kitchen) *food.Catalogue {
	if base == nil {
		base = food.Default()
	}
	if len(k.Lessons) == 0 {
		return base
	}
	own := base.Own()
	for _, l := range k.Lessons {
		learn(own, l)
	}
	all, err := own.Catalogue()
	if err != nil {
		return base
	}
	return all
}

// learn adds one lesson to a kitchen's own foods. A name for a line that is no
// food of the catalogue goes to the line alone: see taughtFor.
func learn(own *food.Own, l pantry.Lesson) (food.Food, error) {
	_, isRule, _ := l.Rule()
	if _, isTold := l.Told(); isRule || isTold { // nothing about what the food is
		return food.Food{}, nil
	}
	if _, isSetting := l.Setting(); isSetting {
		return food.Food{}, nil
	}
	if l.Means == "" {
		return own.Describe(l.Cells)
	}
	return own.Name(l.Name, l.Means)
}

// taughtFor gives the names that were taught for a line.
func taughtFor(k *pantry.Kitchen, l *pantry.Line) (names []string) {
	for _, x := range k.Lessons {
		if x.Means != "" && key(x.Means) == key(l.Name) {
			names = append(names, x.Name)
		}
	}
	return names
}

// teach learns what the message teaches, and says what was understood.
func (t *turn) teach(c *language.Teaching, why string) (Reply, error) {
	if c.Means != "" {
		return t.teachName(c, why)
	}
	if c.Wrong != "" {
		return Reply{Kind: Error, Text: fmt.Sprintf("Not written: %q is nothing I can read about a food. %s", c.Wrong, teachExample)}, nil
	}
	if f, ok := t.ear.all.Food(c.Name); ok && len(c.Cells) == 1 { // "new food: leek", and nothing new
		return Reply{Kind: Answer, Text: title(f.Name) + " is known: " + strings.Join(describe(f), "; ") + ".\nSay what is new of it: \"new food: " + f.Name + ", 80 g each\"."}, nil
	}
	lesson := pantry.Lesson{Name: strings.ToLower(c.Name), Cells: c.Cells}
	f, err := learn(t.own(), lesson)
	if err != nil {
		return Reply{Kind: Error, Text: "Not written: " + err.Error() + ". " + teachExample}, nil
	}
	_, known := t.ear.all.Food(c.Name)
	if err := t.learned(t.said, why, lesson); err != nil {
		return Reply{}, err
	}
	text := title(f.Name) + " is a food here now: "
	if known {
		text = title(f.Name) + " is as you say here now: "
	}
	return Reply{Kind: Log, Text: text + strings.Join(describe(&f), "; ") + ".\n" + unasked(&f, c.Cells["allergens"] != "")}, nil
}

const teachExample = `Say it like "new food: samphire, 100 g a handful, keeps 3 days in the fridge, no allergens".`

// unasked reminds of what nobody has said of a food.
func unasked(f *food.Food, said bool) string {
	switch {
	case f.Unasked:
		return `Nobody has said what allergens it holds: check labels, and say "new food: ` + f.Name + `, contains ..." or "no allergens".`
	case said:
		return "Allergens are as you said: labels go first."
	}
	return "Labels go first."
}

// own is the kitchen's own foods so far, to try a lesson on.
func (t *turn) own() *food.Own {
	own := Foods(t.ear.base, &pantry.Kitchen{}).Own()
	for _, l := range t.k.Lessons {
		learn(own, l)
	}
	return own
}

// learned writes a lesson for message m and listens anew.
func (t *turn) learned(m *pantry.Message, why string, lesson pantry.Lesson) error {
	if err := t.book.Teach(m, t.said, why, []pantry.Lesson{lesson}); err != nil {
		return err
	}
	t.ear = t.b.ears.of(t.k)
	return nil
}

// teachName: "celery root is celeriac".
func (t *turn) teachName(c *language.Teaching, why string) (Reply, error) {
	name, means := strings.ToLower(c.Name), strings.ToLower(c.Means)
	to, line := t.meant(means)
	if to == "" {
		return Reply{Kind: Silent}, nil
	}
	h := t.ear.find(name)
	switch {
	case slices.Contains(t.ear.cooks, name): // "cem is nuts"
		return Reply{Kind: Silent}, nil
	case h.exact && (h.food != nil && h.food.Name == to && isCalled(h.food, name) || len(h.lines) == 1 && line != nil && slices.Contains(h.lines, line) && !t.ear.isCutOf(line, name)):
		return Reply{Kind: Answer, Text: title(name) + " is " + to + " already: either name finds it."}, nil
	case h.exact && !c.Sure: // two foods that the tables know: "tomatoes are fruit"
		return Reply{Kind: Silent}, nil
	case t.askedOf(name) != nil:
		return t.nameAndGoOn(t.askedOf(name), name, to, line, why)
	case !c.Sure && line == nil && !t.callsIt(means): // "cem is nuts"
		return Reply{Kind: Silent}, nil
	case !c.Sure && !t.foodWord(name) && !t.heardOf(name):
		return t.ask([]pending{{Kind: askName, About: name, Means: to, Options: []option{{Label: "yes", Yes: true}}}}, t.said)
	}
	return t.nameIt(t.said, name, to, why)
}

// meant is what a name is to stand for: a food of the catalogue, else a line.
func (t *turn) meant(means string) (string, *pantry.Line) {
	h := t.ear.find(means)
	switch {
	case !h.exact:
		return "", nil
	case len(h.lines) == 1 && h.food == nil:
		return h.lines[0].Name, h.lines[0]
	case len(h.lines) == 1:
		return h.food.Name, h.lines[0]
	case h.food != nil:
		return h.food.Name, nil
	}
	return "", nil
}

// callsIt says whether a name is some food's own, not a general word.
func (t *turn) callsIt(name string) bool {
	f, ok := t.ear.all.Food(name)
	return ok && isCalled(f, name)
}

// foodWord says whether some food's name has a word of the name: "celery root".
func (t *turn) foodWord(name string) bool {
	return slices.ContainsFunc(strings.Fields(name), func(w string) bool { return t.ear.Exact([]string{w}) != nil })
}

// heardOf says whether the kitchen has a line of that name that no table knows.
func (t *turn) heardOf(name string) bool {
	h := t.ear.find(name)
	return h.exact && len(h.lines) == 1 && h.food == nil
}

// askedOf gives the question that this cook was asked about the name, if one is
// open: "No knobbly in the pantry. Did you mean ...?"
func (t *turn) askedOf(name string) *pending {
	q, ok := t.recent()
	if !ok || q.Kind != askInstead || key(q.About) != key(name) {
		return nil
	}
	return &q
}

// nameAndGoOn writes the lesson, and what was asked about, now that it is clear.
func (t *turn) nameAndGoOn(q *pending, name, to string, line *pantry.Line, why string) (Reply, error) {
	_, about, err := t.open()
	if err != nil {
		return Reply{}, err
	}
	r, err := t.nameIt(t.said, name, to, why)
	if err != nil || r.Kind != Log || line == nil {
		return r, err
	}
	q.Draft.Line = line.ID
	done, err := t.complete(*q, about)
	if err != nil {
		return Reply{}, err
	}
	done.Text = r.Text + "\n" + done.Text
	return done, nil
}

// nameIt writes the lesson for message m.
func (t *turn) nameIt(m *pantry.Message, name, to, why string) (Reply, error) {
	lesson := pantry.Lesson{Name: name, Means: to}
	if _, ok := t.ear.all.Food(to); ok {
		if _, err := learn(t.own(), lesson); err != nil {
			return Reply{Kind: Error, Text: "Not written: " + err.Error() + ". A name of its own can only stand for itself."}, nil
		}
	}
	if err := t.learned(m, why, lesson); err != nil {
		return Reply{}, err
	}
	return Reply{Kind: Log, Text: fmt.Sprintf("From now on %q is %s here. \"undo\" takes it back.", name, to)}, nil
}
