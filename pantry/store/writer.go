package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"runtime"
	"runtime/debug"
	"strings"

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
			runtime.Gosched() // let those who got the last commit's answers send their next
			group, next = s.gather(first)
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

// Panic is the error of a job that panicked.
type Panic struct {
	Value any
	Stack []byte
}

// Error gives one line; Stack has the rest.
func (p *Panic) Error() string {
	return "a fault in the program: " + strings.Join(strings.Fields(fmt.Sprint(p.Value)), " ")
}

// writer owns the write connection and what is known of the file's contents
// as of its last transaction.
type writer struct {
	conn     *sql.Conn
	stmts    map[string]*sql.Stmt
	kitchens map[string]*pantry.Kitchen
	version  int64 // of the data, as SQLite counts other programs' commits
	last     int64 // the last message's n
}

func newWriter(ctx context.Context, c *sql.Conn) (*writer, error) {
	w := &writer{conn: c, stmts: map[string]*sql.Stmt{}}
	return w, w.row("SELECT coalesce(max(n), 0) FROM message").Scan(&w.last) // is it a kitchen file at all?
}

func (w *writer) close() error {
	var errs []error
	for _, s := range w.stmts {
		errs = append(errs, s.Close())
	}
	return errors.Join(errs...)
}

func (w *writer) try(group []*job) (err error) {
	if err := w.begin(); err != nil {
		return notBegun{err}
	}
	committed := false
	defer func() {
		if !committed { // by an error, or a job that ended its goroutine
			w.rollback()
		}
	}()
	for _, j := range group {
		if err := w.one(j); err != nil {
			return err
		}
	}
	err = w.exec("COMMIT")
	committed = err == nil
	return err
}

func (w *writer) begin() error {
	if err := w.exec("BEGIN IMMEDIATE"); err != nil {
		return err
	}
	err := w.refresh()
	if err != nil {
		w.rollback()
	}
	return err
}

func (w *writer) rollback() {
	w.forget()
	w.exec("ROLLBACK") // fails where SQLite has rolled back by itself
}

// one runs a job; a panic in it is an error like any other, so that one bad
// message cannot take the kitchen down.
func (w *writer) one(j *job) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = &Panic{p, debug.Stack()}
		}
	}()
	k, err := w.kitchen(j.kitchen)
	if err != nil {
		return err
	}
	return j.do(&book{w: w, k: k})
}

// refresh drops what is remembered if another program has committed since.
func (w *writer) refresh() error {
	var v int64
	if err := w.row("PRAGMA data_version").Scan(&v); err != nil {
		return err
	}
	if w.kitchens != nil && v == w.version {
		return nil
	}
	w.kitchens, w.version = map[string]*pantry.Kitchen{}, v
	return w.row("SELECT coalesce(max(n), 0) FROM message").Scan(&w.last)
}

func (w *writer) forget() { w.kitchens = nil }

func (w *writer) kitchen(name string) (*pantry.Kitchen, error) {
	if k := w.kitchens[name]; k != nil {
		return k, nil
	}
	if err := w.exec("INSERT INTO kitchen (name) VALUES (?) ON CONFLICT DO NOTHING", name); err != nil {
		return nil, err
	}
	k, err := load(context.Background(), w.conn, name)
	if err == nil {
		w.kitchens[name] = k
	}
	return k, err
}

// stmt prepares a statement once.
func (w *writer) stmt(query string) (*sql.Stmt, error) {
	if s := w.stmts[query]; s != nil {
		return s, nil
	}
	s, err := w.conn.PrepareContext(context.Background(), query)
	if err == nil {
		w.stmts[query] = s
	}
	return s, err
}

func (w *writer) exec(query string, args ...any) error {
	s, err := w.stmt(query)
	if err == nil {
		_, err = s.Exec(args...)
	}
	return err
}

func (w *writer) query(query string, args ...any) (*sql.Rows, error) {
	s, err := w.stmt(query)
	if err != nil {
		return nil, err
	}
	return s.Query(args...)
}

// scanner is a row that may already carry its error.
type scanner interface{ Scan(...any) error }

type failed struct{ err error }

func (f failed) Scan(...any) error { return f.err }

func (w *writer) row(query string, args ...any) scanner {
	s, err := w.stmt(query)
	if err != nil {
		return failed{err}
	}
	return s.QueryRow(args...)
}
