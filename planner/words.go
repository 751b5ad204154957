package planner

import (
	"slices"
	"strings"

	"scullion/pantry/measure"
)

// several says whether so much of the line is said in the plural: more than one
// of a food that is counted under its own name, or one of the small things that
// come by the handful.
func (l *line) several(a measure.Amount) bool {
	if hasWord(l.Food.Name, handfuls) {
		return true
	}
	if isOf(l.Food, "dried pulse", "tinned pulse", "berry", "noodle", "nut", "seed", "green pod") && l.Food.Piece != "ear" {
		return true
	}
	return !l.cooked && l.Food.Piece == "" && l.Food.PieceMg > 0 && a*2 >= l.Food.PieceMg*3
}

// plural gives an English plural. Words that end in s stay as they are.
func plural(name string) string {
	switch {
	case name == "" || strings.HasSuffix(name, "s") || hasWord(name, masses):
		return name
	case strings.HasSuffix(name, "leaf"):
		return name[:len(name)-1] + "ves"
	case endsIn(name, "ch", "sh", "x", "tomato", "potato", "mango", "chilli"):
		return name + "es"
	case strings.HasSuffix(name, "y") && !endsIn(name, "ay", "ey", "oy"):
		return name[:len(name)-1] + "ies"
	}
	return name + "s"
}

// handfuls are small things that nobody has one of.
var handfuls = []string{"lardon", "chive", "caper"}

// forms are the words by which a guest knows a plate again, whatever is in it.
var forms = []string{
	"omelette", "soup", "broth", "pancakes", "fool", "compote", "crumble", "curry", "salad", "slaw", "paste", "noodles", "stew", "toast",
	"fritters", "mash", "patties",
}

// formsOf gives the forms that a title names, as bits.
func formsOf(title string) (bits uint32) {
	for _, w := range strings.FieldsFunc(title, func(r rune) bool { return r == ' ' || r == ',' }) {
		if i := slices.Index(forms, w); i >= 0 {
			bits |= 1 << i
		}
	}
	return bits
}

// qualifying gives a name as it stands before another noun: "mixed leaf salad".
func qualifying(name string) string {
	if kind, ok := strings.CutSuffix(name, " salad leaves"); ok {
		return kind + " leaf"
	}
	return name
}

// masses are words for food that is not counted though a piece of it is.
var masses = []string{"mangetout", "crayfish", "mooli", "naan", "okra", "chorizo", "mince", "samphire", "sweetcorn", "rice", "squid", "lobster", "edamame", "coconut", "kohlrabi", "pak choi"}

func hasWord(name string, words []string) bool {
	for _, w := range strings.Fields(name) {
		for _, m := range words {
			if w == m {
				return true
			}
		}
	}
	return false
}

func endsIn(s string, ends ...string) bool {
	for _, e := range ends {
		if strings.HasSuffix(s, e) {
			return true
		}
	}
	return false
}
