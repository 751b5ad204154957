package bot

import (
	"cmp"
	"slices"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/planner"
)

// howKept answers how long food keeps in the state that is asked about, and how it is
// cooled, reheated or thawed; not ok where it is asked of food as delivered, or of what
// is no food as far as can be told.
func (t *turn) howKept(q *language.Question, phrase string, h found) (Reply, bool) {
	if q.Amount.Part == "tin" {
		phrase = t.tinned(phrase)
		h = t.ear.find(phrase)
	}
	topic := map[language.About]string{language.AboutCool: "cooling", language.AboutReheat: "reheating", language.AboutThaw: "thawing",
		language.AboutOut: "standing out", language.AboutRefreeze: "refreezing"}[q.About]
	keeps := q.About == language.AboutKeep || q.About == language.AboutFreeze
	state, f := t.askedState(q, phrase, h)
	known := h.exact && (h.food != nil || len(h.lines) > 0) || state == food.MadeUp || h.food == nil && state == food.Cooked
	switch {
	case topic != "" && known:
		return Reply{Kind: Answer, Text: t.sayRules(topic, phrase, f)}, true
	case topic != "":
		return Reply{Kind: Silent}, true
	case !keeps || !known || state == food.Raw || q.Off != "":
		return Reply{}, false
	case q.About == language.AboutFreeze && state == food.Opened:
		return Reply{}, false
	}
	return Reply{Kind: Answer, Text: t.sayKeeps(phrase, f, state, q.About == language.AboutFreeze)}, true
}

// askedState is the state that a question is of, and the food; nil where the tables
// know none.
func (t *turn) askedState(q *language.Question, phrase string, h found) (food.State, *food.Food) {
	f := h.food
	if !h.exact {
		f = nil
	}
	name := strings.TrimSpace(q.State + " " + phrase)
	made := len(h.lines) == 1 && slices.ContainsFunc(h.lines[0].Lots, func(o pantry.Lot) bool { return o.Left > 0 && o.State == food.MadeUp })
	switch q.State {
	case "raw", "uncooked":
		return food.Raw, f
	case "opened", "open":
		return food.Opened, f
	case "thawed", "defrosted":
		return food.Thawed, f
	}
	switch {
	case f == nil && language.IsState(food.Fold(phrase)): // "leftovers"
		return food.Cooked, nil
	case f != nil && (planner.IsCooked(f, name) || q.State != "" && !strings.HasPrefix(q.State, "home")):
		return food.Cooked, f
	case f == nil && (food.IsMade(phrase) || language.NamesDish(phrase) || made), f != nil && (made || strings.HasPrefix(q.State, "home")):
		return food.MadeUp, f
	}
	return food.Raw, f
}

// sayKeeps: "Cooked rice: 24 h in the fridge (UK FSA). ..."
func (t *turn) sayKeeps(phrase string, f *food.Food, state food.State, freezing bool) string {
	said := strings.ToLower(phrase)
	if f != nil && state != food.MadeUp && planner.BeforeCooking(phrase) == phrase {
		said = string(state) + " " + f.Name
	}
	g, ok := t.ear.guide(said, f, state, "", t.country())
	cold, freezes := t.ear.guide(said, f, state, "freezer", t.country())
	s := title(said) + ": "
	switch {
	case freezing && freezes:
		s += "keeps about " + sayDays(cold.Days) + " in the freezer (" + cold.By() + "). " + title(cold.Caution) + "."
	case freezing && cold.Caution != "":
		s += cold.Caution + "."
	case freezing:
		s += "no figure for the freezer."
	case ok:
		s += sayKept(g.Days) + " in the " + g.Place + " (" + g.By() + ")"
		if theirs := cmp.Or(g.Jurisdiction, g.By()); !strings.Contains(theirs, t.country()) && (g.Jurisdiction != "" || strings.HasPrefix(theirs, "US ")) {
			s += "; no " + t.country() + " figure here"
		}
		if s += "."; freezes {
			s += " Freezer: about " + sayDays(cold.Days) + "."
		}
	default:
		return s + "no figure here, go by the label." + strings.TrimSuffix(" "+title(g.Caution)+".", " .")
	}
	if !freezing && g.Caution != "" && g.Caution != labelFirst {
		s += " " + title(g.Caution) + "."
	}
	return s + " Labels and your own rules go first."
}

// labelFirst is a caution that every answer ends in anyhow.
const labelFirst = "the label goes first"

// sayRules tells how food is cooled, reheated or thawed, and who says so.
func (t *turn) sayRules(topic, phrase string, f *food.Food) string {
	var list []string
	say := func(rules []food.Rule) string {
		list = nil
		for n, u := range rules {
			s := u.Words
			if by := u.By(); by != "" && (n+1 == len(rules) || rules[n+1].By() != by) {
				s += " (" + by + ")"
			}
			list = append(list, s)
		}
		return strings.Join(list, "; ")
	}
	s := title(strings.ToLower(phrase)) + ": " + say(food.Rules(topic, phrase, f, t.country())) + "."
	if topic == "cooling" {
		s += "\n" + title(say(food.Rules("fridge", phrase, f, t.country()))) + "."
	}
	return s + ownRules
}
