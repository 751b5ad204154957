package planner

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"scullion/planner/timetable"
)

// planned writes a dish of a plan down.
func (m *menu) planned(x *plate, number int, g *agenda, t timetable.Result) Planned {
	k := m.kitchen
	c := candidate{line: x.parts[0].line, page: x.page, portions: x.portions, dish: &x.dish}
	i := k.dishIdea(&c)
	p := Planned{
		Key: m.keyOf(&x.dish), Title: i.Title, Frame: x.frame.ID, Palette: i.Palette, How: i.How, Portions: x.portions, Allergens: i.Allergens,
		Cautions: i.Cautions, Uses: i.Uses, Cupboard: i.Cupboard, Missing: k.dishMissing(&x.dish), Holds: x.frame.Holds, Serve: Hot,
	}
	if x.palette != nil {
		p.Seasoned = m.kitchen.paletteName(&x.dish)
	}
	if x.page.cold {
		p.Serve = Cold
	}
	grams, kcal := x.grams, x.kcal
	for _, d := range x.draws {
		if d.part >= 0 {
			grams += x.parts[d.part].grams * d.plated
			kcal += x.parts[d.part].grams * d.kcal
		}
	}
	p.Grams, p.Kcal = int(math.Round(grams/float64(x.portions))), int(math.Round(kcal/float64(x.portions)))
	p.Steps = m.timed(x, number, g, t)
	p.How += g.otherWays(number, t)
	if head, rest, ok := strings.Cut(p.Title, "grilled "); ok && head == "" && !slices.ContainsFunc(p.Steps, func(s PlanStep) bool { return slices.Contains(s.Kit, "grill") }) {
		p.Title = "fried " + rest // in a pan, this time
	}
	for _, s := range p.Steps {
		p.Ready = max(p.Ready, s.Start+s.Minutes)
	}
	return p
}

// timed gives the steps of a dish with their times, in their order. An oven that another
// dish has heated is not heated again.
func (m *menu) timed(x *plate, number int, g *agenda, t timetable.Result) (list []PlanStep) {
	for s := range g.steps[number] {
		step := &g.steps[number][s]
		at := g.task[number][s]
		if name := g.nameOf(at); name != stepName(number, s) {
			continue
		}
		way := g.taken(number, s, t)
		w := g.planWay(way)
		out := PlanStep{ID: stepName(number, s), Do: w.Do, Start: t.Start[at], Minutes: w.Minutes, HandsOn: w.HandsOn, Kit: w.Kit, Temp: w.Temp, Shelves: w.Shelves}
		if step.heats() {
			out.Minutes = g.problem.Tasks[at].Minutes // the longest that any dish asks for
		}
		for _, v := range step.variants() {
			if o := g.planWay(&v); v.Kit != way.Kit || v.shelves != way.shelves {
				out.Else = append(out.Else, o)
			}
		}
		for _, a := range step.After {
			out.After = append(out.After, g.nameOf(g.task[number][a]))
			out.Within = append(out.Within, g.taken(number, a, t).Wait)
		}
		if out.Ends = step.Ends; out.Ends {
			out.Hold = x.hold(g.steps[number], s)
		}
		list = append(list, out)
	}
	slices.SortStableFunc(list, func(a, b PlanStep) int { return cmp.Compare(a.Start, b.Start) })
	withoutKettle(list)
	return list
}

// taken gives the way in which a step of a dish is done.
func (g *agenda) taken(dish, step int, t timetable.Result) *Step {
	mode := 0
	if at := g.task[dish][step]; t.Mode != nil && g.nameOf(at) == stepName(dish, step) {
		mode = t.Mode[at]
	}
	return &g.ways[dish][step][mode]
}

// otherWays tells, behind how a dish is made as a rule, which of its steps are done with other kit this time; "" none.
func (g *agenda) otherWays(dish int, t timetable.Result) string {
	var list []string
	for s := range g.steps[dish] {
		usual, way := &g.steps[dish][s], g.taken(dish, s, t)
		if way.Kit != usual.Kit && !usual.heats() {
			list = append(list, way.Do)
		}
	}
	if len(list) == 0 {
		return ""
	}
	return " This time: " + strings.Join(list, "; ") + "."
}

// planWay writes a way of a step down.
func (g *agenda) planWay(s *Step) PlanWay {
	w := PlanWay{Do: s.Do, Minutes: s.whole, HandsOn: s.hands, Kit: []string{}, Temp: s.Temp, Shelves: s.shelves, Wait: s.Wait}
	if s.Kit != "" {
		w.Kit = append(w.Kit, s.Kit)
	}
	if at, ok := g.temp[s.Temp]; ok && s.Kit == "oven" {
		w.Temp = at
	}
	return w
}

// stepName: "a0" is the first step of the first dish.
func stepName(dish, step int) string { return fmt.Sprintf("%c%d", 'a'+rune(dish), step) }

// nameOf names a task by the first step that it stands for.
func (g *agenda) nameOf(task int) string {
	for d := range g.task {
		if s := slices.Index(g.task[d], task); s >= 0 {
			return stepName(d, s)
		}
	}
	return ""
}

// assign says whose hands each step takes: those of a cook who is free, and of these the
// one who was at that dish before.
func assign(dishes []Planned, cooks int) { assignFrom(dishes, cooks, 0, nil, nil) }

// assignFrom is assign for what begins from now on; what has begun keeps its cook, and
// cooks who have gone get nothing more, and who is held nothing until then.
func assignFrom(dishes []Planned, cooks, now int, gone map[int]bool, held map[int]int) {
	type hand struct{ dish, step int }
	var all []hand
	for d := range dishes {
		for s := range dishes[d].Steps {
			if dishes[d].Steps[s].HandsOn > 0 {
				all = append(all, hand{d, s})
			}
		}
	}
	at := func(h hand) *PlanStep { return &dishes[h.dish].Steps[h.step] }
	slices.SortStableFunc(all, func(a, b hand) int { return cmp.Compare(at(a).Start, at(b).Start) })
	free := make([]int, cooks)
	before := make([]int, cooks) // the dish that a cook was at
	for i := range before {
		before[i] = -1
		free[i] = held[i+1]
	}
	for _, h := range all {
		if s := at(h); s.Start < now && s.Cook > 0 && s.Cook <= cooks {
			free[s.Cook-1], before[s.Cook-1] = max(free[s.Cook-1], s.Start+s.HandsOn), h.dish
		}
	}
	for _, h := range all {
		s := at(h)
		if s.Start < now {
			continue
		}
		best := -1
		for c := range free {
			if free[c] > s.Start || gone[c+1] {
				continue
			}
			if best < 0 || before[c] == h.dish && before[best] != h.dish {
				best = c
			}
		}
		if best < 0 {
			s.Cook = 0 // hands that are held for something else
			continue
		}
		s.Cook, free[best], before[best] = best+1, s.Start+s.HandsOn, h.dish
	}
}
