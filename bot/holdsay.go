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

// noClearance ends an answer that found nothing: it is never a clearance.
const noClearance = "That is no clearance: check every label, mind traces, and ask who cooked."

// called: "fish pie", "fish pie, as cooked Tue 3 Mar".
func (h *holding) called() string { return h.name + h.when }

// sayFrom: "milk (butter, cream) and gluten cereals (flour)".
func sayFrom(list []account.Allergen) string {
	var says []string
	for _, a := range list {
		says = append(says, a.Name+" ("+few(a.From)+")")
	}
	return both(says, "and")
}

// sayAll tells all allergens: "Fish pie: contains fish (salmon) and milk (milk)."
func (h *holding) sayAll() string {
	holds, may := h.allergens()
	var says []string
	if len(holds) > 0 {
		says = append(says, "contains "+sayFrom(holds)+".")
	}
	if len(may) > 0 {
		says = append(says, "May carry "+sayFrom(may)+".")
	}
	if len(h.noIdea) > 0 {
		says = append(says, "Unknown: "+h.sayNoIdea()+".")
	}
	if !h.logged && h.known {
		says = append(says, "Nobody has logged what else went in: unknown.")
	}
	switch {
	case !h.known:
		return title(h.called()) + ": nobody has logged what went in, so what it holds is unknown. Ask who cooks it, and check labels."
	case len(holds)+len(may)+len(h.noIdea) == 0:
		return title(h.called()) + ": none of the 14 by nature in what was logged" + inBrackets(few(h.items)) + ". " + noClearance
	case len(holds) == 0:
		says = append([]string{"none of the 14 by nature in what was logged."}, says...)
	}
	return title(h.called()) + ": " + strings.Join(says, " ") + " By what was logged, so it may be incomplete: check labels."
}

// sayNoIdea: "what dukkah in the pie holds nobody has said".
func (h *holding) sayNoIdea() string {
	if len(h.noIdea) == 1 && h.noIdea[0] == h.name {
		return "what went into the " + h.called() + " nobody has said"
	}
	return "what " + few(h.noIdea) + " in the " + h.called() + " holds nobody has said"
}

// sayHas answers whether it holds what is asked about, one line a thing.
func (h *holding) sayHas(needs []language.TableNeed) string {
	var lines []string
	for _, n := range needs {
		if n.Allergy == "" {
			lines = append(lines, h.sayHasFood(n.Food))
			continue
		}
		var none []string
		for a := range strings.SplitSeq(n.Allergy, "+") {
			if len(h.from[a])+len(h.mayFrom[a]) > 0 {
				lines = append(lines, h.sayHasAllergen(a))
			} else {
				none = append(none, a)
			}
		}
		if len(none) > 0 {
			lines = append(lines, h.sayHasAllergen(both(none, "or")))
		}
	}
	return strings.Join(lines, "\n")
}

func (h *holding) sayHasAllergen(a string) string {
	switch {
	case len(h.from[a]) > 0:
		return fmt.Sprintf("The %s holds %s (%s). Check labels for more.", h.called(), a, few(h.from[a]))
	case len(h.mayFrom[a]) > 0:
		return fmt.Sprintf("The %s may carry %s (%s): check the label before anybody is told.", h.called(), a, few(h.mayFrom[a]))
	case !h.logged:
		return fmt.Sprintf("Unknown: nobody has logged what%s went into the %s. Ask who cooks it, and check labels.", h.els(), h.name)
	case len(h.noIdea) > 0:
		return fmt.Sprintf("Unknown: %s. No %s by nature in the rest that was logged. Check labels.", h.sayNoIdea(), a)
	}
	return fmt.Sprintf("No %s by nature in what was logged for the %s%s. %s", a, h.called(), inBrackets(few(h.items)), noClearance)
}

func (h *holding) sayHasFood(name string) string {
	if by, fit := h.barredBy(singular(name)); fit == food.NotFit {
		return fmt.Sprintf("The %s has %s in it. Check labels for more.", h.called(), by)
	}
	if list := h.askedAbout(singular(name)); len(list) > 0 {
		return "May: " + strings.Join(list, "; ") + ". Check the label."
	}
	if !h.logged {
		return fmt.Sprintf("Unknown: nobody has logged what%s went into the %s. Ask who cooks it.", h.els(), h.name)
	}
	return fmt.Sprintf("No %s was logged for the %s%s. %s", name, h.called(), inBrackets(few(h.items)), noClearance)
}

// els: " else", where something was said to be in it.
func (h *holding) els() string {
	if h.known {
		return " else"
	}
	return ""
}

// sayAgainst says what needs somebody has that it breaks, or may break.
func (t *turn) sayAgainst(h *holding, needs []pantry.Need) string {
	hard, label := h.broken(needs)
	var lines []string
	if len(hard) > 0 {
		lines = append(lines, "No. "+t.sayBreach("the "+h.called(), hard)+" "+h.sayBy(hard))
	}
	for _, b := range t.sharedBy(label) { // a milk allergy and lactose intolerance: one line
		lines = append(lines, fmt.Sprintf("Not before the label is read (%s): the %s may carry %s (%s).", b.of, h.called(), both(b.by, "and"), few(h.mayBring(b.by))))
	}
	var notes, textures []string
	for _, b := range label {
		for _, name := range h.items {
			if note := food.AskToo(name, b.by); note != "" {
				notes = appendOnce(notes, title(name)+": "+note+".")
			}
		}
	}
	for _, n := range needs {
		switch {
		case n.Kind != pantry.NeedDiet:
		case language.IsTexture(n.What):
			textures = appendOnce(textures, n.What)
		case !t.tablesKnow(n.What):
			notes = append(notes, title(n.What)+": no table here knows that. Ask, and check labels.")
		default:
			if s := t.sayDietOf(h, n); s != "" {
				lines = append(lines, s)
			}
		}
	}
	of := whoseAll(t, needs)
	switch {
	case !h.logged:
		lines = append(lines, fmt.Sprintf("Unknown: nobody has logged what%s went into the %s%s. Ask who cooks it, and check labels.", h.els(), h.name, inBrackets(of)))
	case len(h.noIdea) > 0:
		lines = append(lines, fmt.Sprintf("Unknown: %s%s. Check labels.", h.sayNoIdea(), inBrackets(of)))
	case len(lines) == 0 && of != "" && h.open:
		lines = append(lines, fmt.Sprintf("Unknown until then (%s). What was logged of the %s: %s. %s", of, h.called(), few(h.items), noClearance))
	case len(lines) == 0 && of != "":
		lines = append(lines, fmt.Sprintf("Nothing logged for the %s%s is known to be against that (%s). %s", h.called(), inBrackets(few(h.items)), of, noClearance))
	}
	if len(textures) > 0 {
		notes = append(notes, "Textures are not checked here: "+both(textures, "and")+".")
	}
	return strings.Join(append(lines, notes...), "\n")
}

// tablesKnow says whether a table has what a diet does not eat.
func (t *turn) tablesKnow(diet string) bool {
	return diet == "vegan" || diet == "vegetarian" || food.KnowsDiet(diet)
}

// sayBy: "By flour and butter."; "" where it is not allergens.
func (h *holding) sayBy(list []breach) string {
	var from []string
	for _, b := range list {
		for _, a := range b.by {
			for _, f := range h.from[a] {
				from = appendOnce(from, f)
			}
		}
	}
	if len(from) == 0 {
		return ""
	}
	return "By " + few(from) + "."
}

// mayBring is what may bring allergens, or food that somebody cannot eat: "pepperoni, usually pork".
func (h *holding) mayBring(what []string) (from []string) {
	for _, a := range what {
		for _, f := range append(slices.Clone(h.mayFrom[a]), h.askedAbout(a)...) {
			from = appendOnce(from, f)
		}
	}
	return from
}

func whoseAll(t *turn, needs []pantry.Need) string {
	var of []string
	for _, n := range needs {
		if n.Kind != pantry.NeedHeads && (n.Kind != pantry.NeedDiet || t.tablesKnow(n.What)) {
			of = appendOnce(of, t.whose(n))
		}
	}
	return both(of, "and")
}

// sayDietOf says what a diet has against it; "" nothing that is known.
func (t *turn) sayDietOf(h *holding, n pantry.Need) string {
	var no, ask []string
	switch {
	case n.What == "vegan" || n.What == "vegetarian":
		no, ask = t.against(n.What, h.items)
		named, _ := t.against(n.What, h.names) // stock that is asked about itself
		for _, name := range named {
			no = appendOnce(no, name)
		}
	case food.KnowsDiet(n.What):
		for _, name := range slices.Concat(h.items, h.names) {
			switch t.fitOf(n.What, name) {
			case food.NotFit:
				no = appendOnce(no, name)
			case food.AskFit:
				ask = appendOnce(ask, name)
			}
		}
		if pair := t.apartIn(n.What, h.items); pair != "" {
			no = append(no, pair+" in one dish")
		}
	default:
		return title(n.What) + ": no table here knows that. Ask, and check labels."
	}
	switch {
	case len(no) > 0:
		return fmt.Sprintf("No. %s: %s.", against(n.What), few(no))
	case len(ask) > 0:
		return fmt.Sprintf("Not before it is asked about (%s): %s. Ask the supplier, check the label.", n.What, few(ask))
	}
	return ""
}

// inBrackets: " (flour and butter)"; "" of nothing.
func inBrackets(s string) string {
	if s == "" {
		return ""
	}
	return " (" + s + ")"
}
