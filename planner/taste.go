package planner

import (
	"regexp"
	"slices"
	"strings"

	"scullion/pantry/food"
	"scullion/planner/technique"
)

// nameTaste puts what seasons a dish, and the bread beside it, into the words of its steps:
// what no step tells of is put behind the one that it goes in with. A sauce is told of with
// how it is made.
func (k *kitchen) nameTaste(d *dish, steps []Step, ways [][]Step) {
	if len(steps) == 0 {
		return
	}
	last := finishAt(steps)
	put := func(at int, how func(string) string) {
		steps[at].Do = how(steps[at].Do)
		for w := range ways[at] {
			ways[at][w].Do = how(ways[at][w].Do)
		}
	}
	told := func(f *food.Food, kinds ...string) bool {
		return slices.ContainsFunc(append(kinds, strings.TrimSuffix(f.Name, " juice")), func(name string) bool {
			words := strings.Fields(name)
			return slices.ContainsFunc(steps, func(s Step) bool { return strings.Contains(s.Do, words[len(words)-1]) })
		})
	}
	var sauce []inDish
	for _, s := range slices.Concat(d.staples, d.bought) {
		f := k.foodOf(s)
		when, ok := k.whenIn(d, &s)
		if !ok && f != nil && k.isInstead(d, &s) {
			when, ok = "in", true
		}
		if f == nil || !ok || slices.Contains([]string{"salt", "oil"}, kin(f.Name)) || slices.ContainsFunc(s.Names, alwaysThere) {
			continue
		}
		name := f.Name
		if s.line >= 0 {
			name = k.lines[s.line].Item
		}
		if isOf(f, "nut", "seed") && f.Name != "ground almond" {
			name = plural(name)
		}
		raw := when == "end" && isRaw(f.Name)
		if raw {
			name = "raw " + name + " in thin slices"
		}
		if d.palette != nil && d.palette.Made() != "" && s.role == 0 {
			sauce = append(sauce, inDish{name: name, food: f})
		} else if raw {
			put(last, func(do string) string { return overIt(&steps[last], do, name) })
		} else if !told(f) && (s.role == 0 || !told(f, f.Kinds...)) {
			at := last
			if when != "end" {
				at = k.seasonedAt(d, steps)
			}
			if s.role > 0 {
				at = firstWith(steps, s.role-1)
			}
			if at == last && when == "start" && s.role == 0 && isOf(f, "spice", "aromatic", "chilli") {
				name += " warmed in oil" // no pan of the dish has taken it
			}
			if when == "end" && s.role == 0 {
				put(at, func(do string) string { return overIt(&steps[at], do, name) })
			} else if s.role == 0 && burns(f) && isDryFry(&steps[at]) {
				put(at, func(do string) string { return inLastMinute(do, name) })
			} else {
				put(at, func(do string) string { return withName(do, name) })
			}
		}
	}
	if len(sauce) > 1 && strings.HasPrefix(d.palette.Made(), "whisk ") { // the dressing of the frame, where it has one
		for i := range steps {
			for _, own := range []string{"whisk the dressing", "stir the dressing", "dress the leaf, salt the rest"} {
				if strings.Contains(steps[i].Do, own) {
					told := "whisk " + listed(sauce) + " to a dressing"
					if strings.HasPrefix(own, "dress ") {
						told = "whisk " + listed(sauce) + " to a dressing, dress the leaf with it at the last moment"
					}
					put(i, func(do string) string { return strings.Replace(do, own, told, 1) })
					sauce = nil
				}
			}
		}
	}
	if len(sauce) > 1 {
		put(last, func(do string) string {
			return do + "; " + madeOf(d.palette.Made(), sauce)
		})
	} else if len(sauce) == 1 {
		put(last, func(do string) string { return overIt(&steps[last], do, sauce[0].name) })
	}
	if d.bread {
		put(last, func(do string) string { return do + "; slice the bread for beside it" })
	}
}

// isInstead says whether a seasoning does instead of another of the frame, and is another
// thing: tinned tomato for its purée, but no cube for its stock, nor lemon for its juice.
func (k *kitchen) isInstead(d *dish, s *seasoning) bool {
	return slices.ContainsFunc(d.frame.Staples, func(t technique.Staple) bool {
		by := k.swapped(t)
		f := k.foodOf(*s)
		return by.Names[0] == s.Names[0] && !slices.Contains(t.Names, s.Names[0]) && f.Group != "stock" && kin(f.Name) == ""
	})
}

// finishAt gives the step with which a dish is finished: the last that is of more than its
// bread.
func finishAt(steps []Step) int {
	for i := len(steps) - 1; i > 0; i-- {
		if !breadAlone.MatchString(steps[i].Do) {
			return i
		}
	}
	return len(steps) - 1
}

var breadAlone = regexp.MustCompile(`^(toast|warm)\b.*\b(bread|breads|croissants?|baguettes?|rolls?|focaccia|ciabatta)\b`)

// overIt puts what finishes a dish behind the words of the step that it goes in with; what
// comes from the oven or the grill gets it then.
func overIt(s *Step, do, name string) string {
	if s.Kit != "oven" && s.Kit != "grill" {
		return withName(do, name)
	}
	const over = " over it at the table"
	if head, ok := strings.CutSuffix(do, over); ok {
		return head + ", " + name + over
	}
	return do + "; " + name + over
}

// madeOf tells how a sauce is made of its foods. Only what is solid is chopped.
func madeOf(told string, foods []inDish) string {
	if strings.HasPrefix(told, "chop ") {
		var solid, liquid []inDish
		for _, f := range foods {
			switch {
			case isOf(f.food, "citrus"):
				liquid = append(liquid, inDish{name: "rind and juice of " + f.name})
			case isOf(f.food, "vinegar", "juice"):
				liquid = append(liquid, f)
			default:
				solid = append(solid, f)
			}
		}
		if len(liquid) > 0 && len(solid) > 0 {
			told = strings.Replace(told, "{foods} together", "{foods}, "+listed(liquid)+" to it", 1)
			foods = solid
		}
	}
	return strings.Replace(told, "{foods}", listed(foods), 1)
}

// whenIn says when a seasoning goes into a dish: of its palette, or got for a role of it.
// False for what the frame seasons itself with.
func (k *kitchen) whenIn(d *dish, s *seasoning) (when string, ok bool) {
	if s.role > 0 {
		return "in", true
	}
	if d.palette == nil {
		return "", false
	}
	f := k.foodOf(*s)
	for _, c := range d.palette.Components {
		by := k.swapped(technique.Staple{Names: []string{c.Food}, Amount: c.Amount, Unit: c.Unit}).Names[0]
		if s.line >= 0 && k.lines[s.line].isNamed([]string{c.Food}) {
			return c.When, true
		}
		if f != nil && (f.Name == c.Food || f.Name == by || kin(f.Name) != "" && kin(f.Name) == kin(c.Food)) || f == nil && slices.Contains(s.Names, c.Food) {
			return c.When, true
		}
	}
	return "", false
}

// seasonedAt gives the step that what seasons a dish goes in with: the first in a pan or the
// oven that has what seasons it, or what leads it, or its filling; the last where there is none.
func (k *kitchen) seasonedAt(d *dish, steps []Step) int {
	roles := []int{d.frame.Role("season")}
	if d.frame.Roles[d.frame.Lead].Name != "base" { // rice or a potato is not what is seasoned
		roles = append(roles, d.frame.Lead)
	}
	if d.frame.Family == "egg" { // into the pan, not into the eggs
		roles = []int{d.frame.Role("body")}
	}
	for _, role := range append(roles, d.frame.Role("body"), d.frame.Role("star")) {
		at := slices.IndexFunc(steps, func(s Step) bool {
			return slices.Contains(s.roles, role) && s.isHot() && !s.heats() && s.Kit != "microwave" && !watery.MatchString(s.Do)
		})
		if at >= 0 && role >= 0 {
			return at
		}
	}
	return len(steps) - 1
}

// watery finds steps in which nothing that seasons has a place: eggs and pulses in their water.
var watery = regexp.MustCompile(`^(boil|warm|crack|beat)\b`)

// firstWith gives the step that handles a role first and does more than cut, the last of all
// where none does.
func firstWith(steps []Step, role int) int {
	first := len(steps) - 1
	for i := len(steps) - 1; i >= 0; i-- {
		if slices.Contains(steps[i].roles, role) && !steps[i].heats() {
			first = i
		}
	}
	return first
}
