package store

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"scullion/pantry"
)

func TestManyAtOnce(t *testing.T) {
	s := opened(t, newFile(t))
	do(t, s, act("in", "leek", pantry.Receive, 64*5))
	var all sync.WaitGroup
	for g := range 64 {
		all.Go(func() {
			for i := range 5 {
				if err := s.Do(context.Background(), boathouse, act(fmt.Sprint(g, "-", i), "leek", pantry.Use, 1)); err != nil {
					t.Error(err)
				}
			}
		})
	}
	all.Wait()
	if rep := checkStore(t, s); rep.Messages != 321 || onHand(t, s, "leek") != 0 {
		t.Errorf("%d messages, %v g on hand", rep.Messages, onHand(t, s, "leek"))
	}
}

// held keeps the writer busy until let go, so that what is started meanwhile
// shares one commit.
func held(t *testing.T, s *Store) (letGo func()) {
	busy, free := make(chan struct{}), make(chan struct{})
	wait := s.Start(context.Background(), boathouse, func(pantry.Book) error { close(busy); <-free; return nil })
	<-busy
	return func() {
		close(free)
		if err := wait(); err != nil {
			t.Error(err)
		}
	}
}

func TestOneBadJobLeavesTheOthers(t *testing.T) {
	s := opened(t, newFile(t))
	do(t, s, act("in", "leek", pantry.Receive, 100))
	letGo := held(t, s)
	refused := errors.New("not today")
	var runs atomic.Int32
	jobs := []func(pantry.Book) error{
		func(b pantry.Book) error { runs.Add(1); return act("good 1", "leek", pantry.Use, 1)(b) },
		func(b pantry.Book) error { return errors.Join(act("bad", "leek", pantry.Use, 50)(b), refused) },
		act("good 2", "leek", pantry.Use, 2),
		func(b pantry.Book) error {
			if err := act("worse", "cream", pantry.Receive, 50)(b); err != nil {
				return err
			}
			panic("out of\ncream")
		},
		act("good 3", "leek", pantry.Use, 4),
	}
	var waits []func() error
	for _, j := range jobs {
		waits = append(waits, s.Start(context.Background(), boathouse, j))
	}
	letGo()
	var errs []error
	for _, wait := range waits {
		errs = append(errs, wait())
	}
	if errs[0] != nil || errs[2] != nil || errs[4] != nil {
		t.Errorf("good jobs failed: %v", errs)
	}
	if !errors.Is(errs[1], refused) {
		t.Errorf("the job's own error came back as %v", errs[1])
	}
	var p *pantry.Panic
	if !errors.As(errs[3], &p) || len(p.Stack) == 0 || strings.Contains(errs[3].Error(), "\n") {
		t.Errorf("the panic came back as %q", errs[3])
	}
	if runs.Load() != 2 {
		t.Errorf("the first job ran %d times; the jobs did not share a commit", runs.Load())
	}
	if v := viewed(t, s, boathouse); v != written(t, s, boathouse) || strings.Contains(v, "cream") || onHand(t, s, "leek") != 93 {
		t.Errorf("the kitchen has\n%s\nthe writer knows\n%s", v, written(t, s, boathouse))
	}
}

func TestOrderOfStartIsKept(t *testing.T) {
	s := opened(t, newFile(t))
	letGo := held(t, s)
	var waits []func() error
	for i := range 200 {
		waits = append(waits, s.Start(t.Context(), []string{boathouse, "annexe"}[i%2], func(b pantry.Book) error {
			m, err := b.Hear(pantry.Message{ID: fmt.Sprint(i), At: tuesday})
			if err == nil && m.N != int64(i+1) {
				return fmt.Errorf("message %d came as number %d", i, m.N)
			}
			return err
		}))
	}
	letGo()
	for _, wait := range waits {
		if err := wait(); err != nil {
			t.Error(err)
		}
	}
}

// A Do after Starts waits for them, though it could run in its own goroutine.
func TestDoComesAfterStart(t *testing.T) {
	s := opened(t, newFile(t))
	for round := range 20 {
		var order []int
		add := func(i int) func(pantry.Book) error {
			return func(b pantry.Book) error {
				order = append(order, i)
				_, err := b.Hear(pantry.Message{ID: fmt.Sprint(round, "-", i), At: tuesday})
				return err
			}
		}
		for i := range 3 {
			s.Start(t.Context(), boathouse, add(i))
		}
		do(t, s, add(3))
		if fmt.Sprint(order) != "[0 1 2 3]" {
			t.Fatalf("round %d: jobs ran in the order %v", round, order)
		}
	}
}

func TestCloseWhileBusy(t *testing.T) {
	path := newFile(t)
	s := must(Open(t.Context(), path, Options{}))(t)
	var kept atomic.Int32
	var all sync.WaitGroup
	enough := make(chan struct{})
	for g := range 16 {
		all.Go(func() {
			for i := 0; ; i++ {
				err := s.Do(context.Background(), boathouse, act(fmt.Sprint(g, "-", i), "leek", pantry.Receive, 1))
				if errors.Is(err, ErrClosed) {
					return
				}
				if err != nil {
					t.Error(err)
					return
				}
				if kept.Add(1) == 100 {
					close(enough)
				}
			}
		})
	}
	<-enough
	if err := s.Close(); err != nil {
		t.Error(err)
	}
	all.Wait()
	if rep := checkFileAt(t, path); rep.Messages != int(kept.Load()) {
		t.Errorf("%d messages in the file, %d were answered", rep.Messages, kept.Load())
	}
}

func TestAfterClose(t *testing.T) {
	s := must(Open(t.Context(), newFile(t), Options{}))(t)
	for range 2 {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	}
	never := func(pantry.Book) error { t.Error("a job ran after Close"); return nil }
	if err := s.Do(t.Context(), boathouse, never); err != ErrClosed {
		t.Errorf("Do after Close: %v", err)
	}
	if _, err := s.View(t.Context(), boathouse); err == nil {
		t.Error("View after Close has no error")
	}
}

func TestTwoProgramsOneFile(t *testing.T) {
	path := newFile(t)
	stores := []*Store{opened(t, path), opened(t, path)}
	do(t, stores[0], act("in", "leek", pantry.Receive, 100))
	for i := range 20 {
		do(t, stores[i%2], act(fmt.Sprint("use ", i), "leek", pantry.Use, 1))
		do(t, stores[(i+1)%2], act(fmt.Sprint("new ", i), fmt.Sprint("food ", i), pantry.Receive, 1))
		a, b := written(t, stores[0], boathouse), written(t, stores[1], boathouse)
		if a != b || a != viewed(t, stores[0], boathouse) {
			t.Fatalf("one program knows\n%s\nthe other\n%s", a, b)
		}
	}
	if g := onHand(t, stores[0], "leek"); g != 80 {
		t.Errorf("%v g on hand", g)
	}
}

func TestTwoProgramsAtOnce(t *testing.T) {
	path := newFile(t)
	var all sync.WaitGroup
	for p := range 3 {
		s := opened(t, path)
		for g := range 4 {
			all.Go(func() {
				for i := range 10 {
					if err := s.Do(context.Background(), boathouse, act(fmt.Sprint(p, g, i), "leek", pantry.Receive, 1)); err != nil {
						t.Error(err)
					}
				}
			})
		}
	}
	all.Wait()
	if rep := checkFileAt(t, path); rep.Messages != 120 {
		t.Errorf("%d of 120 messages", rep.Messages)
	}
}
