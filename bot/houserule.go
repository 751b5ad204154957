package bot

import (
	"fmt"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/planner"
)

// byHouse is who says so where a kitchen's own rule gives a date.
const byHouse = "house rule"

// guide is what storage guidance says of food, or this kitchen's own rule where that is shorter:
// see food.Guide.
func (x *ear) guide(name string, f *food.Food, state food.State, place, country string) (food.Guidance, bool) {
	return ruled(x.k, x.all, name, f, state, place, country)
}

// ruled is food.Guide, held to the rules of a kitchen.
func ruled(k *pantry.Kitchen, all *food.Catalogue, name string, f *food.Food, state food.State, place, country string) (food.Guidance, bool) {
	g, ok := food.Guide(name, f, state, place, country)
	r, has := shortest(k, all, name, f, state, place)
	if !has || ok && r.Days >= g.Days {
		return g, ok
	}
	if g.Date == "" {
		g.Date = "use-by"
	}
	g.What, g.Days, g.Place, g.Jurisdiction, g.Source = r.Name, r.Days, r.Place, "", byHouse
	return g, true
}

// shortest is the shortest house rule on food in a state; false where there is none.
func shortest(k *pantry.Kitchen, all *food.Catalogue, name string, f *food.Food, state food.State, place string) (best pantry.Rule, ok bool) {
	for _, r := range k.Rules() {
		cold := state == food.Frozen || place == "freezer"
		if (r.Place == "freezer") == cold && (!ok || r.Days < best.Days) && ruleOf(r.Name, all).fits(name, f, state) {
			best, ok = r, true
		}
	}
	return best, ok
}

// aim is what a house rule is of.
type aim struct {
	state food.State // "" not said
	words []string   // of its name, without the state
	foods []string   // that it names
}

func ruleOf(name string, all *food.Catalogue) (a aim) {
	rest := planner.BeforeCooking(name)
	if rest != name {
		a.state = food.Cooked
	}
	a.words = strings.Fields(food.Fold(rest))
	if len(a.words) > 1 && a.state == "" {
		if s, ok := saidStates[a.words[0]]; ok {
			a.state, a.words = s, a.words[1:]
		}
	}
	for i, w := range a.words {
		a.words[i] = singular(w)
	}
	for _, id := range all.Index().Exact(strings.Fields(strings.ToLower(rest))[len(strings.Fields(rest))-len(a.words):]) {
		a.foods = append(a.foods, all.Foods()[id].Name)
	}
	return a
}

// saidStates are the states that are not told by cooking.
var saidStates = map[string]food.State{"opened": food.Opened, "open": food.Opened, "thawed": food.Thawed, "defrosted": food.Thawed, "raw": food.Raw, "uncooked": food.Raw}

// fits says whether a rule is of a food in a state. What is said of a food without its state is
// of it as it comes, opened or thawed; of dry food it is of all but that, since "we keep rice 1
// day" is not of the sack. What is said of a dish is of all that is called so.
func (a aim) fits(name string, f *food.Food, state food.State) bool {
	cooked := state == food.Cooked || state == food.MadeUp
	if a.state != "" && a.state != state && !(a.state == food.Cooked && cooked) {
		return false
	}
	if f != nil && slices.Contains(a.foods, f.Name) {
		switch {
		case a.state != "" || state == food.Frozen:
			return true
		case f.Keeps.Place == "cupboard":
			return state != food.Raw
		}
		return state != food.Cooked
	}
	if f != nil && state != food.MadeUp {
		return false
	}
	have := strings.Fields(food.Fold(name))
	for i, w := range have {
		have[i] = singular(w)
	}
	return len(a.words) > 0 && len(have) >= len(a.words) && slices.Equal(have[len(have)-len(a.words):], a.words)
}

// houseRuled gives food that comes in as it is the date of a house rule, where that is sooner
// than the label's or the usual keeping.
func (t *turn) houseRuled(lot *pantry.LotTerms, d *draft, l *pantry.Line, f *food.Food) {
	if lot.State != "" || d.Act != pantry.Receive {
		return
	}
	r, ok := shortest(t.k, t.ear.all, l.Name, f, food.Raw, "")
	if by := since(d, t).Add(r.Days); ok && (lot.Date == "" || by < lot.Date) {
		if d.Label && t.note == "" {
			t.note = title(l.Name) + ": the house rule is the sooner, and goes before the date that was said."
		}
		lot.Date, lot.Label, lot.Best = by, true, f != nil && f.Keeps.Date == "best-before"
	}
}

// ruleTalk learns a house rule, or tells those there are.
func (t *turn) ruleTalk(why string) (r Reply, done bool, err error) {
	if text := strings.ToLower(t.m.Text); !strings.Contains(text, "rule") && !strings.Contains(text, "we ") && !strings.Contains(text, "our ") {
		return r, false, nil
	}
	q := t.reader().RuleTalk(t.m.Text)
	if q == nil {
		return r, false, nil
	}
	if q.About == language.AboutRules {
		return Reply{Kind: Answer, Text: t.sayRulesHere()}, true, nil
	}
	rule := pantry.Rule{Name: strings.ToLower(q.Food), Days: q.N, Place: "fridge"}
	switch q.About {
	case language.AboutRuleFreezer:
		rule.Place = "freezer"
	case language.AboutRuleHours:
		rule.Days = q.N / 24
	}
	state, f, known := t.ruleAim(rule.Name)
	plainly := strings.Contains(strings.ToLower(t.m.Text), "rule")
	switch {
	case !plainly && (!known || q.About == language.AboutRuleHours && q.N%24 != 0):
		return r, false, nil
	case !known:
		return Reply{Kind: Error, Text: fmt.Sprintf("Not written: I know no food called %q. Teach it first: \"new food: %s, like spinach\".", rule.Name, rule.Name)}, true, nil
	case rule.Days < 1 || q.About == language.AboutRuleHours && q.N%24 != 0:
		return Reply{Kind: Error, Text: `Not written: a house rule is in whole days, like "house rule: cooked rice keeps 1 day".`}, true, nil
	}
	r, err = t.teachRule(rule, f, state, why)
	return r, true, err
}

// ruleAim is the food and the state that a rule is of, and whether it is food at all.
func (t *turn) ruleAim(name string) (food.State, *food.Food, bool) {
	a := ruleOf(name, t.ear.all)
	h := t.ear.find(strings.Join(a.words, " "))
	if len(a.foods) == 0 {
		h = t.ear.find(name)
	}
	state, f := t.askedState(&language.Question{Food: name}, name, h)
	if a.state != "" {
		state = a.state
	}
	switch {
	case a.state != "":
	case food.IsMade(name):
		state = food.MadeUp
	case f != nil && state == food.Raw && f.Keeps.Place == "cupboard":
		state = food.Cooked
	}
	return state, f, h.exact && !h.sound && (h.food != nil || len(h.lines) > 0) || isMade(name)
}

// teachRule writes a house rule, unless published guidance is shorter: that wins.
func (t *turn) teachRule(rule pantry.Rule, f *food.Food, state food.State, why string) (Reply, error) {
	place := ""
	if rule.Place == "freezer" {
		place = rule.Place
	}
	g, ok := food.Guide(rule.Name, f, state, place, t.country())
	if ok && g.Days < rule.Days {
		return Reply{Kind: Error, Text: "Not written: " + rule.Name + " for " + sayDays(rule.Days) + " is longer than the guidance, and the shorter wins: " + sayGuide(g) + ".\nA house rule can only be shorter."}, nil
	}
	if err := t.learned(t.said, why, rule.Lesson()); err != nil {
		return Reply{}, err
	}
	text := "House rule: " + sayRule(rule)
	switch {
	case !ok:
		text += "; there is no figure here to hold it against."
	case g.Days == rule.Days:
		text += ", as the guidance has it (" + sayGuide(g) + ")."
	default:
		text += "; the guidance has more (" + sayGuide(g) + ")."
	}
	if g.Caution != "" && g.Caution != labelFirst {
		text += " " + title(g.Caution) + "."
	}
	return Reply{Kind: Log, Text: text + "\nIt counts for what comes from now on; a label that is sooner goes first. \"undo\" takes it back."}, nil
}

// sayRulesHere lists the house rules.
func (t *turn) sayRulesHere() string {
	var list []string
	for _, r := range t.k.Rules() {
		list = append(list, sayRule(r))
	}
	if len(list) == 0 {
		return `No house rules yet. Say one: "house rule: stock keeps 2 days in the fridge".`
	}
	return "House rules: " + strings.Join(list, "; ") + ".\nA shorter guidance or label goes before each."
}

// sayRule: "cooked rice 1 day in the fridge".
func sayRule(r pantry.Rule) string { return r.Name + " " + sayDays(r.Days) + " in the " + r.Place }
