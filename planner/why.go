package planner

import (
	"fmt"
	"math"
	"strings"

	"scullion/pantry/measure"
)

// The factors of a score, in the order in which they are told.
const (
	rescues = iota // what it does for the crate
	role           // how much of a meal it makes
	suited         // whether a cook would think of it for this food
	quick          // how much of the minutes it takes
	stocked        // whether its staples are there
	covers         // whether it feeds as many as were asked
	balance        // how it stands beside the dishes of this service
	differs        // how it stands beside the ideas above it
	factors
)

// Reason is one factor of an idea's score.
type Reason struct {
	Says  string  // "uses 400 g of 600 g leek, 2 days left"
	Times float64 // what it is multiplied with
}

// scoreOf is the product of the factors.
func scoreOf(f *[factors]float64) float64 {
	p := 1.0
	for _, x := range f {
		p *= x
	}
	return p
}

// why puts a candidate's factors in words. The first is always told; of the
// others, those that change something.
func (k *kitchen) why(c *candidate) []Reason {
	says := [factors]string{
		rescues: "uses " + k.sayRescued(c),
		role:    "as " + article(roleWords[c.page.role]),
		suited:  "fits the food's kind, not first choice for it",
		quick:   fmt.Sprintf("%d of %d min, %d hands-on", int(math.Ceil(c.minutes)), int(k.minutes), int(math.Ceil(c.hands))),
		stocked: "not held: " + strings.Join(k.missing(c), ", "),
		covers:  fmt.Sprintf("feeds %d of %d", c.portions, k.asked),
		balance: "like a dish of this service",
		differs: "like an idea above it",
	}
	var list []Reason
	for i, s := range says {
		if i == rescues || math.Abs(c.speaks[i]-1) > 1e-9 {
			list = append(list, Reason{s, c.speaks[i]})
		}
	}
	return list
}

// sayRescued: "400 g of 600 g free leek, 2 days left; 60 g of 60 g free parsley".
func (k *kitchen) sayRescued(c *candidate) string {
	var list []string
	say := func(l *line, a measure.Amount) {
		list = append(list, fmt.Sprintf("%s of %s free %s%s", measure.Say(a, l.Unit), measure.Say(l.Free, l.Unit), l.Item, l.dated()))
	}
	if c.dish == nil {
		say(&k.lines[c.line], c.amount)
		return list[0]
	}
	for _, p := range c.dish.parts {
		if l := &k.lines[p.line]; l.Crate {
			say(l, p.amount)
		}
	}
	return strings.Join(list, "; ")
}

// dated says how long the line has: ", 2 days left"; "" where it has no date.
func (l *line) dated() string {
	switch {
	case !l.Crate:
		return ", from the cupboard"
	case l.Days == Undated:
		return ""
	case l.Days < 0:
		return ", past its date"
	case l.Days == 0:
		return ", today is its last day"
	case l.Days == 1:
		return ", 1 day left"
	}
	return fmt.Sprintf(", %d days left", l.Days)
}

// missing names the staples that no line holds.
func (k *kitchen) missing(c *candidate) (names []string) {
	if c.dish != nil {
		return k.dishMissing(c.dish)
	}
	for i, list := range c.fit.page.staples {
		if k.holder(c, i) < 0 && !c.fit.page.always[i] && !k.lines[c.line].is(list) {
			names = append(names, k.notHeld(c.fit.Staples[i]))
		}
	}
	return names
}

// roleWords are the roles as a cook says them.
var roleWords = map[string]string{
	"star": "main thing", "base": "base", "green": "green side", "body": "filling part", "sweet": "sweet thing",
	"dish": "dish of its own", "sauce": "sauce", "lift": "sharp touch", "crunch": "crunch", "season": "seasoning",
}

func article(s string) string {
	if s != "" && strings.ContainsRune("aeiou", rune(s[0])) {
		return "an " + s
	}
	return "a " + s
}
