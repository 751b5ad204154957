package store

import (
	"context"
	"database/sql"
	"errors"
	"os"
	"path/filepath"
)

// Restore puts the contents of a backup in place of this file's, in one
// transaction: other programs that have the file open see all of it or
// nothing. The backup itself is only read; a copy of it is brought to this
// program's version and must pass Check first. A file that already has
// messages is left alone unless overwrite is set.
func (s *Store) Restore(ctx context.Context, file string, overwrite bool) error {
	file, err := filepath.Abs(file)
	if err != nil {
		return err
	}
	if !overwrite {
		if err := s.isEmpty(ctx); err != nil {
			return err // before the long work; the writer looks again
		}
	}
	copied, err := s.goodCopy(ctx, file)
	if err != nil {
		return err
	}
	defer remove(copied)
	return s.send(ctx, &job{alone: func(w *writer) error {
		return w.replace(s.path, copied, overwrite)
	}})()
}

func hasMessages(path string) error {
	return &Fault{path, "this kitchen has messages already", "restore to a new file with --db NEWFILE, or replace all of it with --overwrite", nil}
}

func (s *Store) isEmpty(ctx context.Context) error {
	return s.read(ctx, func(r reader) error {
		var n int
		err := r.QueryRowContext(ctx, "SELECT count(*) FROM (SELECT 1 FROM message LIMIT 1)").Scan(&n)
		if err == nil && n > 0 {
			return hasMessages(s.path)
		}
		return err
	})
}

// goodCopy makes a copy of the backup that is of this version and sound.
func (s *Store) goodCopy(ctx context.Context, file string) (copied string, err error) {
	if err := s.standsAsBackup(file); err != nil {
		return "", err
	}
	db, err := openRead(file)
	if err != nil {
		return "", badBackup(file, err)
	}
	defer db.Close()
	if err := isKitchen(ctx, db, file); err != nil {
		return "", err
	}
	if err := soundDB(ctx, db, "integrity_check(1)"); err != nil {
		return "", badBackup(file, err)
	}
	copied, err = s.copyTo(ctx, db, s.path)
	if err != nil {
		return "", err
	}
	if err := checkCopy(ctx, copied, file); err != nil {
		remove(copied)
		return "", err
	}
	return copied, nil
}

func badBackup(file string, err error) error {
	if c := code(err); c == sqliteBusy || c == sqliteLocked || errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) {
		return fault(file, err)
	}
	return &Fault{file, "this backup is damaged, so nothing was changed", "try an older backup", err}
}

// standsAsBackup looks at the file from outside.
func (s *Store) standsAsBackup(file string) error {
	const other = "name another backup"
	info, err := os.Stat(file)
	if err != nil {
		return &Fault{file, "this backup cannot be read", "check its name and its rights", err}
	}
	if !info.Mode().IsRegular() {
		return &Fault{file, "this is not a file, so not a backup", other, nil}
	}
	if own, err := os.Stat(s.path); err == nil && os.SameFile(own, info) {
		return &Fault{file, "this is the kitchen file itself", other, nil}
	}
	if info.Size() == 0 {
		return &Fault{file, "this file is empty, so not a backup", other, nil}
	}
	if cut, err := truncated(file, info.Size()); err != nil {
		return &Fault{file, "this backup cannot be read", "check its rights", err}
	} else if cut {
		return badBackup(file, errors.New("its end is missing"))
	}
	return nil
}

// isKitchen refuses what is no kitchen file or of a later version.
func isKitchen(ctx context.Context, db *sql.DB, file string) error {
	var mark, v int
	err := db.QueryRowContext(ctx, "SELECT application_id, user_version FROM pragma_application_id, pragma_user_version").Scan(&mark, &v)
	switch {
	case code(err) == sqliteNotADB, err == nil && mark != kitchenMark:
		return &Fault{file, "this is not a kitchen file", "name another backup", err}
	case err != nil:
		return badBackup(file, err)
	case v > Version():
		return tooNew(file, v)
	}
	return nil
}

// checkCopy opens the copy, which brings it to this version, and checks it.
// Trouble is told of the backup, which is the file a person knows.
func checkCopy(ctx context.Context, copied, file string) error {
	s, err := Open(ctx, copied, Options{})
	if err != nil {
		return badBackup(file, err)
	}
	rep, err := s.Check(ctx)
	if err = errors.Join(err, s.Close()); err != nil {
		return badBackup(file, err)
	}
	if len(rep.Wrong) > 0 {
		return badBackup(file, errors.New(rep.Wrong[0]))
	}
	return nil
}

func remove(file string) {
	for _, tail := range []string{"", "-wal", "-shm", "-journal"} {
		os.Remove(file + tail)
	}
}
