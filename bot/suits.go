package bot

import (
	"fmt"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
)

// dietsTold are the diets known now that an answer within limits is not held to, each once,
// with of how many they are in words: "2", "Dee", "2, Dee".
func (t *turn) dietsTold(l language.Limits) (diets []string, of map[string]string) {
	of = map[string]string{}
	held := t.mustNot(l)
	for _, n := range t.needs() {
		if n.Kind != pantry.NeedDiet || n.What == "vegan" && held.Vegan || n.What == "vegetarian" && (held.Vegan || held.Meatless) {
			continue
		}
		who := n.Who
		switch {
		case n.Lasting:
			who = title(t.k.CookName(n.Who))
		case n.Count > 0:
			who = strings.TrimSpace(fmt.Sprint(n.Count, " ", n.Who))
		}
		if of[n.What] != "" && who != "" {
			who = ", " + who
		}
		diets, of[n.What] = appendOnce(diets, n.What), of[n.What]+who
	}
	return diets, of
}

// suited tells which of several dishes suit those who eat by a diet: "Vegan (2): dish 2; dish
// 3 if the label of the stock cube says so." Items are the names of what goes into each, from
// is the number before the first.
func (t *turn) suited(l language.Limits, items [][]string, from int, prefix string) string {
	diets, of := t.dietsTold(l)
	var lines []string
	for _, diet := range diets {
		name := title(diet)
		if of[diet] != "" {
			name += " (" + of[diet] + ")"
		}
		if !slices.Contains([]string{"vegan", "vegetarian"}, diet) {
			lines = append(lines, name+": "+t.mayEat(diet, items, from, prefix))
			continue
		}
		var yes, label []string
		for n, list := range items {
			number := fmt.Sprint(prefix, n+1+from)
			switch no, check := t.against(diet, list); {
			case len(no) > 0:
			case len(check) == 0:
				yes = append(yes, number)
			default:
				label = append(label, fmt.Sprintf("%s if the label of %s says so", number, both(check[:min(len(check), mostChecked)], "and")))
			}
		}
		switch {
		case len(yes)+len(label) > 0:
			if len(yes) > 0 {
				label = append([]string{both(yes, "and")}, label...)
			}
			lines = append(lines, name+": "+strings.Join(label, "; ")+".")
		default:
			lines = append(lines, fmt.Sprintf("%s: none of these. %q keeps all to it.", name, diet))
		}
	}
	return strings.Join(lines, "\n")
}

// mostChecked is how many labels to check are named.
const mostChecked = 3

// against gives what of the names is not eaten by a diet, and what may not be.
func (t *turn) against(diet string, names []string) (no, check []string) {
	for _, name := range names {
		f, known := t.ear.all.Food(name)
		if l := t.k.Named(name); l != nil {
			f, known = t.ear.foodOf(l), t.ear.foodOf(l) != nil
		}
		switch {
		case strings.EqualFold(name, "water"):
		case !known:
			check = appendOnce(check, name)
		default:
			switch dietMark(f, diet) {
			case "yes":
			case "no":
				no = appendOnce(no, name)
			default:
				check = appendOnce(check, name)
			}
		}
	}
	return no, check
}

// dietMark is what the table says of a food and a diet.
func dietMark(f *food.Food, diet string) string {
	if diet == "vegan" {
		return f.Vegan
	}
	return f.Meatless
}

// isNot says whether a line is plainly against a diet that the table knows.
func (t *turn) isNot(l *pantry.Line, diet string) bool {
	if l == nil || diet != "vegan" && diet != "vegetarian" {
		return false
	}
	f := t.ear.foodOf(l)
	return f != nil && dietMark(f, diet) == "no"
}

// items are what goes into each dish of a plan.
func (p *Plan) items() (list [][]string) {
	for n := range p.Dishes {
		list = append(list, p.Dishes[n].items())
	}
	return list
}

func ideaItems(ideas []Idea) (list [][]string) {
	for n := range ideas {
		list = append(list, ideas[n].items())
	}
	return list
}

// tellNeeds tells, behind what a message has written, or what counts again because of it, what
// of it somebody at the table is not to have, and what is not known. A diet is told once for a
// dish.
func (t *turn) tellNeeds(r Reply) (Reply, error) {
	needs := t.needs()
	written := slices.Clone(r.Entries)
	for _, e := range t.regained {
		written = append(written, t.show(e))
	}
	if again := r.Kind == Answer && len(t.regained) > 0; len(needs) == 0 || len(written) == 0 || r.Kind != Log && r.Kind != Asking && !again {
		return r, nil
	}
	var lines, unknown []string
	for _, e := range written {
		l := t.k.Named(e.Item)
		if l == nil || e.Kind != string(pantry.Use) && e.Kind != string(pantry.Claim) || sayAway(e.Dish) != "" {
			continue
		}
		c, err := t.contentsOf(l)
		if err != nil {
			return r, err
		}
		hard, label := c.broken(needs)
		if len(hard) > 0 {
			what := "the " + e.Dish
			if e.Dish == "" {
				what = e.Item
			}
			lines = appendOnce(lines, t.sayBreach(what, hard))
		}
		for _, b := range t.sharedBy(label) {
			if note := food.AskToo(l.Name, b.by); note != "" {
				lines = appendOnce(lines, fmt.Sprintf("%s: %s (%s).", title(l.Name), note, b.of))
				continue
			}
			lines = appendOnce(lines, fmt.Sprintf("%s often carries %s: check the label (%s).", title(l.Name), both(b.by, "and"), b.of))
		}
		if c.unknown {
			unknown = appendOnce(unknown, l.Name)
		}
		told, err := t.notOf(e, l, written)
		if err != nil {
			return r, err
		}
		if told != "" {
			lines = appendOnce(lines, told)
		}
		byTable, err := t.notByTable(e, l, written)
		if err != nil {
			return r, err
		}
		for _, told := range byTable {
			lines = appendOnce(lines, told)
		}
	}
	if len(unknown) > 0 {
		lines = append(lines, title(both(unknown, "and"))+": what that holds is unknown here, so check the label. There are needs at the table.")
	}
	if len(lines) == 0 {
		return r, nil
	}
	t.plain = false
	r.Text = r.with(strings.Join(notInOne(lines), "\n"))
	return r, nil
}

// notInOne puts what is told of several foods and the same diets into one line: "Not vegan (1): egg, cream and bacon."
func notInOne(lines []string) (list []string) {
	foods := map[string][]string{}
	for _, line := range lines {
		head, name, ok := strings.Cut(strings.TrimSuffix(line, "."), ": ")
		if !ok || !strings.HasPrefix(line, "Not ") || strings.ContainsAny(name, ".,()") {
			list = append(list, line)
			continue
		}
		if foods[head] == nil {
			list = append(list, head+": ")
		}
		foods[head] = append(foods[head], name)
	}
	for i, line := range list {
		if head, isHead := strings.CutSuffix(line, ": "); isHead {
			list[i] = line + both(foods[head], "and") + "."
		}
	}
	return list
}

// with is the reply's text with more lines to it: before a question, and before ideas.
func (r Reply) with(lines string) string {
	at := len(r.Brief())
	if i := strings.LastIndex(r.Text, "\n"); r.Ask != nil && i >= 0 {
		at = i
	}
	return r.Text[:at] + "\n" + lines + r.Text[at:]
}

// notOf tells that a food is not eaten by a diet that somebody has, if that is news of the
// dish: "Not vegan: butter (2)."
func (t *turn) notOf(e Entry, l *pantry.Line, written []Entry) (string, error) {
	if t.suitsTold {
		return "", nil
	}
	diets, of := t.dietsTold(language.Limits{})
	var list []string
	for _, diet := range diets {
		if !t.isNot(l, diet) {
			continue
		}
		if e.Dish != "" {
			in, err := t.intoDish(e.Dish)
			if err != nil {
				return "", err
			}
			before := 0
			for _, x := range in {
				if t.isNot(t.k.Line(x.Line), diet) {
					before++
				}
			}
			for _, x := range written {
				if x.Dish == e.Dish && t.isNot(t.k.Named(x.Item), diet) {
					before--
				}
			}
			if before > 0 {
				continue
			}
		}
		who := of[diet]
		if who != "" {
			who = " (" + who + ")"
		}
		list = append(list, diet+who)
	}
	if len(list) == 0 {
		return "", nil
	}
	return "Not " + both(list, "or") + ": " + l.Name + ".", nil
}
