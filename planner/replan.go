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
}

// ErrNoRest is given where what has not begun cannot be done with the kit and the hands
// that are left.
var ErrNoRest = errors.New("what is left of the plan cannot be done so")

// Replan puts what has not begun into a timetable anew: everything ready as early as can
// be, then the least waiting. Waits that cannot be kept any more are let go. Of r it
// changes nothing. It gives the dishes with their new times, and the minute when all is
// ready; proven says that it cannot be earlier.
func Replan(ctx context.Context, r Rest) (dishes []Planned, minutes int, proven bool, err error) {
	dishes = make([]Planned, len(r.Dishes))
	for i, d := range r.Dishes {
		d.Steps = slices.Clone(d.Steps)
		dishes[i] = d
	}
	t, tasks, err := r.solve(ctx, true)
	if errors.Is(err, timetable.ErrInfeasible) {
		t, tasks, err = r.solve(ctx, false)
	}
	switch {
	case errors.Is(err, timetable.ErrInfeasible), errors.Is(err, timetable.ErrInvalid):
		return nil, 0, false, ErrNoRest
	case errors.Is(err, timetable.ErrNoneFound):
		return nil, 0, false, ErrNoTime
	case err != nil:
		return nil, 0, false, err
	}
	for d := range dishes {
		dishes[d].Ready = 0
		for s := range dishes[d].Steps {
			x := &dishes[d].Steps[s]
			x.Start = t.Start[tasks[d][s]]
			dishes[d].Ready = max(dishes[d].Ready, x.Start+x.Minutes)
		}
		slices.SortStableFunc(dishes[d].Steps, func(a, b PlanStep) int { return a.Start - b.Start })
		minutes = max(minutes, dishes[d].Ready)
	}
	assignFrom(dishes, r.Cooks, r.Now, r.Gone, r.Held)
	return dishes, minutes, t.Proven, nil
}

// begun says whether a step has begun by now.
func (r *Rest) begun(s *PlanStep) bool { return s.Start < r.Now }

// solve finds a timetable; tasks are the numbers of the steps in it. Where waits are not
// kept, what is ready waits as long as it must.
func (r *Rest) solve(ctx context.Context, waits bool) (t timetable.Result, tasks [][]int, err error) {
	p := timetable.Problem{Capacity: []int{max(0, r.Cooks-len(r.Gone))}, Setting: []bool{false}}
	for _, word := range technique.Scarce {
		n := r.Kit[word]
		if word == "oven" {
			n *= shelves
		}
		p.Capacity, p.Setting = append(p.Capacity, n), append(p.Setting, word == "oven")
	}
	number := map[string]int{}
	for d := range r.Dishes {
		tasks = append(tasks, nil)
		for s := range r.Dishes[d].Steps {
			number[r.Dishes[d].Steps[s].ID] = len(p.Tasks)
			tasks[d] = append(tasks[d], len(p.Tasks))
			p.Tasks = append(p.Tasks, timetable.Task{})
		}
	}
	from, last := timetable.Result{}, 0 // the times as they were: if they still hold, they are an answer
	end := timetable.Task{}
	for d := range r.Dishes {
		dish := &r.Dishes[d]
		for s := range dish.Steps {
			x := &dish.Steps[s]
			task := r.task(x, &p)
			for i, a := range x.After {
				if at, ok := number[a]; ok {
					task.After = append(task.After, at)
					wait := -1
					if waits && i < len(x.Within) {
						wait = x.Within[i]
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
			end.After, end.Within = append(end.After, tasks[d][s]), append(end.Within, wait)
			p.Tasks[tasks[d][s]] = task
			from.Start = append(from.Start, x.Start)
			last = max(last, x.Start+x.Minutes)
		}
	}
	p.Tasks = append(p.Tasks, end)
	from.Start = append(from.Start, last)
	for cook := range r.Cooks {
		if until := r.Held[cook+1]; until > r.Now && p.Capacity[0] > 0 {
			needs := make([]int, len(p.Capacity))
			needs[0] = 1
			p.Tasks = append(p.Tasks, timetable.Task{Minutes: until - r.Now, Needs: needs, Earliest: r.Now, Latest: until})
			from.Start = append(from.Start, r.Now)
		}
	}
	t, err = timetable.SolveFrom(ctx, p, from, nil)
	return t, tasks, err
}

// task is a step as it may still be done: what has begun is where it is, and keeps kit that
// is there no more.
func (r *Rest) task(x *PlanStep, p *timetable.Problem) timetable.Task {
	t := timetable.Task{Minutes: x.Minutes, Needs: make([]int, len(p.Capacity)), Earliest: r.Now, Setting: x.Temp}
	if x.HandsOn > 0 {
		t.Needs[0] = 1
		if x.HandsOn < x.Minutes {
			t.For = make([]int, len(t.Needs))
			t.For[0] = x.HandsOn
		}
	}
	for _, k := range x.Kit {
		at := slices.Index(technique.Scarce, k)
		if at < 0 {
			continue
		}
		t.Needs[1+at] = 1
		if !strings.HasPrefix(x.Do, "heat ") {
			t.Weight = 1
		}
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
