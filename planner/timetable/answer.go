package timetable

import (
	"context"
	"fmt"
)

// offer keeps a timetable if it is better than the best.
func (s *solver) offer(start, mode []int) {
	r := s.m.measure(start, mode)
	if s.have && (r.Makespan > s.best.Makespan || r.Makespan == s.best.Makespan && r.Waiting >= s.best.Waiting) {
		return
	}
	r.Bound, r.WaitingBound = s.best.Bound, s.best.WaitingBound
	s.best, s.have = r, true
	s.tell()
}

// raise notes what the search has proved to be least.
func (s *solver) raise(p *plan) {
	makespan, waiting := int(p.lo(p.makespan)), 0
	if p.waiting >= 0 {
		waiting = int(p.lo(p.waiting))
	}
	if makespan > s.best.Bound || waiting > s.best.WaitingBound {
		s.best.Bound, s.best.WaitingBound = makespan, waiting
		s.tell()
	}
}

// tell says how good the best answer is, and passes it on.
func (s *solver) tell() {
	b := &s.best
	b.Proven = s.have && b.Makespan == b.Bound
	b.WaitingProven = b.Proven && b.Waiting == b.WaitingBound
	if s.progress != nil && s.have {
		s.progress(s.best)
	}
}

func (s *solver) result() (Result, error) {
	switch {
	case s.none:
		return Result{}, ErrInfeasible
	case !s.have:
		return Result{Bound: s.best.Bound}, fmt.Errorf("%w: %w", ErrNoneFound, context.Cause(s.stop.ctx))
	}
	return s.best, nil
}

// measure gives a timetable its makespan and waiting.
func (m *model) measure(start, mode []int) Result {
	r := Result{Start: start, Mode: mode}
	for i := range start {
		r.Makespan = max(r.Makespan, m.end(start, mode, i))
	}
	for i := range start {
		r.Waiting += int(m.tasks[i].weight)*(r.Makespan-m.end(start, mode, i)) + int(m.way(mode, i).cost)
	}
	return r
}

func (m *model) end(start, mode []int, i int) int {
	return start[i] + int(m.way(mode, i).minutes)
}

// way gives the way a task is done, nil where the capacities do not allow that or there is no such way.
func (m *model) way(mode []int, i int) *way {
	k := 0
	if mode != nil {
		k = mode[i]
	}
	for n := range m.tasks[i].ways {
		if w := &m.tasks[i].ways[n]; w.index == k {
			return w
		}
	}
	return nil
}
