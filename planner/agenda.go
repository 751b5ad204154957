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

// agenda is the steps of a menu as a timetable has them.
type agenda struct {
	problem timetable.Problem
	steps   [][]Step // of each dish
	task    [][]int  // for each dish and step its task
	temp    [][]int  // the oven's temperature, which dishes that share it agree on
}

// agendaOf puts the steps of dishes into numbers. Resource 0 is hands, then the scarce
// kit. Ovens that are to be heated to one temperature are heated once.
func (m *menu) agendaOf(chosen []*plate) *agenda {
	g := &agenda{}
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
	temps := g.heats()
	heated := map[int]int{} // temperature: the task that heats the oven to it
	var last []int
	var waits []int
	for i, x := range chosen {
		g.task = append(g.task, make([]int, len(g.steps[i])))
		g.temp = append(g.temp, make([]int, len(g.steps[i])))
		for s := range g.steps[i] {
			step := &g.steps[i][s]
			t := m.taskOf(step, x)
			if step.Kit == "oven" {
				g.temp[i][s] = temps[step.Temp]
				t.Setting = temps[step.Temp]
			}
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
				t.Within = append(t.Within, g.steps[i][a].Wait)
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
	} else if at == 0 {
		return timetable.Task{}, false
	}
	from, to := max(0, b.From), min(b.To, m.ask.Minutes)
	if to <= from {
		return timetable.Task{}, false
	}
	needs[at] = 1
	return timetable.Task{Minutes: to - from, Needs: needs, Earliest: from, Latest: to}, true
}

// taskOf gives a step in whole minutes.
func (m *menu) taskOf(s *Step, x *plate) timetable.Task {
	t := timetable.Task{Minutes: s.whole, Needs: make([]int, 1+len(technique.Scarce))}
	if h := s.hands; h > 0 {
		t.Needs[0] = 1
		if h < t.Minutes {
			t.For = make([]int, len(t.Needs))
			t.For[0] = h
		}
	}
	if at := slices.Index(technique.Scarce, s.Kit); at >= 0 {
		t.Needs[1+at] = 1
		if !s.heats() {
			t.Weight = 1
		}
	}
	return t
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

// heats gives for each temperature that an oven is wanted at the one that it gets: those
// near enough get the highest of them.
func (g *agenda) heats() map[int]int {
	var list []int
	for _, steps := range g.steps {
		for _, s := range steps {
			if s.Kit == "oven" && !slices.Contains(list, s.Temp) {
				list = append(list, s.Temp)
			}
		}
	}
	slices.Sort(list)
	out := map[int]int{}
	for i := 0; i < len(list); {
		j := i
		for j < len(list) && list[j]-list[i] <= togetherTemp {
			j++
		}
		for _, t := range list[i:j] {
			out[t] = list[j-1]
		}
		i = j
	}
	return out
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
	case s.isHot():
		if slices.Contains(holds, "serve now") {
			return atOnce
		}
		return onceHot
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
		return steps[s].Wait + holdOf(x.frame.Holds)
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

// fitTogether says whether dishes can be ready together in time.
func (m *menu) fitTogether(list []*plate) bool {
	most := fitting
	if m.haste {
		most = fittingInHaste
	}
	ctx, cancel := context.WithTimeout(context.Background(), most)
	defer cancel()
	_, err := timetable.First(ctx, m.agendaOf(list).problem)
	if errors.Is(err, timetable.ErrNoneFound) {
		m.doubt = true
	}
	return err == nil
}
