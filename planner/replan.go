package planner

import (
	"context"
	"errors"
	"slices"
	"strings"

	"scullion/planner/technique"
	"scullion/planner/timetable"
)

// Rest is a plan that has begun, as it stands: what was begun keeps its time, the rest can
// move. Minutes are counted from the start of the service.
type Rest struct {
	Dishes []Planned
	Now    int
	Cooks  int
	Kit    map[string]int
	Gone   map[int]bool // cooks who have left: what they began they have finished
	Held   map[int]int  // cooks who are at something else, and until when
	From   int          // all is to be ready no sooner than this minute; 0 as soon as can be
}

// ErrNoRest is given where what has not begun cannot be done with the kit and the hands
// that are left.
var ErrNoRest = errors.New("what is left of the plan cannot be done so")

// leastGain is how many minutes sooner all must be ready for a plan that is late to change
// to other ways. The planner's own judgement, no source.
const leastGain = 3

// longestService is the minutes in which whatever is left is done, if it can be.
const longestService = 24 * 60

// Replan puts what has not begun into a timetable anew: everything ready as early as can
// be, then the least waiting. A step whose kit is gone is done another way, where it has
// one; other steps are where waits cannot be kept otherwise, or where that saves a late
// plan some minutes (leastGain), but what has an oven stays in it. Waits that cannot be
// kept so either are let go. Of r it changes nothing. It gives the dishes with their new times, and the minute when all is ready;
// proven says that it cannot be earlier.
func Replan(ctx context.Context, r Rest) (dishes []Planned, minutes int, proven bool, err error) {
	t, g, err := r.solve(ctx, true, 0)
	if errors.Is(err, timetable.ErrInfeasible) && r.isWider() {
		t, g, err = r.solve(ctx, true, longestService)
	}
	if errors.Is(err, timetable.ErrInfeasible) {
		t, g, err = r.solve(ctx, false, 0)
	}
	switch {
	case errors.Is(err, timetable.ErrInfeasible), errors.Is(err, timetable.ErrInvalid):
		return nil, 0, false, ErrNoRest
	case errors.Is(err, timetable.ErrNoneFound):
		return nil, 0, false, ErrNoTime
	case err != nil:
		return nil, 0, false, err
	}
	proven = t.Proven
	if due := t.Makespan - leastGain; t.Makespan > max(r.ready(), r.From) && due > 0 && r.isWider() {
		sooner, wider, err := r.solve(ctx, g.waits, due)
		switch {
		case err == nil:
			t, g, proven = sooner, wider, sooner.Proven
		case !errors.Is(err, timetable.ErrInfeasible):
			proven = false
		}
	}
	dishes = g.write(&r, t)
	for _, d := range dishes {
		minutes = max(minutes, d.Ready)
	}
	assignFrom(dishes, r.Cooks, r.Now, r.Gone, r.Held)
	return dishes, minutes, proven, nil
}

// ready is when all was to be ready.
func (r *Rest) ready() (last int) {
	for _, d := range r.Dishes {
		last = max(last, d.Ready)
	}
	return last
}

// begun says whether a step has begun by now.
func (r *Rest) begun(s *PlanStep) bool { return s.Start < r.Now }

// rest is the rest of a plan as a timetable has it.
type rest struct {
	problem timetable.Problem
	waits   bool      // what is ready waits no longer than it may
	task    [][]int   // for each dish and step its task
	ways    [][][]int // and its modes: -1 as it stands, else the number in Else
}

// solve finds a timetable. Where waits are not kept, what is ready waits as long as it
// must; with a minute when it is due, any way may be taken.
func (r *Rest) solve(ctx context.Context, waits bool, due int) (t timetable.Result, g *rest, err error) {
	g = &rest{waits: waits, problem: timetable.Problem{Capacity: []int{max(0, r.Cooks-len(r.Gone))}, Setting: []bool{false}, Due: due}}
	p := &g.problem
	for _, word := range technique.Scarce {
		n := r.Kit[word]
		if word == "oven" {
			n *= shelves
		}
		p.Capacity, p.Setting = append(p.Capacity, n), append(p.Setting, word == "oven")
	}
	number := map[string]int{}
	mayWait := map[string]int{} // the least of what the ways of a step say, negative any
	for d := range r.Dishes {
		g.task, g.ways = append(g.task, nil), append(g.ways, nil)
		for s := range r.Dishes[d].Steps {
			x := &r.Dishes[d].Steps[s]
			number[x.ID], mayWait[x.ID] = len(p.Tasks), -1
			g.task[d] = append(g.task[d], len(p.Tasks))
			g.ways[d] = append(g.ways[d], r.waysOf(x, due > 0))
			for _, w := range g.ways[d][s][1:] {
				mayWait[x.ID] = sooner(mayWait[x.ID], x.Else[w].Wait)
			}
			p.Tasks = append(p.Tasks, timetable.Task{})
		}
	}
	from, last := timetable.Result{}, 0 // the times as they were: if they still hold, they are an answer
	end := timetable.Task{Earliest: r.From}
	var facts []fact
	for d := range r.Dishes {
		dish := &r.Dishes[d]
		for s := range dish.Steps {
			x := &dish.Steps[s]
			task := r.task(x, g.ways[d][s], p)
			if r.begun(x) {
				facts = append(facts, fact{g.task[d][s], x.Start, x.Start + x.Minutes, x.Start + x.HandsOn})
			}
			for i, a := range x.After {
				if at, ok := number[a]; ok && !r.begun(x) {
					task.After = append(task.After, at)
					wait := -1
					if waits && i < len(x.Within) {
						wait = sooner(x.Within[i], mayWait[a])
					}
					task.Within = append(task.Within, wait)
				}
			}
			wait := -1
			if x.Ends {
				task.Weight += 2
				if waits {
					wait = x.Hold
				}
			}
			end.After, end.Within = append(end.After, g.task[d][s]), append(end.Within, wait)
			p.Tasks[g.task[d][s]] = task
			from.Start = append(from.Start, x.Start)
			last = max(last, x.Start+x.Minutes)
		}
	}
	p.Tasks = append(p.Tasks, end)
	from.Start = append(from.Start, max(last, r.From))
	for cook := range r.Cooks {
		if until := r.Held[cook+1]; until > r.Now && p.Capacity[0] > 0 && !r.Gone[cook+1] {
			needs := make([]int, len(p.Capacity))
			needs[0] = 1
			facts = append(facts, fact{len(p.Tasks), r.Now, until, until})
			p.Tasks = append(p.Tasks, timetable.Task{Minutes: until - r.Now, Needs: needs, Earliest: r.Now, Latest: until})
			from.Start = append(from.Start, r.Now)
		}
	}
	allow(p, facts)
	t, err = timetable.SolveFrom(ctx, *p, from, nil)
	return t, g, err
}

// fact is a task that is as it is: from when to when it is on, and until when it takes hands.
type fact struct{ task, from, to, hands int }

// allow lets what has begun be, whatever was said of it: kit and hands that two steps would hold at once beyond what there is,
// or an oven at two temperatures, only the first of them holds.
func allow(p *timetable.Problem, facts []fact) {
	slices.SortStableFunc(facts, func(a, b fact) int { return a.from - b.from })
	for i, most := range p.Capacity {
		used := map[int]int{}
		var hot []fact
		for _, f := range facts {
			t := &p.Tasks[f.task]
			if len(t.Needs) == 0 || t.Needs[i] == 0 {
				continue
			}
			to := f.to
			if i == 0 {
				to = f.hands
			}
			fits := !p.Setting[i] || !slices.ContainsFunc(hot, func(o fact) bool {
				return p.Tasks[o.task].Setting != t.Setting && o.to > f.from
			}) && !between(p, hot, t.Setting)
			for m := f.from; m < to; m++ {
				fits = fits && used[m]+t.Needs[i] <= most
			}
			if !fits {
				t.Needs = slices.Clone(t.Needs)
				t.Needs[i] = 0
				continue
			}
			for m := f.from; m < to; m++ {
				used[m] += t.Needs[i]
			}
			hot = append(hot, f)
		}
	}
}

// between says whether the last of some tasks, in their order, had another setting, and an earlier one this.
func between(p *timetable.Problem, list []fact, setting int) bool {
	return len(list) > 0 && p.Tasks[list[len(list)-1].task].Setting != setting &&
		slices.ContainsFunc(list, func(f fact) bool { return p.Tasks[f.task].Setting == setting })
}

// waysOf gives the ways in which a step may still be done: as it stands, -1, and others.
func (r *Rest) waysOf(x *PlanStep, all bool) []int {
	list := []int{-1}
	if r.begun(x) {
		return list
	}
	for n := range x.Else {
		w := &x.Else[n]
		if slices.Equal(w.Kit, x.Kit) || r.isGone(x.Kit) || all && !slices.Contains(x.Kit, "oven") {
			list = append(list, n)
		}
	}
	return list
}

// isGone says whether any of the kit is there no more.
func (r *Rest) isGone(kit []string) bool {
	return slices.ContainsFunc(kit, func(k string) bool { return slices.Contains(technique.Scarce, k) && r.Kit[k] == 0 })
}

// isWider says whether any step that has not begun has other ways than must be tried.
func (r *Rest) isWider() bool {
	for d := range r.Dishes {
		for s := range r.Dishes[d].Steps {
			if x := &r.Dishes[d].Steps[s]; len(r.waysOf(x, true)) > len(r.waysOf(x, false)) {
				return true
			}
		}
	}
	return false
}

// falls says whether a step falls away: what is gone is not heated.
func (r *Rest) falls(x *PlanStep) bool {
	return !r.begun(x) && strings.HasPrefix(x.Do, "heat ") && r.isGone(x.Kit)
}

// task is a step as it may still be done: what has begun is where it is, and keeps kit that
// is there no more.
func (r *Rest) task(x *PlanStep, ways []int, p *timetable.Problem) timetable.Task {
	if r.falls(x) {
		return timetable.Task{Earliest: r.Now}
	}
	stands := PlanWay{Minutes: x.Minutes, HandsOn: x.HandsOn, Kit: x.Kit, Temp: x.Temp, Shelves: x.Shelves}
	m := modeOf(&stands, p)
	t := timetable.Task{Minutes: m.Minutes, Needs: m.Needs, For: m.For, Setting: m.Setting, Earliest: r.Now}
	if slices.ContainsFunc(x.Kit, func(k string) bool { return slices.Contains(technique.Scarce, k) }) && !strings.HasPrefix(x.Do, "heat ") {
		t.Weight = 1
	}
	for _, n := range ways[1:] {
		m := modeOf(&x.Else[n], p)
		if m.Cost = fullOven; !slices.Equal(x.Else[n].Kit, x.Kit) {
			m.Cost = otherKit
		}
		t.Else = append(t.Else, m)
	}
	if r.begun(x) {
		t.Earliest, t.Latest = x.Start, x.Start+x.Minutes
		for i, n := range t.Needs {
			if n > p.Capacity[i] || i == 0 && r.Gone[x.Cook] { // it was broken since, or has left
				t.Needs[i] = 0
			}
		}
	}
	return t
}

// modeOf gives a way of a step to a timetable.
func modeOf(w *PlanWay, p *timetable.Problem) timetable.Mode {
	m := timetable.Mode{Minutes: w.Minutes, Needs: make([]int, len(p.Capacity)), Setting: w.Temp}
	if w.HandsOn > 0 {
		m.Needs[0] = 1
		if w.HandsOn < w.Minutes {
			m.For = make([]int, len(m.Needs))
			m.For[0] = w.HandsOn
		}
	}
	for _, k := range w.Kit {
		if at := slices.Index(technique.Scarce, k); at >= 0 {
			m.Needs[1+at] = 1
			if k == "oven" {
				m.Needs[1+at] = max(1, w.Shelves)
			}
		}
	}
	return m
}
