package timetable

import (
	"context"
	"runtime"
)

// outcome of a stretch of search.
type outcome uint8

const (
	found    outcome = iota // all variables have a value
	refuted                 // the assumption cannot hold
	hopeless                // nothing can hold
	tired                   // as many conflicts as allowed
	stopped                 // ctx ended
)

// style is how decisions are made.
type style uint8

const (
	byActivity style = iota // what had part in recent conflicts
	byTime                  // earliest task first
	byAdvice                // tasks in the order of advice, where advised
)

// pollEvery is how many steps pass between looks at ctx: well under a millisecond.
const pollEvery = 32

type stopper struct {
	ctx   context.Context
	steps int
}

// over says whether ctx has ended. It gives way to other goroutines, among them, on a single processor, the timer
// that ends ctx.
func (s *stopper) over() bool {
	s.steps++
	return s.steps%pollEvery == 0 && s.now()
}

func (s *stopper) now() bool {
	runtime.Gosched()
	return s.ctx.Err() != nil
}

// search looks for values of all variables under an assumption, for so many conflicts.
func (p *plan) search(assumed atom, how style, conflicts int) outcome {
	for last := p.conflicts + conflicts; ; {
		if p.stop.over() {
			return stopped
		}
		if !p.propagate() {
			if !p.learn() {
				return hopeless
			}
			continue
		}
		if p.level() == 0 {
			if !p.root() {
				return hopeless
			}
			p.forget()
			if p.refuted(assumed) {
				return refuted
			}
			if !p.holds(assumed) {
				p.decide(assumed)
				continue
			}
		}
		if p.conflicts >= last {
			return tired
		}
		a, ok := p.choose(how)
		if !ok {
			return found
		}
		p.decide(a)
	}
}

func (p *plan) choose(how style) (atom, bool) {
	if how != byActivity {
		if a, ok := p.firstOf(p.start, how == byAdvice); ok {
			return a, true
		}
	}
	return p.mostActive()
}

// luby gives the restart sequence 1 1 2 1 1 2 4 ... (Luby, Sinclair and Zuckerman 1993), counted from 1.
func luby(k int) int {
	for size := 1; ; size = 2*size + 1 {
		if k == size {
			return (size + 1) / 2
		}
		if k < 2*size+1 {
			return luby(k - size)
		}
	}
}
