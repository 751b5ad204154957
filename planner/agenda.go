package planner

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"scullion/planner/technique"
	"scullion/planner/timetable"
)

// The kitchen's own rules of time. All are common practice, no source.
const (
	shelves      = 2  // trays that an oven bakes at once
	togetherTemp = 10 // C by which dishes that share an oven may differ
	onceBoiled   = 2  // minutes that water at the boil waits, on its ring
	onceKettled  = 10 // minutes that a kettle waits
	onceHot      = 15 // minutes that what is cooked waits for the next step
	atOnce       = 3  // minutes that what must be served now waits
)

// What a way that is not the usual one counts for, in minutes of waiting: of timetables that
// end alike the one with the usual ways is taken unless food waits longer in it. The
// planner's own judgement, no source.
const (
	otherKit = 10
	fullOven = 1
)

// agenda is the steps of a menu as a timetable has them.
type agenda struct {
	problem timetable.Problem
	steps   [][]Step    // of each dish
	ways    [][][]Step  // for each dish and step its ways, as the modes of its task
	task    [][]int     // for each dish and step its task
	temp    map[int]int // for each temperature of an oven the one that dishes that share it agree on
	all     bool        // other ways are tried where there is kit for the usual one
}

// agendaOf puts the steps of dishes into numbers. Resource 0 is hands, then the scarce
// kit. Ovens that are to be heated to one temperature are heated once.
func (m *menu) agendaOf(chosen []*plate, all bool) *agenda {
	g := &agenda{all: all}
	p := &g.problem
	p.Due = m.ask.Minutes
	p.Capacity = []int{m.ask.Cooks}
	p.Setting = []bool{false}
	for _, word := range technique.Scarce {
		n := m.ask.Kit[word]
		if word == "oven" {
			n *= shelves
		}
		p.Capacity = append(p.Capacity, n)
		p.Setting = append(p.Setting, word == "oven")
	}
	for _, x := range chosen {
		g.steps = append(g.steps, m.kitchen.steps(&x.dish))
	}
	g.heats()
	crowded := g.crowded(chosen)
	heated := map[int]int{} // temperature: the task that heats the oven to it
	var last []int
	var waits []int
	for i, x := range chosen {
		g.task = append(g.task, make([]int, len(g.steps[i])))
		g.ways = append(g.ways, make([][]Step, len(g.steps[i])))
		for s := range g.steps[i] {
			step := &g.steps[i][s]
			ways := g.waysOf(step, crowded)
			g.ways[i][s] = ways
			t := g.taskOf(ways)
			if step.heats() && step.Kit == "oven" {
				if at, ok := heated[t.Setting]; ok {
					p.Tasks[at].Minutes = max(p.Tasks[at].Minutes, t.Minutes)
					g.task[i][s] = at
					continue
				}
				heated[t.Setting] = len(p.Tasks)
			}
			for _, a := range step.After {
				t.After = append(t.After, g.task[i][a])
				t.Within = append(t.Within, waitOfAny(g.ways[i][a]))
			}
			if step.Ends {
				t.Weight += 2
				last = append(last, len(p.Tasks))
				waits = append(waits, x.hold(g.steps[i], s))
			}
			g.task[i][s] = len(p.Tasks)
			p.Tasks = append(p.Tasks, t)
		}
	}
	p.Tasks = append(p.Tasks, timetable.Task{After: last, Within: waits}) // to the table
	for _, b := range m.ask.Busy {
		if t, ok := m.held(b); ok {
			p.Tasks = append(p.Tasks, t)
		}
	}
	return g
}

// held is a task that holds kit or hands for a while.
func (m *menu) held(b Busy) (timetable.Task, bool) {
	needs := make([]int, 1+len(technique.Scarce))
	at := 1 + slices.Index(technique.Scarce, b.What)
	if b.What == "hands" {
		at = 0
	} else if at == 0 || m.ask.Kit[b.What] == 0 { // what is not there is not held either
		return timetable.Task{}, false
	}
	from, to := max(0, b.From), min(b.To, m.ask.Minutes)
	if to <= from {
		return timetable.Task{}, false
	}
	needs[at] = 1
	return timetable.Task{Minutes: to - from, Needs: needs, Earliest: from, Latest: to}, true
}

// waysOf gives the ways of a step that are to be tried, the usual first.
func (g *agenda) waysOf(s *Step, crowded map[int]bool) (list []Step) {
	for _, v := range s.variants() {
		if s.mayBe(&v, g.all) && (v.shelves != 1 || crowded[g.temp[v.Temp]]) {
			list = append(list, v)
		}
	}
	return list
}

// taskOf gives the ways of a step as a task and its modes.
func (g *agenda) taskOf(ways []Step) timetable.Task {
	usual := &ways[0]
	first := g.modeOf(usual)
	t := timetable.Task{Minutes: first.Minutes, Needs: first.Needs, For: first.For, Setting: first.Setting}
	if usual.Kit != "" && !usual.heats() {
		t.Weight = 1
	}
	for i := range ways[1:] {
		w := &ways[1+i]
		x := g.modeOf(w)
		if x.Cost = fullOven; w.Kit != usual.Kit {
			x.Cost = otherKit
		}
		t.Else = append(t.Else, x)
	}
	return t
}

// modeOf gives a way of a step in whole minutes.
func (g *agenda) modeOf(s *Step) timetable.Mode {
	t := timetable.Mode{Minutes: s.whole, Needs: make([]int, 1+len(technique.Scarce))}
	if h := s.hands; h > 0 {
		t.Needs[0] = 1
		if h < t.Minutes {
			t.For = make([]int, len(t.Needs))
			t.For[0] = h
		}
	}
	if at := slices.Index(technique.Scarce, s.Kit); at >= 0 {
		t.Needs[1+at] = max(1, s.shelves)
	}
	if s.Kit == "oven" {
		t.Setting = g.temp[s.Temp]
	}
	return t
}

// waitOfAny gives the minutes that what a step makes may wait, however it is done.
func waitOfAny(ways []Step) int {
	least := -1
	for i := range ways {
		least = sooner(least, ways[i].Wait)
	}
	return least
}

// crowded says for each temperature whether more than one dish, or a dish and what is
// beside it, may be in the oven at it.
func (g *agenda) crowded(chosen []*plate) map[int]bool {
	loads := map[int]int{}
	for i, x := range chosen {
		steps, n := g.steps[i], len(g.steps[i])-x.beside()
		for _, of := range [][]Step{steps[:n], steps[n:]} {
			seen := map[int]bool{}
			for s := range of {
				for _, v := range of[s].variants() {
					if at := g.temp[v.Temp]; v.shelves == 1 && of[s].mayBe(&v, g.all) && !seen[at] {
						seen[at] = true
						loads[at]++
					}
				}
			}
		}
	}
	crowded := map[int]bool{}
	for at, n := range loads {
		crowded[at] = n > 1
	}
	return crowded
}

// inMinutes gives steps in whole minutes. What rounding gives to one step it takes from the
// next, so that a dish of many small steps does not take longer for it; a step takes a
// minute at least, and turning a knob no hands.
func inMinutes(steps []Step) {
	owed := 0.0
	for i := range steps {
		s := &steps[i]
		alone := s.Minutes - s.HandsOn
		hands := int(math.Round(s.HandsOn - owed))
		if alone < 0.5 || hands < 0 {
			hands = max(hands, 1)
		}
		if s.HandsOn < 0.5 && alone >= 0.5 {
			hands = 0
		}
		owed += float64(hands) - s.HandsOn
		s.hands = hands
		s.whole = max(1, hands+int(math.Round(alone)))
	}
}

func (s *Step) heats() bool { return strings.HasPrefix(s.Do, "heat ") }

// beside gives how many of the last steps of a dish are of what stands beside it.
func (d *dish) beside() int {
	if d.side == nil {
		return 0
	}
	return len(d.side.Steps)
}

// heats finds for each temperature that an oven may be wanted at the one that it gets:
// those near enough get the highest of them.
func (g *agenda) heats() {
	var list []int
	note := func(s *Step) {
		if s.Kit == "oven" && !slices.Contains(list, s.Temp) {
			list = append(list, s.Temp)
		}
	}
	for _, steps := range g.steps {
		for s := range steps {
			note(&steps[s])
			for w := range steps[s].ways {
				if v := &steps[s].ways[w]; steps[s].mayBe(v, g.all) {
					note(v)
				}
			}
		}
	}
	slices.Sort(list)
	g.temp = map[int]int{}
	for i := 0; i < len(list); {
		j := i
		for j < len(list) && list[j]-list[i] <= togetherTemp {
			j++
		}
		for _, t := range list[i:j] {
			g.temp[t] = list[j-1]
		}
		i = j
	}
}

// waitOf gives the minutes that what a step makes may wait for the next; -1 any. What is
// mashed, or rested, or stirred into what is hot, is hot still.
func waitOf(steps []Step, at int, holds []string, hot bool) int {
	s := &steps[at]
	switch {
	case s.heats():
		return -1
	case s.Kit == "kettle":
		return onceKettled
	case s.Kit == "ring" && s.Temp >= 98 && s.HandsOn < 1 && strings.HasPrefix(s.Do, "bring"):
		return onceBoiled
	case strings.HasPrefix(s.Do, "toast the bread"): // it goes soft, or hard
		return atOnce
	case s.isHot():
		return min(onceHot, holdOf(holds)) // what does not hold on the plate does not hold in the pan
	case hot && s.Kit == "" && slices.ContainsFunc(s.After, func(a int) bool { return steps[a].isHot() && !steps[a].heats() }):
		return onceHot
	}
	return -1
}

func (s *Step) isHot() bool {
	return slices.Contains([]string{"ring", "grill", "microwave", "oven"}, s.Kit)
}

// hold gives the minutes that what a step ends may wait for the rest of the menu: what is
// cold any.
func (x *plate) hold(steps []Step, s int) int {
	if x.side != nil && s == len(steps)-1 {
		if x.side.page.cold {
			return -1
		}
		return holdOf(x.side.Holds)
	}
	if x.frame.Serve == "cold" {
		return -1
	}
	last := len(steps) - 1
	if x.side != nil {
		last -= len(x.side.Steps)
	}
	if s != last { // rice under its lid beside the curry
		return max(steps[s].Wait, holdOf(x.frame.Holds))
	}
	return holdOf(x.frame.Holds)
}

// holdOf gives the minutes that hot food holds.
func holdOf(holds []string) int {
	for _, h := range holds {
		if h == "serve now" {
			return atOnce
		}
		w := strings.Fields(h)
		if len(w) == 3 && (w[0] == "hot" || w[0] == "warm") && w[2] == "min" {
			n, _ := strconv.Atoi(w[1])
			return n
		}
	}
	return onceHot
}

// How long a timetable for a choice is sought before it is taken for one that cannot be
// found.
const (
	fitting        = 500 * time.Millisecond
	fittingInHaste = 20 * time.Millisecond
)

// fits says whether the dishes of those numbers can be ready together in time.
func (m *menu) fits(chosen []int) bool {
	if m.unfit[fmt.Sprint(chosen)] {
		return false
	}
	if len(chosen) == 1 {
		return m.fitsAlone(&m.plates[chosen[0]])
	}
	var list []*plate
	for _, n := range chosen {
		list = append(list, &m.plates[n])
	}
	return m.fitTogether(list)
}

// fitTogether says whether dishes can be ready together in time: in their usual ways, or
// else in any.
func (m *menu) fitTogether(list []*plate) bool {
	most := fitting
	if m.haste {
		most = fittingInHaste
	}
	doubt := false
	for _, all := range []bool{false, true} {
		g := m.agendaOf(list, all)
		if all && (m.usual || !g.isWider()) {
			break
		}
		ctx, cancel := context.WithTimeout(context.Background(), most)
		_, err := timetable.First(ctx, g.problem)
		cancel()
		if err == nil {
			return true
		}
		doubt = doubt || errors.Is(err, timetable.ErrNoneFound)
	}
	m.doubt = m.doubt || doubt
	return false
}

// isWider says whether more ways are open than where only those are tried that must be.
func (g *agenda) isWider() bool {
	for i := range g.steps {
		for s := range g.steps[i] {
			x := &g.steps[i][s]
			if slices.ContainsFunc(g.ways[i][s], func(v Step) bool { return !x.mayBe(&v, false) }) {
				return true
			}
		}
	}
	return false
}
