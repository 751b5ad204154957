package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
)

// Backup writes a copy of the kitchen file as it stands at one moment, while
// others read and write it. The copy gets its name only once it is whole, on
// the disk and verified; a file that is there already is never touched.
func (s *Store) Backup(ctx context.Context, file string) error {
	file, err := filepath.Abs(file)
	if err != nil {
		return err
	}
	if _, err := os.Lstat(file); err == nil {
		return taken(file)
	}
	temp, err := s.copyTo(ctx, s.db, file)
	if err != nil {
		return err
	}
	defer os.Remove(temp)
	return place(temp, file)
}

func taken(file string) error {
	return &Fault{file, "there is a file of this name already", "name a new file; a backup never replaces one", nil}
}

// copyTo copies db to a new file beside file and verifies it. What it leaves
// is for the caller to rename or remove.
func (s *Store) copyTo(ctx context.Context, db *sql.DB, file string) (temp string, err error) {
	f, err := os.CreateTemp(filepath.Dir(file), "."+filepath.Base(file)+".*.part")
	if err != nil {
		return "", &Fault{file, "a copy cannot be made there", "check that its folder is there and can be written, or name another", err}
	}
	defer func() {
		f.Close()
		if err != nil {
			os.Remove(f.Name())
			os.Remove(f.Name() + "-journal")
		}
	}()
	if _, err := db.ExecContext(ctx, "VACUUM INTO ?", f.Name()); err != nil {
		return "", s.copyFault(file, err)
	}
	if err := f.Sync(); err != nil {
		return "", s.copyFault(file, err)
	}
	if err := sound(ctx, f.Name(), "quick_check(1)"); err != nil {
		return "", &Fault{file, "the copy did not come out whole", "check the disk, or name a file on another", err}
	}
	return f.Name(), nil
}

func (s *Store) copyFault(file string, err error) error {
	switch code(err) {
	case sqliteFull:
		return &Fault{file, "there is no room for the copy", "free some space, or name a file on another disk", err}
	case sqliteCantOpen, sqliteReadOnly:
		return &Fault{file, "a copy cannot be made there", "check that its folder is there and can be written, or name another", err}
	}
	return fault(s.path, err)
}

// sound opens the file read-only and runs one of SQLite's own checks on it.
func sound(ctx context.Context, file, check string) error {
	db, err := openRead(file)
	if err != nil {
		return err
	}
	defer db.Close()
	return soundDB(ctx, db, check)
}

func soundDB(ctx context.Context, db *sql.DB, check string) error {
	var said string
	if err := db.QueryRowContext(ctx, "PRAGMA "+check).Scan(&said); err != nil {
		return err
	}
	if said != "ok" {
		return errors.New(said)
	}
	return nil
}

func openRead(file string) (*sql.DB, error) {
	return sql.Open(driver, dsn(file, "5000")+"&mode=ro")
}

// place gives temp its name, unless something has taken the name meanwhile.
// Where the disk knows no links, a look before the rename must do.
func place(temp, file string) error {
	err := os.Link(temp, file)
	if err != nil {
		if _, there := os.Lstat(file); there == nil {
			return taken(file)
		}
		err = os.Rename(temp, file)
	}
	if err != nil {
		return &Fault{file, "the copy cannot be given its name", "check that its folder can be written, or name another", err}
	}
	return syncFolder(filepath.Dir(file))
}

// syncFolder makes a new name in the folder last through a power cut.
func syncFolder(dir string) error {
	if runtime.GOOS == "windows" {
		return nil // a folder cannot be opened there
	}
	d, err := os.Open(dir)
	if err != nil {
		return fmt.Errorf("%s: %w", dir, err)
	}
	return errors.Join(d.Sync(), d.Close())
}
