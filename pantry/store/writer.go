package store

import (
	"context"
	"database/sql"
	"errors"
	"runtime/debug"

	"scullion/pantry"
)

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
			err = &pantry.Panic{Value: p, Stack: debug.Stack()}
		}
	}()
	k, err := w.kitchen(j.kitchen)
	if err != nil {
		return err
	}
	b := &book{w: w, k: k}
	if err := j.do(b); err != nil {
		return err
	}
	return b.flush()
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
