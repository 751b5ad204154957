package technique

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"scullion/pantry/measure"
)

// technique reads a row of techniques.csv.
func (r *row) technique() Technique {
	t := Technique{
		ID: r.must("id"), Name: r.must("name"), Family: r.oneOf("family", Families),
		Suits: r.suits(), Never: r.nevers(), Role: r.oneOf("role", Roles), Heat: r.heat("heat"),
		Cut: r.must("cut"), Steps: r.steps(), Times: r.times(), Reference: r.text("reference"),
		Staples: r.staples(), Yield: r.number("yield", r.must("yield"), 0.01, 150),
		Holds: r.list("holds"), Saves: r.list("saves"), Caution: r.cautions(),
		Title: r.must("title"), How: r.must("how"), Source: r.must("source"),
	}
	t.Min, t.Max = r.portion()
	t.Main = r.main(len(t.Steps))
	r.check(&t)
	return t
}

func (r *row) number(column, s string, least, most float64) float64 {
	n, err := strconv.ParseFloat(s, 64)
	if err != nil || !(n >= least && n <= most) {
		r.fail(column, fmt.Sprintf("%q is not a number from %g to %g", s, least, most))
		return 0
	}
	return n
}

func (r *row) heat(column string) Heat {
	return Heat(max(0, slices.Index(heats, r.oneOf(column, heats))))
}

func (r *row) suits() []Suit {
	var out []Suit
	for _, s := range r.list("suits") {
		what, best := strings.CutSuffix(s, "!")
		out = append(out, Suit{what, best})
	}
	if out == nil {
		r.fail("suits", "is empty")
	}
	return out
}

func (r *row) nevers() []Never {
	var out []Never
	for _, s := range r.list("never") {
		what, reason, _ := strings.Cut(s, "=")
		out = append(out, Never{what, reason})
	}
	return out
}

func (r *row) portion() (least, most float64) {
	a, b, _ := strings.Cut(r.text("portion"), "-")
	least = r.number("portion", a, 0.1, 2000)
	most = r.number("portion", b, least, 2000)
	return least, most
}

func (r *row) times() []Time {
	var out []Time
	for _, s := range r.list("times") {
		i := strings.LastIndexByte(s, ' ')
		if i < 0 {
			r.fail("times", fmt.Sprintf("%q is not a food and minutes", s))
			return nil
		}
		out = append(out, Time{s[:i], r.number("times", s[i+1:], 0, 600)})
	}
	return out
}

func (r *row) staples() []Staple {
	var out []Staple
	for _, s := range r.list("staples") {
		words := strings.Fields(s)
		if len(words) < 3 {
			r.fail("staples", fmt.Sprintf("%q is not a name, an amount and a unit", s))
			return nil
		}
		unit, err := measure.ParseKind(words[len(words)-1])
		if err != nil {
			r.fail("staples", err.Error())
		}
		amount := r.number("staples", words[len(words)-2], 0.01, 2000)
		names := strings.Join(words[:len(words)-2], " ")
		out = append(out, Staple{strings.Split(names, "/"), measure.Amount(math.Round(amount * 1000)), unit})
	}
	return out
}

// main gives the main step's index, -1 for none.
func (r *row) main(steps int) int {
	if r.text("main") == "" {
		return -1
	}
	return int(r.number("main", r.text("main"), 1, float64(steps))) - 1
}

// check looks at what the fields say together.
func (r *row) check(t *Technique) {
	if !strings.Contains(t.Title, "{food") {
		r.fail("title", "does not say {food} or {foods}")
	}
	if t.Main < 0 && (len(t.Times) > 0 || strings.Contains(t.How, "{min}")) {
		r.fail("main", "times or {min} need a main step")
	}
	if t.Heat > None && t.Main < 0 && t.Heat >= Through {
		r.fail("main", "what cooks needs a main step")
	}
	if t.Heat == Boil && !slices.ContainsFunc(t.Steps, Step.boils) {
		r.fail("heat", "boil needs a step at 98 C or more")
	}
	if t.Heat >= Through && !slices.ContainsFunc(t.Steps, Step.hot) {
		r.fail("heat", "no step is on a ring, in an oven, under a grill or in a microwave")
	}
}
