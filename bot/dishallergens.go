package bot

import (
	"regexp"
	"strings"

	"scullion/pantry/account"
)

// allergensOnly is a message that asks for allergens, and of nothing.
var allergensOnly = regexp.MustCompile(`(?i)^\s*(?:any |all |print |show |me |the )*allergens?(?: list| sheet| chart| matrix| please| today| tonight)*\s*\??\s*$`)

// allergensOfAll is a message that asks for the allergens of every dish.
var allergensOfAll = regexp.MustCompile(`(?i)^\s*(?:what |whats |what's |which |list |show |tell |give |me |any |all |the |are |us )*allerg(?:en|ie)s?(?: list| sheet| info)?(?: are| is| do we have| have we got)?(?: there)? (?:in|for|of|on) (?:everything|all|it all|all of (?:it|them)|them all|(?:all|each|every)(?: of)?(?: the| our)? dish(?:es)?|(?:the |our |tonight's |tonights |today's |todays )?(?:whole )?menu)(?: today| tonight| please| so far)*\s*[?.]*\s*$`)

// allergensTold tells what of the 14 each dish holds where that is asked of all of them. Done is false where it is not.
func (t *turn) allergensTold() (r Reply, done bool, err error) {
	if !allergensOfAll.MatchString(t.m.Text) {
		return r, false, nil
	}
	r = Reply{Kind: Answer}
	if r.Text, err = t.dishAllergens(); r.Text == "" {
		r.Text = `No dish was made yet, as far as anybody said. "allergens in the butter" tells of a food.`
	}
	return r, true, err
}

// dishAllergens tells what of the 14 each dish holds and may carry that was made, or is kept; "" where none
// was.
func (t *turn) dishAllergens() (string, error) {
	x, list, err := t.wraps()
	if err != nil {
		return "", err
	}
	names, err := t.dishesNow(list)
	if err != nil || len(names) == 0 {
		return "", err
	}
	var lines []string
	for _, name := range names {
		h, err := t.heldBy(x, list, name)
		if err != nil {
			return "", err
		}
		if h == nil {
			lines = append(lines, title(name)+": unknown, ask who cooks it.")
			continue
		}
		holds, may := h.allergens()
		open := unsettled(t.k, h.name, t.m.At.Add(-serviceLong))
		text := title(h.name) + ": "
		switch {
		case len(holds) > 0:
			text += allergenNames(holds)
		case h.unknown || len(open) > 0:
			text += "unknown"
		default:
			text += "none of the 14 by nature in what was logged"
		}
		if len(holds) > 0 && (h.unknown || len(open) > 0) {
			text += ", unknown in part"
		}
		if len(may) > 0 {
			text += "; may carry " + allergenNames(may)
		}
		if len(open) > 0 {
			text += "; asked about, and not answered: " + both(open, "and")
		}
		lines = append(lines, text+".")
	}
	return strings.Join(lines, "\n") + "\nThat is no clearance: check every label, mind traces, and ask who cooked. \"allergens in the " + names[0] + "\" tells what brings each.", nil
}

func allergenNames(list []account.Allergen) string {
	var names []string
	for _, a := range list {
		names = append(names, a.Name)
	}
	return strings.Join(names, ", ")
}
