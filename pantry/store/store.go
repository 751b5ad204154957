// Package store keeps kitchens in one SQLite file.
//
// Open it, give it jobs with Do, read with View, Close it. There is one write
// connection and jobs run on it one at a time: in the caller's goroutine where
// nobody else is waiting, else in a goroutine that gathers the jobs which came
// in during the last commit into the next one (group commit). Every other
// connection only reads. Commits are durable: write-ahead log, full sync.
// Several programs may have the same file open; each sees what the others have
// committed.
//
// With cgo the driver is github.com/mattn/go-sqlite3; without a C compiler a
// build tag chooses modernc.org/sqlite. Both pass the same tests.
package store

import (
	"context"
	"database/sql"
	"encoding/binary"
	"errors"
	"io"
	"net/url"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"time"
)

// Store is an open kitchen file.
type Store struct {
	path   string
	db     *sql.DB
	conn   *sql.Conn // the writer's
	jobs   chan *job
	done   chan struct{}
	writer *writer

	gate    sync.RWMutex // held for reading while a job is handed over or run directly
	closed  bool
	turn    sync.Mutex   // whoever has it may use the writer
	waiting atomic.Int64 // jobs that are waiting or at work
	crowded atomic.Bool  // the last commit of the writer goroutine was shared
}

// Options change how a file is opened. The zero value is what a kitchen wants.
type Options struct {
	Busy     time.Duration // how long to wait for another program's lock; 0: five seconds
	MaxPages int           // the most pages the file may grow to; 0: no limit
}

// Open opens the file, making it and its folder where they do not exist, and
// brings it to this program's version. Errors a person can act on are *Fault.
func Open(ctx context.Context, path string, o Options) (*Store, error) {
	if o.Busy == 0 {
		o.Busy = 5 * time.Second
	}
	path, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	if err := ready(path); err != nil {
		return nil, err
	}
	db, err := sql.Open(driver, dsn(path, strconv.FormatInt(o.Busy.Milliseconds(), 10)))
	if err != nil {
		return nil, fault(path, err)
	}
	s := &Store{path: path, db: db, jobs: make(chan *job, 256), done: make(chan struct{})}
	if err := s.start(ctx, o); err != nil {
		db.Close()
		return nil, fault(path, err)
	}
	return s, nil
}

func (s *Store) start(ctx context.Context, o Options) (err error) {
	if s.conn, err = s.db.Conn(ctx); err != nil {
		return err
	}
	if _, err := versionOf(ctx, s.conn, s.path); err != nil {
		return err // before anything is changed in a file that may not be ours
	}
	if err := writeAhead(ctx, s.conn, o.Busy); err != nil {
		return err
	}
	if o.MaxPages > 0 {
		if _, err := s.conn.ExecContext(ctx, "PRAGMA max_page_count = "+strconv.Itoa(o.MaxPages)); err != nil {
			return err
		}
	}
	if err := migrate(ctx, s.conn, s.path, Version()); err != nil {
		return err
	}
	if s.writer, err = newWriter(ctx, s.conn); err != nil {
		return err
	}
	go s.run()
	return nil
}

// writeAhead puts the file into write-ahead mode. SQLite does not wait for a
// lock where two connections change the mode of a new file at once, since each
// would wait for the other: one of them is refused at once, and asks again.
func writeAhead(ctx context.Context, c *sql.Conn, busy time.Duration) error {
	for until := time.Now().Add(busy); ; {
		_, err := c.ExecContext(ctx, "PRAGMA journal_mode = WAL")
		if code(err) != sqliteBusy || time.Now().After(until) {
			return err
		}
		time.Sleep(5 * time.Millisecond)
	}
}

// Path is the file's full name.
func (s *Store) Path() string { return s.path }

// Close finishes the jobs it has been given and closes the file.
func (s *Store) Close() error {
	s.gate.Lock()
	was := s.closed
	s.closed = true
	s.gate.Unlock()
	if was {
		return nil
	}
	close(s.jobs)
	<-s.done
	return errors.Join(s.writer.close(), s.conn.Close(), s.db.Close())
}

func fileURL(path string) string {
	path = filepath.ToSlash(path)
	if !strings.HasPrefix(path, "/") {
		path = "/" + path // a drive letter
	}
	return (&url.URL{Scheme: "file", Path: path}).String()
}

// ready makes the folder and looks at what stands at path: SQLite would take
// an unwritable file for a read-only database, and finds out that a file has
// lost its end only when it gets there.
func ready(path string) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return &Fault{path, "its folder cannot be made", "check the folder's rights, or name another file with --db", err}
	}
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return nil
	case err != nil:
		return &Fault{path, "the kitchen file cannot be looked at", "check the folder's rights, or name another file with --db", err}
	case info.IsDir():
		return &Fault{path, "this is a folder, not a kitchen file", "name a file with --db", nil}
	case info.Mode().Perm()&0o222 == 0:
		return &Fault{path, sayings[sqliteReadOnly][0], sayings[sqliteReadOnly][1], nil}
	}
	if cut, err := truncated(path, info.Size()); err != nil {
		return &Fault{path, "the kitchen file cannot be read", "check the file's rights, or name another with --db", err}
	} else if cut {
		return &Fault{path, sayings[sqliteCorrupt][0] + " (its end is missing)", sayings[sqliteCorrupt][1], nil}
	}
	return nil
}

// truncated says whether the file is shorter than its own header says. Where
// a write-ahead log is about, pages may still be on their way, and SQLite
// itself must judge. Header fields: the SQLite file format, section 1.3.
func truncated(path string, size int64) (bool, error) {
	if wal, err := os.Stat(path + "-wal"); size == 0 || err == nil && wal.Size() > 0 {
		return false, nil
	}
	f, err := os.Open(path)
	if err != nil {
		return false, err
	}
	defer f.Close()
	head := make([]byte, 100)
	if _, err := io.ReadFull(f, head); err != nil || string(head[:16]) != "SQLite format 3\x00" {
		return false, nil // not ours to judge: SQLite says so on opening
	}
	page := int64(binary.BigEndian.Uint16(head[16:]))
	if page == 1 {
		page = 65536
	}
	pages := int64(binary.BigEndian.Uint32(head[28:]))
	valid := binary.BigEndian.Uint32(head[24:]) == binary.BigEndian.Uint32(head[92:])
	return valid && size < pages*page, nil
}
