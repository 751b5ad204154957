package technique

import (
	_ "embed"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// Rule is a row of safety.csv: what a food must have before it is eaten. It
// holds over every technique.
type Rule struct {
	What    string   // food, kind, or "word:pork" for any food with that word, or its plural, in its name
	But     []string // as What: foods that the rule leaves out
	Need    Heat     // the least that it must be cooked
	Boil    float64  // least minutes at the boil, 0 for none
	Cook    float64  // least minutes in one pan or oven, whatever the heat; 0 for none
	Caution string   // said with every idea for the food
	Source  string
}

//go:embed safety.csv
var safetyCSV string

var ruleHeader = []string{"what", "but", "need", "boil", "cook", "caution", "source"}

// Rules gives the safety rules. The slice belongs to the package: do not
// change it.
func Rules() []Rule { return rules() }

var rules = sync.OnceValue(func() []Rule {
	list, err := readRules("safety.csv", safetyCSV)
	if err != nil {
		panic(err) // the table is part of the program, and a test reads it
	}
	return list
})

func readRules(name, text string) ([]Rule, error) {
	var list []Rule
	err := eachRow(name, strings.NewReader(text), ruleHeader, func(r *row) {
		rule := Rule{
			What: r.must("what"), But: r.list("but"), Need: r.heat("need"),
			Caution: r.text("caution"), Source: r.must("source"),
		}
		if r.text("boil") != "" {
			rule.Boil = r.number("boil", r.text("boil"), 1, 120)
		}
		if r.text("cook") != "" {
			rule.Cook = r.number("cook", r.text("cook"), 1, 120)
		}
		if rule.Cook > 0 && rule.Need < Through {
			r.fail("cook", "minutes of cooking need through")
		}
		if rule.Boil > 0 && rule.Need != Boil {
			r.fail("boil", "minutes at the boil need boil")
		}
		list = append(list, rule)
	})
	return list, err
}

// Need gives what the rules ask of a food: the least heat, the least minutes at
// the boil, and what to say. Where several rules meet, the strictest holds.
func Need(s Subject) (heat Heat, boil float64, cautions []string) {
	for _, r := range rules() {
		if !s.meets(r.What) || slices.ContainsFunc(r.But, s.meets) {
			continue
		}
		heat, boil = max(heat, r.Need), max(boil, r.Boil)
		if r.Caution != "" && !slices.Contains(cautions, r.Caution) {
			cautions = append(cautions, r.Caution)
		}
	}
	return heat, boil, cautions
}

// LeastCook gives the least minutes, 0 for none, that a food is cooked for in one step on
// the ring, in the oven or under the grill, unattended ones alone: wild mushrooms. No
// microwave does for that.
func LeastCook(s Subject) (minutes float64) {
	for _, r := range rules() {
		if r.Cook > 0 && s.meets(r.What) && !slices.ContainsFunc(r.But, s.meets) {
			minutes = max(minutes, r.Cook)
		}
	}
	return minutes
}

// Cooks says whether a step is one in which such minutes count.
func (s Step) Cooks() bool {
	return !s.Heats() && slices.Contains([]string{"ring", "oven", "grill"}, s.Kit)
}

// InLeast gives the words of a step that cooks foods, "the morels ", or all that is in it, for
// so many minutes at least.
func InLeast(words, foods string, minutes float64) string {
	return words + ", " + foods + strconv.Itoa(int(minutes)) + " min at least"
}

// meets says whether a word of the safety table is meant for the food.
func (s Subject) meets(what string) bool {
	word, ok := strings.CutPrefix(what, "word:")
	if !ok {
		return what == s.Name || slices.Contains(s.Kinds, what)
	}
	return slices.ContainsFunc(strings.FieldsFunc(strings.ToLower(s.Name), notLetter), func(w string) bool {
		return w == word || strings.TrimSuffix(strings.TrimSuffix(w, "'s"), "s") == word
	})
}

func notLetter(r rune) bool { return r == ' ' || r == '-' || r == ',' }
