package timetable

import (
	"fmt"
	"slices"
)

// verify looks at a timetable from outside, minute by minute, and says what is wrong with it. It knows the problem as
// it is documented and nothing of how it is solved.
func verify(p Problem, r Result) error {
	if len(r.Start) != len(p.Tasks) {
		return fmt.Errorf("%d starts for %d tasks", len(r.Start), len(p.Tasks))
	}
	done := make([]Mode, len(p.Tasks)) // as done
	others := false
	for i, t := range p.Tasks {
		others = others || len(t.Else) > 0
		done[i] = Mode{Minutes: t.Minutes, Needs: t.Needs, For: t.For, Setting: t.Setting}
		if r.Mode != nil && r.Mode[i] != 0 {
			if r.Mode[i] < 0 || r.Mode[i] > len(t.Else) {
				return fmt.Errorf("task %d in mode %d", i, r.Mode[i])
			}
			done[i] = t.Else[r.Mode[i]-1]
		}
	}
	if others != (r.Mode != nil) {
		return fmt.Errorf("modes %v, other ways: %v", r.Mode, others)
	}
	end, last := make([]int, len(p.Tasks)), 0
	for i := range p.Tasks {
		end[i] = r.Start[i] + done[i].Minutes
		last = max(last, end[i])
	}
	waiting := 0
	for i, t := range p.Tasks {
		waiting += t.Weight*(last-end[i]) + done[i].Cost
		if r.Start[i] < t.Earliest || r.Start[i] < 0 {
			return fmt.Errorf("task %d starts at %d, too early", i, r.Start[i])
		}
		if t.Latest > 0 && end[i] > t.Latest {
			return fmt.Errorf("task %d ends at %d, too late", i, end[i])
		}
		for k, j := range t.After {
			gap := r.Start[i] - end[j]
			if gap < 0 {
				return fmt.Errorf("task %d starts %d minutes before task %d has ended", i, -gap, j)
			}
			if t.Within != nil && t.Within[k] >= 0 && gap > t.Within[k] {
				return fmt.Errorf("task %d starts %d minutes after task %d has ended", i, gap, j)
			}
		}
	}
	if p.Due > 0 && last > p.Due {
		return fmt.Errorf("all ends at %d", last)
	}
	for k := range p.Capacity {
		if err := verifyResource(p, r.Start, done, k, last); err != nil {
			return err
		}
	}
	switch {
	case last != r.Makespan:
		return fmt.Errorf("makespan is %d", last)
	case waiting != r.Waiting:
		return fmt.Errorf("waiting is %d", waiting)
	case r.Bound > r.Makespan || r.Proven != (r.Bound == r.Makespan):
		return fmt.Errorf("makespan %d, bound %d, proven: %v", r.Makespan, r.Bound, r.Proven)
	case r.WaitingBound > r.Waiting || r.WaitingProven != (r.Proven && r.WaitingBound == r.Waiting):
		return fmt.Errorf("waiting %d, bound %d, proven: %v", r.Waiting, r.WaitingBound, r.WaitingProven)
	}
	return nil
}

func verifyResource(p Problem, start []int, done []Mode, k, last int) error {
	var settings []int // as they follow each other
	for minute := range last {
		var running []int // tasks that hold the resource
		held := 0
		for i, w := range done {
			if w.Needs == nil || w.Needs[k] == 0 {
				continue
			}
			hold := w.Minutes
			if w.For != nil && w.For[k] > 0 {
				hold = min(hold, w.For[k])
			}
			if minute >= start[i] && minute < start[i]+hold {
				running = append(running, i)
				held += w.Needs[k]
			}
		}
		if held > p.Capacity[k] {
			return fmt.Errorf("%d units of resource %d held at minute %d", held, k, minute)
		}
		if p.Setting == nil || !p.Setting[k] || len(running) == 0 {
			continue
		}
		now := done[running[0]].Setting
		for _, i := range running {
			if done[i].Setting != now {
				return fmt.Errorf("resource %d has two settings at minute %d", k, minute)
			}
		}
		if n := len(settings); n == 0 || settings[n-1] != now {
			settings = append(settings, now)
		}
	}
	for n, s := range settings {
		if slices.Contains(settings[:n], s) {
			return fmt.Errorf("resource %d goes through settings %v", k, settings)
		}
	}
	return nil
}
