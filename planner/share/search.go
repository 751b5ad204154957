package share

import (
	"context"
	"math"
	"runtime"
)

// search is one run of Choose.
type search struct {
	ctx      context.Context
	m        *model
	progress func(Result)

	choice   *choice
	outlooks []*outlook // by how many dishes are to be added
	flow     *flow
	bad      *nogoods

	all    []int32         // the dishes that may be chosen
	best   int64           // worth of the best choice found; nothing: none yet
	chosen []int32         // the best choice
	bound  int64           // on every choice
	drafts []draft         // what the beam has left
	tried  map[string]bool // the dishes that neighbourhoods have been searched around
	start  []int64         // prices to start from

	work     int64 // about as many dishes have been looked at
	poll     int64 // work at which ctx is looked at again
	limit    int64 // work at which the present part of the search is given up
	patience int   // how many more choices that do not fit the present part may find
	ended    bool  // ctx has ended
}

func newSearch(ctx context.Context, m *model, progress func(Result)) *search {
	return &search{ctx: ctx, m: m, progress: progress, best: nothing, bound: -nothing, limit: math.MaxInt64, tried: map[string]bool{}}
}

// firstTry is the work after which the first search for a proof is given up and the answer is bettered first. With
// every dish more there is less hope that it succeeds.
func (m *model) firstTry() int64 { return 30_000_000 >> min(m.choose, 20) }

// run finds the best choice: a first one, a proof if that is easy, better ones, and a proof if there is time.
func (s *search) run() {
	if s.m.choose > len(s.m.dishes) {
		s.bound = nothing
		return
	}
	s.prepare()
	s.reduce()
	s.beam()
	if !s.attempt(s.m.firstTry()) {
		s.improve()
	}
	if s.bound > s.best && !s.ended {
		s.prove()
	}
}

func (s *search) prepare() {
	s.choice, s.flow, s.bad = newChoice(s.m), newFlow(s.m), newNogoods(s.m)
	s.outlooks = make([]*outlook, s.m.choose+1)
	for more := 1; more <= s.m.choose; more++ {
		s.outlooks[more] = newOutlook(s.m, more)
	}
	s.start = make([]int64, len(s.m.stock))
	s.all = make([]int32, len(s.m.dishes))
	for d := range s.all {
		s.all[d] = int32(d)
	}
}

// reduce leaves out the dishes that nothing better than the best can hold, and sets the bound that can be had without
// a search.
func (s *search) reduce() {
	if s.m.choose == 0 {
		return
	}
	s.choice.set(nil)
	o := s.outlooks[s.m.choose]
	if !s.look(o, s.all, s.start, firstRounds) {
		s.all = nil
		s.shrink(s.best)
		return
	}
	s.all = s.all[:0]
	for _, p := range o.options {
		s.all = append(s.all, p.dish)
	}
	copy(s.start, o.prices.of)
	s.shrink(max(s.best, o.bound))
}

// attempt tries to prove the best choice with so much work, and says whether there is nothing left to do.
func (s *search) attempt(work int64) bool {
	s.reduce()
	s.limit = s.work + work
	s.prove()
	s.limit = math.MaxInt64
	return s.ended || s.bound <= s.best
}

// prove searches everything, as far as the limits let it, and sets the bound.
func (s *search) prove() {
	s.choice.set(nil)
	s.patience = math.MaxInt
	open := s.explore(s.all, s.m.choose, s.bound, s.start)
	s.shrink(max(s.best, open))
}

// shrink takes over a smaller bound.
func (s *search) shrink(bound int64) {
	if bound < s.bound {
		s.bound = bound
		s.report()
	}
}

// stop says whether the search must be given up, after so much more work.
func (s *search) stop(work int) bool {
	if s.work += int64(work); s.work >= s.poll {
		s.poll = s.work + pollEvery
		runtime.Gosched() // so that a timer can end ctx on one processor too
		s.ended = s.ended || s.ctx.Err() != nil
	}
	return s.ended || s.work > s.limit || s.patience < 0
}

// pollEvery is the work between two looks at ctx, well below a millisecond.
const pollEvery = 5000
