package timetable

import "context"

// solver brings the ways of solving together and keeps the best answer.
type solver struct {
	m        *model
	windows  *windows
	stop     stopper
	progress func(Result)
	from     Result // what the caller advises
	best     Result
	have     bool // best is a timetable
	none     bool // there is proved to be none
}

func newSolver(ctx context.Context, m *model, progress func(Result)) *solver {
	s := &solver{m: m, stop: stopper{ctx: ctx}, progress: progress, windows: newWindows(m)}
	s.best.Bound = int(s.windows.bound)
	return s
}

// advise takes what is of the right length of an earlier timetable, and the whole as an answer if it is one.
func (s *solver) advise(from Result) {
	n := len(s.m.tasks)
	if len(from.Start) != n {
		return
	}
	s.from.Start = append([]int(nil), from.Start...)
	if s.m.modes {
		s.from.Mode = make([]int, n)
		if len(from.Mode) == n {
			copy(s.from.Mode, from.Mode)
		}
	}
	if s.m.holds(s.from.Start, s.from.Mode) {
		s.offer(s.from.Start, s.from.Mode)
	}
}

// run solves, or, if asked, stops at the first timetable.
func (s *solver) run(first bool) {
	if s.m.plain {
		s.offer(s.m.quick(s.windows, &s.stop), nil)
	}
	if s.have && (first || s.best.Makespan == s.best.Bound && s.best.Waiting == 0) {
		return
	}
	if s.have {
		s.m.endBy(int32(s.best.Makespan))
	}
	p, ok := newPlan(s.m, s.windows, &s.stop)
	if !ok {
		s.none = !p.halted
		return
	}
	s.advisePlan(p)
	if !s.minimise(p, p.makespan, first) || first || s.best.Waiting == 0 {
		return
	}
	if p.set(atMost(p.makespan, int32(s.best.Makespan)), reason{}) && p.addWaiting(s.best.Waiting) {
		s.minimise(p, p.waiting, false)
	}
}

// advisePlan tells the search of the best timetable, or else of the one it was given to start from.
func (s *solver) advisePlan(p *plan) {
	r := s.from
	if s.have {
		r = s.best
	}
	for i, t := range r.Start {
		p.advise(p.start[i], int32(max(0, min(t, int(s.m.horizon)))))
	}
	for i, k := range r.Mode {
		for n, a := range p.ways[i] {
			if s.m.tasks[i].ways[n].index == k {
				p.adviseAtom(a)
			}
		}
	}
}

// restart is how many conflicts a stretch of search may have, times the Luby sequence.
const restart = 50

// aimLower is after how many stretches one looks halfway down to the bound: something may be there, and if not the
// bound rises.
const aimLower = 8

// minimise lessens a variable until it is proven least or, if asked, any timetable is found. False where it was
// stopped or there is no timetable.
func (s *solver) minimise(p *plan, x int32, first bool) bool {
	how := byTime
	if s.have || s.from.Start != nil {
		how = byAdvice
	}
	for turn := 1; ; turn++ {
		most := p.hi(x)
		if s.have {
			most = s.value(p, x) - 1
		}
		limit := most
		if s.have && turn%aimLower == 0 {
			limit -= (most - p.lo(x)) / 2
		}
		end := p.search(atMost(x, limit), how, restart*luby(turn))
		if end == found {
			s.take(p)
		}
		p.undo(0)
		switch {
		case end == hopeless:
			s.none = !s.have
			return s.have
		case end == stopped:
			return false
		case end == found && first:
			return true
		}
		s.raise(p)
		if end == refuted && limit == most {
			return true
		}
		how = byActivity
	}
}

// value gives what the best timetable has for the makespan or the waiting.
func (s *solver) value(p *plan, x int32) int32 {
	if x == p.waiting {
		return int32(s.best.Waiting)
	}
	return int32(s.best.Makespan)
}

// take reads the timetable off the variables and advises what it says.
func (s *solver) take(p *plan) {
	start := make([]int, len(s.m.tasks))
	var mode []int
	if s.m.modes {
		mode = make([]int, len(s.m.tasks))
	}
	for i := range start {
		start[i] = int(p.lo(p.start[i]))
		if s.m.modes {
			mode[i] = s.m.tasks[i].ways[0].index // the only one, or another is taken below
		}
		for k, a := range p.ways[i] {
			if p.holds(a) {
				mode[i] = s.m.tasks[i].ways[k].index
			}
		}
	}
	for x := range p.advice {
		p.advise(int32(x), p.lo(int32(x)))
	}
	s.offer(start, mode)
}
