package store

import (
	"context"
	"errors"
	"runtime"

	"scullion/pantry"
)

// mostTogether is how many jobs may share one commit.
const mostTogether = 128

// ErrClosed is returned by Do after Close.
var ErrClosed = errors.New("the kitchen file is closed")

type job struct {
	kitchen string
	do      func(pantry.Book) error
	alone   func(*writer) error // instead of do: runs by itself, and sees to its own transaction
	err     error               // to be read once done is closed
	done    chan struct{}
}

// Do runs do in the kitchen's next transaction, making the kitchen where it is
// new. See pantry.Ledger.
func (s *Store) Do(ctx context.Context, kitchen string, do func(pantry.Book) error) error {
	if err, done := s.direct(kitchen, do); done {
		return err
	}
	return s.Start(ctx, kitchen, do)()
}

// direct runs a job in the caller's own goroutine where nothing else is
// waiting or at work, which saves a lone speaker two changes of goroutine. It
// stands back while jobs come in crowds: one commit for all is faster then.
func (s *Store) direct(kitchen string, do func(pantry.Book) error) (err error, done bool) {
	s.gate.RLock()
	defer s.gate.RUnlock()
	if s.closed || s.crowded.Load() || !s.waiting.CompareAndSwap(0, 1) {
		return nil, false
	}
	defer s.waiting.Add(-1)
	s.turn.Lock()
	defer s.turn.Unlock()
	return fault(s.path, s.writer.try([]*job{{kitchen: kitchen, do: do}})), true
}

// Start is Do without the waiting: jobs run in the order of the calls to
// Start, and the function it returns waits for the job's commit.
func (s *Store) Start(ctx context.Context, kitchen string, do func(pantry.Book) error) (wait func() error) {
	return s.send(ctx, &job{kitchen: kitchen, do: do})
}

func (s *Store) send(ctx context.Context, j *job) (wait func() error) {
	j.done = make(chan struct{})
	s.gate.RLock()
	defer s.gate.RUnlock()
	if s.closed {
		return func() error { return ErrClosed }
	}
	s.waiting.Add(1)
	select {
	case s.jobs <- j:
		return func() error { <-j.done; return j.err }
	case <-ctx.Done():
		s.waiting.Add(-1)
		return ctx.Err
	}
}

// run is the writer goroutine.
func (s *Store) run() {
	defer close(s.done)
	var next *job
	last := 1
	for {
		first, ok := next, true
		if next = nil; first == nil {
			first, ok = <-s.jobs
		}
		if !ok {
			return
		}
		group := []*job{first}
		if first.alone == nil {
			s.settle(last)
			group, next = s.gather(first)
			last = len(group)
		}
		s.turn.Lock()
		s.commit(group)
		s.turn.Unlock()
		s.crowded.Store(len(group) > 1)
		s.waiting.Add(-int64(len(group)))
		for _, j := range group {
			close(j.done)
		}
	}
}

// settle lets those who got the last commit's answers send their next message,
// so that it goes into this commit: it gives way while more keep coming, up to
// as many as shared the last.
func (s *Store) settle(last int) {
	for range 16 {
		before := len(s.jobs)
		runtime.Gosched()
		if n := len(s.jobs); n+1 >= last || n == before && n > 0 {
			return
		}
	}
}

// gather adds the jobs that are waiting to the first. One that must run alone
// ends the group and is handed back.
func (s *Store) gather(first *job) (group []*job, next *job) {
	group = []*job{first}
	for len(group) < mostTogether {
		select {
		case j := <-s.jobs:
			if j == nil || j.alone != nil {
				return group, j
			}
			group = append(group, j)
		default:
			return group, nil
		}
	}
	return group, nil
}

// commit runs the group in one transaction. If that fails, each job gets a
// transaction of its own, so that only the one at fault hears of it; unless it
// failed for all alike, since no transaction could be begun.
func (s *Store) commit(group []*job) {
	if j := group[0]; j.alone != nil {
		j.err = fault(s.path, j.alone(s.writer))
		return
	}
	err := s.writer.try(group)
	var shared notBegun
	alike := len(group) == 1 || errors.As(err, &shared)
	for _, j := range group {
		if err != nil && !alike {
			j.err = fault(s.path, s.writer.try([]*job{j}))
			continue
		}
		j.err = fault(s.path, err)
	}
}

// notBegun is the error of a transaction that did not start.
type notBegun struct{ error }

func (e notBegun) Unwrap() error { return e.error }
