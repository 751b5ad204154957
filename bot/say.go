package bot

import (
	"fmt"
	"strings"

	"scullion/bot/language"
	"scullion/pantry"
	"scullion/pantry/food"
	"scullion/pantry/measure"
)

// isPlural says whether a name is of several: "the roasties".
func isPlural(name string) bool {
	last := lastWord(name)
	return singular(last) != last && plural(singular(last)) == last
}

// was is the verb that goes with a name.
func was(name string) string {
	if isPlural(name) {
		return "were"
	}
	return "was"
}

// plural gives the plural of a line's name: of its last word, or of what stands
// before "of": "legs of lamb", "magrets de canard".
func plural(name string) string {
	head, rest := headOf(name)
	return food.Plural(head) + rest
}

// headOf parts a name before a word that says what it is of.
func headOf(name string) (head, rest string) {
	for _, of := range []string{" of ", " de ", " du ", " d'", " di ", " à ", " au ", " in ", " on "} {
		if i := strings.Index(name, of); i > 0 {
			return name[:i], name[i:]
		}
	}
	return name, ""
}

// title starts a name with a capital.
func title(s string) string {
	for i, r := range s {
		return strings.ToUpper(string(r)) + s[i+len(string(r)):]
	}
	return s
}

// named is who has a need as it is told: "Mum", a name with its title as "Mr Byrne".
func named(s string) string {
	list := strings.Fields(s)
	if len(list) != 2 || !language.IsTitle(list[0]) {
		return title(s)
	}
	for i := range list {
		list[i] = title(list[i])
	}
	return strings.Join(list, " ")
}

// amountOf says how much an entry is: "300 g", "about 30 g".
func amountOf(e pantry.Entry, u measure.Kind) string {
	base := measure.Say(e.Amount, u)
	switch {
	case e.Approx:
		return "about " + base
	}
	return base
}

// thing says what an entry is about and how much: "leek 300 g", "2 lemons
// (about 170 g)", "3 cloves of garlic (about 10 g)".
func thing(l *pantry.Line, e pantry.Entry) string {
	switch {
	case e.Act == pantry.Count && e.Amount == 0:
		return l.Name + " at none"
	case e.Pieces == 0:
		return l.Name + " " + amountOf(e, l.Unit) + sayPortions(e)
	case e.Piece != "" && strings.HasSuffix(l.Name, " "+e.Piece): // "4 salmon fillets"
		return fmt.Sprintf("%s (%s)", several(e.Pieces, l.Name), amountOf(e, l.Unit))
	case e.Piece == "tin":
		return fmt.Sprintf("%s of %s (%s)", several(e.Pieces, e.Piece), plural(strings.TrimPrefix(l.Name, "tinned ")), amountOf(e, l.Unit))
	case e.Piece != "":
		return fmt.Sprintf("%s of %s (%s)", several(e.Pieces, e.Piece), l.Name, amountOf(e, l.Unit))
	}
	return fmt.Sprintf("%s (%s)", several(e.Pieces, l.Name), amountOf(e, l.Unit))
}

// howMuch is thing without the food's name, for a line that has said it.
func howMuch(l *pantry.Line, e pantry.Entry) string {
	if e.Pieces == 0 {
		return amountOf(e, l.Unit)
	}
	return fmt.Sprintf("%s (%s)", strings.TrimSpace(measure.SayPieces(e.Pieces)+" "+e.Piece), amountOf(e, l.Unit))
}

// several says thousandths of a thing: "½ onion", "2 lemons".
func several(milli int64, name string) string {
	if milli > 1000 {
		name = plural(name)
	}
	return measure.SayPieces(milli) + " " + name
}

// verbal says what became of an entry's amount, after its name and amount.
func (t *turn) verbal(e pantry.Entry) string {
	into := ""
	if e.Dish != "" {
		into = " into the " + e.Dish
	}
	forDish := ""
	if e.Dish != "" {
		forDish = " for the " + e.Dish
	}
	switch e.Act {
	case pantry.Use:
		if away := sayAway(e.Dish); away != "" {
			return away
		}
		if e.Trim {
			return " of trim" + into
		}
		if into == "" {
			return " used"
		}
		return into
	case pantry.Receive:
		if e.Lot.State == food.Frozen {
			return " in, frozen"
		}
		return " in"
	case pantry.Return:
		return " put back"
	case pantry.Bin:
		if e.Trim {
			return " of trim"
		}
		return " binned"
	case pantry.Claim:
		return " kept" + forDish + " (" + t.k.CookName(e.Cook) + ")"
	case pantry.Release:
		return " released by " + t.k.CookName(e.Cook)
	case pantry.Make:
		if e.Dish != "" {
			return " put by"
		}
		return " made"
	}
	switch {
	case e.Lot.State != "":
		return " " + string(e.Lot.State)
	case e.Amount == 0:
		return ""
	}
	return " counted"
}

// both joins words as a list is said: "a", "a and b", "a, b and c".
func both(list []string, and string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:len(list)-1], ", ") + " " + and + " " + list[len(list)-1]
}

// cookedOf is what stands before the day on which a dish was cooked: ", made " behind "Cooked rice".
func cookedOf(dish string) string {
	if strings.Contains(strings.ToLower(dish), "cooked") {
		return ", made "
	}
	return ", cooked "
}
