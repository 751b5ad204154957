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
	switch {
	case len(h.items) == 0 && len(holds) == 0:
		return title(h.called()) + ": nobody has logged what went in, so what it holds is unknown. Ask who cooks it, and check labels."
	case len(holds)+len(may)+len(h.noIdea) == 0:
		return title(h.called()) + ": none of the 14 by nature in what was logged (" + few(h.items) + "). " + noClearance
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
		for a := range strings.SplitSeq(n.Allergy, "+") {
			lines = append(lines, h.sayHasAllergen(a))
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
	case len(h.items) == 0:
		return fmt.Sprintf("Unknown: nobody has logged what went into the %s. Ask who cooks it, and check labels.", h.name)
	case len(h.noIdea) > 0:
		return fmt.Sprintf("Unknown: %s. No %s by nature in the rest that was logged. Check labels.", h.sayNoIdea(), a)
	}
	return fmt.Sprintf("No %s by nature in what was logged for the %s (%s). %s", a, h.called(), few(h.items), noClearance)
}

func (h *holding) sayHasFood(name string) string {
	if by, fit := h.barredBy(singular(name)); fit == food.NotFit {
		return fmt.Sprintf("The %s has %s in it. Check labels for more.", h.called(), by)
	}
	if len(h.items) == 0 {
		return fmt.Sprintf("Unknown: nobody has logged what went into the %s. Ask who cooks it.", h.name)
	}
	return fmt.Sprintf("No %s was logged for the %s (%s). %s", name, h.called(), few(h.items), noClearance)
}

// sayAgainst says what needs somebody has that it breaks, or may break.
func (t *turn) sayAgainst(h *holding, needs []pantry.Need) string {
	hard, label := h.broken(needs)
	var lines []string
	if len(hard) > 0 {
		lines = append(lines, "No. "+t.sayBreach("the "+h.called(), hard)+" "+h.sayBy(hard))
	}
	for _, b := range label {
		lines = append(lines, fmt.Sprintf("Not before the label is read (%s): the %s may carry %s (%s).", t.whose(b.need), h.called(), both(b.by, "and"), few(h.mayBring(b.by))))
	}
	for _, n := range needs {
		if n.Kind == pantry.NeedDiet {
			if s := t.sayDietOf(h, n); s != "" {
				lines = append(lines, s)
			}
		}
	}
	of := whoseAll(t, needs)
	switch {
	case len(h.items) == 0:
		lines = append(lines, fmt.Sprintf("Unknown: nobody has logged what went into the %s (%s). Ask who cooks it, and check labels.", h.name, of))
	case len(h.noIdea) > 0:
		lines = append(lines, fmt.Sprintf("Unknown: %s (%s). Check labels.", h.sayNoIdea(), of))
	case len(lines) == 0:
		lines = append(lines, fmt.Sprintf("Nothing logged for the %s (%s) is known to be against that (%s). %s", h.called(), few(h.items), of, noClearance))
	}
	return strings.Join(lines, "\n")
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

func (h *holding) mayBring(allergens []string) (from []string) {
	for _, a := range allergens {
		for _, f := range h.mayFrom[a] {
			from = appendOnce(from, f)
		}
	}
	return from
}

func whoseAll(t *turn, needs []pantry.Need) string {
	var of []string
	for _, n := range needs {
		if n.Kind != pantry.NeedHeads {
			of = appendOnce(of, t.whose(n))
		}
	}
	return both(of, "and")
}

// sayDietOf says what a diet has against it; "" nothing that is known.
func (t *turn) sayDietOf(h *holding, n pantry.Need) string {
	var no, ask []string
	switch {
	case language.IsTexture(n.What):
		return "The texture (" + n.Said + ") is not checked here: test it."
	case n.What == "vegan" || n.What == "vegetarian":
		no, ask = t.against(n.What, h.items)
		for _, x := range t.k.ToldOf(h.name) {
			if f, ok := t.ear.all.Food(x.Of); !ok || dietMark(f, n.What) != "yes" {
				ask = appendOnce(ask, sayTold(t.k, x))
			}
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
