package store

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"
	"slices"
)

// The migrations, in order of their names; file n brings version n-1 to n.
// A migration that has been released is never edited.
//
//go:embed migrations/*.sql
var migrations embed.FS

// Version is the version of the file format that this program writes.
func Version() int { return len(steps()) }

func steps() []string {
	names, err := fs.Glob(migrations, "migrations/*.sql")
	if err != nil {
		panic(err) // only a malformed pattern can fail
	}
	slices.Sort(names)
	return names
}

// kitchenMark stands in a kitchen file's application id; see migration 1.
const kitchenMark = 0x53434c4e

// migrate brings the file to version to, each step in a transaction of its own
// that takes the write lock first, so that two programs starting at once do
// not both run it.
func migrate(ctx context.Context, c *sql.Conn, path string, to int) error {
	for {
		v, err := versionOf(ctx, c, path)
		if err != nil || v >= to {
			return err
		}
		if err := step(ctx, c, v); err != nil {
			return fault(path, err)
		}
	}
}

// versionOf is the file's version; an error where this program must not write
// to it: it is of a later version, or another program's.
func versionOf(ctx context.Context, c *sql.Conn, path string) (int, error) {
	v, err := version(ctx, c)
	if err == nil {
		err = ours(ctx, c, path, v)
	}
	if err != nil {
		return 0, fault(path, err)
	}
	if v > Version() {
		return 0, tooNew(path, v)
	}
	return v, nil
}

func tooNew(path string, v int) error {
	return &Fault{Path: path, What: fmt.Sprintf("the kitchen file is of version %d, newer than this program knows (%d)", v, Version()),
		Do: "use the newer scullion, or name another file with --db"}
}

func ours(ctx context.Context, c *sql.Conn, path string, version int) error {
	var mark, tables int
	err := c.QueryRowContext(ctx, "SELECT application_id, (SELECT count(*) FROM sqlite_master) FROM pragma_application_id").Scan(&mark, &tables)
	fresh := version == 0 && mark == 0 && tables == 0
	if err == nil && !fresh && mark != kitchenMark {
		return &Fault{Path: path, What: "this is another program's file, not a kitchen file", Do: "name another with --db"}
	}
	return err
}

func step(ctx context.Context, c *sql.Conn, from int) (err error) {
	if _, err := c.ExecContext(ctx, "BEGIN IMMEDIATE"); err != nil {
		return err
	}
	defer func() {
		if err != nil {
			c.ExecContext(context.Background(), "ROLLBACK")
		}
	}()
	if v, err := version(ctx, c); err != nil {
		return err
	} else if v == from {
		name := steps()[from]
		text, err := migrations.ReadFile(name)
		if err != nil {
			return err
		}
		if _, err := c.ExecContext(ctx, string(text)); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		if _, err := c.ExecContext(ctx, fmt.Sprintf("PRAGMA user_version = %d", from+1)); err != nil {
			return err
		}
	}
	_, err = c.ExecContext(ctx, "COMMIT")
	return err
}

func version(ctx context.Context, c *sql.Conn) (v int, err error) {
	err = c.QueryRowContext(ctx, "PRAGMA user_version").Scan(&v)
	return v, err
}
