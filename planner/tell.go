package planner

import (
	"regexp"
	"slices"
	"strings"

	"scullion/pantry/food"
	"scullion/planner/technique"
)

// How the steps of a dish are told: in the words of the frame, as the table of wordings has
// them for the food that is in the step, and with every food of the dish in one of them.

// wordingsOf gives for each step of a frame or technique the rows of wordings that may be
// for it, or for another way of it.
func wordingsOf(id string, steps []technique.Step, ways [][]int) [][]int {
	list := make([][]int, len(steps))
	for i, s := range steps {
		for n := range technique.Wordings() {
			w := &technique.Wordings()[n]
			if w.Is(id, s) || slices.ContainsFunc(ways[i], func(v int) bool { return w.Is(id, technique.Ways()[v].Step(s)) }) {
				list[i] = append(list[i], n)
			}
		}
	}
	return list
}

// inDish is a food in a step, as it is named there.
type inDish struct {
	*known
	name  string
	food  *food.Food
	grams float64 // as purchased, where it is of the kitchen
}

// foodsBy gives the foods of a dish whose role is wanted, most of them first.
func (k *kitchen) foodsBy(d *dish, wanted func(role int) bool) (list []inDish) {
	for _, p := range d.parts {
		if p.role == beside || !wanted(p.role) {
			continue
		}
		l := &k.lines[p.line]
		name := l.Item
		if l.several(p.amount) {
			name = plural(name)
		}
		list = append(list, inDish{l.known, name, l.Food, p.amount.Units()})
	}
	for _, b := range d.bought {
		if f := k.foodOf(b); f != nil && b.role > 0 && wanted(b.role-1) {
			name := f.Name
			if isOf(f, "nut", "seed", "tinned pulse") {
				name = plural(name)
			}
			list = append(list, inDish{knownOf(f, false), name, f, 0})
		}
	}
	return list
}

// holdsAny says whether something in a dish, its seasoning too, is what a row names.
func (k *kitchen) holdsAny(d *dish, w *technique.Wording) bool {
	is := func(f *food.Food) bool { return f != nil && w.About(technique.Of(f, false)) }
	return slices.ContainsFunc(d.parts, func(p part) bool { return w.About(k.lines[p.line].subject) }) ||
		slices.ContainsFunc(d.staples, func(s seasoning) bool { return is(k.foodOf(s)) }) ||
		slices.ContainsFunc(d.bought, func(s seasoning) bool { return is(k.foodOf(s)) })
}

// isWorded says whether a row is for a step of the frame of a dish, and which foods of it
// the row names, and which it does not.
func (k *kitchen) isWorded(d *dish, w *technique.Wording, step int) (about, rest []inDish, ok bool) {
	if strings.HasSuffix(w.When, "in the dish") {
		return nil, nil, k.holdsAny(d, w) == (w.When == "in the dish")
	}
	for _, f := range k.foodsBy(d, func(role int) bool {
		if w.Roles != nil {
			return slices.Contains(w.Roles, d.frame.Roles[role].Name)
		}
		return slices.Contains(d.frame.Handles[step], role) || slices.Contains(d.frame.Cooks[step], role)
	}) {
		if keepsOut(d, step, f.food) {
			continue
		}
		if w.About(f.subject) {
			about = append(about, f)
		} else {
			rest = append(rest, f)
		}
	}
	switch w.When {
	case "any":
		ok = len(about) > 0
	case "all":
		ok = len(about) > 0 && len(rest) == 0
	default:
		ok = len(about) == 0
	}
	return about, rest, ok
}

// reworded gives the words of a step of the frame as they are for the food in it.
func (k *kitchen) reworded(d *dish, do string, step int) string {
	for _, n := range k.pageOf(d).wordings[step] {
		w := &technique.Wordings()[n]
		if !strings.Contains(do, w.Words) {
			continue
		}
		if about, rest, ok := k.isWorded(d, w, step); ok {
			told := strings.NewReplacer("{foods}", listed(about), "{rest}", listed(rest)).Replace(w.Told)
			do = strings.Replace(do, w.Words, told, 1)
		}
	}
	if k.isUnwanted("fried") { // then it goes in with the stock
		do = browned.ReplaceAllString(do, "")
	}
	return strings.TrimPrefix(strings.TrimSuffix(do, ", "), ", ")
}

// browned finds where a step browns what would cook without.
var browned = regexp.MustCompile(`, brown (the .* )?in oil`)

// rewordedSide is reworded for what stands beside a dish: rows that name its technique are for
// its food, others for what is in the dish at all.
func (k *kitchen) rewordedSide(d *dish, do string, step int) string {
	l := &k.lines[d.parts[len(d.parts)-1].line]
	if l.uncut && onlyCuts(d.side.Steps[step]) {
		return "pick over"
	}
	for _, n := range d.side.page.wordings[step] {
		w := &technique.Wordings()[n]
		if w.When == "all" && w.Frames != nil && strings.Contains(do, w.Words) && w.About(l.subject) {
			do = strings.Replace(do, w.Words, w.Told, 1)
		}
		if strings.HasSuffix(w.When, "in the dish") && strings.Contains(do, w.Words) && k.holdsAny(d, w) == (w.When == "in the dish") {
			do = strings.Replace(do, w.Words, w.Told, 1)
		}
	}
	return do
}

// listed joins foods: "carrots, leeks and kale".
func listed(foods []inDish) string {
	var b strings.Builder
	for i, f := range foods {
		switch {
		case i > 0 && i == len(foods)-1:
			b.WriteString(" and ")
		case i > 0:
			b.WriteString(", ")
		}
		b.WriteString(f.name)
	}
	return b.String()
}

// inItsTime gives a step of the frame in the minutes that the food in it takes: never fewer
// than safety wants of any of it at the boil.
func (k *kitchen) inItsTime(d *dish, step int) technique.Step {
	s := d.frame.Steps[step]
	for _, n := range k.pageOf(d).timed[step] {
		w := &technique.Wordings()[n]
		if _, _, ok := k.isWorded(d, w, step); !ok {
			continue
		}
		own := w.Step(s)
		if own.Unattended < s.Unattended && slices.ContainsFunc(k.foodsIn(d, step), func(f *known) bool { return f.boil > own.Unattended }) {
			return s
		}
		return own
	}
	return s
}

// knife finds the steps that do nothing but cut.
var knife = regexp.MustCompile(`^(cut|small even dice|slice|shred|dice)\b`)

// onlyCuts says whether a step of a frame does nothing but cut, so that it falls away where
// there is nothing to cut.
func onlyCuts(s technique.Step) bool {
	return s.Kit == "hands" && s.Unattended == 0 && knife.MatchString(s.What) && !strings.Contains(s.What, "plate") && !strings.Contains(s.What, "dress")
}

// uncutBy gives the grams of each role that need no knife.
func (k *kitchen) uncutBy(d *dish) []float64 {
	grams := make([]float64, len(d.frame.Roles))
	for _, p := range d.parts {
		if p.role != beside && k.lines[p.line].uncut {
			grams[p.role] += p.grams
		}
	}
	for _, b := range d.bought {
		if f := k.foodOf(b); f != nil && b.role > 0 && knownOf(f, false).uncut {
			grams[b.role-1] += b.Amount.Units() * float64(d.serves)
		}
	}
	return grams
}

// cutFirst is where a step cuts before it does something else.
var cutFirst = regexp.MustCompile(`^(cut up what is large, |cut and )`)

// areUncut says whether nothing in the roles, which are not empty, needs a knife.
func (k *kitchen) areUncut(d *dish, step int, roles []int) bool {
	all := k.foodsBy(d, func(role int) bool { return slices.Contains(roles, role) })
	all = slices.DeleteFunc(all, func(f inDish) bool { return keepsOut(d, step, f.food) })
	return len(all) > 0 && !slices.ContainsFunc(all, func(f inDish) bool { return !f.uncut })
}

// withCuts puts the foods that a step cuts behind its words; where there is nothing to cut,
// it says nothing of it.
func (k *kitchen) withCuts(d *dish, do string, step int, roles []int) string {
	all := k.foodsBy(d, func(role int) bool { return slices.Contains(roles, role) })
	all = slices.DeleteFunc(all, func(f inDish) bool { return keepsOut(d, step, f.food) })
	list := slices.DeleteFunc(slices.Clone(all), func(f inDish) bool { return f.uncut })
	if len(all) > 0 && len(list) == 0 {
		return cutFirst.ReplaceAllString(do, "")
	}
	var names []string
	for _, f := range list {
		if strings.Contains(do, f.name) {
			continue
		}
		names = append(names, f.name)
	}
	if len(names) > mostHandled {
		names = append(names[:mostHandled-1], "and the rest")
	}
	if len(names) == 0 {
		return do
	}
	return do + " (" + strings.Join(names, ", ") + ")"
}

// A part of a food that is dinner by itself is told of with how the dish is made, from so
// many tenths of a per cent of its weight, and so many grams in all, on. Common practice, no
// source.
const (
	leastPart  = 140
	leastScrap = 60
)

// partOf tells how the heaviest part of foods that the cook would else throw away becomes
// dinner: leek greens, beetroot leaves, cauliflower leaves. Empty where there is none.
func (k *kitchen) partOf(d *dish) (says string) {
	most := 0.0
	for _, f := range k.foodsBy(d, func(int) bool { return true }) {
		for _, t := range f.food.Trim {
			grams := f.grams * float64(t.Share) / 1000
			if f.cooked || t.When != "" || t.Eaten != food.TreatedWell || t.Share < leastPart || grams < leastScrap || grams <= most {
				continue
			}
			use, _, _ := strings.Cut(t.Use, ";")
			most, says = grams, " "+upper(f.food.Name)+", "+t.Name+": "+use+"."
		}
	}
	return says
}

// nameAll puts the foods of a dish into the words of its steps, and of the other ways of
// each. Those that no step tells of are put behind the first that handles them.
func (k *kitchen) nameAll(d *dish, steps []Step, ways [][]Step) {
	n := len(steps) - d.beside()
	later, raw := k.later(d, steps[:n]), k.rawMeat(d)
	for i := range steps[:n] {
		k.name(d, &steps[i], later)
		tellRaw(&steps[i], raw)
		for w := range ways[i] {
			k.name(d, &ways[i][w], later)
			tellRaw(&ways[i][w], raw)
		}
	}
	for _, p := range d.parts {
		if p.role == beside {
			continue
		}
		l := &k.lines[p.line]
		if at := meltsAt(d, steps[:n], p.role); (melts(l.Food) || isReadyFish(l.Food)) && !l.cooked && at >= 0 {
			k.tellAtTheEnd(l, steps[:n], ways, at)
			continue
		}
		first, any, told := -1, -1, false
		for i := range steps[:n] {
			if slices.Contains(steps[i].roles, p.role) {
				told = told || tellsOf(steps[i].Do, l)
				if any < 0 && !onlyKnife(steps[i].Do) {
					any = i
				}
				if first < 0 && !knife.MatchString(steps[i].Do) || first >= 0 && steps[first].heats() {
					first = i
				}
			} else if steps[i].isHot() && (strings.Contains(steps[i].Do, l.Item) || strings.Contains(steps[i].Do, plural(l.Item))) {
				told = true
			}
		}
		if first < 0 {
			first = any
		}
		if told || n == 0 {
			continue
		}
		if first < 0 { // its own step fell away, or only cuts
			first = finishAt(steps[:n])
		}
		name := l.Item
		if l.several(p.amount) {
			name = plural(name)
		}
		for w := range ways[first] {
			ways[first][w].Do = withName(ways[first][w].Do, name)
		}
		steps[first].Do = withName(steps[first].Do, name)
	}
	k.nameTaste(d, steps[:n], ways[:n])
}

// tellAtTheEnd tells of what no pan takes with the step in which it goes in.
func (k *kitchen) tellAtTheEnd(l *line, steps []Step, ways [][]Step, at int) {
	if slices.ContainsFunc(steps[at:], func(s Step) bool { return strings.Contains(s.Do, l.Item) }) {
		return
	}
	hotAfter := slices.ContainsFunc(steps[at+1:], func(s Step) bool { return s.Kit != "" && slices.Contains(s.After, at) })
	tell := func(s *Step) {
		if isReadyFish(l.Food) {
			s.Do = foldedIn(s.Do, s.Kit != "", hotAfter, l.Item)
			return
		}
		s.Do += "; " + grated(l.Food, l.Item)
	}
	tell(&steps[at])
	for w := range ways[at] {
		tell(&ways[at][w])
	}
}

// onlyKnife says whether words are of cutting and nothing after it.
func onlyKnife(do string) bool {
	return knife.MatchString(do) && !strings.Contains(do, " and ") && !strings.Contains(do, ", ")
}

// tellsOf says whether words tell of a line: by its name or the last word of that, or as "the
// rest" of those that they name.
func tellsOf(do string, l *line) bool {
	last := l.Item[strings.LastIndexByte(l.Item, ' ')+1:]
	for _, name := range []string{l.Item, plural(l.Item), last, plural(last)} {
		if strings.Contains(do, name) {
			return true
		}
	}
	return strings.Contains(do, "the rest") || isOf(l.Food, "noodle", "rice", "grain", "oats") && strings.Contains(do, "grain") ||
		slices.ContainsFunc([]string{"rice", "noodle", "pasta", "bread"}, func(kind string) bool { return isOf(l.Food, kind) && strings.Contains(do, kind) })
}

// withName puts a name behind the words of a step. What goes in with what is cut is not told
// among it.
func withName(do, name string) string {
	if knife.MatchString(do) {
		if head, ok := strings.CutSuffix(do, " with it"); ok {
			return head + " and " + name + " with it"
		}
		return do + "; " + name + " with it"
	}
	if head, ok := strings.CutSuffix(do, ")"); ok {
		return head + ", " + name + ")"
	}
	return do + " (" + name + ")"
}
