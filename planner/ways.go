package planner

import (
	"math"
	"regexp"
	"slices"
	"strings"

	"scullion/planner/technique"
)

// Other ways of a step: with kit that is there where the usual kit is not, or is wanted by
// more than one. The planner takes the usual way wherever that is in time.

// waysOf gives for each step of a frame or technique the rows of other ways to do it.
func waysOf(id string, steps []technique.Step) [][]int {
	list := make([][]int, len(steps))
	for i, s := range steps {
		for n := range technique.Ways() {
			if technique.Ways()[n].Is(id, s) {
				list[i] = append(list[i], n)
			}
		}
	}
	return list
}

// takenBy says for each row of other ways whether a food may be in it.
func takenBy(s technique.Subject) []bool {
	list := make([]bool, len(technique.Ways()))
	for n := range list {
		list[n] = technique.Ways()[n].Takes(s)
	}
	return list
}

func (k *kitchen) pageOf(d *dish) *page { return &theBook().frames[d.number] }

// hasKit says whether kit that a step wants is there; of some there is always enough.
func (k *kitchen) hasKit(word string) bool {
	i := slices.Index(technique.Scarce, word)
	return i < 0 || k.kit&(1<<i) != 0
}

// lacks says whether a frame has a step whose kit is not there, and that nothing can be
// done another way.
func (k *kitchen) lacks(f *technique.Frame, p *page) bool {
	if p.kit&^k.kit == 0 {
		return false
	}
	for i, s := range f.Steps {
		if !k.hasKit(s.Kit) && !s.Heats() && !slices.ContainsFunc(p.ways[i], func(n int) bool { return k.hasKit(technique.Ways()[n].To) }) {
			return true
		}
	}
	return false
}

// leastMinutes gives the minutes of a step of a frame in the quickest way there is for any
// food: none where there is nothing to heat.
func leastMinutes(f *technique.Frame, i int, grams float64, kit map[string]int) float64 {
	s := f.Steps[i]
	there := func(word string) bool { return !slices.Contains(technique.Scarce, word) || kit[word] > 0 }
	if s.Heats() && !there(s.Kit) {
		return 0
	}
	least := s.Minutes(grams)
	for _, n := range theBook().page(f.ID).ways[i] {
		if w := &technique.Ways()[n]; there(w.To) {
			least = min(least, w.Step(s).Minutes(grams))
		}
	}
	return least
}

// aPan is the grams that are reckoned with where a step says nothing of its food: a pan of
// water, or of stock.
const aPan = 450

// others gives the other ways of a step, for so many grams and all the food in it, with
// kit that is there.
func (k *kitchen) others(s technique.Step, rows []int, foods []*known, grams float64) (list []Step) {
	for _, n := range rows {
		w := &technique.Ways()[n]
		if !k.hasKit(w.To) || w.Most > 0 && grams > w.Most || slices.ContainsFunc(foods, func(f *known) bool { return !f.ways[n] }) {
			continue
		}
		if slices.ContainsFunc(k.without, func(re *regexp.Regexp) bool { return re.MatchString(w.Says) && !re.MatchString(w.Words) }) {
			continue
		}
		if grams == 0 {
			grams = aPan
		}
		x := stepOf(w.Step(s), grams)
		x.round()
		list = append(list, x)
	}
	return list
}

// round sets whole minutes by themselves; see inMinutes.
func (s *Step) round() {
	alone := s.Minutes - s.HandsOn
	s.hands = int(math.Round(s.HandsOn))
	if alone < 0.5 {
		s.hands = max(s.hands, 1)
	}
	s.whole = max(1, s.hands+int(math.Round(alone)))
}

// inReach gives a step whose kit is not there the first of its other ways.
func (k *kitchen) inReach(s Step) Step {
	if k.hasKit(s.Kit) || len(s.ways) == 0 {
		return s
	}
	first := s.ways[0]
	first.After, first.ways, first.forced = s.After, s.ways[1:], true
	return first
}

// foodsIn gives what is known of the foods that are in a step of the frame of a dish.
func (k *kitchen) foodsIn(d *dish, step int) (list []*known) {
	in := func(role int) bool {
		return slices.Contains(d.frame.Cooks[step], role) || slices.Contains(d.frame.Handles[step], role)
	}
	for i := range d.parts {
		if p := &d.parts[i]; p.role != beside && in(p.role) {
			list = append(list, k.lines[p.line].known)
		}
	}
	for _, b := range d.bought {
		if f := k.foodOf(b); f != nil && b.role > 0 && in(b.role-1) {
			list = append(list, knownOf(f, false))
		}
	}
	return list
}

// sideWays gives the steps of what stands beside a dish, from the number given on, their
// other ways.
func (k *kitchen) sideWays(d *dish, steps []Step, from int) {
	p := &d.parts[len(d.parts)-1]
	l := &k.lines[p.line]
	for i, s := range d.side.Steps {
		x := &steps[from+i]
		x.ways = k.others(s, d.side.page.ways[i], []*known{l.known}, p.grams)
		for j := range x.ways {
			x.ways[j].Do = k.rewordedSide(d, x.ways[j].Do, i) + " (" + l.Item + ")"
		}
		waitsOfWays(steps, from+i, d.side.Holds, !d.side.page.cold)
	}
}

// waitsOfWays gives the other ways of a step their waits.
func waitsOfWays(steps []Step, at int, holds []string, hot bool) {
	usual := steps[at]
	for j := range usual.ways {
		w := &usual.ways[j]
		w.After = usual.After
		steps[at] = *w
		w.Wait = waitOf(steps, at, holds, hot)
	}
	steps[at] = usual
}

// variants gives the ways of a step as a timetable has them, the usual first: what is in an
// oven takes its minutes where it has the oven to itself, on all its shelves, and longer
// where other trays are in too.
func (s *Step) variants() (list []Step) {
	for _, x := range append([]Step{*s}, s.ways...) {
		if x.Kit != "oven" || x.heats() {
			list = append(list, x)
			continue
		}
		full := x
		x.shelves, full.shelves = shelves, 1
		alone := (x.Minutes - x.HandsOn) * technique.Crowded(shelves)
		full.whole = x.hands + int(math.Ceil(alone))
		full.Do = roundTrays(x.Do)
		list = append(list, x, full)
	}
	return list
}

// roundTrays tells in the words of a step that the oven is full.
func roundTrays(do string) string {
	words, item, beside := strings.Cut(do, " (")
	words += ", turn the trays round half way"
	if beside {
		words += " (" + item
	}
	return words
}

// mayBe says whether a variant of a step is to be thought of at all: another way where the
// usual kit is not there, or, where all is tried, any. An oven that is there is used.
func (s *Step) mayBe(v *Step, all bool) bool {
	return v.Kit == s.Kit || s.forced || all && s.Kit != "oven"
}

// sooner is the least wait of two; negative is any.
func sooner(a, b int) int {
	if a < 0 || b >= 0 && b < a {
		return b
	}
	return a
}

// withoutKettle leaves the kettle out of the words of a dish whose water comes from elsewhere.
func withoutKettle(list []PlanStep) {
	if slices.ContainsFunc(list, func(s PlanStep) bool { return slices.Contains(s.Kit, "kettle") }) {
		return
	}
	for i := range list {
		list[i].Do = strings.Replace(list[i].Do, " from the kettle", "", 1)
		for j := range list[i].Else {
			list[i].Else[j].Do = strings.Replace(list[i].Else[j].Do, " from the kettle", "", 1)
		}
	}
}
