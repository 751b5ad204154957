package bot

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
)

// sayNeedsKept tells what is kept now, and was before, of whom something was just said, and what in the dishes of
// this service and in the plan that is on goes against it.
func (t *turn) sayNeedsKept(keep, was []pantry.Need) (lines []string, err error) {
	now := t.needs()
	for _, on := range daysOf(keep) {
		if on > t.day() {
			lines = append(lines, t.sayKeptAhead(on))
		}
	}
	if keep = slices.DeleteFunc(slices.Clone(keep), func(n pantry.Need) bool { return n.Day > t.day() }); len(keep) == 0 {
		return lines, nil
	}
	var whose []string
	for _, n := range keep {
		who := n.Who
		if !n.Lasting {
			who = ""
		}
		if slices.Contains(whose, who) {
			continue
		}
		whose = append(whose, who)
		if n.Kind != pantry.NeedOver && !slices.ContainsFunc(now, func(o pantry.Need) bool { return o.N == t.said.N }) { // an edit, of what has been taken off since
			lines = append(lines, "That was said to be over since: "+sayNeed(n)+".")
			continue
		}
		if n.Kind == pantry.NeedOver && !n.Lasting && n.Who != "" && len(keep) == 1 {
			lines = append(lines, sayOverAt(now, was, n.Who))
			continue
		}
		if said := t.sayAdded(now, n.Lasting); said != "" {
			lines = append(lines, said)
			continue
		}
		lines = append(lines, t.sayNow(now, who, n.Lasting))
	}
	for _, o := range was {
		if n := slices.IndexFunc(now, func(n pantry.Need) bool { return n.N == t.said.N && newTexture(n, o) }); n >= 0 {
			lines = append(lines, fmt.Sprintf("No longer: %s. If both are meant, say them in one message, like \"%s: %s and %s\".", sayNeed(o), o.Who, o.What, now[n].What))
		}
	}
	if len(keep) > 1 {
		lines = append(lines, sayEnded(now, was, keep)...)
	}
	var new []pantry.Need
	var allergy, strange []string
	for _, n := range keep {
		switch {
		case n.Kind == pantry.NeedAllergy:
			for a := range strings.SplitSeq(n.What, "+") {
				allergy = appendOnce(allergy, a)
			}
			new = append(new, n)
		case n.Kind == pantry.NeedFood:
			strange, new = appendOnce(strange, n.What), append(new, n)
		}
	}
	if len(allergy) > 0 {
		lines = append(lines, "Ideas and plans leave out what holds or often carries "+both(allergy, "or")+", and a use of it is asked about first. Check every label, and mind traces.")
	}
	if len(strange) > 0 {
		lines = append(lines, title(both(strange, "and"))+": none of the 14 that labels must name, so only the names of foods are watched. Read the whole label.")
	}
	lines = append(lines, sayDiets(keep)...)
	in, err := t.alreadyIn(append(slices.Clone(new), dietsOf(keep)...))
	if err != nil {
		return nil, err
	}
	lines = append(lines, in...)
	on, ok, err := t.running()
	if err != nil || !ok || len(new) == 0 {
		return lines, err
	}
	broken, err := t.sayPlanBreaks(on.Plan.Dishes, new)
	for _, s := range broken {
		lines = append(lines, "The plan that is on: "+s+` "swap" and its number looks for another.`)
	}
	return lines, err
}

// alreadyIn tells which dishes of the last hours, whatever was said of the table since, hold what somebody is allergic to.
func (t *turn) alreadyIn(new []pantry.Need) (lines []string, err error) {
	if len(new) == 0 {
		return nil, nil
	}
	in, err := t.book.IntoDish("", t.m.At.Add(-serviceLong))
	if err != nil {
		return nil, err
	}
	var dishes []string
	by := map[string][]string{}
	for _, e := range in {
		l := t.k.Line(e.Line)
		against, err := t.isAgainst(l, new)
		if err != nil {
			return nil, err
		}
		if against && sayAway(e.Dish) == "" {
			dishes, by[e.Dish] = appendOnce(dishes, e.Dish), appendOnce(by[e.Dish], l.Name)
		}
	}
	for _, dish := range dishes {
		are := " is"
		if len(by[dish]) > 1 {
			are = " are"
		}
		lines = append(lines, fmt.Sprintf("Mind the %s: %s%s in it, or kept for it.", dish, both(by[dish], "and"), are))
	}
	return lines, nil
}

// isAgainst says whether a line is plainly against one of some needs.
func (t *turn) isAgainst(l *pantry.Line, needs []pantry.Need) (bool, error) {
	c, err := t.contentsOf(l)
	if err != nil {
		return false, err
	}
	if hard, _ := c.broken(needs); len(hard) > 0 {
		return true, nil
	}
	for _, n := range dietsOf(needs) {
		if fit, _, _, err := t.byDiet(n.What, l); err != nil || fit == food.NotFit {
			return err == nil, err
		}
	}
	return false, nil
}

// mostNeedsTold is how many needs of the table are told again behind a new one.
const mostNeedsTold = 5

// sayAdded tells what this message adds to a long list of the table's needs, or to those of other places; "" where all
// of it is told.
func (t *turn) sayAdded(now []pantry.Need, lasting bool) string {
	var of, new []pantry.Need
	for _, n := range now {
		if n.Lasting || n.Kind == pantry.NeedHeads && n.Who == "" {
			continue
		}
		if of = append(of, n); n.N == t.said.N {
			new = append(new, n)
		}
	}
	if lasting || len(new) == 0 || len(new) == len(of) {
		return ""
	}
	if one := ofOnePlace(new, of); len(one) > 0 {
		new = one
	} else if len(of) <= mostNeedsTold {
		return ""
	}
	if len(new) == len(of) {
		return ""
	}
	return fmt.Sprintf("%s With what was said before %d needs: \"table?\" lists them.", sayStanding(new, 0), len(of))
}

// ofOnePlace gives all needs of the place that new ones are of; none where they are of the table, or of several.
func ofOnePlace(new, all []pantry.Need) (list []pantry.Need) {
	for _, n := range new {
		if n.Who == "" || n.Who != new[0].Who {
			return nil
		}
	}
	for _, n := range all {
		if n.Who == new[0].Who {
			list = append(list, n)
		}
	}
	return list
}

// sayEach tells each of some needs, of the table first, then of persons: "Dee: mustard allergy".
func sayEach(k *pantry.Kitchen, list []pantry.Need) (of []string) {
	var persons []string
	for _, n := range list {
		switch {
		case n.Kind == pantry.NeedHeads:
		case n.Lasting:
			persons = append(persons, title(k.CookName(n.Who))+": "+sayNeed(n))
		default:
			of = append(of, sayNeed(n))
		}
	}
	return append(of, persons...)
}

func sayList(list []pantry.Need) string {
	var says []string
	for _, n := range list {
		says = append(says, sayNeed(n))
	}
	return strings.Join(says, ", ")
}

// sayNow tells what is known of a person, or of the table.
func (t *turn) sayNow(now []pantry.Need, who string, lasting bool) string {
	var list []pantry.Need
	heads := 0
	for _, n := range now {
		switch {
		case n.Lasting != lasting || lasting && n.Who != who:
		case n.Kind == pantry.NeedHeads && n.Who == "":
			heads = n.Count
		default:
			list = append(list, n)
		}
	}
	switch {
	case lasting && len(list) == 0:
		return title(t.k.CookName(who)) + ": nothing kept any more. \"undo\" takes that back."
	case lasting:
		return title(t.k.CookName(who)) + ", for good: " + sayList(list) + "."
	case len(list) == 0:
		return "Table: no needs are kept any more. \"undo\" takes that back."
	}
	return sayStanding(list, heads)
}

func sayNeeds(list []pantry.Need) string {
	var says []string
	for _, n := range list {
		says = append(says, sayNeed(n))
	}
	return both(says, "and")
}

// sayNeed: "1 nut allergy (tree nuts, peanuts)", "2 vegan", "all vegan".
func sayNeed(n pantry.Need) string {
	s := n.Said
	switch {
	case n.Kind == pantry.NeedHeads && n.Who != "":
		return fmt.Sprint(n.Count, " ", sayAt(n.Who))
	case n.Kind == pantry.NeedHeads:
		return fmt.Sprint(n.Count, " at the table")
	case n.Kind == pantry.NeedOver:
		return s
	case n.Count == pantry.Everyone:
		s = "all " + s
	case n.Count > 0:
		if n.Count > 1 {
			s = strings.TrimSuffix(s, "y") + map[bool]string{true: "ies", false: ""}[strings.HasSuffix(s, "y")]
			if strings.HasSuffix(s, "intolerance") {
				s += "s"
			}
		}
		s = fmt.Sprint(n.Count, " ", s)
	}
	if n.Kind == pantry.NeedAllergy && !strings.Contains(n.Said, n.What) {
		s += " (" + strings.ReplaceAll(n.What, "+", ", ") + ")"
	}
	if !n.Lasting && n.Who != "" {
		s += " " + sayAt(n.Who)
	}
	return s
}

// sayTable answers who cannot eat what.
func (t *turn) sayTable(asked []language.TableTalk) string {
	now := t.needs()
	var lines []string
	if slices.ContainsFunc(now, func(n pantry.Need) bool { return !n.Lasting && (n.Kind != pantry.NeedHeads || n.Who != "") }) {
		lines = append(lines, t.sayNow(now, "", false))
	} else {
		lines = append(lines, "Table: no needs are known. That is no clearance: ask the guests.")
	}
	var persons []string
	for _, n := range now {
		if n.Lasting {
			persons = appendOnce(persons, n.Who)
		}
	}
	for _, x := range asked {
		for _, w := range x.Who {
			who := cmp.Or(t.ear.people[strings.ToLower(w)], strings.ToLower(w))
			if !slices.Contains(persons, who) {
				lines = append(lines, title(w)+": nothing is kept, so unknown. Ask.")
			}
		}
	}
	for _, who := range persons {
		lines = append(lines, t.sayNow(now, who, true))
	}
	if len(now) > 0 {
		lines[len(lines)-1] += " Labels go first."
	}
	return strings.Join(append(lines, t.ahead()...), "\n")
}

// needsOf says what a message has said of needs, as far as it is in force.
func (t *turn) needsOf(m *pantry.Message) (list []string) {
	for _, n := range t.k.Needs {
		if n.N != m.N {
			continue
		}
		s := sayNeed(n)
		if n.Lasting {
			s = title(t.k.CookName(n.Who)) + " " + s
		} else if n.Who == "" && n.Kind != pantry.NeedHeads {
			s += " at the table"
		}
		list = append(list, s)
	}
	return list
}
